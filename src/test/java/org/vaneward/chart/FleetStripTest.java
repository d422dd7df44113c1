package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/** The fleet strip as a model. */
class FleetStripTest {
  private static final List<FleetStrip.Row> ROWS = Samples.rows("P-1");

  private static Paper paper() {
    return FleetStrip.paper(ROWS, Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS);
  }

  @Test
  void eachPumpHasItsRowFromTheTop() {
    Paper paper = paper();
    assertEquals(3.5, paper.chart().getSeries("due 0").getYData()[0]);
    assertEquals(2.5, paper.chart().getSeries("due 1").getYData()[0]);
    List<String> texts = paper.notes().stream().map(Note::text).toList();
    assertTrue(texts.containsAll(List.of("P-1", "P-2", "P-3", "P-4")), texts.toString());
  }

  @Test
  void datesAreDaysWithoutAZone() {
    Paper paper = paper();
    double due = paper.chart().getSeries("due 1").getXData()[0];
    assertEquals(Samples.TODAY.plusDays(120), LocalDate.ofEpochDay((long) due));
    double[] window = paper.chart().getSeries("window 1").getXData();
    assertEquals(Samples.TODAY.plusDays(80).toEpochDay(), (long) window[0]);
    assertEquals(
        Samples.TODAY.plusDays(201).toEpochDay(), (long) window[1], "the last day is whole");
    double mandated = paper.chart().getSeries("mandated 1").getXData()[0];
    assertEquals(Samples.TODAY.plusDays(300).toEpochDay(), (long) mandated);
  }

  @Test
  void overdueHasItsOwnShapeColourAndWord() {
    Paper paper = paper();
    var overdue = paper.chart().getSeries("due 0");
    var due = paper.chart().getSeries("due 1");
    assertNotEquals(due.getMarker(), overdue.getMarker());
    assertNotEquals(due.getMarkerColor(), overdue.getMarkerColor());
    List<String> texts = paper.notes().stream().map(Note::text).toList();
    assertTrue(texts.contains("2026-05-05 overdue"), texts.toString());
    assertTrue(texts.contains("2026-09-11"), texts.toString());
  }

  @Test
  void aPassedMandateIsOverdueToo() {
    FleetStrip.Row row =
        new FleetStrip.Row(
            "P-1",
            Optional.empty(),
            Optional.empty(),
            Optional.of(Samples.TODAY.minusDays(1)),
            OptionalDouble.empty());
    Picture picture =
        FleetStrip.draw("a", List.of(row), Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS);
    assertEquals("overdue", picture.rows().get(0).get(6));
    FleetStrip.Row dueToday =
        new FleetStrip.Row(
            "P-1",
            Optional.of(Samples.TODAY),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.empty());
    assertEquals(
        "",
        FleetStrip.draw("a", List.of(dueToday), Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS)
            .rows()
            .get(0)
            .get(6),
        "due today is not overdue");
  }

  @Test
  void whatIsFarOffIsAnArrowAndSqueezesNothing() {
    Paper paper = paper();
    assertNull(paper.chart().getSeries("due 3"));
    List<String> texts = paper.notes().stream().map(Note::text).toList();
    assertTrue(texts.contains("►") && texts.contains("2035-01-01"), texts.toString());
    assertTrue(paper.x().max() < Samples.TODAY.plusDays(320).toEpochDay(), "" + paper.x());
  }

  @Test
  void whatIsLongAgoIsAnArrowToo() {
    FleetStrip.Row old =
        new FleetStrip.Row(
            "P-1",
            Optional.of(LocalDate.of(2019, 1, 1)),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.empty());
    Paper paper = FleetStrip.paper(List.of(old), Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS);
    List<String> texts = paper.notes().stream().map(Note::text).toList();
    assertTrue(texts.contains("◄") && texts.contains("2019-01-01 overdue"), texts.toString());
  }

  @Test
  void theKeyNamesOnlyWhatIsThere() {
    List<String> texts = paper().notes().stream().map(Note::text).toList();
    assertTrue(
        texts.containsAll(List.of("advised", "overdue", "costs hardly more", "mandated limit")),
        texts.toString());
    List<FleetStrip.Row> bare = List.of(ROWS.get(2));
    List<String> few =
        FleetStrip.paper(bare, Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS).notes().stream()
            .map(Note::text)
            .toList();
    assertTrue(few.contains("none advised"), few.toString());
    assertTrue(!few.contains("mandated limit") && !few.contains("overdue"), few.toString());
  }

