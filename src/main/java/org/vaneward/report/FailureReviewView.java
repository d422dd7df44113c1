package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.io.Listing;
import org.vaneward.io.TableWriter;
import org.vaneward.review.failure.Chain;
import org.vaneward.review.failure.ComponentByProduct;
import org.vaneward.review.failure.ComponentByProduct.Beside;
import org.vaneward.review.failure.ComponentByProduct.OnProduct;
import org.vaneward.review.failure.ComponentByProduct.Tally;
import org.vaneward.review.failure.Evidence;
import org.vaneward.review.failure.FailureRecord;
import org.vaneward.review.failure.FailureReview;
import org.vaneward.review.failure.Finding;
import org.vaneward.review.failure.PumpRate;
import org.vaneward.stats.Estimate;

/** What fails again in a fleet and what lies behind it, for people and for programs. */
public final class FailureReviewView implements View {
  private static final List<String> COLUMNS =
      List.of(
          "rank",
          "topic",
          "outcome",
          "component",
          "subject",
          "failures",
          "expected",
          "measure",
          "effect",
          "lower",
          "upper",
          "life_ratio",
          "p",
          "adjusted_p",
          "part_of",
          "sentence",
          "records");

  private static final int MOST_RECORDS = 12;
  private static final int MOST_PUMPS = 10;

  private final FleetSettings settings;
  private final FailureReview review;
  private final FindingWords words;
  private final FailureTables tables;

  /** A view of a review of the fleet with these settings. */
  public FailureReviewView(FleetSettings settings, FailureReview review) {
    this.settings = settings;
    this.review = review;
    words = new FindingWords(settings.clock(), review.question(), review.questions());
    tables = new FailureTables(settings.clock());
  }

  // ---- for people

  @Override
  public String text() {
    StringBuilder text = new StringBuilder();
    text.append(settings.fleet())
        .append(": what fails again, records up to ")
        .append(settings.asOf())
        .append("\n\n")
        .append(Words.wrapped(summary(), 0))
        .append('\n');
    int number = 0;
    for (Finding finding : review.leading()) {
      number++;
      text.append(finding(number, finding)).append('\n');
    }
    for (ComponentByProduct component : review.products()) {
      text.append(products(component));
    }
    text.append("Pumps, the likeliest to be troubled first\n")
        .append(TextTable.of(tables.pumps(review, MOST_PUMPS)))
        .append(Words.wrapped(pumpWords(), 0))
        .append("\nThe same part again\n")
        .append(Words.wrapped(FailureTables.chainWords(review), 0))
        .append(TextTable.of(tables.chains(review)))
        .append("\nEarly failures\n")
        .append(TextTable.of(tables.comparisons(review.early())))
        .append(Words.wrapped(earlyWords(), 0))
        .append("\nDoes a rebuild restore the pump?\n")
        .append(TextTable.of(tables.comparisons(review.restored())))
        .append(Words.wrapped(restoredWords(), 0))
        .append("\nBefore a pump is opened to look\n");
    Cautions.openingAFuelPump().forEach(c -> text.append(Words.wrapped("  - " + c, 4)));
    return text.toString();
  }

  /** Failures of a component by product, over time and by what was written of them. */
  public List<Picture> pictures(String component) {
    FailurePictures pictures = FailurePictures.of(settings, review);
    return review.products().stream()
        .filter(c -> c.component().equals(component))
        .flatMap(c -> pictures.of(c).stream())
        .toList();
  }

  /** How much was looked at and what came of it. */
  public String summary() {
    return Words.count(Math.round(review.failures()), "failure", "failures")
        + " in running and "
        + Words.whole(review.startUps())
        + " on the start-up test; "
        + Words.count(review.questions(), "question", "questions")
        + " asked of them. "
        + (review.findings().isEmpty()
            ? "Nothing stands out by more than chance when all of them are judged together."
                + review.clearest().map(this::clearest).orElse("")
            : Words.count(review.leading().size(), "finding", "findings")
                + ", those with the most failures beyond the expected first; on average no more than "
                + Words.percent(review.question().falseShare())
                + " of such a list is chance. Limits at "
                + Words.percent(review.question().confidence())
                + ".");
  }

  /** What came nearest, for somebody who looks anyway. */
  private String clearest(Finding f) {
    return " Nearest to it, p " + Words.p(f.adjustedP()) + " adjusted: " + words.sentence(f);
  }

  private String finding(int number, Finding f) {
    StringBuilder text = new StringBuilder();
    text.append(Words.wrapped(number + ". " + words.sentence(f), 3))
        .append(Words.wrapped("   " + Words.capital(words.evidence(f)), 3));
    for (Finding view : review.viewsOf(f)) {
      text.append(Words.wrapped("   Likely the same: " + words.sentence(view), 6));
    }
    f.checks()
        .forEach(c -> text.append(Words.wrapped("   Check " + c.cause() + ": " + c.check(), 6)));
    text.append(Words.wrapped("   The records cannot tell " + FindingWords.cannotTell(f), 6))
        .append(Words.wrapped("   Records: " + words.records(f, MOST_RECORDS), 6));
    return text.toString();
  }

