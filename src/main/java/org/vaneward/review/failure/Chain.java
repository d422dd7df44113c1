package org.vaneward.review.failure;

import java.util.List;

/**
 * Parts of one position that failed early one after the other.
 *
 * @param pump asset tag
 * @param component component of the position
 * @param position the position
 * @param lives lives on record there
 * @param failures the early failures in succession, two at least
 * @param p chance of such a run or a longer one among as many parts by the fleet's model
 */
public record Chain(
    String pump,
    String component,
    String position,
    int lives,
    List<FailureRecord> failures,
    double p) {
  public Chain {
    failures = List.copyOf(failures);
  }
}
