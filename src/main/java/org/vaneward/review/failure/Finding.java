package org.vaneward.review.failure;

import java.util.List;
import java.util.OptionalInt;

/**
 * Something behind recurring failures that chance does not account for.
 *
 * @param rank its place on the list, from 1
 * @param topic what it is about
 * @param outcome which failures it counts
 * @param component the component; empty for all
 * @param subject who or what is under suspicion
 * @param pump the pump it is about; empty when it is not about one
 * @param p one-sided p-value of this question alone
 * @param adjustedP the same adjusted over all questions of the review: the least share of false
 *     findings at which it is on the list
 * @param partOf rank of an earlier finding of which it is likely another view: the same suspect, or
 *     nothing stands out once that one's parts are left out
 * @param evidence what speaks for it
 * @param checks what to look at in the shop, the likeliest first
 */
public record Finding(
    int rank,
    Topic topic,
    Outcome outcome,
    String component,
    String subject,
    String pump,
    double p,
    double adjustedP,
    OptionalInt partOf,
    Evidence evidence,
    List<ShopCheck> checks) {
  public Finding {
    checks = List.copyOf(checks);
  }
}