  private String products(ComponentByProduct component) {
    return Words.capital(FindingWords.plural(component.component()))
        + " by product\n"
        + TextTable.of(tables.products(component))
        + Words.wrapped(productWords(component), 0)
        + TextTable.of(tables.means(component))
        + TextTable.of(tables.modesAndCauses(component))
        + "\n";
  }

  /** What the columns of a table by product mean. */
  static String productWords(ComponentByProduct component) {
    return "Rates are unadjusted. Times the rest: how many times as often, at the same age and duty. Life beside the mean of"
        + " the other products: "
        + (component.adjustedFor().isEmpty()
            ? "no regression could be fitted."
            : "from a regression that also holds "
                + String.join(", ", component.adjustedFor())
                + " equal.");
  }

  /** What the columns of the table of pumps mean. */
  static String pumpWords() {
    return "Rate: failures over those expected of parts of the same age in the same service, drawn"
        + " towards the fleet's as far as the history is short. Troubled: chance of failing clearly"
        + " more than the rest. False so far: share of the pumps down to this line that are to be"
        + " expected not to be. Adjusted p: over all questions asked.";
  }

  /** What counts as early. */
  String earlyWords() {
    return "Early: before "
        + Words.percent(review.question().early())
        + " of the life expected in the service. At start-up: on the start-up test, of parts fitted"
        + " at an opening on record. p adjusted over this table.";
  }

  static String restoredWords() {
    return "At the same age in the same service. earlier_rebuilds: openings of the pump up to the one"
        + " at which the part was fitted. A ratio of 1 within its limits: no difference seen, which"
        + " with few failures is no proof that there is none.";
  }

  // ---- for programs

  @Override
  public String json() {
    return Json.write(document());
  }

  JsonFields document() {
    Map<String, Integer> asked = new TreeMap<>();
    review.asked().forEach((topic, n) -> asked.put(topic.key(), n));
    return new JsonFields()
        .with("confidence", review.question().confidence())
        .with("false_share", review.question().falseShare())
        .with("failures", review.failures())
        .with("start_up_failures", review.startUps())
        .with("questions", review.questions())
        .with("asked", asked)
        .with("findings", review.findings().stream().map(this::fields).toList())
        .with("clearest", review.clearest().map(this::fields))
        .with("products", review.products().stream().map(this::fields).toList())
        .with("pumps", review.pumps().stream().map(FailureReviewView::fields).toList())
        .with("repeats", repeats())
        .with("early", review.early().stream().map(ColumnReviewView::fields).toList())
        .with("restored", review.restored().stream().map(ColumnReviewView::fields).toList());
  }

  private JsonFields fields(Finding f) {
    Evidence e = f.evidence();
    return new JsonFields()
        .with("rank", f.rank())
        .with("topic", f.topic().key())
        .with("outcome", f.outcome().key())
        .with("component", f.component())
        .with("subject", f.subject())
        .with("sentence", words.sentence(f))
        .with("failures", e.observed())
        .with("expected", e.expected())
        .with("measure", e.measure().key())
        .with("effect", e.effect())
        .with("life_ratio", e.lifeRatio())
        .with("p", f.p())
        .with("adjusted_p", f.adjustedP())
        .with("posterior", e.posterior())
        .with("part_of", f.partOf().stream().boxed().findFirst())
        .with(
            "check",
            f.checks().stream()
                .map(c -> new JsonFields().with("cause", c.cause()).with("check", c.check()))
                .toList())
        .with("cannot_tell", FindingWords.cannotTell(f))
        .with("records", e.failures().stream().map(FailureReviewView::fields).toList());
  }

  private static JsonFields fields(FailureRecord r) {
    return new JsonFields()
        .with("rebuild", r.rebuild())
        .with("file", r.row().file())
        .with("line", r.row().line())
        .with("pump", r.pump())
        .with("position", r.position())
        .with("date", r.date())
        .with("age", r.age())
        .with("mode", r.mode())
        .with("cause", r.cause());
  }

  private JsonFields fields(ComponentByProduct c) {
    return new JsonFields()
        .with("component", c.component())
        .with("adjusted_for", c.adjustedFor())
        .with("products", c.products().stream().map(FailureReviewView::fields).toList());
  }

  private static JsonFields fields(OnProduct p) {
    return new JsonFields()
        .with("product", p.product())
        .with("lives", p.lives())
        .with("failures", p.failures())
        .with("running", p.running())
        .with("rate", p.rate())
        .with("rate_ratio", p.rateRatio())
        .with("p", p.p())
        .with("life_ratio", p.lifeRatio())
        .with("beside", p.beside().map(FailureReviewView::fields))
        .with("modes", tallies(p.modes()))
        .with("causes", tallies(p.causes()))
        .with(
            "mcf",
            p.cumulative().map(m -> m.points().stream().map(EventReviewView::point).toList()));
  }

