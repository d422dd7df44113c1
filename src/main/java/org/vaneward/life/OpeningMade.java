package org.vaneward.life;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.Service;

/**
 * An opening of a pump as its upkeep sees it: why, how far it went, how long after the last full
 * rebuild.
 *
 * @param pump asset tag
 * @param date day it was opened
 * @param service what the pump did then; empty when the records do not say
 * @param reason why it was opened
 * @param full whether it was a full rebuild: planned, or every position renewed
 * @param stoppedBy component whose failure stopped the pump; empty when none did or it is not known
 * @param sinceRebuild age since the last full rebuild in the fleet's clock, since the count starts
 *     when there was none; empty when not known
 * @param fromNew whether that is counted from a full rebuild or from new
 */
public record OpeningMade(
    String pump,
    LocalDate date,
    Optional<Service> service,
    Reason reason,
    boolean full,
    Optional<String> stoppedBy,
    OptionalDouble sinceRebuild,
    boolean fromNew) {

  /** Why a pump was opened. */
  public enum Reason {
    /** A planned rebuild. */
    PLANNED,
    /** A stop nobody planned. */
    STOP,
    /** A look inside. */
    INSPECTION
  }
}
