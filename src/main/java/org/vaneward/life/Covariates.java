package org.vaneward.life;

import java.util.HashMap;
import java.util.Map;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.Pump;
import org.vaneward.io.CsvWriter;

/** What describes a life besides its ages, by column. */
final class Covariates {
  private final Map<String, String> values = new HashMap<>();

  private Covariates() {}

  static Map<String, String> of(Pump pump, Fitting fitting) {
    Covariates covariates = new Covariates();
    covariates.addPump(pump);
    covariates.addFitting(fitting);
    return covariates.values;
  }

  static Map<String, String> of(Pump pump, Fitting fitting, Ending ending) {
    Covariates covariates = new Covariates();
    covariates.addPump(pump);
    covariates.addFitting(fitting);
    covariates.addEnding(ending);
    return covariates.values;
  }

  private void addPump(Pump pump) {
    values.putAll(pump.covariates());
    pump.model().ifPresent(model -> values.put("model", model));
  }

  private void addFitting(Fitting fitting) {
    fitting.opening().ifPresent(this::addFittingOpening);
    fitting.finding().ifPresent(this::addFittingFinding);
    values.put("earlier_rebuilds", Integer.toString(fitting.earlierRebuilds()));
  }

  private void addFittingOpening(Opening opening) {
    values.putAll(opening.covariates());
    values.put("fitted_at", opening.rebuild());
    opening.crew().ifPresent(crew -> values.put("crew", crew));
    opening.kit().ifPresent(kit -> values.put("kit", kit));
    opening.endClearanceMm().ifPresent(mm -> values.put("end_clearance_mm", CsvWriter.plain(mm)));
  }

  private void addFittingFinding(Finding finding) {
    values.putAll(finding.covariates());
    finding.lot().ifPresent(lot -> values.put("lot", lot));
  }

  private void addEnding(Ending ending) {
    ending.opening().covariates().forEach((column, value) -> values.put("end_" + column, value));
    values.put("ended_at", ending.opening().rebuild());
    values.put("trigger", ending.opening().trigger().word());
    ending.finding().ifPresent(this::addEndFinding);
  }

  private void addEndFinding(Finding finding) {
    finding.covariates().forEach((column, value) -> values.put("end_" + column, value));
    finding.mode().ifPresent(mode -> values.put("mode", mode));
    finding.cause().ifPresent(cause -> values.put("cause", cause));
    finding.measuredMm().ifPresent(mm -> values.put("measured_mm", CsvWriter.plain(mm)));
  }
}
