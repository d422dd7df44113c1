package org.vaneward.life;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.MeterReading;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.RowRef;
import org.vaneward.stats.DrawLimits;

/**
 * Cumulative running hours of one pump as a function of the day, over all the hour meters it has
 * had.
 *
 * <p>The count is 0 on the day of commissioning. What is read is the hour meter, at readings and
 * where an opening gives its own hours:
 *
 * <ul>
 *   <li>The first meter is taken to have started at 0 on that day.
 *   <li>A meter read before that day did not: what it last showed before is taken off.
 *   <li>Nor did one that first shows more than 24 hours for each day since. If it was read on the
 *       very day, what it showed is taken off; if later, the hours before are those of the usage
 *       rate.
 *   <li>Where the day of commissioning is unknown the zero is that of the first meter, and only
 *       differences mean anything.
 *   <li>A replaced meter goes on from the last reading of the old one. Where that is not known (not
 *       a number) the old meter is carried forward from its last reading.
 * </ul>
 *
 * <p>Between readings the hours are interpolated in proportion to the days. Past the last reading,
 * and before the first where commissioning is unknown, they are carried at the usage rate: the
 * stated hours a week, else an estimate, the median of the slopes between pairs of readings
 * (Theil–Sen) over the two years up to the last reading. Several readings on one day may have been
 * taken in any order; the day's hours are the highest, but 0 on the day of commissioning.
 *
 * <p>Readings that fall are set aside. An opening whose own hours fall below an earlier reading,
 * exceed a later one, or grow by more than 24 hours a day is {@linkplain #refusal(int) refused}; a
 * difference of up to an hour is rounding and is moved to the nearer reading.
 */
public final class RunningHours {
  /** Hours by which two readings may contradict each other by rounding alone. */
  static final double ROUNDING_HOURS = 1;

  private static final double HOURS_A_DAY = 24;
  private static final int RECENT_DAYS = 730;

  /** Pairs of readings closer than this say little of the usage. */
  private static final int PAIR_DAYS = 28;

  /** Readings used in the estimate of usage: enough for the median, few enough to pair. */
  private static final int MOST_READINGS = 60;

  private final LocalDate reference;
  private final boolean fromCommissioning;
  private final long[] days;
  private final double[] hours;
  private final double[] atOpening;
  private final List<String> refusals;
  private final double ratePerWeek;
  private final List<RowNote> notes;

  private RunningHours(PumpHistory history, Reader reader, Usage usage, LocalDate reference) {
    this.reference = reference;
    this.fromCommissioning = reader.anchored;
    this.days = reader.knots.days();
    this.hours = reader.knots.hours();
    this.atOpening = reader.atOpening;
    this.refusals = List.of(reader.refusals);
    this.ratePerWeek = history.pump().hoursPerWeek().orElse(7 * usage.perDay);
    this.notes = List.copyOf(reader.notes);
  }

  /**
   * The running hours of a pump.
   *
   * @param history its records, each list in order of date
   * @param asOf last day the records speak of; later readings are set aside
   */
  public static RunningHours of(PumpHistory history, LocalDate asOf) {
    Reader reader = new Reader(history, asOf);
    reader.readMeter();
    reader.readOpenings();
    Usage usage = Usage.of(history.pump(), reader.knots);
    reader.anchor(usage);
    if (Double.isNaN(usage.perDay)) {
      usage = Usage.of(history.pump(), reader.knots);
    }
    return new RunningHours(history, reader, usage, reference(history, asOf));
  }

  private static LocalDate reference(PumpHistory history, LocalDate asOf) {
    Pump pump = history.pump();
    return pump.commissioned().or(pump::recordsFrom).orElse(asOf);
  }

  /**
   * Hours run up to a day.
   *
   * @return empty before commissioning, and where there is neither a reading to interpolate nor a
   *     usage rate to carry by
   */
  public Optional<Hours> at(LocalDate date) {
    long day = date.toEpochDay();
    if (fromCommissioning && day == days[0]) {
      return Optional.of(new Hours(0, Basis.READ));
    }
    if (days.length == 0) {
      return carried(0, day - reference.toEpochDay());
    }
    int after = firstAfter(day);
    if (after == 0) {
      return fromCommissioning ? Optional.empty() : carried(hours[0], day - days[0]);
    }
    int before = after - 1;
    if (days[before] == day) {
      return Optional.of(new Hours(hours[before], Basis.READ));
    }
    if (after == days.length) {
      return carried(hours[before], day - days[before]);
    }
    return Optional.of(new Hours(between(day), Basis.INTERPOLATED));
  }

