package org.vaneward.policy;

/** Why no planned interval is advised on cost. */
public enum NoInterval {
  /** No part fails more as it ages. */
  HAZARDS_DO_NOT_RISE(
      "the parts do not fail more as they age, so rebuilding early gains nothing: look for the"
          + " cause"),
  /** A stop costs no more than a planned rebuild. */
  STOPS_COST_NO_MORE("an unplanned stop costs no more than a planned rebuild"),
  /** The best interval saves less than a billionth of the cost, or there is none. */
  SAVING_NEGLIGIBLE("no planned interval costs less than running to failure");

  private final String words;

  NoInterval(String words) {
    this.words = words;
  }

  /** The reason as a clause for a planner. */
  public String words() {
    return words;
  }
}
