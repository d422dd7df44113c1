package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

/** The workshop's calendar as a model. */
class CalendarMapTest {
  private static final LocalDate MONDAY = LocalDate.of(2026, 12, 14);
  private static final List<CalendarMap.Week> WEEKS = Samples.weeks();
  private static final List<CalendarMap.Site> SITES = Samples.sites("Depot A");

  private static Paper paper() {
    return CalendarMap.paper(WEEKS, SITES);
  }

  @Test
  void numbersStandInTheirSiteAndWeek() {
    Paper paper = paper();
    Note four = note(paper, "4");
    assertEquals(paper.px(3.5), four.x());
    assertEquals(note(paper, "Depot A").y(), four.y());
    assertEquals(note(paper, "Depot B").y(), first(paper, "12").y());
    assertEquals(paper.px(5.5), first(paper, "12").x());
  }

  @Test
  void weeksAreThoseOfIsoWithTheirMonday() {
    Paper paper = paper();
    assertEquals(paper.px(0.5), note(paper, "51").x());
    assertEquals(paper.px(2.5), note(paper, "53").x(), "2026 has a week 53");
    assertTrue(texts(paper).contains("2026-12-14") && texts(paper).contains("2027-01-11"));
    assertEquals("2027-W01", Samples.weeks().get(3).iso());
  }

  @Test
  void theFootHoldsLoadAgainstCapacity() {
    Paper paper = paper();
    double[] load = paper.chart().getSeries("load 3").getYData();
    double[] over = paper.chart().getSeries("over 3").getYData();
    double[] line = paper.chart().getSeries("capacity 3").getYData();
    double base = Arrays.stream(load).min().orElseThrow();
    double top = Arrays.stream(over).max().orElseThrow();
    assertEquals(line[0], Arrays.stream(load).max().orElseThrow(), 1e-9);
    assertEquals(line[0], Arrays.stream(over).min().orElseThrow(), 1e-9);
    assertEquals(5.0 / 3, (top - base) / (line[0] - base), 1e-9);
    assertNull(paper.chart().getSeries("over 0"), "three of three");
    assertNull(paper.chart().getSeries("load 4"), "nothing booked");
  }

  @Test
  void weeksOverCapacityAreMarkedWithANumber() {
    Paper paper = paper();
    Note two = note(paper, "+2");
    assertEquals(paper.px(3.5), two.x());
    assertTrue(two.bold());
    assertEquals(note(paper, "over by").y(), two.y());
    assertEquals(paper.px(5.5), note(paper, "+10").x());
  }

  @Test
  void closedWeeksAreGreyAndHaveASign() {
    Paper paper = paper();
    assertNotNull(paper.chart().getSeries("closed 1"));
    assertNotNull(paper.chart().getSeries("closed 2"));
    assertNull(paper.chart().getSeries("closed 3"));
    assertNull(paper.chart().getSeries("capacity 1"));
    assertEquals(2, texts(paper).stream().filter("×"::equals).count());
    assertTrue(texts(paper).contains("grey, ×: the workshop is closed"));
    List<CalendarMap.Week> shut = List.of(new CalendarMap.Week(MONDAY, OptionalInt.of(3), true));
    Paper booked = CalendarMap.paper(shut, List.of(new CalendarMap.Site("a", List.of(2))));
    assertTrue(texts(booked).contains("+2"), "whatever is booked then is too much");
  }

  @Test
  void withoutACapacityNothingIsOver() {
    List<CalendarMap.Week> free = List.of(new CalendarMap.Week(MONDAY, OptionalInt.empty(), false));
    List<CalendarMap.Site> sites = List.of(new CalendarMap.Site("Depot A", List.of(99)));
    List<String> texts = texts(CalendarMap.paper(free, sites));
    assertFalse(texts.contains("capacity") || texts.contains("over by"), texts.toString());
    assertTrue(CalendarMap.draw("a", free, sites).alternative().endsWith("No capacity is set."));
  }

  @Test
  void moreIsDarkerAndSumsAreRight() {
    Paper paper = paper();
    assertEquals(paper.px(5.5), middle(paper, "shade 0 4"), 0.5);
    assertNotNull(paper.chart().getSeries("shade 0 0"));
    Note sum = last(paper, "7");
    assertEquals(note(paper, "Depot A").y(), sum.y());
    assertEquals(note(paper, "booked").y(), note(paper, "21").y());
  }

  @Test
  void aLongCalendarGoesOnBelow() {
    Paper paper = CalendarMap.paper(weeks(53), sites(2, 53, 1));
    List<Note> names = paper.notes().stream().filter(n -> n.text().startsWith("0 a site")).toList();
    assertEquals(2, names.size());
    assertTrue(names.get(0).y() < names.get(1).y());
    assertEquals(27, paper.x().max());
    assertEquals(
        1,
        CalendarMap.paper(weeks(27), sites(2, 27, 1)).notes().stream()
            .filter(n -> n.text().startsWith("0 a site"))
            .count());
  }

