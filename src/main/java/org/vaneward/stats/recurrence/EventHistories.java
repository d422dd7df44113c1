package org.vaneward.stats.recurrence;

import java.util.Arrays;
import java.util.Optional;

/**
 * Units with the ages of their events, as columns of numbers: immutable once built.
 *
 * <p>Unit {@code i} is watched over (start, end]; an event may come at the end of observation, and
 * several may come at one age. A start above 0 means that the unit was already that old when
 * watching began: nothing is known of its events before.
 */
public final class EventHistories {
  /** What ended observation. */
  public enum Truncation {
    /** A time that has nothing to do with the events. */
    TIME,
    /** The last event itself: it could come no later, and tells less than the others. */
    FAILURE
  }

  private final String[] ids;
  private final double[] start;
  private final double[] end;
  private final int[] first;
  private final double[] age;
  private final Truncation truncation;

  private EventHistories(
      String[] ids,
      double[] start,
      double[] end,
      int[] first,
      double[] age,
      Truncation truncation) {
    this.ids = ids;
    this.start = start;
    this.end = end;
    this.first = first;
    this.age = age;
    this.truncation = truncation;
  }

  /** An empty builder. */
  public static Builder builder() {
    return new Builder();
  }

  /** One unit watched from age 0. */
  public static EventHistories ofOne(double[] ages, double end) {
    return builder().addUnit(0, ages, end).build();
  }

  /** The same histories with what ended observation stated. */
  public EventHistories withTruncation(Truncation stated) {
    check(stated);
    return new EventHistories(ids, start, end, first, age, stated);
  }

  private void check(Truncation stated) {
    boolean one = false;
    for (int i = 0; i < size() && stated == Truncation.FAILURE; i++) {
      one |= endsAtEvent(i);
    }
    if (stated == Truncation.FAILURE && !one) {
      throw new IllegalArgumentException(
          "observation that ended with an event ends at its age; of "
              + size()
              + " units none does");
    }
  }

  /** Number of units. */
  public int size() {
    return start.length;
  }

  /** Name of unit {@code i}; empty when it was given none. */
  public String id(int i) {
    return ids[i];
  }

  /** Age from which unit {@code i} was watched. */
  public double start(int i) {
    return start[i];
  }

  /** Age to which unit {@code i} was watched. */
  public double end(int i) {
    return end[i];
  }

  /** Number of events of unit {@code i}. */
  public int events(int i) {
    return first[i + 1] - first[i];
  }

  /** Age of event {@code j} of unit {@code i}, counted from 0, in rising order. */
  public double age(int i, int j) {
    return age[first[i] + j];
  }

  /** Ages of the events of unit {@code i}, rising. */
  public double[] ages(int i) {
    return Arrays.copyOfRange(age, first[i], first[i + 1]);
  }

  /** Number of events of all units. */
  public int events() {
    return age.length;
  }

  /** Time under observation, summed over units. */
  public double totalTime() {
    double sum = 0;
    for (int i = 0; i < size(); i++) {
      sum += end[i] - start[i];
    }
    return sum;
  }

  /** Greatest age to which any unit was watched; 0 without units. */
  public double greatestEnd() {
    double greatest = 0;
    for (double e : end) {
      greatest = Math.max(greatest, e);
    }
    return greatest;
  }

  /**
   * What ended observation: as stated, otherwise {@code FAILURE} when there is a single unit whose
   * observation ends at its last event, and {@code TIME} in all other cases.
   */
  public Truncation truncation() {
    return truncation;
  }

  /** Whether the last event of unit {@code i} ended its observation. */
  public boolean endedByEvent(int i) {
    return truncation == Truncation.FAILURE && endsAtEvent(i);
  }

  private boolean endsAtEvent(int i) {
    return events(i) > 0 && age[first[i + 1] - 1] == end[i];
  }

  /** The columns themselves, for sums over all events in this package. */
  double[] allAges() {
    return age;
  }

  /** Index in {@link #allAges} of the first event of unit {@code i}. */
  int firstIndex(int i) {
    return first[i];
  }

  /** Collects units into growing columns. Not for use by several threads. */
  public static final class Builder {
    private String[] ids = new String[16];
    private double[] start = new double[16];
    private double[] end = new double[16];
    private int[] first = new int[17];
    private double[] age = new double[64];
    private Optional<Truncation> stated = Optional.empty();
    private int units;

    private Builder() {}

    /** Adds a unit without a name. */
    public Builder addUnit(double startAge, double[] ages, double endAge) {
      return addUnit("", startAge, ages, endAge);
    }

    /**
     * Adds a unit watched over (startAge, endAge].
     *
     * @param id name of the unit
     * @param startAge age from which it was watched, at least 0
     * @param ages ages of its events in any order, each above the start and at most the end. Not
     *     kept, not modified.
     * @param endAge age to which it was watched, above the start
     * @throws IllegalArgumentException when an age is out of its range
     */
    public Builder addUnit(String id, double startAge, double[] ages, double endAge) {
      if (!(startAge >= 0 && startAge < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException(
            "observation starts at an age of 0 or more, not " + startAge);
      }
      if (!(endAge > startAge && endAge < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException(
            "observation ends after its start at " + startAge + ", not at " + endAge);
      }
      for (double t : ages) {
        if (!(t > startAge && t <= endAge)) {
          throw new IllegalArgumentException(
              "an event comes after age " + startAge + " and by age " + endAge + ", not at " + t);
        }
      }
      makeRoom(ages.length);
      ids[units] = id;
      start[units] = startAge;
      end[units] = endAge;
      int from = first[units];
      System.arraycopy(ages, 0, age, from, ages.length);
      Arrays.sort(age, from, from + ages.length);
      units++;
      first[units] = from + ages.length;
      return this;
    }

    /** States what ended observation; {@link EventHistories#truncation} otherwise finds it. */
    public Builder truncation(Truncation what) {
      stated = Optional.of(what);
      return this;
    }

    /**
     * The units added so far.
     *
     * @throws IllegalArgumentException when observation is stated to have ended with an event, and
     *     no unit's does
     */
    public EventHistories build() {
      EventHistories built =
          new EventHistories(
              Arrays.copyOf(ids, units),
              Arrays.copyOf(start, units),
              Arrays.copyOf(end, units),
              Arrays.copyOf(first, units + 1),
              Arrays.copyOf(age, first[units]),
              Truncation.TIME);
      boolean endedByEvent = units == 1 && built.endsAtEvent(0);
      return built.withTruncation(
          stated.orElse(endedByEvent ? Truncation.FAILURE : Truncation.TIME));
    }

    private void makeRoom(int events) {
      if (units == start.length) {
        ids = Arrays.copyOf(ids, 2 * units);
        start = Arrays.copyOf(start, 2 * units);
        end = Arrays.copyOf(end, 2 * units);
        first = Arrays.copyOf(first, 2 * units + 1);
      }
      int needed = first[units] + events;
      if (needed > age.length) {
        age = Arrays.copyOf(age, Math.max(needed, 2 * age.length));
      }
    }
  }
}
