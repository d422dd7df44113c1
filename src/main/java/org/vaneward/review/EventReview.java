package org.vaneward.review;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import org.vaneward.io.BadInputException;
import org.vaneward.stats.recurrence.EventHistories;
import org.vaneward.stats.recurrence.MeanCumulativeDifference;
import org.vaneward.stats.recurrence.MeanCumulativeFunction;
import org.vaneward.stats.recurrence.PowerLaw;
import org.vaneward.stats.recurrence.PowerLawFit;
import org.vaneward.stats.recurrence.PowerLawGoodness;
import org.vaneward.stats.recurrence.PowerLawSettings;
import org.vaneward.stats.recurrence.RenewalOrTrend;
import org.vaneward.stats.recurrence.TestOutcome;
import org.vaneward.stats.recurrence.Trend;

/**
 * Recurring events of some units: how many a unit has on average, whether they come faster with
 * age, and how groups of units differ.
 *
 * @param all every unit together
 * @param groups the groups by name, when units are grouped
 * @param differences every pair of groups, the earlier name first
 */
public record EventReview(
    Histories all,
    SortedMap<String, Histories> groups,
    List<MeanCumulativeDifference.Pair> differences) {

  /**
   * What some histories say.
   *
   * @param histories the units
   * @param mean events a unit has had by an age, on average
   * @param laplace do events come faster or slower, by Laplace's test
   * @param milHdbk189 the same by the test of MIL-HDBK-189
   * @param powerLaw a rate of events that is a power of age
   * @param goodness does the power law describe the events
   * @param renewal is a unit as good as new after an event
   */
  public record Histories(
      EventHistories histories,
      MeanCumulativeFunction mean,
      TestOutcome laplace,
      TestOutcome milHdbk189,
      PowerLawFit powerLaw,
      TestOutcome goodness,
      RenewalOrTrend renewal) {}

  /**
   * Reviews a table of events.
   *
   * @throws BadInputException when the file cannot be used
   */
  public static EventReview of(Path file, EventQuestion question) {
    List<UnitHistory> units = EventTable.read(file, question.by());
    SortedMap<String, List<UnitHistory>> split = new TreeMap<>();
    if (question.by().isPresent()) {
      units.forEach(unit -> split.computeIfAbsent(unit.group(), g -> new ArrayList<>()).add(unit));
    }
    SortedMap<String, Histories> groups = new TreeMap<>();
    Map<String, EventHistories> compared = new LinkedHashMap<>();
    split.forEach(
        (name, members) -> {
          Histories histories = histories(members, question);
          groups.put(name, histories);
          compared.put(name, histories.histories());
        });
    return new EventReview(
        histories(units, question),
        groups,
        MeanCumulativeDifference.pairwise(compared, question.confidence(), ages(question, units)));
  }

  private static Histories histories(Collection<UnitHistory> units, EventQuestion question) {
    EventHistories.Builder builder = EventHistories.builder();
    for (UnitHistory unit : units) {
      builder.addUnit(
          unit.unit(),
          unit.start(),
          unit.ages().stream().mapToDouble(age -> age).toArray(),
          unit.end());
    }
    question.truncation().ifPresent(builder::truncation);
    EventHistories histories = builder.build();
    return new Histories(
        histories,
        MeanCumulativeFunction.of(histories, question.confidence()),
        Trend.laplace(histories),
        Trend.milHdbk189(histories),
        PowerLaw.fit(histories, PowerLawSettings.defaults().withConfidence(question.confidence())),
        PowerLawGoodness.test(histories),
        RenewalOrTrend.of(histories));
  }

  private static double[] ages(EventQuestion question, List<UnitHistory> units) {
    TreeSet<Double> ages = new TreeSet<>(question.ages());
    if (ages.isEmpty()) {
      units.forEach(unit -> ages.addAll(unit.ages()));
    }
    return ages.stream().mapToDouble(age -> age).toArray();
  }
}
