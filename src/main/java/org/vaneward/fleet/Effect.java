package org.vaneward.fleet;

/** What a flaw in a row changes in the result, after what was done about it. */
public enum Effect {
  /** The pump is not read. */
  PUMP_LOST("the pump is left out of everything, with every row that names it"),
  /** A service is not read. */
  SERVICE_LOST("the pump counts under the service it had before, or under none"),
  /** A reading is not used. */
  READING_LOST("running hours around that day are interpolated between the readings that are left"),
  /** An opening is not read. */
  OPENING_LOST(
      "the pump counts as not opened that day: what had failed or was renewed then is lost, and its"
          + " parts seem to have run on"),
  /** A finding is not read. */
  FINDING_LOST(
      "nothing is known of that part at that opening: unless a kit renewed it, it seems to have run"
          + " on"),
  /** A part's age is lost. */
  AGE_LOST("parts fitted before have no age, and no life, until they are renewed"),
  /** A part gives no life. */
  LIFE_LOST("no life is counted for that part"),
  /** Failures of an opening do not count. */
  FAILURES_LOST("what was fitted then counts, what had failed does not"),
  /** A failure counts between two looks. */
  FAILURE_BETWEEN_LOOKS(
      "the failure counts as come at some age since the last look, not at one known age"),
  /** A part counts as failed. */
  COUNTS_AS_FAILED("one failure more than the words of the record say"),
  /** A life ends in working order. */
  COUNTS_AS_WORKING(
      "the life ends as taken out in working order; a failure nobody wrote down is missed"),
  /** Wear is unknown or doubtful. */
  WEAR_UNSURE("whether the part was worn past its limit is not sure"),
  /** An age is estimated. */
  AGE_ESTIMATED("ages of parts at that opening are estimates, as good as the readings beside it"),
  /** Usage is estimated. */
  USAGE_ESTIMATED("running hours of that time follow the pump's usage, not its meter"),
  /** A pump counts as running. */
  STILL_RUNNING("the pump counts as still in service, its parts as still running"),
  /** A value is missing. */
  VALUE_LOST("lives stand; the value is missing where it would describe them"),
  /** A number may be in another unit. */
  UNIT_UNSURE("lives stand; comparisons by that number are off if it is in another unit"),
  /** Nothing. */
  NOTHING("nothing beyond how the row is written: it counts once, as the others do");

  private final String words;

  Effect(String words) {
    this.words = words;
  }

  /** The effect in words, to stand after a colon. */
  public String words() {
    return words;
  }
}