  @Test
  void theKeyBreaksWhereLongTagsLeaveLittleRoom() {
    Paper paper =
        FleetStrip.paper(
            Samples.rows("a pump with a very long name in the depot north"),
            Samples.TODAY,
            Samples.HORIZON,
            AgeUnit.HOURS);
    double plotEnd = paper.width() - paper.margins().right();
    double mandated = paper.chart().getSeries("key mandated limit").getXData()[0];
    assertTrue(paper.px(mandated) < plotEnd, "" + paper.px(mandated));
    assertEquals(6, paper.y().max(), "four pumps and two rows of the key");
    Paper bare =
        FleetStrip.paper(List.of(ROWS.get(1)), Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS);
    assertEquals(2, bare.y().max(), "one pump and one row of the key");
  }

  @Test
  void todayIsMarked() {
    var today = paper().chart().getSeries("today");
    assertNotNull(today);
    assertEquals(Samples.TODAY.toEpochDay(), (long) today.getXData()[0]);
  }

  @Test
  void runningSinceRebuildStandsBesideTheTagFlushRight() {
    Paper paper = paper();
    List<Note> notes = paper.notes();
    double right = paper.margins().left() - 8;
    assertEquals("since rebuild, h", at(notes, right, Note.Anchor.END).get(0));
    assertEquals(
        List.of("since rebuild, h", "412", "8,120", "–", "0"), at(notes, right, Note.Anchor.END));
    Note tag = notes.stream().filter(n -> n.text().equals("P-2")).findFirst().orElseThrow();
    Note run = notes.stream().filter(n -> n.text().equals("8,120")).findFirst().orElseThrow();
    assertEquals(tag.y(), run.y());
    assertTrue(tag.box().right() + 4 < run.box().left(), tag + " " + run);
  }

  private static List<String> at(List<Note> notes, double x, Note.Anchor anchor) {
    return notes.stream().filter(n -> n.x() == x && n.anchor() == anchor).map(Note::text).toList();
  }

  @Test
  void whereNoRunningIsKnownThereIsNoColumn() {
    Paper bare =
        FleetStrip.paper(List.of(ROWS.get(2)), Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS);
    assertEquals(60, bare.margins().left());
    assertTrue(bare.notes().stream().noneMatch(n -> n.text().startsWith("since")));
  }

  @Test
  void theHeadingsKeepApartUnderAnyTagAndOverdueRow() {
    for (String tag : List.of("P", "P-100-A", "a pump with a very long name in the depot north")) {
      for (AgeUnit unit : AgeUnit.values()) {
        List<Note> notes =
            FleetStrip.paper(Samples.rows(tag), Samples.TODAY, Samples.HORIZON, unit).notes();
        NotesTest.assertInside(notes, 640, 180);
        NotesTest.assertApart(notes);
      }
    }
  }

  @Test
  void tellsAndTabulatesWhatItDraws() {
    Picture picture = FleetStrip.draw("Fleet", ROWS, Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS);
    assertEquals(
        "Next rebuild of 4 pumps on a date axis, seen from 2026-05-14: overdue is P-1. Next is"
            + " P-2 on 2026-09-11.",
        picture.alternative());
    assertEquals(
        List.of("P-2", "8,120", "2026-09-11", "2026-08-02", "2026-11-30", "2027-03-10", ""),
        picture.rows().get(1));
    assertEquals(List.of("P-3", "", "", "", "", "", ""), picture.rows().get(2));
  }

  @Test
  void badInputIsRefusedWithItsNumber() {
    List<FleetStrip.Row> many = new ArrayList<>();
    for (int i = 0; i <= FleetStrip.MOST_ROWS; i++) {
      many.add(
          new FleetStrip.Row(
              "P-" + i,
              Optional.empty(),
              Optional.empty(),
              Optional.empty(),
              OptionalDouble.empty()));
    }
    ProbabilityPlotTest.assertRefused(
        "not 41", () -> FleetStrip.paper(many, Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS));
    ProbabilityPlotTest.assertRefused(
        "0 given",
        () -> FleetStrip.paper(List.of(), Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS));
    ProbabilityPlotTest.assertRefused(
        "2026-05-14", () -> FleetStrip.paper(ROWS, Samples.TODAY, Samples.TODAY, AgeUnit.HOURS));
    ProbabilityPlotTest.assertRefused(
        "P-2",
        () ->
            FleetStrip.paper(
                List.of(ROWS.get(1), ROWS.get(1)), Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS));
    ProbabilityPlotTest.assertRefused(
        "-1.0",
        () ->
            new FleetStrip.Row(
                "P-1",
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                OptionalDouble.of(-1)));
    ProbabilityPlotTest.assertRefused(
        "2026-05-13", () -> new FleetStrip.Window(Samples.TODAY, Samples.TODAY.minusDays(1)));
  }
}
