package org.vaneward.ingest;

import java.util.Collection;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import org.vaneward.io.Cell;

/**
 * Offers the known name nearest to one that is not known. It is only ever offered, never applied,
 * and only as long as looking for it stays cheap.
 */
final class Nearest {
  private static final int MOST_NAMES = 20_000;
  private static final int MOST_LOOKUPS = 200;
  private static final int LONGEST_NAME = 60;

  private final Collection<String> names;
  private final Map<String, String> offers = new HashMap<>();

  /** Looks among {@code names}, which may still grow. */
  Nearest(Collection<String> names) {
    this.names = names;
  }

  /** {@code "; nearest is 'P-12'"}, or nothing when no name is near. */
  String offer(String unknown) {
    String known = offers.get(unknown);
    if (known != null) {
      return known;
    }
    if (offers.size() >= MOST_LOOKUPS
        || names.size() > MOST_NAMES
        || unknown.length() > LONGEST_NAME) {
      return "";
    }
    String offer = find(unknown);
    offers.put(unknown, offer);
    return offer;
  }

  private String find(String unknown) {
    String wanted = unknown.toLowerCase(Locale.ROOT);
    int best = Math.max(1, wanted.length() / 3) + 1;
    String nearest = "";
    for (String name : names) {
      if (Math.abs(name.length() - wanted.length()) < best) {
        int distance = distance(wanted, name.toLowerCase(Locale.ROOT));
        if (distance < best) {
          best = distance;
          nearest = name;
        }
      }
    }
    return nearest.isEmpty() ? "" : "; nearest is " + Cell.quoted(nearest);
  }

  /** Insertions, deletions and replacements that turn {@code a} into {@code b} (Levenshtein). */
  static int distance(String a, String b) {
    int[] previous = new int[b.length() + 1];
    int[] current = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      previous[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      current[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int replaced = previous[j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        current[j] = Math.min(replaced, 1 + Math.min(previous[j], current[j - 1]));
      }
      int[] swap = previous;
      previous = current;
      current = swap;
    }
    return previous[b.length()];
  }
}
