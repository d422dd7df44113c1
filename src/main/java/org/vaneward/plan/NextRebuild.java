package org.vaneward.plan;

import java.time.LocalDate;
import java.util.Optional;

/**
 * When a pump should next be rebuilt.
 *
 * @param date the day it is due, in the past when it is overdue; empty when no rebuild is planned
 * @param from first day on which a rebuild costs next to nothing more than on {@code date}
 * @param to last such day that the limits allow; empty when waiting never costs that much more
 */
public record NextRebuild(
    Optional<LocalDate> date, Optional<LocalDate> from, Optional<LocalDate> to) {
  static NextRebuild none() {
    return new NextRebuild(Optional.empty(), Optional.empty(), Optional.empty());
  }
}
