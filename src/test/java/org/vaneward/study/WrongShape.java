package org.vaneward.study;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.vaneward.policy.CostModel;
import org.vaneward.policy.CostRate;
import org.vaneward.policy.IntervalSearch;
import org.vaneward.policy.PositionRisk;
import org.vaneward.stats.distribution.Weibull;

/**
 * What it costs to believe a wrong shape of the seal's life when its median life is known: the true
 * long-run cost at the interval that the believed shape advises, over the least there is. The pump
 * is one of the scenarios': two seals, two bearings, a vane set, their costs. Run as a program, it
 * prints the table.
 */
public final class WrongShape {
  private static final double[] SHAPES = {0.8, 1.0, 1.2, 1.5, 1.8, 2.1, 2.5, 3.0, 4.0};

  /** Median of a seal of shape 2.1 and scale 8,500 h. */
  private static final double MEDIAN = new Weibull(2.1, 8500).quantile(0.5);

  private static final double PLANNED = 1919;
  private static final double SEAL_STOP = 6179;
  private static final double BEARING_STOP = 4859;
  private static final double HIDDEN_PER_HOUR = 0.2;

  private WrongShape() {}

  private static CostModel pump(double shape) {
    Weibull seal = new Weibull(shape, MEDIAN / Math.pow(Math.log(2), 1 / shape));
    Weibull bearing = new Weibull(2.1, 16000);
    return new CostModel(
        PLANNED,
        List.of(
            PositionRisk.announcing("seal-inboard", "seal", seal, SEAL_STOP),
            PositionRisk.announcing("seal-outboard", "seal", seal, SEAL_STOP),
            PositionRisk.announcing("bearing-inboard", "bearing", bearing, BEARING_STOP),
            PositionRisk.announcing("bearing-outboard", "bearing", bearing, BEARING_STOP),
            PositionRisk.hidden("vane-set", "vanes", new Weibull(3, 10500), HIDDEN_PER_HOUR)));
  }

  /** Regret of believing one shape when another is true. */
  static double regret(double believed, double actual) {
    CostRate cost = CostRate.of(pump(actual));
    OptionalDouble hours = IntervalSearch.best(pump(believed)).intervalHours();
    double paid =
        hours.isPresent() ? cost.costPerHour(hours.getAsDouble()) : cost.runToFailureCostPerHour();
    return paid / IntervalSearch.best(cost).costPerHour() - 1;
  }

  static String table() {
    StringBuilder text = new StringBuilder("true shape   extra cost when it is believed to be\n");
    text.append("          ");
    for (double believed : SHAPES) {
      text.append(String.format(Locale.ROOT, "%7.1f", believed));
    }
    text.append('\n');
    for (double actual : SHAPES) {
      text.append(String.format(Locale.ROOT, "%10.1f", actual));
      for (double believed : SHAPES) {
        text.append(String.format(Locale.ROOT, "%6.1f%%", 100 * regret(believed, actual)));
      }
      text.append('\n');
    }
    return text.toString();
  }

  /** Prints the table. */
  public static void main(String[] args) {
    System.out.print(table());
  }
}
