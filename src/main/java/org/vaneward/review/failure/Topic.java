package org.vaneward.review.failure;

/** What a question asks about. Topics weigh alike, however many questions each takes. */
public enum Topic {
  /** A product is hard on a component. */
  PRODUCT("product", "product"),
  /** A duty is hard on a component. */
  DUTY("duty", "duty"),
  /** Parts a crew fitted fail more. */
  CREW("crew", "crew"),
  /** Parts of a lot fail more. */
  LOT("lot", "lot"),
  /** Parts of a kit, or loose ones, fail more. */
  KIT("kit", "kit_or_loose"),
  /** Parts fail more at a site. */
  SITE("site", "site"),
  /** Parts fail more in a position than in the component's others. */
  POSITION("position", "position"),
  /** Reconditioned parts fail more than new ones, or new ones more. */
  RECONDITIONED("reconditioned", "reconditioned"),
  /** Parts fail more the more often their pump was opened. */
  EARLIER_REBUILDS("earlier-rebuilds", "earlier_rebuilds"),
  /** Parts fail more at some end clearances. */
  END_CLEARANCE("end-clearance", "end_clearance_mm"),
  /** A pump fails more than its like. */
  PUMP("pump", "pump"),
  /** A pump gets worse. */
  TREND("trend", ""),
  /** A part fails again and again soon after it was fitted. */
  REPEAT("repeat", ""),
  /** Parts fitted in some period fail more. */
  PERIOD("period", ""),
  /** Failures thin out with age. */
  SHAPE("shape", "");

  private final String key;
  private final String column;

  Topic(String key, String column) {
    this.key = key;
    this.column = column;
  }

  /** The word in machine-readable output. */
  public String key() {
    return key;
  }

  /** The column of the lives table that makes the groups; empty when none does. */
  String column() {
    return column;
  }
}
