package org.vaneward.fleet;

/**
 * A remark on one row, from reading it or from building lives out of it. A row may have several;
 * the gravest decides how it is counted.
 *
 * @param row where the row stands
 * @param column the column concerned, or empty when the whole row is
 * @param fate repaired or set aside, and why
 * @param effect what that changes in the result
 */
public record RowNote(RowRef row, String column, RowFate fate, Effect effect) {
  /** A note that the row is used after {@code assumption}. */
  public static RowNote repaired(RowRef row, String column, String assumption, Effect effect) {
    return new RowNote(row, column, new RowFate.Repaired(assumption), effect);
  }

  /** A note that the row is not used, for {@code reason}. */
  public static RowNote setAside(RowRef row, String column, String reason, Effect effect) {
    return new RowNote(row, column, new RowFate.SetAside(reason), effect);
  }
}
