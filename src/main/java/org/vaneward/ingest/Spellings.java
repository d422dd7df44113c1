package org.vaneward.ingest;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * Spellings of the same name in one column. Two spellings are the same name when they differ in
 * white space and in capitals only; the one most rows use stands for all, the first met when
 * several are as frequent.
 */
final class Spellings {
  private static final Pattern BLANKS = Pattern.compile("\\s+");

  private final Map<String, Map<String, Long>> countsByName = new HashMap<>();
  private final Map<String, String> usualByRaw = new HashMap<>();

  /** Counts a spelling; blank ones do not count. */
  void add(String raw) {
    String spelling = collapsed(raw);
    if (!spelling.isEmpty()) {
      countsByName
          .computeIfAbsent(name(spelling), name -> new LinkedHashMap<>())
          .merge(spelling, 1L, Long::sum);
    }
  }

  /** The spelling that stands for {@code raw}. */
  String usual(String raw) {
    return usualByRaw.computeIfAbsent(raw, r -> mostFrequent(name(collapsed(r)), collapsed(r)));
  }

  private String mostFrequent(String name, String otherwise) {
    String best = otherwise;
    long most = 0;
    for (Map.Entry<String, Long> entry : countsByName.getOrDefault(name, Map.of()).entrySet()) {
      if (entry.getValue() > most) {
        most = entry.getValue();
        best = entry.getKey();
      }
    }
    return best;
  }

  private static String name(String spelling) {
    return spelling.toLowerCase(Locale.ROOT);
  }

  private static String collapsed(String raw) {
    return BLANKS.matcher(raw.strip()).replaceAll(" ");
  }
}
