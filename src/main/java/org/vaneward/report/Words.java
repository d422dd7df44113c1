package org.vaneward.report;

import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.stats.Estimate;

/**
 * Numbers as a person reads them: thousands separated, units written, never more digits than they
 * carry.
 */
public final class Words {
  /** Stands where there is no number. */
  public static final String NONE = "–";

  private static final double NEVER = 1e12;
  private static final double LEAST_PERCENT = 0.05;
  private static final double LEAST_P = 0.0005;
  private static final int SIGNIFICANT = 4;
  private static final int LINE = 110;

  private Words() {}

  /** A whole number with thousands separated. */
  public static String whole(double value) {
    return Double.isFinite(value) && Math.abs(value) < NEVER
        ? String.format(Locale.ROOT, "%,d", Math.round(value))
        : NONE;
  }

  /** A whole number with thousands separated. */
  public static String whole(long value) {
    return String.format(Locale.ROOT, "%,d", value);
  }

  /** Money with its currency, to the nearest unit. */
  public static String money(double amount, String currency) {
    return Double.isFinite(amount) ? (currency + " " + whole(amount)).strip() : NONE;
  }

  /** Money with its currency, to three digits: for sums that are not known better. */
  static String about(double amount, String currency) {
    if (!Double.isFinite(amount) || amount == 0) {
      return money(amount, currency);
    }
    double unit = Math.pow(10, Math.floor(Math.log10(Math.abs(amount))) - 2);
    return money(unit > 1 ? unit * Math.round(amount / unit) : amount, currency);
  }

  /** A share in percent: one decimal below ten percent and close to all, none between. */
  public static String percent(double share) {
    if (!Double.isFinite(share)) {
      return NONE;
    }
    double percent = 100 * share;
    if (percent > 0 && percent < LEAST_PERCENT) {
      return "<0.1%";
    }
    if (percent > -LEAST_PERCENT && percent <= 0) {
      return "0%";
    }
    if (share < 1 && percent >= 100 - LEAST_PERCENT) {
      return ">99.9%";
    }
    boolean fine = percent < 9.95 || (percent >= 99.5 && share < 1);
    return String.format(Locale.ROOT, fine ? "%.1f%%" : "%.0f%%", percent);
  }

  /** A p-value: three decimals, and never 0. */
  public static String p(double p) {
    if (!Double.isFinite(p)) {
      return NONE;
    }
    return p < LEAST_P ? "<0.001" : String.format(Locale.ROOT, "%.3f", p);
  }

  /** A pure number that may be negative, three decimals. */
  static String difference(double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, "%,.3f", value) : NONE;
  }

  /** A shape or another pure number, two decimals. */
  public static String number(double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, "%,.2f", value) : NONE;
  }

  /** A pure number with its limits. */
  public static String number(Estimate estimate) {
    return number(estimate.estimate())
        + " ("
        + number(estimate.lower())
        + " to "
        + (Double.isFinite(estimate.upper()) ? number(estimate.upper()) : "no limit")
        + ")";
  }

  /** A number of unknown unit to four significant digits, thousands separated. */
  public static String significant(double value) {
    if (!Double.isFinite(value) || Math.abs(value) >= NEVER) {
      return value > 0 ? "no limit" : NONE;
    }
    int decimals =
        value == 0 ? 0 : (int) (SIGNIFICANT - 1 - Math.floor(Math.log10(Math.abs(value))));
    return String.format(Locale.ROOT, "%,." + Math.max(0, decimals) + "f", value);
  }

  /** The unit of ages in a fleet's clock. */
  public static String unit(Clock clock) {
    return clock == Clock.DAYS ? "days" : "h";
  }

  /** What ages are counted in, in words: {@code "running hours"} or {@code "days"}. */
  static String unitWords(Clock clock) {
    return clock == Clock.DAYS ? "days" : "running hours";
  }

  /** An age in {@code unit}, to the nearest ten above a thousand, to the nearest one below. */
  static String age(double age, String unit) {
    return Double.isFinite(age) ? whole(rounded(age)) + " " + unit : NONE;
  }

  /** An age, or a dash when there is none. */
  static String age(OptionalDouble age, String unit) {
    return age.isPresent() ? age(age.getAsDouble(), unit) : NONE;
  }

  /** An age with its limits: {@code "4,210 h (3,600 to 5,000)"}. */
  static String age(Estimate estimate, String unit) {
    return age(estimate.estimate(), unit)
        + " ("
        + limit(estimate.lower(), rounded(estimate.lower()))
        + " to "
        + limit(estimate.upper(), rounded(estimate.upper()))
        + ")";
  }

  /** A range of ages in {@code unit}; an upper end that is missing is written as open. */
  static String ageRange(double from, OptionalDouble to, String unit) {
    return whole(rounded(from)) + " to " + (to.isPresent() ? age(to, unit) : "no upper end");
  }

  /**
   * A line for a terminal, broken at spaces to about 110 columns; what follows the first break
   * stands indented by {@code indent}.
   */
  static String wrapped(String line, int indent) {
    StringBuilder text = new StringBuilder();
    String rest = line;
    while (rest.length() > LINE) {
      int at = rest.lastIndexOf(' ', LINE);
      if (at <= indent) {
        at = rest.indexOf(' ', LINE);
      }
      if (at < 0) {
        break;
      }
      text.append(rest, 0, at).append('\n');
      rest = " ".repeat(indent) + rest.substring(at + 1);
    }
    return text.append(rest).append('\n').toString();
  }

  /** The number without its box. */
  static OptionalDouble optional(Optional<Double> value) {
    return value.map(OptionalDouble::of).orElse(OptionalDouble.empty());
  }

  /** A date, or a dash. */
  public static String date(Optional<LocalDate> date) {
    return date.map(LocalDate::toString).orElse(NONE);
  }

  /** {@code "2.4 times"}. */
  static String times(double ratio) {
    return String.format(Locale.ROOT, "%.1f times", ratio);
  }

  /** The words with a capital first letter; a file's name stays as it is. */
  static String capital(String word) {
    return word.isEmpty() || word.startsWith("fleet.json")
        ? word
        : word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1);
  }

  /** {@code "1 pump"}, {@code "12 pumps"}. */
  public static String count(long n, String one, String many) {
    return whole(n) + " " + (n == 1 ? one : many);
  }

  private static String limit(double exact, double rounded) {
    return Double.isFinite(exact) && exact < NEVER ? whole(rounded) : "no limit";
  }

  private static double rounded(double hours) {
    return Math.abs(hours) >= 1000 ? 10.0 * Math.round(hours / 10) : Math.round(hours);
  }
}
