package org.vaneward.adopt;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.vaneward.ingest.NumberForm;
import org.vaneward.io.Cell;
import org.vaneward.io.CsvWriter;

/** Finds how the numbers of some columns are written. */
final class NumberForms {
  private static final List<NumberForm> FORMS =
      List.of(
          NumberForm.PLAIN,
          new NumberForm(',', Optional.empty()),
          new NumberForm('.', Optional.of(',')),
          new NumberForm(',', Optional.of('.')),
          new NumberForm('.', Optional.of(' ')),
          new NumberForm(',', Optional.of(' ')),
          new NumberForm('.', Optional.of('\'')),
          new NumberForm(',', Optional.of('\'')),
          new NumberForm('.', Optional.of('\u2019')));

  /** A nought is no group of thousands: 0.125 is never 125. */
  private static final Pattern NOUGHT_GROUP = Pattern.compile("[+-]?0+[.,' \u2019]\\d{3}");

  /**
   * How numbers are written.
   *
   * @param form the form
   * @param because what speaks for it; empty where there is nothing to say
   * @param doubt what speaks against it
   * @param unread texts that are no number by it, with how often each stands
   */
  record Choice(
      NumberForm form, String because, Optional<String> doubt, Map<String, Integer> unread) {}

  private NumberForms() {}

  /** Whether a text is a number in any form, alone or with a unit behind it. */
  static boolean isNumber(String text) {
    return FORMS.stream().anyMatch(form -> read(form, digits(text)).isPresent());
  }

  /** The number of a text without the unit behind it. */
  static String digits(String text) {
    return NumberForm.withUnit(text).map(NumberForm.WithUnit::number).orElse(text);
  }

  /** Whether a unit stands behind the number. */
  static boolean hasUnit(String text) {
    return NumberForm.withUnit(text).isPresent();
  }

  /** What a text is by {@code form}, its unit left out. */
  static Optional<Double> read(NumberForm form, String text) {
    if (form.thousands().isPresent()
        && NOUGHT_GROUP.matcher(text).matches()
        && text.indexOf(form.decimal()) < 0) {
      return Optional.empty();
    }
    return form.plain(text).map(Double::valueOf);
  }

  /**
   * The form that reads most of {@code texts}.
   *
   * @param texts with how often each stands
   * @param separator what parts the cells of the file: a semicolon leaves the comma to decimals
   */
  static Choice choose(Map<String, Integer> texts, Optional<Character> separator) {
    List<NumberForm> best = new ArrayList<>();
    long most = -1;
    for (NumberForm form : FORMS) {
      long read = 0;
      for (Map.Entry<String, Integer> text : texts.entrySet()) {
        read += read(form, digits(text.getKey())).isPresent() ? text.getValue() : 0;
      }
      if (read > most) {
        best.clear();
        most = read;
      }
      if (read == most) {
        best.add(form);
      }
    }
    NumberForm first = best.get(0);
    NumberForm taken = first;
    Optional<String> doubt = Optional.empty();
    for (NumberForm other : best) {
      Optional<String> apart = apart(first, other, texts);
      if (apart.isPresent() && doubt.isEmpty()) {
        taken = usual(best, separator);
        doubt = Optional.of(doubt(taken, first, other, apart.get()));
      }
    }
    NumberForm form = taken;
    Map<String, Integer> unread = new LinkedHashMap<>(texts);
    unread.keySet().removeIf(text -> read(form, digits(text)).isPresent());
    return new Choice(form, because(form, texts), doubt, unread);
  }

  /** Of forms that read alike, the one that goes with the separator of the cells. */
  private static NumberForm usual(List<NumberForm> best, Optional<Character> separator) {
    char decimal = separator.filter(c -> c == ';').isPresent() ? ',' : '.';
    return best.stream().filter(f -> f.decimal() == decimal).findFirst().orElse(best.get(0));
  }

  private static Optional<String> apart(
      NumberForm one, NumberForm other, Map<String, Integer> texts) {
    return texts.keySet().stream()
        .filter(text -> read(one, digits(text)).isPresent())
        .filter(text -> !read(one, digits(text)).equals(read(other, digits(text))))
        .findFirst();
  }

  private static String doubt(NumberForm taken, NumberForm one, NumberForm other, String example) {
    NumberForm left = taken.equals(one) ? other : one;
    return Cell.quoted(example)
        + " is "
        + said(taken, example)
        + " or "
        + said(left, example)
        + ", and no cell tells which; proposed is "
        + words(taken);
  }

  private static String said(NumberForm form, String text) {
    return read(form, digits(text)).map(value -> CsvWriter.plain(value)).orElse("no number");
  }

  /** A form in words. */
  static String words(NumberForm form) {
    String decimal = form.decimal() == ',' ? "decimal comma" : "decimal point";
    return decimal
        + form.thousands()
            .map(mark -> ", thousands parted by " + Cell.quoted(String.valueOf(mark)))
            .orElse("");
  }

  private static String because(NumberForm form, Map<String, Integer> texts) {
    if (form.equals(NumberForm.PLAIN)) {
      return "";
    }
    return texts.keySet().stream()
        .filter(text -> read(form, digits(text)).isPresent())
        .filter(text -> read(NumberForm.PLAIN, digits(text)).isEmpty())
        .findFirst()
        .map(text -> words(form) + ", as in " + Cell.quoted(text))
        .orElse(words(form));
  }
}
