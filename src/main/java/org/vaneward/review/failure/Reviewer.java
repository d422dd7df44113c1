package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.comparison.FalseDiscovery;
import org.vaneward.stats.comparison.TroubledUnits;

/** Puts all questions, judges them together and sums up. */
final class Reviewer {
  private static final List<Topic> START_UP =
      List.of(Topic.CREW, Topic.LOT, Topic.KIT, Topic.SITE, Topic.POSITION);
  private static final List<Topic> EARLY =
      List.of(Topic.CREW, Topic.LOT, Topic.KIT, Topic.SITE, Topic.POSITION);
  private static final List<Topic> LIFE =
      List.of(Topic.CREW, Topic.LOT, Topic.KIT, Topic.SITE, Topic.POSITION, Topic.RECONDITIONED);

  private final Parts parts;
  private final ReviewQuestion question;
  private final GroupQuestions groups;
  private final Comparer comparer;
  private final List<Asked> asked = new ArrayList<>();
  private final List<Comparison> early = new ArrayList<>();
  private final List<Comparison> restored = new ArrayList<>();

  Reviewer(Parts parts, ReviewQuestion question) {
    this.parts = parts;
    this.question = question;
    groups = new GroupQuestions(parts, question.confidence());
    comparer = new Comparer(parts, groups, question.confidence());
  }

  FailureReview review() {
    PeriodQuestions periods = new PeriodQuestions(groups, question.seed());
    for (String component : parts.components()) {
      Sample life = parts.life(component, Strata.SERVICE);
      asked.addAll(groups.groups(parts.life(component, Strata.DUTY), Topic.PRODUCT));
      asked.addAll(groups.groups(parts.life(component, Strata.PRODUCT), Topic.DUTY));
      LIFE.forEach(topic -> asked.addAll(groups.groups(life, topic)));
      asked.addAll(groups.number(life, Topic.EARLIER_REBUILDS));
      asked.addAll(groups.number(life, Topic.END_CLEARANCE));
      asked.addAll(periods.of(life));
      askOfFirstHours(parts.early(component, Strata.SERVICE), EARLY);
      Sample startUp = parts.startUp(component);
      askOfFirstHours(startUp, START_UP);
      if (startUp.failures() > 0) {
        asked.addAll(periods.of(startUp));
      }
      compareRestoration(life);
    }
    asked.addAll(new ShapeQuestions(parts, question.confidence()).all());
    Sample all = parts.life("", Strata.SERVICE);
    PumpQuestions pumps = new PumpQuestions(all, question.confidence());
    asked.addAll(groups.groups(all, Topic.PUMP));
    asked.addAll(pumps.trends());
    Chains chains = Chains.of(parts, question.repeat(), asked);
    double[] adjusted = adjusted();
    List<PumpRate> rates = pumpRates(all, pumps, adjusted);
    List<Finding> findings = Suspect.findings(asked, adjusted, question.falseShare(), rates);
    return new FailureReview(
        question,
        all.failures(),
        parts.lives().startUps().size(),
        counts(),
        findings,
        findings.isEmpty() ? Suspect.clearest(asked, adjusted) : Optional.empty(),
        products(),
        rates,
        chains,
        Comparer.adjusted(early),
        Comparer.adjusted(restored));
  }

  private void askOfFirstHours(Sample sample, List<Topic> topics) {
    if (!(sample.failures() > 0)) {
      return;
    }
    for (Topic topic : topics) {
      asked.addAll(groups.groups(sample, topic));
      addIfSeveral(early, comparer.compare(sample, topic.column(), strata(sample)));
    }
    asked.addAll(groups.number(sample, Topic.END_CLEARANCE));
    addIfSeveral(early, comparer.compare(sample, Topic.END_CLEARANCE.column(), strata(sample)));
  }

  private static Strata strata(Sample sample) {
    return sample.outcome() == Outcome.START_UP ? Strata.COMPONENT : Strata.SERVICE;
  }

  private void compareRestoration(Sample life) {
    for (Topic topic :
        List.of(Topic.EARLIER_REBUILDS, Topic.POSITION, Topic.RECONDITIONED, Topic.KIT)) {
      addIfSeveral(restored, comparer.compare(life, topic.column(), Strata.SERVICE));
    }
  }

  private static void addIfSeveral(List<Comparison> list, Comparison comparison) {
    if (comparison.rows().size() > 1) {
      list.add(comparison);
    }
  }

  private Map<Topic, Integer> counts() {
    Map<Topic, Integer> counts = new EnumMap<>(Topic.class);
    asked.forEach(a -> counts.merge(a.topic(), 1, Integer::sum));
    return counts;
  }

  /** P-values over all questions; each topic weighs alike, and so do the questions within one. */
  private double[] adjusted() {
    Map<Topic, Integer> counts = counts();
    double[] p = asked.stream().mapToDouble(Asked::p).toArray();
    double[] weight =
        asked.stream().mapToDouble(a -> 1.0 / counts.getOrDefault(a.topic(), 1)).toArray();
    return FalseDiscovery.weighted(p, weight);
  }

  private List<ComponentByProduct> products() {
    ByProduct byProduct = new ByProduct(parts, question.confidence());
    return parts.components().stream()
        .map(byProduct::of)
        .sorted(
            Comparator.comparingDouble(
                c -> -c.products().stream().mapToDouble(p -> p.failures()).sum()))
        .toList();
  }

  /** Pumps with their rates drawn towards the fleet's, the surest to be troubled first. */
  private List<PumpRate> pumpRates(Sample all, PumpQuestions questions, double[] adjusted) {
    List<Group> pumps = Group.of(all, "pump");
    double[] observed = pumps.stream().mapToDouble(g -> g.observed(all)).toArray();
    double[] expected = pumps.stream().mapToDouble(g -> g.expected(all)).toArray();
    Map<String, Double> adjustedByPump = adjustedByPump(adjusted);
    TroubledUnits fit = TroubledUnits.fit(observed, expected, question.confidence());
    List<PumpRate> rates = new ArrayList<>();
    for (TroubledUnits.Ranked ranked : fit.ranked()) {
      Group pump = pumps.get(ranked.unit());
      Double own = adjustedByPump.get(pump.name());
      rates.add(
          new PumpRate(
              pump.name(),
              pump.observed(all),
              pump.expected(all),
              ranked.rate(),
              ranked.probabilityTroubled(),
              ranked.expectedFalseShare(),
              own == null ? OptionalDouble.empty() : OptionalDouble.of(own),
              questions.trend(pump),
              questions.trendP(pump)));
    }
    return rates;
  }

  private Map<String, Double> adjustedByPump(double[] adjusted) {
    Map<String, Double> byPump = new HashMap<>();
    for (int i = 0; i < adjusted.length; i++) {
      if (asked.get(i).topic() == Topic.PUMP) {
        byPump.put(asked.get(i).subject(), adjusted[i]);
      }
    }
    return byPump;
  }
}
