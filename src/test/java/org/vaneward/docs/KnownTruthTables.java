package org.vaneward.docs;

import java.nio.file.Path;
import org.vaneward.io.SafeFiles;
import org.vaneward.study.KnownTruthStudy;
import org.vaneward.study.KnownTruthSummary;
import org.vaneward.study.PooledCalibration;

/**
 * Writes {@code docs/known-truth.md} and the summary of it that a fleet report shows. Run from the
 * root of the repository; fleets that are missing in the folder of results are drawn.
 */
public final class KnownTruthTables {
  static final Path PAGE = Path.of("docs", "known-truth.md");

  static final Path SUMMARY = Path.of("src/main/resources/org/vaneward/report/known-truth.json");

  private static final int DATA_SETS = 1000;

  private static final String HEAD =
      """
      # Fleets of known truth

      Fleets are drawn whose true lives are known, their records are read as any fleet's are, and what comes out is held
      against the truth: do limits hold it as often as they say, how far off are estimates, and what does the advised
      interval cost beyond the best there is? This page is written by a program. To write it again (about half an hour on two
      cores when no fleet is drawn yet; stopped, it goes on where it was; the same bytes on any number of cores):

      ```
      mvn -q test-compile exec:java -Dexec.classpathScope=test -Dexec.mainClass=org.vaneward.docs.KnownTruthTables \\
        -Dexec.args="ARGUMENTS"
      ```

      The first argument is the folder of results, the second how many fleets of each scenario there are for each size and
      span; of 300 pumps a quarter as many, of 1,000 a tenth. Results do not know the program that made them: after a change
      of method begin with an empty folder. `org.vaneward.study.KnownTruthStudy` prints the tables alone,
      `org.vaneward.study.PooledCalibration` the ranks.

      **What was drawn.** FLEETS fleets of `seeds/depots-plain.json` and `seeds/small-terminal.json`, and apart from them
      PLANTED of `seeds/depots-six.json`, some of whose parts are planted short (a lot, a pump that worsens, a crew) and
      whose records have flaws. Pumps per group are scaled to the number wanted; records end on the scenario's day and
      begin so many years before, pumps being commissioned evenly over the first half or the first three years. Every
      component in every service counts once: seals, bearings (true shape 2.1) and vanes (3.0, their failures hidden). Three
      services of the depots have seals of another shape (1.0 or 1.2).

      **What is compared.** *Plain*: the service's own fit with profile limits, where it has one. *Fixed*: its scale alone at
      a stated shape of 2. *Pooled*: what decisions rest on ([decisions.md](methods/decisions.md)), with posterior limits. The
      regret of an interval is the true long-run cost per hour at it over the least there is, less 1, weighted by pumps; plain
      and fixed take all services together where a service has no fit. Figures are percent, except estimates, which are the
      mean of log(estimate / truth): 0.05 is 5% too long. Standard errors are by fleet, since the services of a fleet share
      pumps and fits; where a cell has few fleets they are rough themselves. A stated shape of 2 is close to most of the true
      shapes here; where that is not so the fixed fit does worse than these tables show.

      """;

