package org.vaneward.policy;

import java.util.Arrays;
import org.vaneward.model.LifeDraws;

/**
 * Positions of a {@link DrawnCostModel} that share a life, an age and a price, with what their life
 * is in each draw side by side.
 */
final class DrawnGroup {
  final double age;
  final boolean announces;

  /** Cost of a stop beyond a planned rebuild, or of an hour on an unseen failure. */
  final double price;

  /** By draw. */
  final double[] shape;

  final double[] logScale;
  final double[] hazardNow;

  /** The greatest shape and the least scale in any draw. */
  final double steepest;

  final double shortest;
  private final LifeDraws life;
  int count;

  private DrawnGroup(DrawnRisk risk, double price, double age, int draws) {
    this.life = risk.life();
    this.age = age;
    this.announces = risk.announces();
    this.price = price;
    this.shape = new double[draws];
    this.logScale = new double[draws];
    this.hazardNow = new double[draws];
    double least = Double.POSITIVE_INFINITY;
    double logAge = Math.log(age);
    for (int d = 0; d < draws; d++) {
      shape[d] = life.shape(d);
      logScale[d] = life.logScale(d);
      least = Math.min(least, life.scale(d));
      hazardNow[d] = age > 0 ? hazardTo(d, logAge) : 0;
    }
    this.steepest = Arrays.stream(shape).max().orElseThrow();
    this.shortest = least;
  }

  /** The group of each position; the same object where they share one. */
  static DrawnGroup[] of(DrawnCostModel model, double[] ages) {
    DrawnGroup[] groups = new DrawnGroup[ages.length];
    for (int i = 0; i < ages.length; i++) {
      groups[i] = find(model, ages, groups, i);
      groups[i].count++;
    }
    return groups;
  }

  private static DrawnGroup find(
      DrawnCostModel model, double[] ages, DrawnGroup[] groups, int index) {
    DrawnRisk risk = model.positions().get(index);
    double price =
        risk.announces() ? risk.unplannedCost() - model.plannedCost() : risk.hiddenCostPerHour();
    for (int i = 0; i < index; i++) {
      DrawnGroup other = groups[i];
      if (other.life.equals(risk.life())
          && other.age == ages[index]
          && other.announces == risk.announces()
          && other.price == price) {
        return other;
      }
    }
    return new DrawnGroup(risk, price, ages[index], model.draws());
  }

  /** Cumulative hazard at log age. */
  double hazardTo(int draw, double logAge) {
    return Math.exp(shape[draw] * (logAge - logScale[draw]));
  }

  /**
   * Growth of the cumulative hazard within {@code hours}, with all its digits.
   *
   * @param growth {@link #growth} of the hours
   */
  double added(int draw, double growth) {
    return age > 0 ? hazardNow[draw] * Math.expm1(shape[draw] * growth) : hazardTo(draw, growth);
  }

  /** By how much the log of the age grows within {@code hours}; for a new part that log itself. */
  double growth(double hours) {
    return age > 0 ? Math.log1p(hours / age) : Math.log(hours);
  }

  /**
   * Price of running one hour more instead of rebuilding, of one of its positions.
   *
   * @param then age at that hour
   * @param logThen its logarithm
   */
  double marginalCost(int draw, double then, double logThen) {
    if (!(then > 0)) {
      return announces && price != 0 ? price * newHazard(draw) : 0;
    }
    double cumulative = hazardTo(draw, logThen);
    return announces
        ? price * shape[draw] * cumulative / then
        : price * LifeDraws.failedBy(cumulative);
  }

  private double newHazard(int draw) {
    double k = shape[draw];
    return k > 1 ? 0 : k == 1 ? Math.exp(-logScale[draw]) : Double.POSITIVE_INFINITY;
  }
}
