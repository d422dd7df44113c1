package org.vaneward.ingest;

import java.text.ParsePosition;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.ResolverStyle;
import java.time.temporal.ChronoField;
import java.time.temporal.TemporalQueries;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** How days are written: by one pattern or by one of several. */
public final class DateForm {
  /** As the record format has them. */
  public static final DateForm ISO = new DateForm(List.of(), List.of());

  private static final Pattern LITERAL = Pattern.compile("'[^']*'");

  /** What a pattern has no use for here; padding trips the builder of formats besides. */
  private static final Pattern OTHER_LETTER = Pattern.compile("[a-zA-Z&&[^dMLyuEHhKkmsSa]]");

  private static final Pattern ISO_DATE = Pattern.compile("\\d{4}-\\d{2}-\\d{2}");
  private static final String EXAMPLE = "2024-03-31";
  private static final LocalDate SHOWN = LocalDate.of(2024, 3, 31);

  /** A year of two digits is one of the hundred that end this many years after the records. */
  private static final int YEARS_AHEAD = 1;

  private final List<String> patterns;
  private final List<DateTimeFormatter> formats;

  private DateForm(List<String> patterns, List<DateTimeFormatter> formats) {
    this.patterns = patterns;
    this.formats = formats;
  }

  /**
   * Days written by {@code patterns} of {@link DateTimeFormatter}, such as {@code dd.MM.yyyy}; a
   * year of two digits lies in the hundred years before {@code asOf}.
   *
   * @param language of the names of months
   * @throws IllegalArgumentException when a pattern is none, or tells no day
   */
  public static DateForm of(List<String> patterns, Locale language, LocalDate asOf) {
    List<DateTimeFormatter> formats = new ArrayList<>();
    for (String pattern : patterns) {
      DateTimeFormatter format = format(pattern, language, asOf);
      if (!day(format, format.format(SHOWN.atTime(12, 30))).equals(Optional.of(SHOWN))) {
        throw new IllegalArgumentException("it does not tell day, month and year");
      }
      formats.add(format);
    }
    return new DateForm(List.copyOf(patterns), formats);
  }

  private static DateTimeFormatter format(String pattern, Locale language, LocalDate asOf) {
    Matcher other = OTHER_LETTER.matcher(LITERAL.matcher(pattern).replaceAll(""));
    if (other.find()) {
      throw new IllegalArgumentException(
          "'" + other.group() + "' is no letter of a day or a time; put text into single quotes");
    }
    DateTimeFormatterBuilder builder = new DateTimeFormatterBuilder().parseCaseInsensitive();
    // A year of the era is no year to a strict reader: u is the year itself.
    String years = pattern.replace('y', 'u');
    int at = years.indexOf("uu");
    if (at >= 0 && !years.contains("uuu")) {
      append(builder, years.substring(0, at));
      builder.appendValueReduced(ChronoField.YEAR, 2, 2, asOf.plusYears(YEARS_AHEAD - 99L));
      append(builder, years.substring(at + 2));
    } else {
      builder.appendPattern(years);
    }
    return builder.toFormatter(language).withResolverStyle(ResolverStyle.STRICT);
  }

  private static void append(DateTimeFormatterBuilder builder, String pattern) {
    if (!pattern.isEmpty()) {
      builder.appendPattern(pattern);
    }
  }

  private static Optional<LocalDate> day(DateTimeFormatter format, String text) {
    ParsePosition end = new ParsePosition(0);
    // Most texts that are no such day end here, without the cost of an exception.
    if (format.parseUnresolved(text, end) == null || end.getIndex() != text.length()) {
      return Optional.empty();
    }
    try {
      return Optional.ofNullable(format.parse(text).query(TemporalQueries.localDate()));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  /**
   * The days that {@code text} can mean: none when it is no day, more than one when several
   * patterns read it as different days.
   */
  public Set<LocalDate> days(String text) {
    if (isIso()) {
      return iso(text).map(Set::of).orElse(Set.of());
    }
    Set<LocalDate> days = new LinkedHashSet<>();
    for (DateTimeFormatter format : formats) {
      day(format, text).ifPresent(days::add);
    }
    return days;
  }

  /** Whether days are written as the record format has them. */
  private boolean isIso() {
    return formats.isEmpty();
  }

  /** What is wrong with a text that is no day of this form. */
  String problem(String text) {
    if (!isIso()) {
      return "not a date as mapping in fleet.json has them (" + String.join(", ", patterns) + ")";
    }
    return ISO_DATE.matcher(text).matches()
        ? "not a day of the calendar; write it as " + EXAMPLE
        : "not a date; write it as " + EXAMPLE;
  }

  /** The day of a text in ISO 8601; empty when it is none. */
  private static Optional<LocalDate> iso(String text) {
    if (!ISO_DATE.matcher(text).matches()) {
      return Optional.empty();
    }
    try {
      return Optional.of(LocalDate.parse(text));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }
}
