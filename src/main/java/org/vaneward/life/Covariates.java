package org.vaneward.life;

import java.util.AbstractMap;
import java.util.Collections;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.Pump;
import org.vaneward.io.CsvWriter;

/**
 * What describes a life besides its ages, by column: a read-only map put together anew each time it
 * is read, since a life holds on to its records anyway and a fleet may have millions of lives.
 */
final class Covariates extends AbstractMap<String, String> {
  private final Pump pump;
  private final Fitting fitting;
  private final Optional<Ending> ending;

  private Covariates(Pump pump, Fitting fitting, Optional<Ending> ending) {
    this.pump = pump;
    this.fitting = fitting;
    this.ending = ending;
  }

  static Map<String, String> of(Pump pump, Fitting fitting) {
    return new Covariates(pump, fitting, Optional.empty());
  }

  static Map<String, String> of(Pump pump, Fitting fitting, Ending ending) {
    return new Covariates(pump, fitting, Optional.of(ending));
  }

  /** A map that cannot change: this one as it is, any other copied. */
  static Map<String, String> frozen(Map<String, String> map) {
    return map instanceof Covariates ? map : Map.copyOf(map);
  }

  @Override
  public Set<Entry<String, String>> entrySet() {
    return Collections.unmodifiableMap(written()).entrySet();
  }

  @Override
  public boolean containsKey(Object column) {
    return written().containsKey(column);
  }

  @Override
  public @Nullable String get(Object column) {
    return written().get(column);
  }

  private Map<String, String> written() {
    Map<String, String> values = new HashMap<>(32);
    values.putAll(pump.covariates());
    pump.model().ifPresent(model -> values.put("model", model));
    addFitting(values);
    ending.ifPresent(end -> addEnding(values, end));
    return values;
  }

  private void addFitting(Map<String, String> values) {
    fitting.opening().ifPresent(opening -> addFittingOpening(values, opening));
    fitting.finding().ifPresent(finding -> addFittingFinding(values, finding));
    values.put("earlier_rebuilds", Integer.toString(fitting.earlierRebuilds()));
  }

  private static void addFittingOpening(Map<String, String> values, Opening opening) {
    values.putAll(opening.covariates());
    values.put("fitted_at", opening.rebuild());
    opening.crew().ifPresent(crew -> values.put("crew", crew));
    opening.kit().ifPresent(kit -> values.put("kit", kit));
    opening.endClearanceMm().ifPresent(mm -> values.put("end_clearance_mm", CsvWriter.plain(mm)));
  }

  private static void addFittingFinding(Map<String, String> values, Finding finding) {
    values.putAll(finding.covariates());
    finding.lot().ifPresent(lot -> values.put("lot", lot));
  }

  private static void addEnding(Map<String, String> values, Ending ending) {
    ending.opening().covariates().forEach((column, value) -> values.put("end_" + column, value));
    values.put("ended_at", ending.opening().rebuild());
    values.put("trigger", ending.opening().trigger().word());
    ending.finding().ifPresent(finding -> addEndFinding(values, finding));
  }

  private static void addEndFinding(Map<String, String> values, Finding finding) {
    finding.covariates().forEach((column, value) -> values.put("end_" + column, value));
    finding.mode().ifPresent(mode -> values.put("mode", mode));
    finding.cause().ifPresent(cause -> values.put("cause", cause));
    finding.measuredMm().ifPresent(mm -> values.put("measured_mm", CsvWriter.plain(mm)));
  }
}
