package org.vaneward.review.failure;

/** Which failures a question counts. */
public enum Outcome {
  /** On the start-up test, at zero hours. */
  START_UP("start-up", "on the start-up test"),
  /** Within the first part of the life expected there. */
  EARLY("early", "early in life"),
  /** At any age. */
  LIFE("life", "at any age");

  private final String key;
  private final String words;

  Outcome(String key, String words) {
    this.key = key;
    this.words = words;
  }

  /** The word in machine-readable output. */
  public String key() {
    return key;
  }

  /** When these failures come, as a phrase. */
  public String words() {
    return words;
  }
}