  /**
   * Running hours a week: stated, else estimated from the readings; empty when neither is known.
   */
  public OptionalDouble hoursPerWeek() {
    return Double.isNaN(ratePerWeek) ? OptionalDouble.empty() : OptionalDouble.of(ratePerWeek);
  }

  /** The usage rate with its spread; empty when no rate is known. */
  public Optional<UsageRate> usageRate() {
    if (Double.isNaN(ratePerWeek)) {
      return Optional.empty();
    }
    UsageBlocks blocks = UsageBlocks.of(days, hours, RECENT_DAYS);
    return Optional.of(new UsageRate(ratePerWeek, blocks.standardDeviation(), blocks.size()));
  }

  /** Hours on a day between two readings. */
  private double between(long day) {
    int after = firstAfter(day);
    double share = (double) (day - days[after - 1]) / (days[after] - days[after - 1]);
    return hours[after - 1] + share * (hours[after] - hours[after - 1]);
  }

  /** Readings set aside or repaired. */
  public List<RowNote> notes() {
    return notes;
  }

  /**
   * Hours run up to opening {@code i} of the history: its own where given, else those of its day.
   */
  Optional<Hours> atOpening(int i, LocalDate date) {
    return Double.isNaN(atOpening[i]) ? at(date) : Optional.of(new Hours(atOpening[i], Basis.READ));
  }

  /** Why the hours of opening {@code i} contradict the readings; blank when they do not. */
  String refusal(int i) {
    return refusals.get(i);
  }

  private Optional<Hours> carried(double from, long daysOn) {
    return Double.isNaN(ratePerWeek)
        ? Optional.empty()
        : Optional.of(new Hours(from + ratePerWeek / 7 * daysOn, Basis.CARRIED));
  }

  private int firstAfter(long day) {
    return Knots.firstAfter(days, days.length, day);
  }

  /**
   * Hours run, and how they are known.
   *
   * @param hours running hours since commissioning
   * @param basis how they are known
   */
  public record Hours(double hours, Basis basis) {}

  /** How a number of hours is known. */
  public enum Basis {
    /** Read off the meter that day. */
    READ,
    /** Interpolated between two readings. */
    INTERPOLATED,
    /** Carried from the nearest reading at the pump's usage rate. */
    CARRIED
  }

  /** Days and hours in ascending order of both. */
  private static final class Knots {
    private long[] days = new long[16];
    private double[] hours = new double[16];
    private int size;

    void add(long day, double value) {
      if (size == days.length) {
        days = Arrays.copyOf(days, 2 * size);
        hours = Arrays.copyOf(hours, 2 * size);
      }
      days[size] = day;
      hours[size] = value;
      size++;
    }

    long[] days() {
      return Arrays.copyOf(days, size);
    }

    double[] hours() {
      return Arrays.copyOf(hours, size);
    }

    void shift(double by) {
      for (int i = 0; i < size; i++) {
        hours[i] += by;
      }
    }

    /** These and others, in order of day and, within a day, of hours. */
    Knots mergedWith(Knots other) {
      Knots merged = new Knots();
      int i = 0;
      int j = 0;
      while (i < size || j < other.size) {
        if (j == other.size || (i < size && comesFirst(i, other, j))) {
          merged.add(days[i], hours[i]);
          i++;
        } else {
          merged.add(other.days[j], other.hours[j]);
          j++;
        }
      }
      return merged;
    }

    private boolean comesFirst(int i, Knots other, int j) {
      return days[i] != other.days[j] ? days[i] < other.days[j] : hours[i] <= other.hours[j];
    }

    static int firstAfter(long[] days, int size, long day) {
      int low = 0;
      int high = size;
      while (low < high) {
        int middle = (low + high) >>> 1;
        if (days[middle] <= day) {
          low = middle + 1;
        } else {
          high = middle;
        }
      }
      return low;
    }
  }

  /** Turns what the meters showed into hours of one count. */
  private static final class Reader {
    private final PumpHistory history;
    private final LocalDate asOf;
    private final List<RowNote> notes = new ArrayList<>();
    private final double[] atOpening;
    private final String[] refusals;

    /** Day from which each meter counts, and what to add to it. */
    private final Knots meters = new Knots();

    /** What to add to the old meter on the day it was replaced, and its last reading. */
    private final List<Replacement> replacements = new ArrayList<>();

    private Knots knots = new Knots();
    private boolean anchored;

    Reader(PumpHistory history, LocalDate asOf) {
      this.history = history;
      this.asOf = asOf;
      this.atOpening = new double[history.openings().size()];
      this.refusals = new String[history.openings().size()];
      Arrays.fill(atOpening, Double.NaN);
      Arrays.fill(refusals, "");
    }

