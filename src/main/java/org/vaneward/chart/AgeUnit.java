package org.vaneward.chart;

/** What ages are counted in, for labels. */
public enum AgeUnit {
  /** Running hours. */
  HOURS("h", "running hours"),
  /** Days in the pump. */
  DAYS("days", "days");

  private final String symbol;
  private final String words;

  AgeUnit(String symbol, String words) {
    this.symbol = symbol;
    this.words = words;
  }

  /** Stands behind a number. */
  String symbol() {
    return symbol;
  }

  /** Names an axis. */
  String words() {
    return words;
  }
}
