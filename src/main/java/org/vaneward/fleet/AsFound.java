package org.vaneward.fleet;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** In what state a part was found. */
public enum AsFound {
  FAILED,
  WORN,
  GOOD,
  NOT_SEEN;

  private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

  /** The word the records use, such as {@code not-seen}. */
  public String word() {
    return word;
  }

  /** The value a word of the records names; empty when it names none. */
  public static Optional<AsFound> of(String word) {
    return Arrays.stream(values()).filter(v -> v.word.equals(word)).findFirst();
  }
}
