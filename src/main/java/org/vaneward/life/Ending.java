package org.vaneward.life;

import java.util.Optional;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.Opening;

/**
 * The opening that ends a life.
 *
 * @param at when
 * @param opening the opening
 * @param finding what was found; empty when a kit implies that the part was renewed, not seen
 * @param verdict what that says of the part
 */
record Ending(Moment at, Opening opening, Optional<Finding> finding, Verdict verdict) {
  /** What an opening says of a part. */
  enum Verdict {
    /** Not failed, as far as known. */
    WORKING,
    /** Failed some time since it was last seen not failed. */
    FOUND_FAILED,
    /** Failed now: it is why the pump was stopped. */
    FAILED_NOW
  }
}
