package org.vaneward.life;

import java.time.LocalDate;
import java.util.Optional;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.Opening;
import org.vaneward.life.RunningHours.Hours;

/**
 * How a part came into its position.
 *
 * @param at when
 * @param opening the opening at which it was fitted; empty for a part that came with the pump
 * @param finding the finding that says so; empty when a kit implies it
 * @param reconditioned whether the part is a reconditioned one
 * @param earlierRebuilds openings of the pump up to and including this one
 */
record Fitting(
    Moment at,
    Optional<Opening> opening,
    Optional<Finding> finding,
    boolean reconditioned,
    int earlierRebuilds) {

  static Fitting original(LocalDate commissioned, Hours hours) {
    return new Fitting(
        Moment.of(commissioned, hours), Optional.empty(), Optional.empty(), false, 0);
  }

  boolean kitImplied() {
    return opening.isPresent() && finding.isEmpty();
  }
}
