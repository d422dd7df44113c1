package org.vaneward.ingest;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.vaneward.io.Numbers;

/**
 * How numbers are written.
 *
 * @param decimal what stands before the decimals, point or comma
 * @param thousands what may stand between groups of three digits; empty when nothing does
 */
public record NumberForm(char decimal, Optional<Character> thousands) {
  /** As the record format has them. */
  public static final NumberForm PLAIN = new NumberForm('.', Optional.empty());

  private static final Pattern SPACES = Pattern.compile("[ \\u00A0\\u2009\\u202F]");
  private static final Pattern GROUPED = Pattern.compile("[+-]?\\d{1,3}( \\d{3})+(\\.\\d*)?");
  private static final Pattern WITH_UNIT =
      Pattern.compile("([+-]?[\\d.,'\u2019 \u00a0]*\\d)\\s*([^\\d\\s.,].{0,19})");
  private static final char BLANK = ' ';

  /** A number and what stands behind it. */
  public record WithUnit(String number, String unit) {}

  /** A text such as {@code 12 thou}, in two; empty when it is not one. */
  public static Optional<WithUnit> withUnit(String text) {
    Matcher parts = WITH_UNIT.matcher(text);
    return parts.matches()
        ? Optional.of(new WithUnit(parts.group(1).strip(), parts.group(2).strip()))
        : Optional.empty();
  }

  /** The number with a decimal point and nothing between its digits; empty when it is none. */
  public Optional<String> plain(String text) {
    return Optional.of(equals(PLAIN) ? text : marked(text)).filter(Numbers::isNumber);
  }

  private String marked(String text) {
    String spaced = SPACES.matcher(text).replaceAll(" ");
    StringBuilder marked = new StringBuilder(spaced.length());
    for (int i = 0; i < spaced.length(); i++) {
      char c = spaced.charAt(i);
      if (c == decimal) {
        marked.append('.');
      } else if (thousands.isPresent() && c == thousands.get()) {
        marked.append(BLANK);
      } else if (c == '.' || c == BLANK) {
        return "";
      } else {
        marked.append(c);
      }
    }
    String number = marked.toString();
    return GROUPED.matcher(number).matches() ? number.replace(" ", "") : number;
  }

  /** How a number is to be written, for messages. */
  String example() {
    return "1" + thousands.map(String::valueOf).orElse("") + "234" + decimal + "5";
  }

  /** What is wrong with a text that is no number of this form. */
  String problem(String text) {
    if (!equals(PLAIN)) {
      return "not a number as mapping in fleet.json has them; write it as " + example();
    }
    return text.indexOf(',') >= 0
        ? "decimals use a point and thousands no separator, as in 1234.5"
        : "not a number; write it as 1234.5";
  }
}
