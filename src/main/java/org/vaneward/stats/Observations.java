package org.vaneward.stats;

import java.util.AbstractList;
import java.util.Arrays;
import java.util.List;

/**
 * Lives as columns of numbers, for the fits: immutable once built, one row for each {@link
 * Observation}.
 *
 * <p>Row {@code i} is exact when {@code lower(i) == upper(i)}, right-censored at {@code lower(i)}
 * when {@code upper(i)} is infinite, and otherwise failed in (lower, upper].
 */
public final class Observations {
  private final double[] entry;
  private final double[] lower;
  private final double[] upper;
  private final double[] count;

  private Observations(double[] entry, double[] lower, double[] upper, double[] count) {
    this.entry = entry;
    this.lower = lower;
    this.upper = upper;
    this.count = count;
  }

  /** The given observations, in the given order. */
  public static Observations of(List<? extends Observation> list) {
    Builder builder = new Builder(list.size());
    for (Observation observation : list) {
      builder.add(observation);
    }
    return builder.build();
  }

  /** The given observations, in the given order. */
  public static Observations of(Observation... list) {
    return of(Arrays.asList(list));
  }

  /** A builder that needs no object for each life. */
  public static Builder builder() {
    return new Builder(16);
  }

  /** Number of rows. */
  public int size() {
    return lower.length;
  }

  /** Age at which row {@code i} comes under observation. */
  public double entry(int i) {
    return entry[i];
  }

  /** Age of failure or censoring, or the last age known not failed. */
  public double lower(int i) {
    return lower[i];
  }

  /** Age of failure, age by which it had failed, or infinity when right-censored. */
  public double upper(int i) {
    return upper[i];
  }

  /** How many lives row {@code i} stands for. */
  public double count(int i) {
    return count[i];
  }

  /** Whether row {@code i} failed at a known age. */
  public boolean isExact(int i) {
    return lower[i] == upper[i];
  }

  /** Whether row {@code i} had not failed when observation ended. */
  public boolean isRightCensored(int i) {
    return upper[i] == Double.POSITIVE_INFINITY;
  }

  /** Sum of the counts. */
  public double lives() {
    double sum = 0;
    for (double c : count) {
      sum += c;
    }
    return sum;
  }

  /** Sum of the counts of rows that failed, at a known age or within an interval. */
  public double failures() {
    double sum = 0;
    for (int i = 0; i < count.length; i++) {
      if (!isRightCensored(i)) {
        sum += count[i];
      }
    }
    return sum;
  }

  /** Row {@code i} as an observation. */
  public Observation get(int i) {
    if (isExact(i)) {
      return new Observation.Exact(entry[i], upper[i], count[i]);
    }
    if (isRightCensored(i)) {
      return new Observation.RightCensored(entry[i], lower[i], count[i]);
    }
    return new Observation.Interval(entry[i], lower[i], upper[i], count[i]);
  }

  /** A read-only view as a list. */
  public List<Observation> asList() {
    return new AbstractList<>() {
      @Override
      public Observation get(int index) {
        return Observations.this.get(index);
      }

      @Override
      public int size() {
        return Observations.this.size();
      }
    };
  }

  /** Collects rows into growing columns. Not for use by several threads. */
  public static final class Builder {
    private double[] entry;
    private double[] lower;
    private double[] upper;
    private double[] count;
    private int size;

    private Builder(int capacity) {
      int room = Math.max(capacity, 4);
      entry = new double[room];
      lower = new double[room];
      upper = new double[room];
      count = new double[room];
    }

    /** Adds an observation. */
    public Builder add(Observation observation) {
      if (observation instanceof Observation.Exact exact) {
        return append(exact.entry(), exact.age(), exact.age(), exact.count());
      }
      if (observation instanceof Observation.RightCensored censored) {
        return append(censored.entry(), censored.age(), Double.POSITIVE_INFINITY, censored.count());
      }
      Observation.Interval interval = (Observation.Interval) observation;
      return append(interval.entry(), interval.lower(), interval.upper(), interval.count());
    }

    /** Adds {@code n} lives that failed at {@code age}, observed from age {@code entryAge}. */
    public Builder addFailure(double entryAge, double age, double n) {
      Checks.life(entryAge, age, n);
      return append(entryAge, age, age, n);
    }

    /** Adds {@code n} lives not failed by {@code age}, observed from age {@code entryAge}. */
    public Builder addRightCensored(double entryAge, double age, double n) {
      Checks.life(entryAge, age, n);
      return append(entryAge, age, Double.POSITIVE_INFINITY, n);
    }

    /** The rows added so far. */
    public Observations build() {
      return new Observations(
          Arrays.copyOf(entry, size),
          Arrays.copyOf(lower, size),
          Arrays.copyOf(upper, size),
          Arrays.copyOf(count, size));
    }

    private Builder append(double e, double l, double u, double n) {
      if (size == entry.length) {
        int room = 2 * size;
        entry = Arrays.copyOf(entry, room);
        lower = Arrays.copyOf(lower, room);
        upper = Arrays.copyOf(upper, room);
        count = Arrays.copyOf(count, room);
      }
      entry[size] = e;
      lower[size] = l;
      upper[size] = u;
      count[size] = n;
      size++;
      return this;
    }
  }
}
