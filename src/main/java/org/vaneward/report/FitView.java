package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.io.Listing;
import org.vaneward.io.TableWriter;
import org.vaneward.model.FamilyFit;
import org.vaneward.model.FamilyFits;
import org.vaneward.model.FitQuestion;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.comparison.LogRank;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.LifeFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.Quantile;
import org.vaneward.stats.nonparametric.AdjustedRanks;

/** Fits of groups of lives, for people and for programs. */
public final class FitView implements View {
  private static final double TENTH = 0.10;

  private static final List<String> PARAMETERS = List.of("shape", "scale", "location", "spread");

  private final FamilyFits fits;
  private final FitQuestion question;
  private final FitFields fields;

  /** A view of fits that answer {@code question}. */
  public FitView(FamilyFits fits, FitQuestion question) {
    this.fits = fits;
    this.question = question;
    fields = new FitFields(question);
  }

  /** One line for each group and family, then what to make of it. */
  @Override
  public String text() {
    return heading() + "\n" + table() + notEstimable() + checks() + comparison();
  }

  private String heading() {
    String families =
        Words.capital(String.join(", ", question.families().stream().map(Family::word).toList()));
    boolean scales = question.families().stream().anyMatch(f -> f != Family.LOGNORMAL);
    boolean locations = question.families().contains(Family.LOGNORMAL);
    return Words.wrapped(
        families
            + ", "
            + fields.limitsWord()
            + " limits at "
            + Words.percent(question.settings().confidence())
            + (scales ? "; scale: the age by which 63.2% have failed" : "")
            + (locations ? "; location and spread: mean and standard deviation of log age" : "")
            + ", in the unit of the ages",
        0);
  }

  private TextTable table() {
    List<String> shown = PARAMETERS.stream().filter(this::asked).toList();
    boolean several = question.families().size() > 1;
    List<String> header = new ArrayList<>(List.of("group"));
    if (several) {
      header.add("distribution");
    }
    header.addAll(List.of("lives", "failures"));
    header.addAll(shown);
    header.add("10% failed by");
    if (several) {
      header.add("AICc");
    }
    TextTable table = new TextTable(header.toArray(String[]::new));
    for (FamilyFit fit : fits.fits()) {
      List<String> row = new ArrayList<>(List.of(GroupWords.label(fit.group())));
      if (several) {
        row.add(fit.fit().family().word());
      }
      row.add(Words.whole(fit.lives()));
      row.add(Words.whole(fit.fit().failures()));
      shown.forEach(
          name -> row.add(parameter(fit, name).map(e -> cell(name, e)).orElse(Words.NONE)));
      row.add(
          FitFields.fitted(fit).flatMap(FitView::tenth).map(GroupWords::limits).orElse(Words.NONE));
      if (several) {
        OptionalDouble aicc =
            FitFields.fitted(fit).map(Fitted::aicc).orElse(OptionalDouble.empty());
        row.add(aicc.isPresent() ? Words.number(aicc.getAsDouble()) : Words.NONE);
      }
      table.row(row.toArray(String[]::new));
    }
    return table;
  }

  private boolean asked(String parameter) {
    return question.families().stream().anyMatch(family -> parameters(family).contains(parameter));
  }

  private static List<String> parameters(Family family) {
    return switch (family) {
      case WEIBULL -> List.of("shape", "scale");
      case LOGNORMAL -> List.of("location", "spread");
      case EXPONENTIAL -> List.of("scale");
    };
  }

  private String cell(String name, Estimate estimate) {
    if (name.equals("scale")) {
      return GroupWords.limits(estimate);
    }
    return name.equals("shape") && question.settings().fixedShape().isPresent()
        ? Words.number(estimate.estimate()) + ", held"
        : Words.number(estimate);
  }

  private String notEstimable() {
    StringBuilder text = new StringBuilder();
    for (FamilyFit fit : fits.fits()) {
      FitFields.reason(fit)
          .ifPresent(
              reason ->
                  text.append(text.isEmpty() ? "\nNot estimable\n" : "")
                      .append(
                          Words.wrapped("  " + name(fit) + ": " + reason + stillToSay(fit), 4)));
    }
    return text.toString();
  }

  private String name(FamilyFit fit) {
    return GroupWords.label(fit.group())
        + (question.families().size() > 1 ? ", " + fit.fit().family().word() : "");
  }

  private String stillToSay(FamilyFit fit) {
    return fields
        .scaleLower(fit)
        .map(
            lower ->
                "; at shape "
                    + Words.number(lower.shape())
                    + " the scale is above "
                    + Words.significant(lower.lower())
                    + " with "
                    + Words.percent(question.settings().confidence())
                    + " confidence")
        .orElse("");
  }

