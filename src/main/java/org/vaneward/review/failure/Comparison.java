package org.vaneward.review.failure;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;

/**
 * The groups that a column makes of the parts of a component, side by side.
 *
 * @param component the component
 * @param column the column
 * @param outcome which failures are counted
 * @param strata what the comparison is adjusted for beside age
 * @param rows one for each group
 * @param logRank log-rank p-value that the lives of all groups follow one curve, stratified the
 *     same way, failures at a known age only; empty where it cannot be had
 * @param slope where the column holds numbers, what a unit of it does
 */
public record Comparison(
    String component,
    String column,
    Outcome outcome,
    Strata strata,
    List<Row> rows,
    OptionalDouble logRank,
    Optional<Slope> slope) {
  public Comparison {
    rows = List.copyOf(rows);
  }

  /**
   * One group.
   *
   * @param name its text in the column, or the range of a band
   * @param parts lives watched, a life in several services once; for start-up failures, parts
   *     fitted
   * @param failures failures counted
   * @param comparable of these, failures in strata in which the rest was watched too
   * @param expected failures to be expected there if the group were like the rest
   * @param ratio how many times as often as the rest, with limits; empty where there is no rest
   * @param lifeRatio how long parts last beside the rest, with limits
   * @param p two-sided p-value; empty where there is no rest
   * @param adjustedP the same adjusted over all rows asked about together
   */
  public record Row(
      String name,
      double parts,
      double failures,
      double comparable,
      double expected,
      Optional<Estimate> ratio,
      Optional<Estimate> lifeRatio,
      OptionalDouble p,
      OptionalDouble adjustedP) {
    Row withAdjustedP(double adjusted) {
      return new Row(
          name,
          parts,
          failures,
          comparable,
          expected,
          ratio,
          lifeRatio,
          p,
          OptionalDouble.of(adjusted));
    }
  }

  /**
   * What a unit of a number does.
   *
   * @param ratio by what the failure rate is multiplied for each unit, with limits
   * @param lifeRatio by what life is multiplied for each unit, with limits
   * @param p two-sided p-value
   */
  public record Slope(Estimate ratio, Optional<Estimate> lifeRatio, double p) {}
}
