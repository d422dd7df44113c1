package org.vaneward.sample;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;

/**
 * What is true of a sampled fleet, for checks that must find it again.
 *
 * @param scenario name of the scenario
 * @param seed random seed it was drawn with
 * @param lifetimes true life of each component in each service some pump was in
 * @param causes what was made to fail early
 * @param flaws every record-keeping flaw that was planted
 */
public record Truth(
    String scenario,
    long seed,
    List<Lifetime> lifetimes,
    List<PlantedCause> causes,
    List<PlantedFlaw> flaws) {
  public Truth {
    lifetimes = List.copyOf(lifetimes);
    causes = List.copyOf(causes);
    flaws = List.copyOf(flaws);
  }

  /**
   * True life: Weibull, S(t) = exp(-(t / scale)^shape).
   *
   * @param component which part
   * @param product product of the service
   * @param duty duty of the service
   * @param shape true shape
   * @param scale true scale, running hours
   */
  public record Lifetime(
      String component, String product, String duty, double shape, double scale) {}

  /** What a planted cause acts through. */
  public enum CauseKind {
    /** A crew whose fresh parts leak on the start-up test. */
    CREW,
    /** A lot that does not last. */
    LOT,
    /** A pump that gets worse with each full rebuild. */
    PUMP
  }

  /**
   * Something made to fail early.
   *
   * @param kind what it acts through
   * @param name crew, lot or pump
   * @param component component concerned; empty when all are
   * @param lifeFactor factor on the scale of life (of each full rebuild, for a pump)
   * @param startUpFailureProbability chance that a fresh part leaks on the start-up test
   */
  public record PlantedCause(
      CauseKind kind,
      String name,
      Optional<String> component,
      OptionalDouble lifeFactor,
      OptionalDouble startUpFailureProbability) {}

  /** Kinds of record-keeping flaws. */
  public enum FlawKind {
    MISSING_HOURS,
    METER_REPLACED,
    DUPLICATE_SHEET,
    ODD_SPELLING,
    UNKNOWN_PUMP,
    UNKNOWN_POSITION,
    UNKNOWN_WORD,
    FALLING_READING,
    BEFORE_COMMISSIONING,
    MISSING_FINDING,
    PRIMARY_ON_PLANNED,
    UNREADABLE_DATE,
    IMPOSSIBLE_CLEARANCE
  }

  /** What the record format asks of a reader that meets the flaw. */
  public enum Expected {
    USED,
    REPAIRED,
    SET_ASIDE
  }

  /**
   * A flaw in one row.
   *
   * @param kind what is wrong
   * @param file file name in the fleet folder
   * @param line its line there, the header being line 1; empty when the row was left out
   * @param column column concerned; empty when the whole row is
   * @param key the row's rebuild and position, or pump and date
   * @param written what the cell says now
   * @param expected what is to become of the row
   */
  public record PlantedFlaw(
      FlawKind kind,
      String file,
      OptionalLong line,
      String column,
      String key,
      String written,
      Expected expected) {}
}
