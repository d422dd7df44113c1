package org.vaneward.fleet;

/**
 * What became of a row: used as it stands, used with a stated assumption, or set aside with its
 * reason.
 */
public sealed interface RowFate {
  /** The row is used as it stands. */
  record Used() implements RowFate {}

  /**
   * The row is used after something was assumed.
   *
   * @param assumption what was assumed, in one sentence
   */
  record Repaired(String assumption) implements RowFate {}

  /**
   * The row is not used.
   *
   * @param reason what is wrong and what would be right, in one sentence
   */
  record SetAside(String reason) implements RowFate {}
}
