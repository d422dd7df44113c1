package org.vaneward.report;

import java.util.Locale;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.review.failure.Evidence;
import org.vaneward.review.failure.Finding;
import org.vaneward.review.failure.Outcome;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.review.failure.Topic;
import org.vaneward.stats.Estimate;

/** Findings on recurring failures in plain sentences. */
final class FindingWords {
  private final Clock clock;
  private final ReviewQuestion question;
  private final int questions;

  FindingWords(Clock clock, ReviewQuestion question, int questions) {
    this.clock = clock;
    this.question = question;
    this.questions = questions;
  }

  /** What was found, with its effect and limits. */
  String sentence(Finding f) {
    Evidence e = f.evidence();
    return switch (f.topic()) {
      case TREND -> trend(f);
      case REPEAT -> repeat(f);
      case SHAPE ->
          "Failures of "
              + plural(f.component())
              + " in "
              + service(f.subject())
              + " thin out with age (shape "
              + Words.number(e.effect())
              + "): no planned interval helps there. Look at how they are fitted and started.";
      case PUMP ->
          f.subject()
              + " fails "
              + ratio(e.effect())
              + " as often as pumps whose parts are of the same age and in the same service.";
      default -> group(f);
    };
  }

  private String group(Finding f) {
    Evidence e = f.evidence();
    if (e.measure() == Evidence.Measure.RATIO_PER_UNIT) {
      return slope(f);
    }
    String what =
        parts(f) + " fail " + when(f.outcome()) + ratio(e.effect()) + " as often as " + rest(f);
    return what + e.lifeRatio().map(this::life).orElse(".") + picked(f);
  }

  private String life(Estimate ratio) {
    return ": they last "
        + Words.percent(ratio.estimate())
        + " as long ("
        + Words.percent(ratio.lower())
        + " to "
        + Words.percent(ratio.upper())
        + ").";
  }

  private static String when(Outcome outcome) {
    return switch (outcome) {
      case START_UP -> "on the start-up test ";
      case EARLY -> "early in life ";
      case LIFE -> "";
    };
  }

  private static String parts(Finding f) {
    String parts = Words.capital(plural(f.component()));
    return switch (f.topic()) {
      case PRODUCT -> parts + " on " + f.subject();
      case DUTY -> parts + " in " + f.subject();
      case CREW -> parts + " fitted by " + f.subject();
      case LOT -> parts + " of lot " + f.subject();
      case KIT ->
          f.subject().startsWith("loose")
              ? parts + " fitted as loose parts"
              : parts + " out of kit " + f.subject();
      case SITE -> parts + " at " + f.subject();
      case POSITION -> parts + " at " + f.subject();
      case RECONDITIONED ->
          (f.subject().equals("yes") ? "Reconditioned " : "New ") + plural(f.component());
      case END_CLEARANCE ->
          parts
              + " fitted with an end clearance of "
              + f.subject().replace("end_clearance_mm ", "")
              + " mm";
      default -> parts + " " + f.subject();
    };
  }

  private static String rest(Finding f) {
    boolean fresh = f.outcome() == Outcome.START_UP;
    String like = fresh ? "" : " of the same age in the same service";
    return switch (f.topic()) {
      case PRODUCT -> "those of the same age in the same duty on other products";
      case DUTY -> "those of the same age on the same product in other duties";
      case CREW -> "those other crews fitted" + like;
      case LOT -> "those of other lots" + like;
      case KIT -> "those fitted otherwise" + like;
      case SITE -> "those elsewhere" + like;
      case POSITION -> "those in the other position" + like;
      case RECONDITIONED -> (f.subject().equals("yes") ? "new ones" : "reconditioned ones") + like;
      case PERIOD -> "those fitted before or after" + like;
      default -> "the others" + like;
    };
  }

  private static String picked(Finding f) {
    return f.topic() == Topic.PERIOD
        ? " The months were picked because they stand out, which the p-value allows for and these"
            + " limits do not."
        : "";
  }

  private String slope(Finding f) {
    Estimate each = f.evidence().effect();
    String failures = "failures of " + plural(f.component()) + " " + f.outcome().words();
    if (f.topic() == Topic.EARLIER_REBUILDS) {
      return "With each earlier opening of the pump, "
          + failures
          + " come "
          + factor(each, 1)
          + " as often at the same age in the same service.";
    }
    return "With each 0.01 mm more end clearance, "
        + failures
        + " come "
        + factor(each, 0.01)
        + " as often at the same age in the same service.";
  }

