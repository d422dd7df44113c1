package org.vaneward.ingest;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.RowRef;

/** A row of {@code rebuilds.csv} while its findings and its hours are gathered. */
final class OpeningDraft {
  private final Opening opening;
  private final List<Finding> findings = new ArrayList<>(5);
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

  /** The findings so far, one for each position. */
  List<Finding> findings() {
    return findings;
  }

  /** Takes a finding, unless there is one at its position: that is handed back. */
  Optional<Finding> add(Finding finding) {
    for (Finding before : findings) {
      if (before.position().equals(finding.position())) {
        return Optional.of(before);
      }
    }
    findings.add(finding);
    return Optional.empty();
  }

  /** The same for two records of one opening: pump, day and what was seen and done. */
  Object identity() {
    Map<String, Look> looks = new HashMap<>();
    findings.forEach(f -> looks.put(f.position(), new Look(f.asFound(), f.action(), f.primary())));
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
        findings,
        opening.row());
  }
}
