package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.model.GroupFit;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.NotEstimable;
import org.vaneward.stats.fit.WeibullFit.Quantile;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.nonparametric.ProductLimit;

/** Fits, for people and for programs. */
public final class FitView implements View {
  private static final double TENTH = 0.10;

  private final List<GroupFit> fits;
  private final FitSettings settings;

  /** A view of fits made with {@code settings}. */
  public FitView(List<GroupFit> fits, FitSettings settings) {
    this.fits = List.copyOf(fits);
    this.settings = settings;
  }

  /** One line for each group. */
  @Override
  public String text() {
    TextTable table =
        new TextTable("group", "lives", "failures", "shape", "scale", "10% failed by");
    for (GroupFit fit : fits) {
      table.row(
          label(fit.group()),
          Words.whole(fit.lives()),
          Words.whole(fit.fit().failures()),
          fitted(fit).map(f -> shape(f.shape())).orElse(Words.NONE),
          fitted(fit).map(f -> ages(f.scale())).orElse(Words.NONE),
          fitted(fit).flatMap(FitView::tenth).map(FitView::ages).orElse(Words.NONE));
    }
    return "Weibull, "
        + settings.limits().name().toLowerCase(Locale.ROOT)
        + " limits at "
        + Words.percent(settings.confidence())
        + "; scale: the age by which 63.2% have failed, in the unit of the ages\n\n"
        + table
        + notEstimable();
  }

  private String notEstimable() {
    StringBuilder text = new StringBuilder();
    for (GroupFit fit : fits) {
      reason(fit)
          .ifPresent(
              reason ->
                  text.append(text.isEmpty() ? "\nNot estimable\n" : "")
                      .append("  ")
                      .append(label(fit.group()))
                      .append(": ")
                      .append(reason)
                      .append(stillToSay(fit))
                      .append('\n'));
    }
    return text.toString();
  }

  private String stillToSay(GroupFit fit) {
    return scaleLower(fit)
        .map(
            lower ->
                "; at shape "
                    + Words.number(lower.get(0).shape())
                    + " the scale is above "
                    + Words.significant(lower.get(0).lower())
                    + " with "
                    + Words.percent(settings.confidence())
                    + " confidence")
        .orElse("");
  }

  private String shape(Estimate shape) {
    return settings.fixedShape().isPresent()
        ? Words.number(shape.estimate()) + ", held"
        : Words.number(shape);
  }

  private static String ages(Estimate age) {
    return Words.significant(age.estimate())
        + " ("
        + Words.significant(age.lower())
        + " to "
        + Words.significant(age.upper())
        + ")";
  }

  private static Optional<Estimate> tenth(Fitted fit) {
    return fit.quantiles().stream().filter(q -> q.p() == TENTH).map(Quantile::age).findFirst();
  }

  private static String label(Map<String, String> group) {
    return group.isEmpty()
        ? "all"
        : group.values().stream()
            .map(value -> value.isEmpty() ? "(not on record)" : value)
            .collect(Collectors.joining(", "));
  }

  /** One row for each group, numbers unrounded. */
  @Override
  public String csv() {
    List<String> by = fits.isEmpty() ? List.of() : List.copyOf(fits.get(0).group().keySet());
    List<String> header = new ArrayList<>(by);
    header.addAll(
        List.of(
            "status",
            "lives",
            "failures",
            "shape",
            "shape_lower",
            "shape_upper",
            "scale",
            "scale_lower",
            "scale_upper",
            "log_likelihood",
            "reason"));
    CsvWriter table = CsvWriter.forSpreadsheets(header.toArray(String[]::new));
    for (GroupFit fit : fits) {
      fit.group().values().forEach(table::cell);
      Optional<Fitted> fitted = fitted(fit);
      table.cell(status(fit)).cell(fit.lives()).cell(fit.fit().failures());
      cells(table, fitted.map(Fitted::shape));
      cells(table, fitted.map(Fitted::scale));
      table.cell(number(fitted.map(Fitted::logLikelihood))).cell(reason(fit).orElse("")).endRow();
    }
    return table.text();
  }