    void readMeter() {
      meters.add(Long.MIN_VALUE, 0);
      double offset = 0;
      for (MeterReading reading : history.readings()) {
        if (reading.date().isAfter(asOf)) {
          refuse(reading.row(), "date", "dated after " + asOf + ", the last day of record");
        } else if (reading.meterReplaced()) {
          offset = replaced(reading, offset);
        } else {
          read(reading, offset + reading.hours());
        }
      }
    }

    private void read(MeterReading reading, double total) {
      if (!(total >= lastHours() - ROUNDING_HOURS) || reading.date().toEpochDay() < lastDay()) {
        refuse(
            reading.row(),
            "hours",
            "hours fall without a meter event: a reading is at least the one before it");
        return;
      }
      knots.add(reading.date().toEpochDay(), Math.max(total, lastHours()));
    }

    private double replaced(MeterReading reading, double offset) {
      long day = reading.date().toEpochDay();
      double old = reading.oldMeterHours().orElse(Double.NaN);
      double total = offset + old;
      if (!(total >= lastHours() - ROUNDING_HOURS)) {
        total = carriedTo(day);
        notes.add(
            RowNote.repaired(
                reading.row(),
                "old_hours",
                "last reading of the old meter unusable: old meter carried forward",
                Effect.USAGE_ESTIMATED));
      }
      total = Math.max(total, knots.size == 0 ? total : lastHours());
      knots.add(day, total);
      replacements.add(new Replacement(day, offset, total - offset, reading.hours()));
      meters.add(day, total - reading.hours());
      return total - reading.hours();
    }

    /** The last hours carried to a day: at the stated rate, else at that of the readings so far. */
    private double carriedTo(long day) {
      if (knots.size == 0) {
        return 0;
      }
      double rate = Usage.of(history.pump(), knots).perDay;
      return lastHours() + (Double.isNaN(rate) ? 0 : rate * Math.max(0, day - lastDay()));
    }

    private double lastHours() {
      return knots.size == 0 ? Double.NEGATIVE_INFINITY : knots.hours[knots.size - 1];
    }

    private long lastDay() {
      return knots.size == 0 ? Long.MIN_VALUE : knots.days[knots.size - 1];
    }

    private void refuse(RowRef row, String column, String reason) {
      notes.add(RowNote.setAside(row, column, reason, Effect.READING_LOST));
    }

    void readOpenings() {
      Knots own = new Knots();
      List<Opening> openings = history.openings();
      for (int i = 0; i < openings.size(); i++) {
        Opening opening = openings.get(i);
        if (opening.meterHours().isPresent() && !opening.date().isAfter(asOf)) {
          readOpening(i, opening, own);
        }
      }
      knots = knots.mergedWith(own);
    }

    private void readOpening(int i, Opening opening, Knots own) {
      long day = opening.date().toEpochDay();
      double meter = opening.meterHours().orElseThrow();
      double total = meter + offsetAt(day, meter);
      int after = Knots.firstAfter(knots.days, knots.size, day);
      int before = Knots.firstAfter(knots.days, knots.size, day - 1) - 1;
      boolean openingLast =
          own.size > 0 && (before < 0 || own.hours[own.size - 1] >= knots.hours[before]);
      double low = before < 0 ? Double.NEGATIVE_INFINITY : knots.hours[before];
      long lowDay = before < 0 ? Long.MIN_VALUE : knots.days[before];
      if (openingLast) {
        low = own.hours[own.size - 1];
        lowDay = own.days[own.size - 1];
      }
      double high = after == knots.size ? Double.POSITIVE_INFINITY : knots.hours[after];
      String refusal = refusal(total, low, lowDay, high, day);
      if (refusal.isEmpty()) {
        atOpening[i] = Math.min(Math.max(total, low), high);
        own.add(day, atOpening[i]);
      } else {
        refusals[i] = String.format(Locale.ROOT, "%.0f hours on the meter %s", meter, refusal);
      }
    }

    private static String refusal(double total, double low, long lowDay, double high, long day) {
      if (day < lowDay) {
        return "come after an opening of a later day";
      }
      if (!(total >= low - ROUNDING_HOURS)) {
        return "fall below an earlier reading without a meter event";
      }
      if (!(total <= high + ROUNDING_HOURS)) {
        return "exceed a later reading";
      }
      boolean tooFast = lowDay > Long.MIN_VALUE && total - low > HOURS_A_DAY * (day - lowDay + 1);
      return tooFast ? "are more than 24 a day since the reading before" : "";
    }

