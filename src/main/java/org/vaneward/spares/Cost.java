package org.vaneward.spares;

/** What money goes on when a pump is opened. */
public enum Cost {
  /** Kits and loose parts. */
  PARTS(0, "parts"),
  /** Work on the pump. */
  LABOUR(1, "labour"),
  /** The pump standing. */
  DOWNTIME(2, "downtime"),
  /** Spill, waste and reporting. */
  CLEAN_UP(3, "clean-up"),
  /** Going to the site. */
  VISITS(4, "visits");

  /** How many there are. */
  static final int COUNT = 5;

  final int column;
  private final String words;

  Cost(int column, String words) {
    this.column = column;
    this.words = words;
  }

  /** In a word. */
  public String words() {
    return words;
  }
}