  private static void cells(CsvWriter table, Optional<Estimate> estimate) {
    table
        .cell(number(estimate.map(Estimate::estimate)))
        .cell(number(estimate.map(Estimate::lower)))
        .cell(number(estimate.map(Estimate::upper)));
  }

  private static OptionalDouble number(Optional<Double> value) {
    return value.filter(Double::isFinite).map(OptionalDouble::of).orElse(OptionalDouble.empty());
  }

  /** The document {@code fit} promises. */
  @Override
  public String json() {
    return Json.write(document());
  }

  Document document() {
    return new Document(fits.stream().map(this::entry).toList());
  }

  private Entry entry(GroupFit fit) {
    Optional<Fitted> fitted = fitted(fit);
    return new Entry(
        fit.group(),
        "weibull",
        status(fit),
        reason(fit),
        fit.lives(),
        fit.fit().failures(),
        fitted.map(Fitted::shape),
        fitted.map(Fitted::scale),
        number(fitted.map(Fitted::logLikelihood)),
        number(fitted.map(Fitted::aic)),
        fitted.map(Fitted::aicc).orElse(OptionalDouble.empty()),
        number(fitted.map(Fitted::bic)),
        fitted.map(FitView::covariance),
        fitted.map(f -> f.quantiles().stream().map(FitView::quantile).toList()),
        scaleLower(fit),
        settings.limits().name().toLowerCase(Locale.ROOT),
        settings.confidence(),
        productLimit(fit));
  }

  private static double[][] covariance(Fitted fit) {
    WeibullFit.Covariance c = fit.covariance();
    return new double[][] {{c.scaleScale(), c.scaleShape()}, {c.scaleShape(), c.shapeShape()}};
  }

  private static QuantileEntry quantile(Quantile q) {
    return new QuantileEntry(q.p(), q.age().estimate(), q.age().lower(), q.age().upper());
  }

  private Optional<List<ScaleLower>> scaleLower(GroupFit fit) {
    if (settings.fixedShape().isEmpty() || fit.fit().failures() > 0) {
      return Optional.empty();
    }
    double shape = settings.fixedShape().getAsDouble();
    double lower = WeibullFitter.scaleLowerLimit(fit.observations(), shape, settings.confidence());
    return Optional.of(List.of(new ScaleLower(shape, settings.confidence(), lower)));
  }

  private List<Step> productLimit(GroupFit fit) {
    return ProductLimit.of(fit.observations(), settings.confidence()).points().stream()
        .map(
            p ->
                new Step(
                    p.age(),
                    p.survival(),
                    p.stdError(),
                    p.lower(),
                    p.upper(),
                    p.atRisk(),
                    p.events()))
        .toList();
  }

  private static Optional<Fitted> fitted(GroupFit fit) {
    return fit.fit() instanceof Fitted fitted ? Optional.of(fitted) : Optional.empty();
  }

  private static String status(GroupFit fit) {
    return fitted(fit).isPresent() ? "fitted" : "not-estimable";
  }

  private static Optional<String> reason(GroupFit fit) {
    return fit.fit() instanceof NotEstimable none ? Optional.of(none.reason()) : Optional.empty();
  }

  record Document(List<Entry> fits) {}

  record Entry(
      Map<String, String> group,
      String distribution,
      String status,
      Optional<String> reason,
      double lives,
      double failures,
      Optional<Estimate> shape,
      Optional<Estimate> scale,
      OptionalDouble logLikelihood,
      OptionalDouble aic,
      OptionalDouble aicc,
      OptionalDouble bic,
      Optional<double[][]> covariance,
      Optional<List<QuantileEntry>> quantiles,
      Optional<List<ScaleLower>> scaleLower,
      String limits,
      double confidence,
      List<Step> productLimit) {}

  record QuantileEntry(double p, double estimate, double lower, double upper) {}

  record ScaleLower(double shape, double confidence, double lower) {}

  record Step(
      double age,
      double survival,
      double stdError,
      double lower,
      double upper,
      double atRisk,
      double events) {}
}
