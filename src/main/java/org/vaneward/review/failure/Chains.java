package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.vaneward.life.Life;
import org.vaneward.model.LifeModel;
import org.vaneward.review.failure.Evidence.Measure;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.comparison.Runs;

/**
 * Runs of early failures in one position, and how many such runs luck alone would bring. Each part
 * is a trial: by the fleet's model for its service it fails within the stated share of the life
 * expected there with a known chance, one that did not fail by the age to which it was watched. How
 * long one that failed would have been left in is not known, so the chance of a run is rather put
 * too high.
 *
 * @param share share of the expected life within which a failure is early
 * @param chains runs of two and more, the least likely first
 * @param positions positions with at least two parts on record
 * @param expected positions with a run of two or more to be expected by the fleet's model
 */
public record Chains(double share, List<Chain> chains, int positions, double expected) {
  private static final int RUN = 2;

  public Chains {
    chains = List.copyOf(chains);
  }

  /** The parts of one position in the order of their fitting. */
  private static final class Place {
    private final List<Life> lives = new ArrayList<>();
    private final List<Double> chance = new ArrayList<>();
    private List<Life> longest = List.of();
    private List<Life> running = new ArrayList<>();

    void add(Life life, double early, double chanceOfIt) {
      lives.add(life);
      chance.add(chanceOfIt);
      if (life.hasFailed() && life.end().age() <= early) {
        running.add(life);
      } else {
        running = new ArrayList<>();
      }
      if (running.size() > longest.size()) {
        longest = List.copyOf(running);
      }
    }

    double p(int length) {
      return Runs.chance(chance.stream().mapToDouble(p -> p).toArray(), length);
    }
  }

  /**
   * Looks for runs.
   *
   * @param asked takes a question for each position with at least two parts. Modified.
   */
  static Chains of(Parts parts, double share, List<Asked> asked) {
    List<Chain> chains = new ArrayList<>();
    double expected = 0;
    int positions = 0;
    for (Place place : places(parts, share)) {
      if (place.lives.size() >= RUN) {
        positions++;
        expected += place.p(RUN);
        int length = place.longest.size();
        double p = length >= RUN ? place.p(length) : 1;
        asked.add(question(place, p));
        if (length >= RUN) {
          chains.add(chain(place, p));
        }
      }
    }
    chains.sort(Comparator.comparingDouble(Chain::p));
    return new Chains(share, chains, positions, expected);
  }

  private static List<Place> places(Parts parts, double share) {
    List<Place> places = new ArrayList<>();
    String last = "";
    Place place = new Place();
    for (Life life : parts.lives().lives()) {
      Optional<LifeModel> model = parts.model(life.component(), life.lastService());
      if (model.isEmpty()) {
        continue;
      }
      String name = life.pump() + "\n" + life.position();
      if (!name.equals(last)) {
        last = name;
        place = new Place();
        places.add(place);
      }
      double early = share * model.get().weibull().mean();
      // A part that did not fail had no more chance to than up to where it was watched.
      double watched = life.hasFailed() ? early : Math.min(early, life.end().age());
      double chance =
          model
              .get()
              .weibull()
              .failedWithin(life.entryAge(), Math.max(0, watched - life.entryAge()));
      place.add(life, early, chance);
    }
    return places;
  }

  private static Chain chain(Place place, double p) {
    Life first = place.lives.get(0);
    return new Chain(
        first.pump(),
        first.component(),
        first.position(),
        place.lives.size(),
        place.longest.stream().map(Parts::record).toList(),
        p);
  }

  private static Asked question(Place place, double p) {
    Life first = place.lives.get(0);
    return new Asked(
        Topic.REPEAT,
        Outcome.LIFE,
        first.component(),
        first.pump() + " " + first.position(),
        first.pump(),
        p,
        () -> evidence(place),
        () -> lives(place),
        lives -> without(place, lives));
  }

  private static Evidence evidence(Place place) {
    double mean = place.chance.stream().mapToDouble(c -> c).average().orElse(0);
    double least = place.chance.stream().mapToDouble(c -> c).min().orElse(0);
    double most = place.chance.stream().mapToDouble(c -> c).max().orElse(0);
    return new Evidence(
        place.longest.size(),
        mean * place.lives.size(),
        Measure.EARLY_CHANCE,
        new Estimate(mean, least, most),
        Optional.empty(),
        OptionalDouble.empty(),
        place.lives.size() + " parts on record there",
        place.longest.stream().map(Parts::record).toList());
  }

  private static Set<String> lives(Place place) {
    Set<String> ids = new HashSet<>();
    place.longest.forEach(life -> ids.add(life.id()));
    return ids;
  }

  /** The run is something else when parts of it belong to what explains it. */
  private static OptionalDouble without(Place place, Set<String> lives) {
    long left = place.longest.stream().filter(life -> !lives.contains(life.id())).count();
    return left == place.longest.size()
        ? OptionalDouble.empty()
        : OptionalDouble.of(left < RUN ? 1 : place.p((int) left));
  }
}
