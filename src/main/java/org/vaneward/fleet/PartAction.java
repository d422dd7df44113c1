package org.vaneward.fleet;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What was done with a part. */
public enum PartAction {
  RENEWED,
  REUSED,
  RECONDITIONED;

  private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

  /** The word the records use, such as {@code renewed}. */
  public String word() {
    return word;
  }

  /** The value a word of the records names; empty when it names none. */
  public static Optional<PartAction> of(String word) {
    return Arrays.stream(values()).filter(v -> v.word.equals(word)).findFirst();
  }
}
