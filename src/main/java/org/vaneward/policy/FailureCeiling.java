package org.vaneward.policy;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.vaneward.io.BadInputException;
import org.vaneward.model.LifeDraws;
import org.vaneward.stats.numeric.Roots;

/**
 * The ceiling on the chance that a component fails before its planned rebuild.
 *
 * <p>The chance is that any position of the component fails, each counted from the fitting of the
 * part now in it: the mean over the draws of 1 − exp(−Σ H_i(a_i + s)), so that not knowing the life
 * well counts too. It is not conditional on having survived so far, so a part does not earn itself
 * a longer interval by growing old: the age at which the ceiling is reached is the same on every
 * day it is asked for. A component of two positions reaches it earlier than one of one.
 *
 * @param component the component
 * @param ceiling highest chance allowed, between 0 and 1
 * @param lives what is believed of the life at each of its positions
 */
public record FailureCeiling(String component, double ceiling, List<LifeDraws> lives) {

  /**
   * A ceiling.
   *
   * @throws BadInputException when the ceiling is not between 0 and 1
   * @throws IllegalArgumentException when there is no position
   */
  public FailureCeiling {
    if (!(ceiling > 0 && ceiling < 1)) {
      throw new BadInputException(
          "fleet.json: limits.max_failure_probability of "
              + component
              + " is "
              + ceiling
              + "; a share between 0 and 1 is wanted");
    }
    lives = List.copyOf(lives);
    if (lives.isEmpty()) {
      throw new IllegalArgumentException("a ceiling needs a position, and there are 0");
    }
  }

  /** The ceilings that apply to the positions of {@code model}, by component in sorted order. */
  public static List<FailureCeiling> of(DrawnCostModel model, Map<String, Double> ceilings) {
    Map<String, List<LifeDraws>> lives = new LinkedHashMap<>();
    for (DrawnRisk risk : model.positions()) {
      lives.computeIfAbsent(risk.component(), c -> new ArrayList<>()).add(risk.life());
    }
    List<FailureCeiling> found = new ArrayList<>();
    new TreeMap<>(ceilings)
        .forEach(
            (component, ceiling) ->
                Optional.ofNullable(lives.get(component))
                    .ifPresent(l -> found.add(new FailureCeiling(component, ceiling, l))));
    return List.copyOf(found);
  }

  /** Interval at which a pump of new parts reaches the ceiling, hours. */
  public double intervalHours() {
    return hoursUntil(lives.stream().map(l -> 0.0).toList());
  }

  /**
   * Further running until the ceiling is reached; negative when it was passed that long ago.
   *
   * @param ages age of the part in each position, in the order of {@link #lives}
   * @throws IllegalArgumentException when there is not one age, at least 0, for each position
   */
  public double hoursUntil(List<Double> ages) {
    if (ages.size() != lives.size()) {
      throw new IllegalArgumentException(
          ages.size() + " ages were given for " + lives.size() + " positions");
    }
    double oldest = 0;
    for (double age : ages) {
      if (!(age >= 0 && age < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("an age is finite and at least 0, not " + age);
      }
      oldest = Math.max(oldest, age);
    }
    double high = lives.stream().mapToDouble(l -> l.scale(0)).min().orElseThrow();
    while (chance(ages, high) < ceiling) {
      high *= 2;
    }
    OptionalDouble root = Roots.between(s -> chance(ages, s) - ceiling, -oldest, high);
    return root.orElse(-oldest);
  }

  /** Ages before a fitting count as 0: a part that was not there cannot have failed. */
  private double chance(List<Double> ages, double hours) {
    int draws = lives.stream().mapToInt(LifeDraws::size).max().orElseThrow();
    double[] hazard = new double[draws];
    for (int i = 0; i < lives.size(); i++) {
      if (firstLike(ages, i) == i) {
        lives.get(i).addCumulativeHazard(ages.get(i) + hours, countLike(ages, i), hazard);
      }
    }
    return LifeDraws.meanFailed(hazard);
  }

  /** The first position with the life and the age of position {@code i}. */
  private int firstLike(List<Double> ages, int i) {
    int first = 0;
    while (!isLike(ages, first, i)) {
      first++;
    }
    return first;
  }

  private double countLike(List<Double> ages, int i) {
    return (double) IntStream.range(0, lives.size()).filter(k -> isLike(ages, k, i)).count();
  }

  private boolean isLike(List<Double> ages, int a, int b) {
    return lives.get(a).equals(lives.get(b)) && ages.get(a).equals(ages.get(b));
  }
}