  private String checks() {
    StringBuilder text = new StringBuilder();
    for (FamilyFit fit : fits.fits()) {
      if (FitFields.fitted(fit).isPresent()) {
        text.append(
            Words.wrapped("  " + name(fit) + ": " + String.join(" ", CheckFields.words(fit)), 4));
        text.append(outlived(fit)).append(rankCheck(fit));
      }
    }
    return text.isEmpty() ? "" : "\nWhat to make of it\n" + text;
  }

  private String outlived(FamilyFit fit) {
    List<String> ages = new ArrayList<>();
    for (int i = 0; i < fit.survival().size(); i++) {
      Estimate share = fit.survival().get(i);
      ages.add(
          Words.significant(question.ages().get(i))
              + ": "
              + Words.percent(share.estimate())
              + " ("
              + Words.percent(share.lower())
              + " to "
              + Words.percent(share.upper())
              + ")");
    }
    return ages.isEmpty()
        ? ""
        : Words.wrapped("    Share that outlives " + String.join("; ", ages) + ".", 4);
  }

  /** For one group, as a check on the fit by likelihood and named as such. */
  private String rankCheck(FamilyFit fit) {
    if (!question.by().isEmpty()
        || fit.fit().family() != Family.WEIBULL
        || !(AdjustedRanks.of(fit.observations()) instanceof AdjustedRanks.Ranked ranked)) {
      return "";
    }
    return CurveFields.line(ranked)
        .map(
            line ->
                Words.wrapped(
                    "    For comparison only, the line through the plotted ranks: shape "
                        + Words.number(line.weibull().shape())
                        + ", scale "
                        + Words.significant(line.weibull().scale())
                        + ".",
                    4))
        .orElse("");
  }

  private String comparison() {
    return fits.comparison()
        .map(
            c ->
                "\nAre the groups alike?\n"
                    + Words.wrapped("  Without a model: " + logRank(c.logRank()), 4)
                    + c.commonShape()
                        .map(
                            t -> Words.wrapped("  One Weibull shape for all: " + ratio(t) + ".", 4))
                        .orElse(""))
        .orElse("");
  }

  private String logRank(LogRank test) {
    if (test instanceof LogRank.Tested t) {
      return "log-rank "
          + Words.number(t.statistic())
          + " with "
          + Words.count(t.degreesOfFreedom(), "degree", "degrees")
          + " of freedom, p "
          + Words.p(t.p())
          + question.strata().map(s -> ", within the groups of " + s).orElse("")
          + (t.leftOut() > 0
              ? "; "
                  + Words.count(Math.round(t.leftOut()), "failure", "failures")
                  + " known to an interval left out"
              : "")
          + ".";
    }
    return "not to be tested (" + ((LogRank.NotTested) test).reason() + ").";
  }

  private static String ratio(LikelihoodRatio test) {
    return "likelihood ratio "
        + Words.number(test.statistic())
        + " with "
        + Words.count(test.degreesOfFreedom(), "degree", "degrees")
        + " of freedom, p "
        + Words.p(test.p());
  }

  private static Optional<Estimate> tenth(Fitted fit) {
    return fit.quantiles().stream().filter(q -> q.p() == TENTH).map(Quantile::age).findFirst();
  }

  /** One row for each group and family, numbers unrounded. */
  @Override
  public String csv() {
    return listing().csv();
  }

  /** The same for any form. */
  public Listing listing() {
    List<String> header = new ArrayList<>(question.by());
    header.addAll(List.of("distribution", "status", "lives", "failures"));
    for (String name : PARAMETERS) {
      header.addAll(List.of(name, name + "_lower", name + "_upper"));
    }
    header.addAll(List.of("log_likelihood", "aicc", "reason"));
    return new Listing("Fits", header, this::rows);
  }

  private void rows(TableWriter table) {
    for (FamilyFit fit : fits.fits()) {
      fit.group().values().forEach(table::cell);
      Optional<Fitted> fitted = FitFields.fitted(fit);
      table.cell(fit.fit().family().word()).cell(FitFields.status(fit));
      table.cell(fit.lives()).cell(fit.fit().failures());
      PARAMETERS.forEach(name -> cells(table, parameter(fit, name)));
      table.cell(number(fitted.map(Fitted::logLikelihood)));
      table.cell(fitted.map(Fitted::aicc).orElse(OptionalDouble.empty()));
      table.cell(FitFields.reason(fit).orElse("")).endRow();
    }
  }

  private static void cells(TableWriter table, Optional<Estimate> estimate) {
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

  JsonFields document() {
    return fields.document(fits);
  }

  private static Optional<Estimate> parameter(FamilyFit fit, String name) {
    return FitFields.fitted(fit)
        .map(Fitted::parameters)
        .flatMap(p -> Optional.ofNullable(p.get(name)));
  }
}
