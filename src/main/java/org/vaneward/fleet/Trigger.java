package org.vaneward.fleet;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** Why a pump was opened. */
public enum Trigger {
  PLANNED,
  LEAK,
  NOISE,
  LOW_FLOW,
  SEIZED,
  INSPECTION,
  OTHER;

  private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

  /** The word the records use, such as {@code low-flow}. */
  public String word() {
    return word;
  }

  /** The trigger a word of the records names; empty when it names none. */
  public static Optional<Trigger> of(String word) {
    return Arrays.stream(values()).filter(t -> t.word.equals(word)).findFirst();
  }
}