  private static final String READING =
      """
      ## How to read it

      Aimed for: 90% limits that hold the truth in 87% to 93% of cases, and from 50 pumps on a median regret of at most 3%.
      Cells whose figure is outside, and those that are by more than two standard errors:

      MISSED

      **For the planner.** What the advised interval costs beyond the best goes by the number of failures on record, more than by
      pumps or years alone (the table by failures). With some forty failures and more the median is below a percent, with three
      hundred and more it is some hundredths of one. With a handful pooled advice is mostly to run to failure, which costs
      about 20% more than the best in most services here. One fit for all services, or a stated shape, does better there, and so
      may an interval from experience. A stated shape of 2 flatters itself: most parts here have a shape near it. In the depots,
      where some do not, its tail is the longest (fleets with planted causes). Limits on the age by which a tenth of the parts have
      failed hold as often as they say or a little more often, those of the scale as often.

      **For the engineer.** Of pooled limits of scale, shape and 10% life POOLED_HELD held, of plain ones PLAIN_HELD. What is
      missed is missed in parts:

      - *A service whose parts do not wear out like the others'* (OTHERS services). With few failures its shape is drawn to the
        others', and its limits held in OTHER_HELD. Three in a fleet whose others all have one shape are no draws from one normal
        distribution, which is what the model takes them for. Those of its neighbours held in BESIDE_HELD: their shapes are
        allowed to differ more than they do.
      - Where all services of a component have one shape, limits held in ONE_SHAPE_HELD. With few failures the prior (a
        shape around 1.5, while parts here have 2.1 and 3) draws the shape down and so the scale up: the last column of the
        table, and estimates of fleets with two years of records. Limits at one fixed truth need not hold as often as on
        average over the prior, for which the ranks below say they are right.

      The others:

      - *Plain limits* are short where failures are few ([coverage.md](coverage.md)), and in fleets with two years of records most of
        all: a service has a fit only where parts failed early, so what is fitted is too short-lived.
      - *A stated shape* that is a little off: limits know nothing of that, and the more records there are the less they hold.
      - *Hidden failures*: plain limits on vanes hold within about a point of the others; pooled ones of the shape a little less
        often, 3.0 being farther from the prior's 1.5.
      - *Planted causes*: parts planted short live less long than the scenario says, so limits of the shape above all hold less
        often. That is a mixture taken for one life, no fault of the limits; `review` is where it is looked for.

      """;

  private static final String RANKS =
      """

      ## Ranks of the truth among posterior draws

      Simulation-based calibration of the pooled model: typical shape and scale and both spreads are drawn from the priors, one to
      seven groups of lives from them and a group never seen (exact, censored at ages and at numbers of failures, intervals, delayed entry; one to some forty
      lives each), and the rank of each true value among 199 posterior draws is counted in 20 bins. If the posterior is right
      ranks are uniform. p is that of a chi-square test; Holm is adjusted for the nine quantities. Data sets refused as not
      estimable are refused for what the data are, so leaving them out keeps ranks uniform. With the centre of the prior of the
      typical scale stated (`withTypicalScale`) the truth is drawn from a proper prior and the test is exact; by default fits
      work the centre out from the lives, which strictly is no prior. `PooledCalibrationTest` repeats it with fewer data sets
      and holds that scales half as long again and draws too narrow are rejected.
      """;

  private static final String SOURCE =
      """

      *Source*: S. Talts, M. Betancourt, D. Simpson, A. Vehtari and A. Gelman, Validating Bayesian inference algorithms with
      simulation-based calibration, arXiv 1804.06788, 2018 (from memory).
      """;

  private KnownTruthTables() {}

  /**
   * Writes both files.
   *
   * @param args folder of results and fleets of each scenario, size and span, both with defaults
   */
  public static void main(String[] args) {
    Path folder = args.length > 0 ? Path.of(args[0]) : KnownTruthStudy.FOLDER;
    int most = args.length > 1 ? Integer.parseInt(args[1]) : KnownTruthStudy.FLEETS;
    KnownTruthSummary summary = KnownTruthStudy.run(folder, most);
    SafeFiles.write(SUMMARY, summary.json());
    SafeFiles.write(PAGE, page(summary, PooledCalibration.text(DATA_SETS), folder + " " + most));
    System.out.println("wrote " + PAGE + " and " + SUMMARY);
  }

  private static String page(KnownTruthSummary summary, String ranks, String arguments) {
    return HEAD.replace("ARGUMENTS", arguments)
            .replace("FLEETS", Integer.toString(summary.fleets(false)))
            .replace("PLANTED", Integer.toString(summary.fleets(true)))
        + READING
            .replace("POOLED_HELD", summary.pooledHeld())
            .replace("PLAIN_HELD", summary.plainHeld())
            .replace("OTHER_HELD", summary.otherHeld())
            .replace("OTHERS", summary.others())
            .replace("BESIDE_HELD", summary.besideAnotherHeld())
            .replace("ONE_SHAPE_HELD", summary.oneShapeHeld())
            .replace("MISSED", summary.missed().strip())
        + "\n"
        + summary.markdown()
        + RANKS
        + "\n```\n"
        + ranks
        + "```\n"
        + SOURCE;
  }
}