  private static String factor(Estimate each, double step) {
    return String.format(
        Locale.ROOT,
        "%.2f times (%.2f to %.2f)",
        Math.pow(each.estimate(), step),
        Math.pow(each.lower(), step),
        Math.pow(each.upper(), step));
  }

  private String trend(Finding f) {
    Evidence e = f.evidence();
    long all = Math.round(2 * e.expected());
    return f.subject()
        + " is getting worse: "
        + (Math.round(e.observed()) == all ? "all" : Words.whole(e.observed()))
        + " of its "
        + Words.count(all, "failure", "failures")
        + " came in the second half of what the ages of its parts account for"
        + (Double.isFinite(e.effect().estimate())
            ? ", " + ratio(e.effect()) + " as fast as in the first"
            : ", at least " + Words.times(e.effect().lower()) + " as fast as in the first")
        + ".";
  }

  private String repeat(Finding f) {
    Evidence e = f.evidence();
    return Words.capital(f.subject().substring(f.subject().indexOf(' ') + 1))
        + " of "
        + f.pump()
        + " failed "
        + Words.whole(e.observed())
        + " times in succession before "
        + Words.percent(question.repeat())
        + " of the life expected there; so long a run among "
        + e.detail()
        + " has a chance of "
        + Words.percent(f.p())
        + " by the fleet's model.";
  }

  /** How many failures are behind it and how sure it is. */
  String evidence(Finding f) {
    Evidence e = f.evidence();
    String counted =
        switch (e.measure()) {
          case RATE_RATIO ->
              Words.count(Math.round(e.observed()), "failure", "failures")
                  + " where "
                  + Words.number(e.expected())
                  + " were to be expected";
          default -> Words.count(e.failures().size(), "failure", "failures");
        };
    String sure =
        "p "
            + Words.p(f.adjustedP())
            + " adjusted for "
            + Words.count(questions, "question", "questions")
            + " asked";
    String posterior =
        e.posterior().isPresent()
            ? "; chance that it is so, all "
                + (f.topic() == Topic.PUMP ? "pumps" : "services")
                + " considered, "
                + Words.percent(e.posterior().getAsDouble())
            : "";
    return counted + "; " + sure + posterior + ".";
  }

  /** What the records cannot tell about it. */
  static String cannotTell(Finding f) {
    return switch (f.topic()) {
      case PRODUCT, DUTY ->
          "whether it is the liquid or what goes with it: the same pumps, sites and pipework mostly"
              + " stay on one product and duty.";
      case CREW ->
          "why: crews are not sent by lot, and a crew that gets the worst pumps looks like this too.";
      case LOT, PERIOD ->
          "what else changed while these parts were fitted: tools, people, product, supplier.";
      case KIT -> "whether it is the parts or the kind of job for which a kit is taken.";
      case SITE -> "which of all that differs between sites it is.";
      case POSITION -> "why the positions differ: load, heat and access go with position.";
      case RECONDITIONED -> "how the parts were chosen for reconditioning.";
      case EARLIER_REBUILDS ->
          "whether rebuilding wears the pump or pumps in trouble are opened more often.";
      case END_CLEARANCE -> "whether the clearance did it or shows the state of heads and rotor.";
      case PUMP -> "whether it is the pump, its base and pipework, or how it is run.";
      case TREND -> "what wears: shaft, housing or the way it is run.";
      case REPEAT ->
          "whether one cause ran through all of them; only the first look at the parts can.";
      case SHAPE -> "whether the early failures share a cause with those that come late.";
    };
  }

  String records(Finding f, int most) {
    StringBuilder text = new StringBuilder();
    int n = f.evidence().failures().size();
    for (int i = 0; i < Math.min(most, n); i++) {
      var record = f.evidence().failures().get(i);
      text.append(i == 0 ? "" : ", ")
          .append(record.rebuild().isEmpty() ? record.date().toString() : record.rebuild());
    }
    return text + (n > most ? " and " + (n - most) + " more" : "");
  }

  static String plural(String component) {
    return component.endsWith("s") ? component : component + "s";
  }

  private static String service(String subject) {
    return subject.replaceFirst("^, $", "an unknown service");
  }

  private static String ratio(Estimate r) {
    if (!Double.isFinite(r.estimate())) {
      return "at least " + Words.times(r.lower());
    }
    return Words.times(r.estimate())
        + " ("
        + String.format(Locale.ROOT, "%.1f", r.lower())
        + " to "
        + (Double.isFinite(r.upper()) ? String.format(Locale.ROOT, "%.1f", r.upper()) : "no limit")
        + ")";
  }

  /** An age in the fleet's clock. */
  String age(double age) {
    return Words.age(age, Words.unit(clock));
  }
}
