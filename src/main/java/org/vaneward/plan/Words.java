package org.vaneward.plan;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.Optional;
import org.vaneward.fleet.Service;

/** Numbers and days in sentences. */
final class Words {
  private Words() {}

  /** {@code 5,210 h}. */
  static String amount(double value, String unit) {
    return String.format(Locale.ROOT, "%,.0f %s", value, unit);
  }

  /** {@code 1,250}, {@code 1.2}, {@code 0.05}: at most two decimals, none that is nought. */
  static String number(double value) {
    String text = String.format(Locale.ROOT, "%,.2f", value);
    return text.endsWith(".00")
        ? text.substring(0, text.length() - 3)
        : text.endsWith("0") ? text.substring(0, text.length() - 1) : text;
  }

  /** {@code 10%}, {@code 2.5%}. */
  static String percent(double share) {
    String text = String.format(Locale.ROOT, "%.1f", 100 * share);
    return (text.endsWith(".0") ? text.substring(0, text.length() - 2) : text) + "%";
  }

  /** {@code petrol, loading}. */
  static String service(Optional<Service> service) {
    return service.map(Service::toString).orElse("a service not on record");
  }

  /** {@code , 12 days ago}; nothing for today and later. */
  static String ago(LocalDate day, LocalDate today) {
    long days = ChronoUnit.DAYS.between(day, today);
    return days <= 0
        ? ""
        : days == 1 ? ", yesterday" : String.format(Locale.ROOT, ", %,d days ago", days);
  }

  /** With a capital letter and a full stop. */
  static String sentence(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1) + ".";
  }
}
