package org.vaneward.docs;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.vaneward.study.CoverageStudy;

/**
 * Writes {@code docs/validation.md}: every reference figure the program is held against, computed
 * anew. Run from the root of the repository.
 */
public final class ValidationTable {
  static final Path PAGE = Path.of("docs", "validation.md");

  private static final Path EXPECTED = Path.of("src/test/resources/reference/expected");

  private static final String HEAD =
      """
      # What the numbers are checked against

      This page is written by a program, which reads every reference file in use, computes each figure anew and compares.
      A test holds that the page is what the program writes and that every row is within its tolerance. To write it again:

      ```
      mvn -q test-compile exec:java -Dexec.classpathScope=test -Dexec.mainClass=org.vaneward.docs.ValidationTable
      ```

      The reference files are in `src/test/resources/reference`; their README says how each figure was made, by which two
      routes, and how far the two were apart. Only the main quantities of each case stand here. The tests compare more
      (covariances, Wald limits, quantiles, information criteria, limits at 95%, every age of a curve).

      How to read the tables:

      - *Source* says in a few words what the expected value is; under each table stands the citation. "Computed in R" means
        computed by general-purpose statistics software on an open data set, and confirmed there by a second route.
      - A source marked **from memory** or **partly from memory** was not at hand when the figure was written down; it was
        confirmed by computing it again from the inputs. "Computed" claims no printed value.
      - *Difference* is relative and given as the power of ten it stays below; differences below one in a billion are not
        told apart, because the last digits depend on the machine. For published values it is mostly their rounding.
      - *Tolerance*: "rel." is relative to the expected value, "abs." absolute. A figure that disagrees is a finding to be
        explained; a tolerance is never widened for it.
      - `none`: the reference has no value there (a limit at infinity, running to failure is cheapest).

      """;

  /** Heading of the part that no test writes again, since it takes too long. */
  static final String COVERAGE_HEAD = "## Fleets of known truth\n";

  private static final Path SCENARIO = Path.of("seeds", "depots-plain.json");

  private static final int FLEETS = 200;

  private static final String COVERAGE =
      """

      A scenario in `seeds/` draws fleets whose true lives are known. The whole chain reads each of them: records to
      lives to fits by component and service. The table counts how many of the 90% profile limits hold the true value,
      over fleets of `seeds/depots-plain.json` with the seeds from 1 to FLEETS. It takes a minute or so to compute, so
      the test of this page leaves it out; `SampleFleetCoverageTest` repeats the study with 40 fleets in every build. To
      print the table alone:

      ```
      mvn -q test-compile exec:java -Dexec.classpathScope=test -Dexec.mainClass=org.vaneward.study.CoverageStudy \\
        -Dexec.args="seeds/depots-plain.json FLEETS"
      ```

      ```
      TABLE```

      How to read it. Exact limits would hold the truth in 90% of the fits. Profile limits lean on large samples. Fits
      that are not estimable are not counted. The vanes do not announce their failures: most are known to an interval
      between two looks only. The last column is the mean error of the fitted scale on the log scale: 0.05 means about 5%
      too long.
      """;

  private ValidationTable() {}

  /** Writes the page. */
  public static void main(String[] args) throws IOException {
    Files.writeString(PAGE, page() + "\n" + COVERAGE_HEAD + coverage());
    System.out.println("wrote " + PAGE);
  }

  private static String coverage() {
    String table = CoverageStudy.table(CoverageStudy.count(SCENARIO, FLEETS));
    return COVERAGE.replace("FLEETS", Integer.toString(FLEETS)).replace("TABLE", table);
  }

  /** The text of the page, but for the coverage. */
  static String page() throws IOException {
    StringBuilder page = new StringBuilder(HEAD);
    List<ValidationSection> sections = sections();
    int rows = sections.stream().mapToInt(s -> s.rows().size()).sum();
    long agree = sections.stream().flatMap(s -> s.rows().stream()).filter(r -> r.agrees()).count();
    page.append(agree).append(" of ").append(rows).append(" rows agree.\n");
    sections.forEach(section -> page.append('\n').append(section.markdown()));
    return page.append('\n').append(notUsed()).toString();
  }

  static List<ValidationSection> sections() {
    return Sections.ALL;
  }

  /** Computed once: some rows are simulated. */
  private static final class Sections {
    private static final List<ValidationSection> ALL =
        List.of(
            FitChecks.fits("Right-censored and complete lives", "right_censored_fits"),
            LifeFamilyChecks.families(
                "Right-censored and complete lives, other families", "right_censored_fits"),
            FitChecks.fits("Interval-censored lives", "interval_censored_fits"),
            LifeFamilyChecks.families(
                "Interval-censored lives, other families", "interval_censored_fits"),
            FitChecks.fits("Delayed entry", "delayed_entry_fits"),
            LifeFamilyChecks.families("Delayed entry, other families", "delayed_entry_fits"),
            FitChecks.notEstimable(),
            CurveChecks.productLimit(),
            CurveChecks.turnbull(),
            ComparisonChecks.ranks(),
            FitChecks.commonShape(),
            GoodnessChecks.section(),
            MixtureChecks.section(),
            RegressionChecks.regressions(),
            PoolingChecks.section(),
            ComparisonChecks.logRank(),
            ComparisonChecks.countShrinkage(),
            ComparisonChecks.rateRatios(),
            ComparisonChecks.competingRisks(),
            RecurrenceChecks.meanCumulativeFunction(),
            RecurrenceChecks.meanCumulativeDifference(),
            RecurrenceChecks.trend(),
            DecisionChecks.intervals(),
            DecisionChecks.blocks(),
            DecisionChecks.renewals(),
            DecisionChecks.nextStop(),
            DecisionChecks.spares(),
            LifeFamilyChecks.handbook(),
            HandbookChecks.section());
  }

  /** The files of expected values that no section has read. */
  private static String notUsed() throws IOException {
    Set<String> topics = new TreeSet<>();
    try (Stream<Path> files = Files.list(EXPECTED)) {
      files.forEach(f -> topics.add(String.valueOf(f.getFileName()).replace(".json", "")));
    }
    sections().forEach(section -> topics.remove(section.topic()));
    String unread =
        topics.isEmpty()
            ? ""
            : "The topics "
                + String.join(", ", topics.stream().map(t -> "`" + t + "`").toList())
                + ". ";
    return "## Not checked yet\n\n"
        + ValidationSection.wrapped(
            unread
                + "Reference figures wait for parts of the program that do not exist yet: in the handbook"
                + " collection the cases that no row above names.",
            "");
  }

  /** What a node of a reference file says of the origin of its dataset. */
  static Map<String, String> citation(JsonNode node) {
    Map<String, String> citation = new LinkedHashMap<>();
    citation.put(node.path("dataset").asText("computed"), node.get("source").asText());
    return citation;
  }
}