  @Test
  void nothingIsCutOffOrOverlapsAtAnySize() {
    for (int weeks : new int[] {1, 26, 28, CalendarMap.MOST_WEEKS}) {
      for (int sites : new int[] {1, 9, CalendarMap.MOST_SITES}) {
        Paper paper = CalendarMap.paper(weeks(weeks), sites(sites, weeks, 2));
        NotesTest.assertInside(paper);
        NotesTest.assertApart(paper.notes());
      }
    }
  }

  @Test
  void aYearOfManySitesIsStillSmall() {
    List<CalendarMap.Site> sites = new ArrayList<>();
    for (int site = 0; site < CalendarMap.MOST_SITES; site++) {
      List<Integer> rebuilds = new ArrayList<>(Collections.nCopies(CalendarMap.MOST_WEEKS, 0));
      for (int week = site % 10; week < rebuilds.size(); week += 10) {
        rebuilds.set(week, 1 + week % 3);
      }
      sites.add(new CalendarMap.Site("Depot " + site, rebuilds));
    }
    String svg = CalendarMap.draw("a", weeks(CalendarMap.MOST_WEEKS), sites).svg();
    int bytes = svg.getBytes(StandardCharsets.UTF_8).length;
    assertTrue(bytes < 80_000, "" + bytes);
  }

  @Test
  void tellsAndTabulatesWhatItDraws() {
    Picture picture = CalendarMap.draw("Weeks", WEEKS, SITES);
    assertEquals(
        "21 rebuilds booked at 2 sites from week 2026-W51 (Monday 2026-12-14) to 2027-W03. Over"
            + " capacity: 2027-W01 by 2 and 2027-W03 by 10. Closed: 2026-W52 and 2026-W53.",
        picture.alternative());
    assertEquals(
        List.of("week", "Monday", "rebuilds booked", "capacity", "over by", "Depot A", "Depot B"),
        picture.columns());
    assertEquals(List.of("2027-W01", "2027-01-04", "5", "3", "2", "4", "1"), picture.rows().get(3));
    assertEquals(
        List.of("2026-W52", "2026-12-21", "0", "closed", "", "0", "0"), picture.rows().get(1));
  }

  @Test
  void badInputIsRefusedWithItsNumber() {
    ProbabilityPlotTest.assertRefused(
        "2026-12-15", () -> new CalendarMap.Week(MONDAY.plusDays(1), OptionalInt.of(1), false));
    ProbabilityPlotTest.assertRefused(
        "-1", () -> new CalendarMap.Week(MONDAY, OptionalInt.of(-1), false));
    ProbabilityPlotTest.assertRefused("-2", () -> new CalendarMap.Site("a", List.of(-2)));
    ProbabilityPlotTest.assertRefused("weeks", () -> CalendarMap.paper(List.of(), SITES));
    ProbabilityPlotTest.assertRefused("sites", () -> CalendarMap.paper(WEEKS, List.of()));
    ProbabilityPlotTest.assertRefused(
        "Depot A", () -> CalendarMap.paper(WEEKS, List.of(SITES.get(0), SITES.get(0))));
    ProbabilityPlotTest.assertRefused("not 54", () -> CalendarMap.paper(weeks(54), SITES));
    ProbabilityPlotTest.assertRefused("not 41", () -> CalendarMap.paper(weeks(1), sites(41, 1, 1)));
    ProbabilityPlotTest.assertRefused("not 6", () -> CalendarMap.paper(weeks(5), SITES));
    ProbabilityPlotTest.assertRefused(
        "2026-12-21, not 2026-12-28",
        () -> CalendarMap.paper(List.of(WEEKS.get(0), WEEKS.get(2)), SITES));
  }

  private static List<CalendarMap.Week> weeks(int count) {
    List<CalendarMap.Week> weeks = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      weeks.add(new CalendarMap.Week(MONDAY.plusWeeks(i), OptionalInt.of(10 + i), i == 4));
    }
    return weeks;
  }

  private static List<CalendarMap.Site> sites(int count, int weeks, int rebuilds) {
    List<CalendarMap.Site> sites = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      String name = i + " a site with a very long name";
      sites.add(new CalendarMap.Site(name, Collections.nCopies(weeks, rebuilds)));
    }
    return sites;
  }

  private static double middle(Paper paper, String series) {
    double[] xs = paper.chart().getSeries(series).getXData();
    return paper.px((xs[0] + xs[1]) / 2);
  }

  private static List<String> texts(Paper paper) {
    return paper.notes().stream().map(Note::text).toList();
  }

  private static Note note(Paper paper, String text) {
    List<Note> notes = paper.notes().stream().filter(n -> n.text().equals(text)).toList();
    assertEquals(1, notes.size(), text + ": " + notes);
    return notes.get(0);
  }

  private static Note first(Paper paper, String text) {
    return paper.notes().stream().filter(n -> n.text().equals(text)).findFirst().orElseThrow();
  }

  private static Note last(Paper paper, String text) {
    return paper.notes().stream()
        .filter(n -> n.text().equals(text))
        .reduce((a, b) -> b)
        .orElseThrow();
  }
}