    /**
     * What to add to the meter of a day. On the day of a replacement an opening shows the old meter
     * if that can be, else the nearer of the two.
     */
    private double offsetAt(long day, double meter) {
      for (int r = replacements.size() - 1; r >= 0 && replacements.get(r).day >= day; r--) {
        Replacement replacement = replacements.get(r);
        double fromOld = Math.abs(meter - replacement.oldMeter);
        boolean old = fromOld <= HOURS_A_DAY || fromOld <= Math.abs(meter - replacement.newMeter);
        if (replacement.day == day && old) {
          return replacement.oldOffset;
        }
      }
      return meters.hours[Knots.firstAfter(meters.days, meters.size, day) - 1];
    }

    /** Puts the zero of the count on the day of commissioning, where that is known. */
    void anchor(Usage usage) {
      if (history.pump().commissioned().isEmpty() || knots.size == 0) {
        return;
      }
      long start = history.pump().commissioned().get().toEpochDay();
      int first = Knots.firstAfter(knots.days, knots.size, start - 1);
      if (first > 0) {
        zeroAt(start, first, -knots.hours[first - 1]);
      } else if (knots.hours[0] <= HOURS_A_DAY * (knots.days[0] - start + 1)) {
        zeroAt(start, first, 0);
      } else if (knots.days[0] == start) {
        zeroAt(start, first, -knots.hours[0]);
      } else if (!Double.isNaN(usage.perDay)) {
        zeroAt(start, first, usage.perDay * (knots.days[0] - start) - knots.hours[0]);
        notes.add(
            RowNote.repaired(
                history.pump().row(),
                "commissioned",
                "the first hours read are more than 24 a day since commissioning: the meter did"
                    + " not start at 0, hours before it taken at the usage rate",
                Effect.USAGE_ESTIMATED));
      }
    }

    private void zeroAt(long start, int firstKept, double shift) {
      Knots anchoredKnots = new Knots();
      anchoredKnots.add(start, 0);
      knots.shift(shift);
      for (int i = firstKept; i < knots.size; i++) {
        anchoredKnots.add(knots.days[i], knots.hours[i]);
      }
      for (int i = 0; i < atOpening.length; i++) {
        atOpening[i] += shift;
      }
      knots = anchoredKnots;
      anchored = true;
    }
  }

  private record Replacement(long day, double oldOffset, double oldMeter, double newMeter) {}

  /** Hours a day; not a number when unknown. */
  private record Usage(double perDay) {
    static Usage of(Pump pump, Knots knots) {
      if (pump.hoursPerWeek().isPresent()) {
        return new Usage(pump.hoursPerWeek().getAsDouble() / 7);
      }
      if (knots.size == 0) {
        return new Usage(Double.NaN);
      }
      long recent = knots.days[knots.size - 1] - RECENT_DAYS;
      int from = Knots.firstAfter(knots.days, knots.size, recent - 1);
      double[] slopes = slopes(knots, from, PAIR_DAYS);
      if (slopes.length == 0) {
        slopes = slopes(knots, 0, PAIR_DAYS);
      }
      if (slopes.length == 0) {
        slopes = slopes(knots, 0, 1);
      }
      return ofSlopes(slopes);
    }

    private static Usage ofSlopes(double[] slopes) {
      if (slopes.length == 0) {
        return new Usage(Double.NaN);
      }
      Arrays.sort(slopes);
      return new Usage(DrawLimits.quantileOfSorted(slopes, 0.5));
    }

    private static double[] slopes(Knots knots, int from, int atLeastDays) {
      int[] chosen = chosen(from, knots.size);
      double[] slopes = new double[chosen.length * (chosen.length - 1) / 2];
      int n = 0;
      for (int a = 0; a < chosen.length; a++) {
        for (int b = a + 1; b < chosen.length; b++) {
          long apart = knots.days[chosen[b]] - knots.days[chosen[a]];
          if (apart >= atLeastDays) {
            slopes[n++] = (knots.hours[chosen[b]] - knots.hours[chosen[a]]) / apart;
          }
        }
      }
      return Arrays.copyOf(slopes, n);
    }

    /**
     * At most {@link #MOST_READINGS} of the readings, evenly taken, the first and last among them.
     */
    private static int[] chosen(int from, int to) {
      int n = Math.min(to - from, MOST_READINGS);
      int[] chosen = new int[n];
      for (int i = 0; i < n; i++) {
        chosen[i] = n == 1 ? from : from + (int) ((long) i * (to - from - 1) / (n - 1));
      }
      return chosen;
    }
  }
}
