package org.vaneward.stats.recurrence;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.vaneward.stats.Observations;

/**
 * Gaps between the occasions on which units had events: several events at one age are one occasion.
 *
 * <p>A unit watched from age 0 starts with the gap up to its first occasion. One watched from later
 * on starts at its first occasion, since it is not known when the gap before began.
 */
final class Gaps {
  /** Complete gaps of each unit, in order; none for a unit without. */
  final List<double[]> complete;

  /** Age from which a unit counts, its occasions after that, and the end: for all three models. */
  final EventHistories occasions;

  /** Complete gaps, and the unfinished one of each unit at its end, as lives. */
  final Observations lives;

  /** Events at the age of another of the same unit. */
  final int merged;

  Gaps(EventHistories histories) {
    List<double[]> gaps = new ArrayList<>();
    EventHistories.Builder counted =
        EventHistories.builder().truncation(EventHistories.Truncation.TIME);
    Observations.Builder spans = Observations.builder();
    int same = 0;
    for (int i = 0; i < histories.size(); i++) {
      double[] ages = Arrays.stream(histories.ages(i)).distinct().toArray();
      same += histories.events(i) - ages.length;
      double from = histories.start(i);
      if (from > 0 && ages.length > 0) {
        from = ages[0];
        ages = Arrays.copyOfRange(ages, 1, ages.length);
      }
      boolean known = histories.start(i) == 0 || from > histories.start(i);
      if (known && histories.end(i) > from) {
        counted.addUnit(histories.id(i), from, ages, histories.end(i));
        gaps.add(gaps(from, ages, histories.end(i), spans));
      }
    }
    complete = gaps;
    occasions = counted.build();
    lives = spans.build();
    merged = same;
  }

  private static double[] gaps(double from, double[] ages, double end, Observations.Builder spans) {
    double[] gaps = new double[ages.length];
    double last = from;
    for (int j = 0; j < ages.length; j++) {
      gaps[j] = ages[j] - last;
      last = ages[j];
      spans.addFailure(0, gaps[j], 1);
    }
    if (end > last) {
      spans.addRightCensored(0, end - last, 1);
    }
    return gaps;
  }

  /** Scores for {@link GapPermutation}. */
  List<double[]> logs() {
    return complete.stream().map(x -> Arrays.stream(x).map(Math::log).toArray()).toList();
  }
}
