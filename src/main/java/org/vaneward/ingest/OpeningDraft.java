package org.vaneward.ingest;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.RowRef;

/** A row of {@code rebuilds.csv} while its findings and its hours are gathered. */
final class OpeningDraft {
  private final Opening opening;
  private final Map<String, Finding> findings = new LinkedHashMap<>();
  private OptionalDouble meterHours;

  OpeningDraft(Opening opening) {
    this.opening = opening;
    this.meterHours = opening.meterHours();
  }

  /** What was seen and done at a position, as far as two records of one opening must agree. */
  private record Look(AsFound asFound, PartAction action, boolean primary) {}

  private record Identity(String pump, LocalDate date, Map<String, Look> looks) {}

  String pump() {
    return opening.pump();
  }

  LocalDate date() {
    return opening.date();
  }

  long day() {
    return opening.date().toEpochDay();
  }

  RowRef row() {
    return opening.row();
  }

  OptionalDouble meterHours() {
    return meterHours;
  }

  void setMeterHours(OptionalDouble hours) {
    meterHours = hours;
  }

  /** The findings so far, by position. */
  Map<String, Finding> findings() {
    return findings;
  }

  /** The same for two records of one opening: pump, day and what was seen and done. */
  Object identity() {
    Map<String, Look> looks = new HashMap<>();
    findings.forEach(
        (position, f) -> looks.put(position, new Look(f.asFound(), f.action(), f.primary())));
    return new Identity(pump(), date(), looks);
  }

  Opening opening() {
    return new Opening(
        opening.rebuild(),
        opening.pump(),
        opening.date(),
        meterHours,
        opening.trigger(),
        opening.crew(),
        opening.kit(),
        opening.downtimeHours(),
        opening.cost(),
        opening.endClearanceMm(),
        opening.note(),
        opening.covariates(),
        List.copyOf(findings.values()),
        opening.row());
  }
}
