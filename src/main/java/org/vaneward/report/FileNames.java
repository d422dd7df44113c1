package org.vaneward.report;

import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;

/**
 * File names made from tags and site names as people write them: letters, digits, dot, dash and
 * underscore, none that a system takes for a path, no two that differ in case alone. The same names
 * give the same file names.
 */
final class FileNames {
  private static final int LONGEST = 60;

  private final Map<String, String> files = new HashMap<>();

  /** File names, without an ending, of {@code names}. */
  FileNames(List<String> names) {
    Set<String> taken = new HashSet<>();
    for (String name : names) {
      String file = plain(name);
      // A tag altered could meet another one altered alike: its own digest keeps them apart.
      if (file.isEmpty() || !file.equals(name) || taken.contains(file.toLowerCase(Locale.ROOT))) {
        file = file + "-" + digest(name);
      }
      taken.add(file.toLowerCase(Locale.ROOT));
      files.put(name, file);
    }
  }

  /**
   * The file name of {@code name}.
   *
   * @throws IllegalArgumentException when it was not among the names given
   */
  String of(String name) {
    String file = files.get(name);
    if (file == null) {
      throw new IllegalArgumentException(name + " has no file name");
    }
    return file;
  }

  private static String plain(String name) {
    String plain = name.strip().replaceAll("[^A-Za-z0-9_-]+", "_");
    return plain.substring(0, Math.min(plain.length(), LONGEST));
  }

  private static String digest(String name) {
    return UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8)).toString().substring(0, 8);
  }
}
