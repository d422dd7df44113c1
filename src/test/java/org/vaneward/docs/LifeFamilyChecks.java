package org.vaneward.docs;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.vaneward.docs.FitChecks.Rows;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.LifeFit;
import org.vaneward.stats.fit.LifeFit.Fitted;
import org.vaneward.stats.fit.LifeFits;

/** Lognormal and exponential fits, information criteria and means beside what is known of them. */
final class LifeFamilyChecks {
  private LifeFamilyChecks() {}

  /** All families over one reference topic. */
  static ValidationSection families(String title, String topic) {
    List<Case> cases = Reference.cases(topic);
    Rows rows = new Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      lognormal(rows, c);
      exponential(rows, c);
      for (Family family : Family.values()) {
        JsonNode aicc = c.expected().get(family.word()).get("aicc");
        Fitted fit = fitted(family, c.lives());
        rows.add(family.word() + " AICc", aicc, fit.aicc().orElse(Double.POSITIVE_INFINITY));
      }
    }
    return new ValidationSection(
        title,
        topic,
        "Lognormal fits with profile limits at 90%, exponential fits, the likelihood-ratio test of"
            + "\nthe exponential inside the Weibull, and the criterion the families are ranked by.",
        rows.rows,
        rows.citations);
  }

  private static void lognormal(Rows rows, Case c) {
    JsonNode e = c.expected().get("lognormal");
    JsonNode profile = e.get("profile_90");
    Fitted fit = fitted(Family.LOGNORMAL, c.lives());
    for (String name : List.of("location", "spread")) {
      rows.add("lognormal " + name, e.get(name), fit.parameter(name).estimate());
      limits(rows, "lognormal " + name, profile.get(name), fit.parameter(name));
    }
    rows.add("lognormal log-likelihood", e.get("log_likelihood"), fit.logLikelihood());
    double age = e.get("survival").get("age").asDouble();
    limits(
        rows,
        "lognormal survival",
        profile.get("survival"),
        LifeFits.survival(c.lives(), fit, age).get(0));
  }

  private static void exponential(Rows rows, Case c) {
    JsonNode e = c.expected().get("exponential");
    Fitted fit = fitted(Family.EXPONENTIAL, c.lives());
    rows.add("exponential scale", e.get("scale"), fit.parameter("scale").estimate());
    rows.add("exponential log-likelihood", e.get("log_likelihood"), fit.logLikelihood());
    JsonNode test = c.expected().get("exponential_inside_weibull");
    LikelihoodRatio got = LifeFits.exponentialInsideWeibull(c.lives()).orElseThrow();
    rows.add("exponential inside Weibull, statistic", test.get("statistic"), got.statistic());
    rows.add("exponential inside Weibull, p", test.get("p"), got.p());
  }

  private static void limits(Rows rows, String what, JsonNode expected, Estimate got) {
    rows.add(what + ", lower limit", expected.get(0), got.lower());
    rows.add(what + ", upper limit", expected.get(1), got.upper());
  }

  /** Published worked examples of means and of the lognormal. */
  static ValidationSection handbook() {
    Handbook book = new Handbook();
    JsonNode censored = Reference.example("nist-apr413-weibull-mle");
    Observations.Builder lives = failures(censored.get("inputs").get("failures_h"));
    censored
        .get("inputs")
        .get("censored_h")
        .forEach(t -> lives.addRightCensored(0, t.asDouble(), 1));
    Fitted weibull = fitted(Family.WEIBULL, lives.build());
    book.add(censored, "mean life", "mean_h", weibull.mean().estimate());
    book.add(censored, "Weibull AIC", "aic_weibull", weibull.aic());
    double aic = fitted(Family.LOGNORMAL, lives.build()).aic();
    book.add(censored, "lognormal AIC", "aic_lognormal", aic);

    JsonNode locomotives = Reference.example("nelson-locomotive");
    JsonNode in = locomotives.get("inputs");
    Fitted lognormal =
        fitted(
            Family.LOGNORMAL,
            failures(in.get("failures_kmiles"))
                .addRightCensored(
                    0, in.get("censored_kmiles").asDouble(), in.get("n_censored").asDouble())
                .build());
    book.add(
        locomotives, "lognormal location", "mu_ln", lognormal.parameter("location").estimate());
    book.add(locomotives, "lognormal spread", "sigma_ln", lognormal.parameter("spread").estimate());

    JsonNode aircraft = Reference.example("boot-aircondit");
    Observations intervals = failures(aircraft.get("inputs").get("intervals_h")).build();
    double mean = fitted(Family.EXPONENTIAL, intervals).mean().estimate();
    book.add(aircraft, "exponential mean", "mean_h", mean);
    return new ValidationSection(
        "Handbook cases of the families",
        "handbook",
        "Published worked examples of a mean life, of Akaike's criterion and of a lognormal fit.",
        book.rows,
        book.citations);
  }

  /** Rows of worked examples while they are collected. */
  private static final class Handbook {
    private final List<ValidationRow> rows = new ArrayList<>();
    private final Map<String, String> citations = new LinkedHashMap<>();

    void add(JsonNode one, String quantity, String key, double got) {
      String id = one.get("id").asText();
      String read = one.get("read_or_memory").asText();
      citations.putIfAbsent("`" + id + "`", one.get("citation").asText() + ". " + read + ".");
      double tolerance = one.get("tolerance").get(key).asDouble();
      String source =
          read.startsWith("READ")
              ? "read"
              : read.startsWith("MIXED") ? "partly **from memory**" : "**from memory**";
      rows.add(
          ValidationRow.of(
              id,
              quantity,
              source,
              one.get("expected").get(key).asDouble(),
              got,
              tolerance,
              String.format(Locale.ROOT, "abs. %.1e", tolerance).replace(".0e", "e")));
    }
  }

  private static Observations.Builder failures(JsonNode ages) {
    Observations.Builder lives = Observations.builder();
    ages.forEach(t -> lives.addFailure(0, t.asDouble(), 1));
    return lives;
  }

  private static Fitted fitted(Family family, Observations lives) {
    LifeFit fit = LifeFits.fit(family, lives, FitSettings.defaults());
    if (fit instanceof Fitted fitted) {
      return fitted;
    }
    throw new IllegalStateException("a reference sample is not fitted");
  }
}
