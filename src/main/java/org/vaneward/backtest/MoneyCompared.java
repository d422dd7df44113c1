package org.vaneward.backtest;

import java.time.LocalDate;
import org.vaneward.stats.Estimate;

/**
 * What happened beside what would have happened under the advice, over the whole time replayed, at
 * the prices of {@code fleet.json}.
 *
 * <p>Both include the part of the last rebuild that is worn off at the end: its price times the
 * share of the interval run. Neither includes inspections, openings for a failure on the start-up
 * test, and visits to sites.
 *
 * @param from the first origin
 * @param to the day of record
 * @param pumps pumps compared
 * @param pumpYears their time in it
 * @param leftOut pumps of which too little is known
 * @param happened what happened; limits where hidden failures and what they cost are not known
 * @param advised what would have happened
 * @param more money under the advice beyond what happened; negative where the advice saves
 * @param chanceDearer chance that the advice would have been dearer
 * @param onRecord stops under the advice that are those on record, or failures on record that a
 *     pump left alone would have come to; the rest is drawn from the lives
 */
public record MoneyCompared(
    LocalDate from,
    LocalDate to,
    int pumps,
    double pumpYears,
    int leftOut,
    Side happened,
    Side advised,
    Estimate more,
    double chanceDearer,
    Estimate onRecord) {

  /**
   * One of the two.
   *
   * @param planned planned rebuilds
   * @param stops unplanned stops
   * @param money all money
   */
  public record Side(Estimate planned, Estimate stops, Estimate money) {}
}
