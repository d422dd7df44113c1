package org.vaneward.stats.nonparametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.nonparametric.AdjustedRanks.NotRanked;
import org.vaneward.stats.nonparametric.AdjustedRanks.Point;
import org.vaneward.stats.nonparametric.AdjustedRanks.Ranked;
import org.vaneward.stats.nonparametric.RankRegression.Direction;
import org.vaneward.stats.nonparametric.RankRegression.Line;
import org.vaneward.stats.nonparametric.RankRegression.Position;

/** Ranks, plotting positions and the line through them. */
class AdjustedRanksTest {
  static Stream<Case> cases() {
    return Reference.cases("ranks").stream();
  }

  @Test
  void allCasesAreRead() {
    assertEquals(3, cases().count());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void agreesWithReference(Case c) {
    if (c.expected().has("tables")) {
      tables(c);
    } else {
      johnson(c);
    }
  }

  private static void tables(Case c) {
    JsonNode tables = c.expected().get("tables");
    assertEquals(12, tables.size());
    for (JsonNode table : tables) {
      int n = table.get("n").asInt();
      assertEquals(n, table.get("exact").size());
      for (int i = 1; i <= n; i++) {
        c.holds("exact", table.get("exact").get(i - 1), PlottingPositions.medianRank(i, n));
        c.holds("benard", table.get("benard").get(i - 1), PlottingPositions.benard(i, n));
      }
    }
  }

  private static void johnson(Case c) {
    JsonNode e = c.expected();
    Ranked ranks = assertInstanceOf(Ranked.class, AdjustedRanks.of(c.lives()));
    assertEquals(c.node().get("n").asDouble(), ranks.lives());
    assertEquals(c.node().get("n_events").asInt(), ranks.points().size());
    assertEquals(e.get("age").size(), ranks.points().size());
    for (int i = 0; i < ranks.points().size(); i++) {
      Point p = ranks.points().get(i);
      c.holds("age", e.get("age").get(i), p.age());
      c.holds("order", e.get("order").get(i), p.order());
      c.holds("increment", e.get("increment").get(i), p.increment());
      c.holds("rank", e.get("adjusted_rank").get(i), p.rank());
      c.holds("exact", e.get("median_rank_exact").get(i), p.medianRank());
      c.holds("benard", e.get("median_rank_benard").get(i), p.benard());
    }
  }

  /** Without suspensions ranks are 1 to n, ties one after the other. */
  @Test
  void completeLivesHaveWholeRanks() {
    Ranked ranks =
        assertInstanceOf(
            Ranked.class,
            AdjustedRanks.of(
                Observations.of(
                    Observation.failedAt(9),
                    new Observation.Exact(0, 4, 3),
                    Observation.failedAt(2))));
    for (int i = 0; i < 5; i++) {
      assertEquals(i + 1, ranks.points().get(i).rank(), 1e-14);
      assertEquals(i + 1, ranks.points().get(i).order());
    }
    double low = PlottingPositions.rank(0.05, 1, 5);
    assertEquals(1 - Math.pow(0.95, 0.2), low, 1e-15);
    assertTrue(low < ranks.points().get(0).medianRank());
  }

  @Test
  void countsAreRepeatedRowsAndOrderDoesNotMatter() {
    Observations counted =
        Observations.of(
            new Observation.RightCensored(0, 4, 2),
            new Observation.Exact(0, 4, 2),
            new Observation.RightCensored(0, 3, 3),
            new Observation.Exact(0, 8, 1));
    Observations rows =
        Observations.of(
            Observation.failedAt(8),
            Observation.failedAt(4),
            Observation.rightCensoredAt(3),
            Observation.rightCensoredAt(4),
            Observation.failedAt(4),
            Observation.rightCensoredAt(3),
            Observation.rightCensoredAt(4),
            Observation.rightCensoredAt(3));
    assertEquals(AdjustedRanks.of(counted), AdjustedRanks.of(rows));
  }

  @Test
  void hardData() {
    assertTrue(AdjustedRanks.of(Observations.builder().build()) instanceof NotRanked);
    assertTrue(
        AdjustedRanks.of(Observations.of(Observation.rightCensoredAt(3))) instanceof NotRanked);
    NotRanked half =
        assertInstanceOf(
            NotRanked.class, AdjustedRanks.of(Observations.of(new Observation.Exact(0, 1, 0.5))));
    assertEquals("a count of lives is not a whole number", half.reason());
    NotRanked many =
        assertInstanceOf(
            NotRanked.class, AdjustedRanks.of(Observations.of(new Observation.Exact(0, 1, 1e9))));
    assertEquals("too many failures to rank one by one", many.reason());
    Ranked some =
        assertInstanceOf(
            Ranked.class,
            AdjustedRanks.of(
                Observations.of(
                    new Observation.Interval(0, 1, 2, 3),
                    new Observation.Exact(1, 2, 4),
                    Observation.failedAt(1e-3),
                    new Observation.RightCensored(0, 1e9, 1e6))));
    assertEquals(3, some.leftOutIntervals());
    assertEquals(4, some.leftOutLate());
    double expected = -Math.expm1(Math.log(0.5) / (1e6 + 1));
    assertEquals(expected, some.points().get(0).medianRank(), 1e-13 * expected);
  }

  @ParameterizedTest
  @CsvSource({"0, 3", "4, 3", "-1, 3", "NaN, 3", "1, Infinity"})
  void ranksHaveTheirRange(double rank, double n) {
    assertThrows(IllegalArgumentException.class, () -> PlottingPositions.medianRank(rank, n));
    assertThrows(IllegalArgumentException.class, () -> PlottingPositions.benard(rank, n));
  }

  /** NIST/SEMATECH e-Handbook of Statistical Methods, 8.2.2.1: Benard's positions, Y on X. */
  @Test
  void handbookLine() {
    JsonNode example = Reference.example("nist-apr221-weibull-plot");
    JsonNode in = example.get("inputs");
    Observations.Builder lives = Observations.builder();
    in.get("failures_h").forEach(t -> lives.addFailure(0, t.asDouble(), 1));
    lives.addRightCensored(0, 500, in.get("n").asDouble() - in.get("failures_h").size());
    Ranked ranks = assertInstanceOf(Ranked.class, AdjustedRanks.of(lives.build()));
    int last = ranks.points().size() - 1;
    Reference.holds(example, "y_first", -Math.log1p(-ranks.points().get(0).benard()));
    Reference.holds(example, "y_last", -Math.log1p(-ranks.points().get(last).benard()));
    Line line =
        assertInstanceOf(
            Line.class, RankRegression.of(ranks, Position.BENARD, Direction.POSITION_ON_AGE));
    Weibull w = line.weibull();
    Reference.holds(example, "slope", w.shape());
    Reference.holds(example, "intercept_log10", -w.shape() * Math.log10(w.scale()));
    assertEquals(10, line.points());
  }

  /** The two slopes differ by the squared correlation, and both find an exact line. */
  @Test
  void directionsAndExactLines() {
    Weibull truth = new Weibull(2.5, 4000);
    double[] shares = {0.1, 0.3, 0.5, 0.7, 0.9};
    double[] ages = new double[5];
    for (int i = 0; i < 5; i++) {
      ages[i] = truth.quantile(shares[i]);
    }
    for (Direction direction : Direction.values()) {
      Line line = assertInstanceOf(Line.class, RankRegression.of(ages, shares, direction));
      assertEquals(2.5, line.weibull().shape(), 1e-12);
      assertEquals(4000, line.weibull().scale(), 1e-8);
      assertEquals(1, line.correlation(), 1e-14);
    }
    ages[2] *= 1.3;
    Line on =
        assertInstanceOf(Line.class, RankRegression.of(ages, shares, Direction.AGE_ON_POSITION));
    Line off =
        assertInstanceOf(Line.class, RankRegression.of(ages, shares, Direction.POSITION_ON_AGE));
    assertEquals(
        on.correlation() * on.correlation(), off.weibull().shape() / on.weibull().shape(), 1e-13);
    Ranked ranks =
        assertInstanceOf(Ranked.class, AdjustedRanks.of(Reference.cases("ranks").get(1).lives()));
    Line exact =
        assertInstanceOf(
            Line.class, RankRegression.of(ranks, Position.MEDIAN_RANK, Direction.AGE_ON_POSITION));
    assertTrue(exact.correlation() > 0.9 && exact.correlation() < 1);
  }

  @Test
  void noLine() {
    Ranked one =
        assertInstanceOf(Ranked.class, AdjustedRanks.of(Observations.of(Observation.failedAt(3))));
    Ranked tied =
        assertInstanceOf(
            Ranked.class, AdjustedRanks.of(Observations.of(new Observation.Exact(0, 1234.5, 7))));
    for (Direction direction : Direction.values()) {
      assertEquals(
          new RankRegression.NotEstimable("fewer than two failures"),
          RankRegression.of(one, Position.BENARD, direction));
      assertEquals(
          new RankRegression.NotEstimable("all failures at one age"),
          RankRegression.of(tied, Position.MEDIAN_RANK, direction));
      assertEquals(
          new RankRegression.NotEstimable("the points do not rise with age"),
          RankRegression.of(new double[] {1, 2}, new double[] {0.8, 0.2}, direction));
    }
    List<double[]> bad = List.of(new double[] {0, 1}, new double[] {1});
    for (double[] ages : bad) {
      assertThrows(
          IllegalArgumentException.class,
          () -> RankRegression.of(ages, new double[] {0.1, 0.2}, Direction.AGE_ON_POSITION));
    }
    assertThrows(
        IllegalArgumentException.class,
        () ->
            RankRegression.of(
                new double[] {1, 2}, new double[] {0, 0.2}, Direction.AGE_ON_POSITION));
  }
}
