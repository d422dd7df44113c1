package org.vaneward.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.model.CauseFits;
import org.vaneward.model.CauseFits.Group;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.competing.CauseSpecificFits.Cause;
import org.vaneward.stats.competing.CompetingModes;
import org.vaneward.stats.competing.CumulativeIncidence;
import org.vaneward.stats.competing.CumulativeIncidence.Incidence;
import org.vaneward.stats.competing.FittedIncidence;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;

/** Fits by cause of failure, for people and for programs. */
public final class CauseFitView implements View {
  private static final int SHOWN = 12;

  private final CauseFits fits;
  private final String column;
  private final List<Double> ages;
  private final FitSettings settings;

  /**
   * A view of fits by cause.
   *
   * @param column that names the causes
   * @param ages at which incidence is shown; none shows it at every failure
   */
  public CauseFitView(CauseFits fits, String column, List<Double> ages, FitSettings settings) {
    this.fits = fits;
    this.column = column;
    this.ages = List.copyOf(ages);
    this.settings = settings;
  }

  /** What is known at one age of one cause. */
  private record Row(
      Group group, String cause, double age, Incidence seen, OptionalDouble fitted) {}

  @Override
  public String text() {
    StringBuilder text =
        new StringBuilder(
            Words.wrapped(
                "Weibull by "
                    + column
                    + ", the other causes taken as removals; "
                    + settings.limits().name().toLowerCase(Locale.ROOT)
                    + " limits at "
                    + Words.percent(settings.confidence()),
                0));
    fits.groups().forEach(group -> text.append('\n').append(text(group)));
    return text.toString();
  }

  private String text(Group group) {
    if (group.fits().causes().isEmpty()) {
      return heading(group) + "  No failures.\n";
    }
    TextTable table = new TextTable("cause", "failures", "shape", "scale");
    StringBuilder reasons = new StringBuilder();
    for (Cause cause : group.fits().causes()) {
      if (cause.fit() instanceof WeibullFit.Fitted f) {
        table.row(
            cause.name(),
            Words.whole(f.failures()),
            Words.number(f.shape()),
            GroupWords.limits(f.scale()));
      } else {
        WeibullFit.NotEstimable none = (WeibullFit.NotEstimable) cause.fit();
        table.row(cause.name(), Words.whole(none.failures()), Words.NONE, Words.NONE);
        reasons.append(
            Words.wrapped("  " + cause.name() + " not estimable: " + none.reason() + ".", 4));
      }
    }
    return heading(group) + table + reasons + modes(group.modes()) + "\n" + incidence(group);
  }

  private static String heading(Group group) {
    return GroupWords.label(group.group()) + ": " + Words.whole(group.lives()) + " lives\n";
  }

  private static String modes(CompetingModes modes) {
    if (modes instanceof CompetingModes.Compared c) {
      return Words.wrapped(
          "One Weibull for all causes against one for each: AIC "
              + Words.number(2 * c.one().parameters() - 2 * c.one().logLikelihood())
              + " and "
              + Words.number(2 * c.byCause().parameters() - 2 * c.byCause().logLikelihood())
              + ", p "
              + Words.p(c.p())
              + ".",
          0);
    }
    return "";
  }

  private String incidence(Group group) {
    List<Row> rows = rows(group);
    if (rows.isEmpty()) {
      return "No failures, no incidence.\n";
    }
    TextTable table = new TextTable("age", "cause", "failed of it by then", "fitted");
    int causes = Math.max(1, group.causes().causes());
    int step = Math.max(1, (int) Math.ceil(rows.size() / (double) causes / SHOWN));
    for (int i = 0; i < rows.size(); i++) {
      int at = i / causes;
      if (!ages.isEmpty() || at % step == step - 1 || i >= rows.size() - causes) {
        Row row = rows.get(i);
        Estimate share = row.seen().share();
        table.row(
            Words.significant(row.age()),
            row.cause(),
            Words.percent(share.estimate())
                + " ("
                + Words.percent(share.lower())
                + " to "
                + Words.percent(share.upper())
                + ")",
            row.fitted().isPresent() ? Words.percent(row.fitted().getAsDouble()) : Words.NONE);
      }
    }
    return table + leftOut(group.incidence().get());
  }

  /** The curve without a model is silent on them; it must not be taken for the whole. */
  private static String leftOut(CumulativeIncidence curve) {
    return curve.leftOut() > 0
        ? Words.wrapped(
            Words.count(Math.round(curve.leftOut()), "failure", "failures")
                + " known to an interval cannot enter the shares failed by then, which are too low"
                + " without them; the fitted ones count them.",
            0)
        : "";
  }

