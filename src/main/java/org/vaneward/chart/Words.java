package org.vaneward.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Numbers as people read them, the same in every locale, and how much room text takes. */
final class Words {
  private Words() {}

  /** An age to the nearest one, thousands separated. */
  static String age(double age, AgeUnit unit) {
    return String.format(Locale.ROOT, "%,.0f ", age) + unit.symbol();
  }

  /** A count or a round tick: no decimals where none are needed, thousands separated. */
  static String plain(double value) {
    if (Math.rint(value) == value) {
      return String.format(Locale.ROOT, "%,.0f", value + 0.0);
    }
    String text = String.format(Locale.ROOT, "%,.6f", value);
    return text.replaceAll("0+$", "");
  }

  /** About three digits, thousands separated. */
  static String number(double value) {
    double size = Math.abs(value);
    if (size == 0) {
      return "0";
    }
    int decimals = (int) Math.max(0, Math.min(9, 2 - Math.floor(Math.log10(size))));
    return String.format(Locale.ROOT, "%,." + decimals + "f", value);
  }

  /** A share as percent, to three digits, without trailing zeros. */
  static String percent(double share) {
    double rounded = Math.rint(share * 1e5) / 1e3;
    return plain(rounded) + "%";
  }

  /** A share to four decimals, for tables. */
  static String share(double share) {
    return String.format(Locale.ROOT, "%.4f", share);
  }

  /** "a, b and c". */
  static String list(List<String> items) {
    int last = items.size() - 1;
    return last < 1
        ? String.join("", items)
        : String.join(", ", items.subList(0, last)) + " and " + items.get(last);
  }

  /** The first few, and how many more there are. */
  static String some(List<String> items, int most) {
    if (items.size() <= most) {
      return list(items);
    }
    return String.join(", ", items.subList(0, most)) + " and " + (items.size() - most) + " more";
  }

  /** "1 pump", "2 pumps". */
  static String counted(long count, String one, String many) {
    return String.format(Locale.ROOT, "%,d ", count) + (count == 1 ? one : many);
  }

  /**
   * About how wide text is, in pixels; the font that will be used is not known here. Letter widths
   * are those of a wide sans-serif face, rounded up.
   */
  static double width(String text, int size) {
    double ems = text.codePoints().mapToDouble(Words::ems).sum();
    return ems * size;
  }

  private static double ems(int letter) {
    if ("ijlI.,:;'|!()[] tf-".indexOf(letter) >= 0) {
      return 0.38;
    }
    if ("mwMW%@—…".indexOf(letter) >= 0) {
      return 0.98;
    }
    return Character.isUpperCase(letter) || letter > 0x2000 ? 0.74 : 0.63;
  }

  /** The largest letters, between two sizes, at which all texts fit; the smaller if none does. */
  static int largest(List<String> texts, double room, int most, int least) {
    int size = most;
    while (size > least && widest(texts, size) > room) {
      size--;
    }
    return size;
  }

  private static double widest(List<String> texts, int size) {
    return texts.stream().mapToDouble(text -> width(text, size)).max().orElse(0);
  }

  /** The pieces a text may be broken into. */
  static List<String> pieces(String text) {
    return List.of(text.split("(?<=[ -])"));
  }

  /** Text broken behind blanks and hyphens into lines of a width, what is too long is cut. */
  static List<String> lines(String text, int size, double room, int most) {
    List<String> lines = new ArrayList<>();
    String line = "";
    for (String piece : pieces(text)) {
      if (!line.isEmpty() && lines.size() < most - 1 && width(line + piece, size) > room) {
        lines.add(fit(line.stripTrailing(), size, room));
        line = "";
      }
      line += piece;
    }
    lines.add(fit(line.stripTrailing(), size, room));
    return lines;
  }

  /** Text cut to a width, with an ellipsis where something was cut. */
  static String fit(String text, int size, double room) {
    if (width(text, size) <= room) {
      return text;
    }
    int end = text.length();
    while (end > 0 && width(text.substring(0, end) + "…", size) > room) {
      end = text.offsetByCodePoints(end, -1);
    }
    return text.substring(0, end).stripTrailing() + "…";
  }
}
