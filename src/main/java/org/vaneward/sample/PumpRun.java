package org.vaneward.sample;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.Service;
import org.vaneward.fleet.Trigger;

/**
 * Everything that happened to one pump, before any record-keeping. Hours are true running hours.
 */
record PumpRun(
    PumpPlan plan,
    List<Period> services,
    List<Reading> readings,
    List<Opened> openings,
    List<SampledFleet.DrawnLife> drawnLives) {

  /** What is known of a pump before its first day. */
  record PumpPlan(
      String pump,
      Scenario.Site site,
      Scenario.PumpGroup group,
      LocalDate commissioned,
      LocalDate lastDay,
      Optional<LocalDate> retired,
      double hoursPerWeek) {}

  record Period(LocalDate from, Service service, double pressureBar) {}

  record Reading(LocalDate day, double hours) {}

  /** One opening; {@code renewsAll} when nothing older is left in the pump. */
  record Opened(
      LocalDate day,
      double hours,
      Trigger trigger,
      String crew,
      boolean startUp,
      Optional<String> kit,
      double downtimeHours,
      double cost,
      OptionalDouble endClearanceMm,
      String note,
      List<Found> findings) {
    Opened {
      findings = List.copyOf(findings);
    }

    boolean renewsAll(int positions) {
      return findings.stream().filter(f -> f.action() == PartAction.RENEWED).count() == positions;
    }
  }

  /** What was seen and done at one position. */
  record Found(
      String position,
      AsFound asFound,
      boolean primary,
      String mode,
      String cause,
      PartAction action,
      OptionalDouble measuredMm,
      String lot) {
    boolean hasFailed() {
      return asFound == AsFound.FAILED;
    }
  }

  /** Collects a run while it is simulated. */
  static final class Log {
    final List<Period> services = new ArrayList<>();
    final List<Reading> readings = new ArrayList<>();
    final List<Opened> openings = new ArrayList<>();
    final List<SampledFleet.DrawnLife> drawnLives = new ArrayList<>();
  }
}
