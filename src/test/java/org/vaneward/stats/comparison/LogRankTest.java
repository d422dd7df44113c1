package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.comparison.LogRank.NotTested;
import org.vaneward.stats.comparison.LogRank.Tested;

class LogRankTest {
  static Stream<Case> cases() {
    return Reference.cases("logrank").stream();
  }

  @Test
  void allCasesAreRead() {
    assertEquals(5, cases().count());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void agreesWithReference(Case c) {
    JsonNode e = c.expected();
    Tested test = assertInstanceOf(Tested.class, test(c));
    int k = e.get("groups").size();
    assertTrue(k >= 2);
    assertEquals(k, test.groups().size());
    double lives = 0;
    for (int g = 0; g < k; g++) {
      c.holds("observed", e.get("observed").get(g), test.groups().get(g).observed());
      c.holds("expected", e.get("expected").get(g), test.groups().get(g).expected());
      lives += test.groups().get(g).lives();
      for (int h = 0; h < k; h++) {
        c.holds("variance", e.get("variance").get(g).get(h), test.variance().get(g).get(h));
      }
    }
    assertEquals(c.node().get("n").asDouble(), lives);
    c.holds("statistic", e.get("statistic"), test.statistic());
    assertEquals(e.get("df").asInt(), test.degreesOfFreedom());
    c.holds("p", e.get("p"), test.p());
  }

  /** Groups in the order of the case, with strata when it has them. */
  private static LogRank test(Case c) {
    List<Observations> groups = new ArrayList<>();
    List<int[]> strata = new ArrayList<>();
    String groupColumn = c.node().get("group_column").asText();
    for (JsonNode name : c.expected().get("groups")) {
      List<Map<String, String>> rows =
          c.rows().stream().filter(r -> name.asText().equals(r.get(groupColumn))).toList();
      groups.add(Reference.observations(rows));
      if (c.node().hasNonNull("strata_column")) {
        String column = c.node().get("strata_column").asText();
        strata.add(
            rows.stream()
                .mapToInt(r -> Objects.requireNonNull(r.get(column)).hashCode())
                .toArray());
      }
    }
    return strata.isEmpty() ? LogRank.of(groups) : LogRank.of(groups, strata);
  }

  /**
   * By hand. A fails at 2 and 4, B enters at 1 and fails at 4, B is suspended at 5, A enters at 3
   * and is suspended at 4. At 2: at risk A 1, B 2 (the late A is not); at 4: A 2, B 2, two fail.
   */
  @Test
  void byHandWithLateEntryAndATie() {
    Observations a =
        Observations.of(
            Observation.failedAt(2),
            new Observation.Exact(3, 4, 1),
            new Observation.RightCensored(3, 4, 1));
    Observations b =
        Observations.of(new Observation.Exact(1, 4, 1), Observation.rightCensoredAt(5));
    Tested test = assertInstanceOf(Tested.class, LogRank.of(List.of(a, b)));
    double expected = 1.0 / 3 + 2 * 2.0 / 4;
    double variance = 1.0 / 3 * 2 / 3 + 2 * (4.0 - 2) / 3 * 0.5 * 0.5;
    assertEquals(2, test.groups().get(0).observed());
    assertEquals(expected, test.groups().get(0).expected(), 1e-15);
    assertEquals(2 / expected, test.groups().get(0).ratio(), 1e-14);
    assertEquals(variance, test.variance().get(0).get(0), 1e-15);
    assertEquals((2 - expected) * (2 - expected) / variance, test.statistic(), 1e-14);
  }

  /** A life cut into spans that follow each other is the same life. */
  @Test
  void spansOfOneLifeAreTheLife() {
    Case c = cases().findFirst().orElseThrow();
    List<Observations> whole = List.copyOf(c.groups().values());
    List<Observations> cut = new ArrayList<>();
    for (Observations group : whole) {
      Observations.Builder builder = Observations.builder();
      for (int i = 0; i < group.size(); i++) {
        double middle = group.lower(i) * 0.4;
        builder.addRightCensored(group.entry(i), middle, group.count(i));
        if (group.isExact(i)) {
          builder.addFailure(middle, group.upper(i), group.count(i));
        } else {
          builder.addRightCensored(middle, group.lower(i), group.count(i));
        }
      }
      cut.add(builder.build());
    }
    Tested one = assertInstanceOf(Tested.class, LogRank.of(whole));
    Tested other = assertInstanceOf(Tested.class, LogRank.of(cut));
    assertEquals(one.statistic(), other.statistic(), 1e-12);
    assertEquals(one.variance(), other.variance());
  }

  @Test
  void unitOrderAndCountsDoNotMatter() {
    Observations a =
        Observations.of(new Observation.Exact(0, 3, 2), new Observation.RightCensored(0, 7, 3));
    Observations b =
        Observations.of(new Observation.Exact(1, 5, 1), new Observation.Exact(0, 3, 1));
    Tested counted = assertInstanceOf(Tested.class, LogRank.of(List.of(a, b)));
    Observations.Builder rows = Observations.builder();
    for (int i = 0; i < 3; i++) {
      rows.addRightCensored(0, 7e6, 1);
    }
    rows.addFailure(0, 3e6, 1).addFailure(0, 3e6, 1);
    Observations second =
        Observations.builder().addFailure(0, 3e6, 1).addFailure(1e6, 5e6, 1).build();
    Tested repeated = assertInstanceOf(Tested.class, LogRank.of(List.of(second, rows.build())));
    assertEquals(counted.statistic(), repeated.statistic(), 1e-14);
    assertEquals(counted.groups().get(0), repeated.groups().get(1));
  }

  /** A stratum for each group compares nothing; one that is alone in its stratum adds nothing. */
  @Test
  void singularStrata() {
    Observations a = Observations.of(Observation.failedAt(2), Observation.rightCensoredAt(5));
    Observations b = Observations.of(Observation.failedAt(3), Observation.rightCensoredAt(4));
    Observations alone = Observations.of(Observation.failedAt(1), Observation.failedAt(9));
    NotTested none =
        assertInstanceOf(
            NotTested.class, LogRank.of(List.of(a, b), List.of(new int[2], new int[] {1, 1})));
    assertTrue(none.reason().startsWith("no two groups were at risk together"));
    Tested two = assertInstanceOf(Tested.class, LogRank.of(List.of(a, b)));
    Tested three =
        assertInstanceOf(
            Tested.class,
            LogRank.of(List.of(a, alone, b), List.of(new int[2], new int[] {7, 7}, new int[2])));
    assertEquals(1, three.degreesOfFreedom());
    assertEquals(two.statistic(), three.statistic(), 1e-14);
    Tested pairs =
        assertInstanceOf(
            Tested.class,
            LogRank.of(
                List.of(a, b, a, b),
                List.of(new int[2], new int[2], new int[] {3, 3}, new int[] {3, 3})));
    assertEquals(2, pairs.degreesOfFreedom());
    assertEquals(2 * two.statistic(), pairs.statistic(), 1e-13);
  }

  @Test
  void hardData() {
    Observations none = Observations.builder().build();
    Observations survivors = Observations.of(new Observation.RightCensored(0, 10, 5000));
    Observations tied = Observations.of(new Observation.Exact(0, 10, 5));
    assertEquals("fewer than two groups", reason(List.of(tied)));
    assertEquals("fewer than two groups", reason(List.of()));
    assertEquals("no failures at a known age", reason(List.of(survivors, survivors)));
    assertEquals("no failures at a known age", reason(List.of(none, none)));
    assertTrue(reason(List.of(tied, tied)).startsWith("no two groups"));
    assertTrue(reason(List.of(tied, none)).startsWith("no two groups"));
    Observations interval = Observations.of(new Observation.Interval(0, 1, 5, 4));
    Observations early = Observations.of(new Observation.Exact(0, 1e-6, 1));
    Observations longLived = Observations.of(new Observation.RightCensored(0, 1e6, 20000));
    Tested test = assertInstanceOf(Tested.class, LogRank.of(List.of(early, longLived, interval)));
    assertEquals(4, test.leftOut());
    assertEquals(1, test.degreesOfFreedom());
    assertEquals(20000, test.statistic(), 1e-6);
    assertEquals(0, test.p());
  }

  private static String reason(List<Observations> groups) {
    return assertInstanceOf(NotTested.class, LogRank.of(groups)).reason();
  }

  /** Alike groups give p below 0.1 in about a tenth of samples: 2000 draws, four sigmas. */
  @Test
  void alikeGroupsAreRarelyFarApart() {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(20240611);
    int below = 0;
    int draws = 2000;
    for (int draw = 0; draw < draws; draw++) {
      List<Observations> groups = new ArrayList<>();
      for (int g = 0; g < 3; g++) {
        Observations.Builder group = Observations.builder();
        for (int i = 0; i < 15 + 10 * g; i++) {
          double life = -Math.log(random.nextDouble());
          double end = 0.2 + 2 * random.nextDouble();
          double entry = 0.1 * random.nextInt(2);
          if (Math.min(life, end) > entry) {
            if (life <= end) {
              group.addFailure(entry, life, 1);
            } else {
              group.addRightCensored(entry, end, 1);
            }
          }
        }
        groups.add(group.build());
      }
      below += assertInstanceOf(Tested.class, LogRank.of(groups)).p() < 0.1 ? 1 : 0;
    }
    assertEquals(0.1, (double) below / draws, 4 * Math.sqrt(0.09 / draws));
  }

  @Test
  void strataFitTheRows() {
    Observations a = Observations.of(Observation.failedAt(2));
    assertThrows(IllegalArgumentException.class, () -> LogRank.of(List.of(a, a), List.of()));
    assertThrows(
        IllegalArgumentException.class,
        () -> LogRank.of(List.of(a, a), List.of(new int[1], new int[2])));
  }
}
