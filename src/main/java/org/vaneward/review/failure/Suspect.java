package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.IntStream;

/** One that chance does not account for: who leads the list, and what is another view of whom. */
final class Suspect {
  /** A finding that has no lower p-value than this without another's parts is a view of it. */
  private static final double NOTHING_LEFT = 0.10;

  /**
   * A finding can account for another only if it has this share of its failures beyond expected.
   */
  private static final double LEAST_SHARE = 0.25;

  /** The same beside a finding on a number, which counts all failures: of these. */
  private static final double LEAST_OF_ALL = 0.01;

  /** Beyond this adjusted p-value nothing is near to being a finding. */
  private static final double NEAR = 0.5;

  private final Asked asked;
  private final double adjusted;
  private final Evidence evidence;
  private final Set<String> lives;
  private final List<Suspect> views = new ArrayList<>();

  private Suspect(Asked asked, double adjusted, Evidence evidence) {
    this.asked = asked;
    this.adjusted = adjusted;
    this.evidence = evidence;
    lives = asked.lives().get();
  }

  /**
   * The findings: the one with the most failures beyond the expected first, each followed by its
   * other views.
   *
   * @param asked every question
   * @param adjusted its p-value adjusted over all
   * @param falseShare the adjusted p-value up to which it is a finding
   * @param pumps the chance of each pump to be troubled
   */
  static List<Finding> findings(
      List<Asked> asked, double[] adjusted, double falseShare, List<PumpRate> pumps) {
    Map<String, Double> troubled = new HashMap<>();
    pumps.forEach(pump -> troubled.put(pump.pump(), pump.probabilityTroubled()));
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < adjusted.length; i++) {
      if (adjusted[i] <= falseShare) {
        order.add(i);
      }
    }
    order.sort(
        Comparator.comparingDouble((Integer i) -> adjusted[i])
            .thenComparingDouble(i -> asked.get(i).p()));
    List<Suspect> leading = new ArrayList<>();
    for (int i : order) {
      Suspect next = new Suspect(asked.get(i), adjusted[i], evidence(asked.get(i), troubled));
      leading.stream()
          .filter(next::isViewOf)
          .findFirst()
          .ifPresentOrElse(lead -> lead.views.add(next), () -> leading.add(next));
    }
    return ranked(leading);
  }

  /**
   * The question that came nearest to being a finding; empty when none came near.
   *
   * @param asked every question
   * @param adjusted its p-value adjusted over all
   */
  static Optional<Finding> clearest(List<Asked> asked, double[] adjusted) {
    return IntStream.range(0, adjusted.length)
        .boxed()
        .min(
            Comparator.comparingDouble((Integer i) -> adjusted[i])
                .thenComparingDouble(i -> asked.get(i).p()))
        .filter(i -> adjusted[i] <= NEAR)
        .map(i -> new Suspect(asked.get(i), adjusted[i], asked.get(i).evidence().get()))
        .map(suspect -> suspect.finding(1, OptionalInt.empty()));
  }

  private static Evidence evidence(Asked one, Map<String, Double> troubled) {
    Evidence evidence = one.evidence().get();
    Double chance = one.topic() == Topic.PUMP ? troubled.get(one.pump()) : null;
    return chance == null ? evidence : evidence.withPosterior(chance);
  }

  private static List<Finding> ranked(List<Suspect> leading) {
    List<Finding> findings = new ArrayList<>();
    leading.sort(Comparator.comparingDouble((Suspect s) -> -s.beyondExpected()));
    for (Suspect lead : leading) {
      int rank = findings.size() + 1;
      findings.add(lead.finding(rank, OptionalInt.empty()));
      for (Suspect view : lead.views) {
        findings.add(view.finding(findings.size() + 1, OptionalInt.of(rank)));
      }
    }
    return findings;
  }

  private double beyondExpected() {
    return evidence.observed() - evidence.expected();
  }

  private boolean isViewOf(Suspect other) {
    return isSameSuspect(other) || (mayGoAwayWith(other) && goesAwayWith(other));
  }

  private boolean isSameSuspect(Suspect other) {
    Asked its = other.asked;
    boolean samePump = !asked.pump().isEmpty() && asked.pump().equals(its.pump());
    boolean sameGroup =
        asked.topic() == its.topic()
            && asked.subject().equals(its.subject())
            && asked.component().equals(its.component());
    return samePump || sameGroup;
  }

  /** A quick look before the question is put again: enough failures, and parts in common. */
  private boolean mayGoAwayWith(Suspect other) {
    boolean isNumber = evidence.measure() == Evidence.Measure.RATIO_PER_UNIT;
    double least = isNumber ? LEAST_OF_ALL * evidence.observed() : LEAST_SHARE * beyondExpected();
    if (other.lives.isEmpty() || other.beyondExpected() < least) {
      return false;
    }
    Set<String> few = lives.size() < other.lives.size() ? lives : other.lives;
    Set<String> many = few == lives ? other.lives : lives;
    return lives.isEmpty() || few.stream().anyMatch(many::contains);
  }

  private boolean goesAwayWith(Suspect other) {
    OptionalDouble without = asked.without().apply(other.lives);
    return without.isPresent() && without.getAsDouble() > NOTHING_LEFT;
  }

  private Finding finding(int rank, OptionalInt partOf) {
    return new Finding(
        rank,
        asked.topic(),
        asked.outcome(),
        asked.component(),
        asked.subject(),
        asked.pump(),
        asked.p(),
        adjusted,
        partOf,
        evidence,
        ShopCheck.of(asked.topic(), asked.component(), evidence.failures()));
  }
}
