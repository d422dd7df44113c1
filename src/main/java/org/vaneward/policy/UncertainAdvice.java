package org.vaneward.policy;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;

/**
 * The planned interval that costs least in expectation over what is believed of the lives, before
 * any limit, and how sure that is.
 *
 * <p>Costs are per running hour in the long run, full rebuild at the interval or at the first
 * failure. Limits are equal-tailed over the draws.
 *
 * @param intervalHours the interval; empty when running to failure is cheapest in expectation
 * @param cost cost per hour at the interval, of running to failure when there is none: expected,
 *     with limits
 * @param runToFailure the same of running to failure
 * @param saving what the interval saves per hour against running to failure: expected, with limits;
 *     below 0 where it costs more. 0 when there is no interval
 * @param window intervals whose expected cost is within 2% of the least, the unbroken stretch round
 *     the best; empty when there is no interval
 * @param plannedShare expected share of rebuilds that are planned; 0 when there is no interval
 * @param chancePays chance that rebuilding at the interval costs less than running to failure; 0
 *     when there is no interval
 * @param chanceAnyPays chance that some interval saves more than {@link ExpectedCost#MATERIAL} of
 *     the cost of running to failure
 * @param perfectInformation what knowing the lives would be worth per hour: the expected cost at
 *     the interval less the expected cost at the interval each draw would choose
 * @param ownBest where the interval each draw would choose lies: median and limits; infinite where
 *     running to failure is
 * @param ageing each announcing component with the chance that it fails more as it ages
 * @param noInterval why there is no interval; empty when there is one
 */
public record UncertainAdvice(
    OptionalDouble intervalHours,
    Estimate cost,
    Estimate runToFailure,
    Estimate saving,
    Optional<Window> window,
    double plannedShare,
    double chancePays,
    double chanceAnyPays,
    double perfectInformation,
    Estimate ownBest,
    List<Ageing> ageing,
    Optional<NoInterval> noInterval) {
  public UncertainAdvice {
    ageing = List.copyOf(ageing);
  }

  /**
   * Whether a component fails more as it ages.
   *
   * @param component its name
   * @param chance chance that its failure rate rises with age
   */
  public record Ageing(String component, double chance) {
    /** Chance below which planned rebuilds are taken not to prevent its failures. */
    public static final double EVEN = 0.5;

    /** Chance from which on that is taken as settled. */
    public static final double SETTLED = 0.9;

    /** Whether it rather does than does not. */
    public boolean likely() {
      return chance >= EVEN;
    }
  }

  /** Expected cost per hour, at the interval or of running to failure. */
  public double costPerHour() {
    return cost.estimate();
  }

  /** Components whose failures planned rebuilds probably do not prevent. */
  public List<String> notPrevented() {
    return ageing.stream().filter(a -> !a.likely()).map(Ageing::component).toList();
  }

  /** Components of which it is not settled that they fail more as they age, but likely. */
  public List<Ageing> unsettled() {
    return ageing.stream().filter(a -> a.likely() && a.chance() < Ageing.SETTLED).toList();
  }
}
