package org.vaneward.life;

import java.util.AbstractMap;
import java.util.Collections;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
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

  /**
   * Hands each column and its text to {@code take}; a column may come twice, and the later text is
   * then the one that counts. As {@link Map#forEach}, without putting a map together.
   */
  static void each(Map<String, String> covariates, BiConsumer<String, String> take) {
    if (covariates instanceof Covariates own) {
      own.each(take);
    } else {
      covariates.forEach(take);
    }
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
    each(values::put);
    return values;
  }

  private void each(BiConsumer<String, String> take) {
    pump.covariates().forEach(take);
    pump.model().ifPresent(model -> take.accept("model", model));
    addFitting(take);
    ending.ifPresent(end -> addEnding(take, end));
  }

  private void addFitting(BiConsumer<String, String> take) {
    fitting.opening().ifPresent(opening -> addFittingOpening(take, opening));
    fitting.finding().ifPresent(finding -> addFittingFinding(take, finding));
    take.accept("earlier_rebuilds", Integer.toString(fitting.earlierRebuilds()));
  }

  private static void addFittingOpening(BiConsumer<String, String> take, Opening opening) {
    opening.covariates().forEach(take);
    take.accept("fitted_at", opening.rebuild());
    opening.crew().ifPresent(crew -> take.accept("crew", crew));
    opening.kit().ifPresent(kit -> take.accept("kit", kit));
    opening.endClearanceMm().ifPresent(mm -> take.accept("end_clearance_mm", CsvWriter.plain(mm)));
  }

  private static void addFittingFinding(BiConsumer<String, String> take, Finding finding) {
    finding.covariates().forEach(take);
    finding.lot().ifPresent(lot -> take.accept("lot", lot));
  }

  private static void addEnding(BiConsumer<String, String> take, Ending ending) {
    ending.opening().covariates().forEach((column, value) -> take.accept("end_" + column, value));
    take.accept("ended_at", ending.opening().rebuild());
    take.accept("trigger", ending.opening().trigger().word());
    ending.finding().ifPresent(finding -> addEndFinding(take, finding));
  }

  private static void addEndFinding(BiConsumer<String, String> take, Finding finding) {
    finding.covariates().forEach((column, value) -> take.accept("end_" + column, value));
    finding.mode().ifPresent(mode -> take.accept("mode", mode));
    finding.cause().ifPresent(cause -> take.accept("cause", cause));
    finding.measuredMm().ifPresent(mm -> take.accept("measured_mm", CsvWriter.plain(mm)));
  }
}
