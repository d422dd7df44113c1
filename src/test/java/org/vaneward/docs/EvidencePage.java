package org.vaneward.docs;

import java.nio.file.Path;
import org.vaneward.backtest.BacktestRequest;
import org.vaneward.io.SafeFiles;
import org.vaneward.report.BacktestView;
import org.vaneward.report.FleetLives;
import org.vaneward.report.Replay;
import org.vaneward.study.BacktestCoverage;

/**
 * Writes {@code docs/evidence.md}: history replayed on the sample fleet and on fleets drawn like
 * it. Run from the root of the repository; takes some ten minutes.
 */
public final class EvidencePage {
  private static final Path PAGE = Path.of("docs", "evidence.md");
  private static final Path FLEET = Path.of("sample-fleet");

  private static final String HEAD =
      """
      # Would following the advice have paid?

      What is said of the time ahead is worth as much as what was said of the time past. This page replays history: half-year by
      half-year, with no more than was known on the day, what would have been foretold and advised, and what came.
      [methods/backtest.md](methods/backtest.md) says how. Where the truth is known because a scenario drew the fleet, limits and advice are
      held against it in [known-truth.md](known-truth.md). This page is written by a program (some ten minutes on two cores):

      ```
      mvn -q test-compile exec:java -Dexec.classpathScope=test -Dexec.mainClass=org.vaneward.docs.EvidencePage
      ```

      ## The sample fleet

      An invented fleet with things planted in it that no forecast knows of: a bad lot of seals, a crew that makes start-up leaks, a
      pump that worsens.

      ```
      $ vaneward backtest sample-fleet --quiet
      """;

  private static final String AFTER =
      """
      ```

      From July 2021 on parts of the bad lot fail early, which no forecast could know of: four half-years in a row bring more stops
      than the mean foretold, the first of them more than the limits allow. The half-years before 2019 rest on a hundred failures at
      most: their limits are wide, and what came lies in their lower part more often than not.

      ## More fleets

      One fleet is one throw of the dice. Fleets are drawn anew, eight from each of two scenarios (that of the sample fleet, and
      the same without planted causes and flaws), and each is replayed. *Within*: share of the half-years whose stops, or kits, lay
      within the 90% limits foretold; such limits of a count hold a little more than 90% when forecasts are right, since a count
      cannot be cut at exactly 5%. *Mean place*: where the stops that came stood in those foretold, 0.50 if neither too many nor
      too few were foretold. *Score*: ranked probability score of the fleet's stops, in stops, of this program's forecast and of three
      simple rules; the lower, the better. `org.vaneward.study.BacktestCoverage` prints the table alone.

      """;

  private EvidencePage() {}

  /** Writes the page. */
  public static void main(String[] args) {
    FleetLives fleet = FleetLives.read(FLEET);
    String replayed =
        new BacktestView(
                fleet.settings(),
                Replay.of(FLEET, fleet, BacktestRequest.plain(1), System.err::println))
            .text();
    SafeFiles.write(PAGE, HEAD + replayed + AFTER + BacktestCoverage.text());
    System.out.println("wrote " + PAGE);
  }
}