  private static JsonFields fields(Beside b) {
    return new JsonFields()
        .with("age", b.age())
        .with("here", b.here())
        .with("elsewhere", b.elsewhere())
        .with("difference", b.difference())
        .with("p", b.p());
  }

  private static List<JsonFields> tallies(List<Tally> tallies) {
    return tallies.stream()
        .map(t -> new JsonFields().with("word", t.word()).with("number", t.number()))
        .toList();
  }

  private static JsonFields fields(PumpRate pump) {
    return new JsonFields()
        .with("pump", pump.pump())
        .with("failures", pump.failures())
        .with("expected", pump.expected())
        .with("rate", pump.rate())
        .with("probability_troubled", pump.probabilityTroubled())
        .with("expected_false_share", pump.falseShare())
        .with("adjusted_p", pump.adjustedP())
        .with("trend", pump.trend().words())
        .with("p_getting_worse", pump.trendP());
  }

  private JsonFields repeats() {
    return new JsonFields()
        .with("share_of_expected_life", review.chains().share())
        .with("positions", review.chains().positions())
        .with("expected", review.chains().expected())
        .with("runs", review.chains().chains().stream().map(FailureReviewView::fields).toList());
  }

  private static JsonFields fields(Chain chain) {
    return new JsonFields()
        .with("pump", chain.pump())
        .with("position", chain.position())
        .with("parts", chain.lives())
        .with("p", chain.p())
        .with("records", chain.failures().stream().map(FailureReviewView::fields).toList());
  }

  /** The findings, one row each. */
  @Override
  public String csv() {
    return listing().csv();
  }

  /** The same for any form. */
  public Listing listing() {
    return new Listing("Findings", COLUMNS, this::rows);
  }

  private void rows(TableWriter table) {
    for (Finding f : review.findings()) {
      Evidence e = f.evidence();
      table.cell(f.rank()).cell(f.topic().key()).cell(f.outcome().key()).cell(f.component());
      table.cell(f.subject()).cell(e.observed()).cell(e.expected()).cell(e.measure().key());
      limits(table, e.effect());
      e.lifeRatio().map(Estimate::estimate).ifPresentOrElse(table::cell, table::empty);
      table.cell(f.p()).cell(f.adjustedP());
      partOf(table, f.partOf());
      table.cell(words.sentence(f)).cell(words.records(f, Integer.MAX_VALUE)).endRow();
    }
  }

  private static void limits(TableWriter table, Estimate estimate) {
    for (double value : new double[] {estimate.estimate(), estimate.lower(), estimate.upper()}) {
      if (Double.isFinite(value)) {
        table.cell(value);
      } else {
        table.empty();
      }
    }
  }

  private static void partOf(TableWriter table, OptionalInt rank) {
    if (rank.isPresent()) {
      table.cell(rank.getAsInt());
    } else {
      table.empty();
    }
  }

  /** The findings for the page, each with its records. */
  List<Page.FindingPart> parts() {
    List<Page.FindingPart> parts = new ArrayList<>();
    for (Finding f : review.leading()) {
      parts.add(
          new Page.FindingPart(
              words.sentence(f),
              Words.capital(words.evidence(f)),
              review.viewsOf(f).stream().map(words::sentence).toList(),
              f.checks().stream().map(c -> Words.capital(c.cause()) + ": " + c.check()).toList(),
              "The records cannot tell " + FindingWords.cannotTell(f),
              "Records: " + words.records(f, MOST_RECORDS) + ".",
              records(f)));
    }
    return parts;
  }

  private Page.Grid records(Finding f) {
    return new Page.Grid(
        List.of("Record", "Row", "Pump", "Position", "Date", "Failed at", "Mode", "Cause"),
        List.of(
            Page.Kind.TAG,
            Page.Kind.TAG,
            Page.Kind.TAG,
            Page.Kind.TAG,
            Page.Kind.TAG,
            Page.Kind.NUMBER,
            Page.Kind.TAG,
            Page.Kind.TEXT),
        f.evidence().failures().stream()
            .map(
                r ->
                    List.of(
                        r.rebuild(),
                        r.row().file() + " line " + r.row().line(),
                        r.pump(),
                        r.position(),
                        r.date().toString(),
                        words.age(r.age()),
                        r.mode(),
                        r.cause()))
            .toList(),
        "No failures.");
  }

  /** The leading findings as sentences. */
  public List<String> sentences() {
    return review.leading().stream().map(words::sentence).toList();
  }

  /** The tables behind the findings. */
  FailureTables tables() {
    return tables;
  }

  FailureReview review() {
    return review;
  }
}
