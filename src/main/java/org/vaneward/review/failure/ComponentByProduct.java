package org.vaneward.review.failure;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.recurrence.MeanCumulativeFunction;

/**
 * The failures of a component by product.
 *
 * @param component the component
 * @param products the product with the highest rate first
 * @param adjustedFor columns beside product that the life ratios are adjusted for; none where there
 *     are no life ratios
 */
public record ComponentByProduct(
    String component, List<OnProduct> products, List<String> adjustedFor) {
  public ComponentByProduct {
    products = List.copyOf(products);
    adjustedFor = List.copyOf(adjustedFor);
  }

  /**
   * One product.
   *
   * @param product its name; empty where it is not on record
   * @param lives lives watched on it
   * @param failures failures at any age
   * @param running sum of the ages run through on it, in the fleet's clock
   * @param rate failures per unit of it, with limits, unadjusted; empty without running
   * @param rateRatio how many times as often parts fail as on other products at the same age and
   *     duty, with limits; empty where there is nothing to compare
   * @param p its two-sided p-value
   * @param lifeRatio how long parts last beside the mean of the other products, from a regression
   *     on product and what {@code adjustedFor} names, with limits; empty where it is not estimable
   * @param cumulative mean number of failures of a pump by its running on the product; empty where
   *     no pump was watched
   * @param beside the same beside the other products
   * @param modes failure modes with their numbers, most frequent first
   * @param causes causes as written with their numbers, most frequent first
   */
  public record OnProduct(
      String product,
      double lives,
      double failures,
      double running,
      Optional<Estimate> rate,
      Optional<Estimate> rateRatio,
      OptionalDouble p,
      Optional<Estimate> lifeRatio,
      Optional<MeanCumulativeFunction> cumulative,
      Optional<Beside> beside,
      List<Tally> modes,
      List<Tally> causes) {
    public OnProduct {
      modes = List.copyOf(modes);
      causes = List.copyOf(causes);
    }
  }

  /**
   * Mean numbers of failures of a pump by some running, on a product and on the others.
   *
   * @param age the running by which it is
   * @param here mean number on the product, with limits
   * @param elsewhere mean number on the other products, with limits
   * @param difference the one less the other, with limits; infinite ones where there is no p
   * @param p two-sided, that there is no difference; empty where the pumps of one side do not
   *     differ at all
   */
  public record Beside(
      double age, Estimate here, Estimate elsewhere, Estimate difference, OptionalDouble p) {}

  /**
   * How often something was written.
   *
   * @param word what was written; empty where nothing was
   * @param number how often
   */
  public record Tally(String word, int number) {}
}