  private List<Row> rows(Group group) {
    List<Row> rows = new ArrayList<>();
    if (group.incidence().isEmpty()) {
      return rows;
    }
    CumulativeIncidence curve = group.incidence().get();
    Optional<FittedIncidence> fitted = group.fits().incidence();
    Map<Integer, Integer> place = new LinkedHashMap<>();
    List<Integer> causes = group.fits().fitted();
    causes.forEach(k -> place.put(k, place.size()));
    List<Double> at = new ArrayList<>(ages);
    for (int j = 0; at.size() == j && ages.isEmpty() && j < curve.size(); j++) {
      at.add(curve.age(j));
    }
    for (double age : at) {
      for (int k = 0; k < group.causes().causes(); k++) {
        Optional<Incidence> seen = curve.incidenceAt(age, k);
        OptionalDouble law =
            fitted.isPresent() && place.containsKey(k)
                ? OptionalDouble.of(fitted.get().incidence(place.get(k), age))
                : OptionalDouble.empty();
        String name = group.causes().names().get(k);
        seen.ifPresent(s -> rows.add(new Row(group, name, age, s, law)));
      }
    }
    return rows;
  }

  @Override
  public String json() {
    List<JsonFields> entries = new ArrayList<>();
    List<JsonFields> incidence = new ArrayList<>();
    List<JsonFields> modes = new ArrayList<>();
    for (Group group : fits.groups()) {
      group.fits().causes().forEach(cause -> entries.add(entry(group, cause)));
      rows(group).forEach(row -> incidence.add(fields(row)));
      if (group.modes() instanceof CompetingModes.Compared c) {
        modes.add(
            grouped(group)
                .with("statistic", c.statistic())
                .with("df", c.degreesOfFreedom())
                .with("p", c.p()));
      }
    }
    return Json.write(
        new JsonFields()
            .with("fits", entries)
            .with("incidence", incidence)
            .with("intervals_left_out_of_incidence", leftOut())
            .with("one_weibull_inside_causes", modes));
  }

  private double leftOut() {
    return fits.groups().stream()
        .mapToDouble(g -> g.incidence().map(CumulativeIncidence::leftOut).orElse(0.0))
        .sum();
  }

  private static JsonFields grouped(Group group) {
    JsonFields fields = new JsonFields();
    return group.group().isEmpty() ? fields : fields.with("group", group.group());
  }

  private static JsonFields fields(Row row) {
    return grouped(row.group())
        .with("cause", row.cause())
        .with("age", row.age())
        .with("incidence", row.seen().share().estimate())
        .with("std_error", row.seen().stdError())
        .with("lower", row.seen().share().lower())
        .with("upper", row.seen().share().upper())
        .with("fitted", row.fitted());
  }

  private JsonFields entry(Group group, Cause cause) {
    Map<String, String> names = new LinkedHashMap<>(group.group());
    names.put("cause", cause.name());
    JsonFields entry = new JsonFields().with("group", names).with("distribution", "weibull");
    if (cause.fit() instanceof WeibullFit.Fitted f) {
      entry
          .with("status", "fitted")
          .with("lives", group.lives())
          .with("failures", f.failures())
          .with("shape", f.shape())
          .with("scale", f.scale())
          .with("log_likelihood", f.logLikelihood())
          .with("aic", f.aic())
          .with("aicc", f.aicc())
          .with("bic", f.bic())
          .with(
              "covariance",
              new double[][] {
                {f.covariance().scaleScale(), f.covariance().scaleShape()},
                {f.covariance().scaleShape(), f.covariance().shapeShape()}
              })
          .with("quantiles", CurveFields.quantiles(f.quantiles()));
    } else {
      WeibullFit.NotEstimable none = (WeibullFit.NotEstimable) cause.fit();
      entry
          .with("status", "not-estimable")
          .with("reason", none.reason())
          .with("lives", group.lives())
          .with("failures", none.failures());
    }
    return entry
        .with("limits", settings.limits().name().toLowerCase(Locale.ROOT))
        .with("confidence", settings.confidence());
  }

  /** Incidence, one row for each age and cause. */
  @Override
  public String csv() {
    List<String> header =
        new ArrayList<>(
            fits.groups().isEmpty() ? List.of() : fits.groups().get(0).group().keySet());
    header.addAll(List.of("cause", "age", "incidence", "std_error", "lower", "upper", "fitted"));
    CsvWriter table = CsvWriter.forSpreadsheets(header.toArray(String[]::new));
    for (Group group : fits.groups()) {
      for (Row row : rows(group)) {
        group.group().values().forEach(table::cell);
        Estimate share = row.seen().share();
        table.cell(row.cause()).cell(row.age()).cell(share.estimate());
        table.cell(row.seen().stdError()).cell(share.lower()).cell(share.upper());
        table.cell(row.fitted()).endRow();
      }
    }
    return table.text();
  }
}
