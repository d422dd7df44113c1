package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.knowm.xchart.XYSeries;

/** The history of a pump as a model. */
class PumpTimeLineTest {
  private static final PumpTimeLine.Input HISTORY = Samples.history("seal-inboard");
  private static final PumpTimeLine.Next NOTHING =
      new PumpTimeLine.Next(Optional.empty(), Optional.empty(), Optional.empty());

  private static Paper paper() {
    return PumpTimeLine.paper(HISTORY);
  }

  @Test
  void partsLieInTheirRowFromDayToDay() {
    Paper paper = paper();
    XYSeries part = paper.chart().getSeries("parts 0");
    assertEquals(LocalDate.of(2021, 3, 1).toEpochDay(), (long) part.getXData()[0]);
    double gap = LocalDate.of(2023, 7, 11).toEpochDay() - part.getXData()[1];
    assertEquals(1, gap * paper.plotWidth() / paper.x().length(), 1e-6, "a pixel of air");
    double level = part.getYData()[0];
    assertEquals(note(paper, "seal-inboard", 0).y(), paper.py(level) + 4, 1e-9);
    assertEquals(LocalDate.of(2025, 2, 3).toEpochDay(), (long) part.getXData()[6]);
    assertEquals(6, paper.chart().getSeries("parts 1").getXData().length, "two parts");
  }

  @Test
  void endsDifferByShapeColourAndWord() {
    Paper paper = paper();
    XYSeries stopped = paper.chart().getSeries("end 0 failed, stopped the pump");
    XYSeries good = paper.chart().getSeries("end 0 taken out while good");
    XYSeries found = paper.chart().getSeries("end 1 found failed");
    assertEquals(LocalDate.of(2023, 7, 11).toEpochDay(), (long) stopped.getXData()[0]);
    assertEquals(LocalDate.of(2025, 2, 3).toEpochDay(), (long) found.getXData()[0]);
    assertEquals(3, Set.of(stopped.getMarker(), good.getMarker(), found.getMarker()).size());
    HashSet<Object> colours = new HashSet<>();
    for (XYSeries series : List.of(stopped, good, found)) {
      colours.add(series.getMarkerColor());
    }
    assertEquals(3, colours.size());
    assertTrue(
        texts(paper)
            .containsAll(
                List.of(
                    "failed, stopped the pump",
                    "found failed",
                    "taken out while good",
                    "no mark: still in place")));
  }

  @Test
  void openingsStandUprightPlannedAndUnplannedApart() {
    Paper paper = paper();
    XYSeries first = paper.chart().getSeries("opening 0");
    XYSeries second = paper.chart().getSeries("opening 1");
    assertEquals(LocalDate.of(2023, 7, 11).toEpochDay(), (long) first.getXData()[0]);
    assertEquals(LocalDate.of(2025, 2, 3).toEpochDay(), (long) second.getXData()[1]);
    assertNotEquals(first.getLineColor(), second.getLineColor());
    assertNotNull(first.getLineStyle().getDashArray(), "unplanned is dashed");
    assertNull(second.getLineStyle().getDashArray());
    assertTrue(texts(paper).contains("2, 1 unplanned"), texts(paper).toString());
  }

  @Test
  void whatItPumpedIsNamedFromItsDay() {
    Paper paper = paper();
    XYSeries change = paper.chart().getSeries("service 1");
    assertEquals(LocalDate.of(2024, 1, 1).toEpochDay(), (long) change.getXData()[0]);
    assertEquals(paper.px(change.getXData()[0]) + 4, note(paper, "diesel", 0).x());
  }

  @Test
  void todayAndWhatIsToComeHaveTheirDays() {
    Paper paper = paper();
    assertEquals(Samples.TODAY.toEpochDay(), (long) series(paper, "today").getXData()[0]);
    LocalDate next = Samples.TODAY.plusDays(120);
    assertEquals(next.toEpochDay(), (long) series(paper, "next").getXData()[0]);
    assertEquals(
        Samples.TODAY.plusDays(201).toEpochDay(),
        (long) series(paper, "window").getXData()[1],
        "the last day is whole");
    assertEquals(
        Samples.TODAY.plusDays(300).toEpochDay(), (long) series(paper, "mandated").getXData()[0]);
    assertEquals(note(paper, "next rebuild", 0).y(), note(paper, next.toString(), 0).y());
    assertTrue(texts(paper).contains("today 2026-05-14"));
    assertEquals("465", note(paper, "465", 0).text(), "days in place since 2025-02-03");
  }

  @Test
  void whatIsPastSaysSoAndWhatIsFarOffIsAnArrow() {
    LocalDate past = Samples.TODAY.minusDays(3);
    Paper late =
        PumpTimeLine.paper(
            with(
                HISTORY,
                new PumpTimeLine.Next(Optional.of(past), Optional.empty(), Optional.empty())));
    assertTrue(texts(late).contains("2026-05-11 past"), texts(late).toString());
    assertNotEquals(series(paper(), "next").getMarker(), series(late, "next").getMarker());
    LocalDate far = LocalDate.of(2040, 1, 1);
    Paper off =
        PumpTimeLine.paper(
            with(
                HISTORY,
                new PumpTimeLine.Next(
                    Optional.of(far),
                    Optional.of(new FleetStrip.Window(far, far)),
                    Optional.of(far))));
    assertNull(off.chart().getSeries("next"));
    assertEquals(2, texts(off).stream().filter("►"::equals).count());
    assertTrue(off.x().max() < Samples.TODAY.plusDays(90).toEpochDay(), "nothing is squeezed");
  }

  @Test
  void theKeyNamesOnlyWhatIsThere() {
    PumpTimeLine.Input bare = input(List.of(new PumpTimeLine.Position("vanes", List.of())));
    List<String> texts = texts(PumpTimeLine.paper(bare));
    for (String mark : List.of("found failed", "planned opening", "costs hardly more", "pumps")) {
      assertFalse(texts.contains(mark), mark);
    }
    assertTrue(texts.containsAll(List.of("vanes", "none advised", "never")), texts.toString());
    assertEquals(
        "History of P-1 from 2026-05-14 to 2026-05-14: not opened. Parts: none recorded. No rebuild"
            + " is advised.",
        PumpTimeLine.draw("a", bare).alternative());
  }

  @Test
  void nothingIsCutOffOrOverlapsAtAnySize() {
    for (int positions : new int[] {1, 5, PumpTimeLine.MOST_POSITIONS}) {
      for (int openings : new int[] {0, 2, 60}) {
        for (LocalDate best : List.of(Samples.TODAY.minusYears(3), Samples.TODAY.plusYears(2))) {
          Paper paper = PumpTimeLine.paper(crowded(positions, openings, best));
          NotesTest.assertInside(paper);
          NotesTest.assertApart(paper.notes());
        }
      }
    }
  }

  @Test
  void aLongHistoryIsStillSmall() {
    Picture picture = PumpTimeLine.draw("a", crowded(5, 40, Samples.TODAY));
    int bytes = picture.svg().getBytes(StandardCharsets.UTF_8).length;
    assertTrue(bytes < 60_000, "" + bytes);
  }

  @Test
  void tellsAndTabulatesWhatItDraws() {
    Picture picture = PumpTimeLine.draw("History", HISTORY);
    assertEquals(
        "History of seal-inboard from 2021-03-01 to 2026-05-14: opened 2 times, 1 unplanned. Parts:"
            + " 1 failed, stopped the pump, 1 found failed, 1 taken out while good and 2 still in"
            + " place. It pumped seal-inboard from 2021-03-01 and diesel from 2024-01-01. Next"
            + " rebuild 2026-09-11, hardly dearer from 2026-08-02 to 2026-11-30, mandated by"
            + " 2027-03-10.",
        picture.alternative());
    assertEquals(List.of("row", "from", "to", "what"), picture.columns());
    assertTrue(
        picture
            .rows()
            .containsAll(
                List.of(
                    List.of("pumps", "2024-01-01", "", "diesel"),
                    List.of("vanes", "2021-03-01", "2025-02-03", "found failed"),
                    List.of("vanes", "2025-02-03", "", "still in place"),
                    List.of("opened", "2023-07-11", "", "unplanned"),
                    List.of("next rebuild", "2026-09-11", "", "advised"),
                    List.of("next rebuild", "2026-08-02", "2026-11-30", "costs hardly more"),
                    List.of("next rebuild", "", "2027-03-10", "mandated by"))),
        picture.rows().toString());
  }

  @Test
  void badInputIsRefusedWithItsNumber() {
    LocalDate day = Samples.TODAY;
    ProbabilityPlotTest.assertRefused(
        "2026-05-13", () -> new PumpTimeLine.Span(day, day.minusDays(1), PumpTimeLine.End.GOOD));
    ProbabilityPlotTest.assertRefused("0 given", () -> input(List.of()));
    PumpTimeLine.Position vanes = new PumpTimeLine.Position("vanes", List.of());
    ProbabilityPlotTest.assertRefused("vanes", () -> input(List.of(vanes, vanes)));
    ProbabilityPlotTest.assertRefused("not 41", () -> crowded(41, 0, day));
    PumpTimeLine.Span late = new PumpTimeLine.Span(day, day.plusDays(1), PumpTimeLine.End.IN_PLACE);
    ProbabilityPlotTest.assertRefused(
        "2026-05-15", () -> input(List.of(new PumpTimeLine.Position("vanes", List.of(late)))));
  }

  private static PumpTimeLine.Input input(List<PumpTimeLine.Position> positions) {
    return new PumpTimeLine.Input("P-1", Samples.TODAY, positions, List.of(), List.of(), NOTHING);
  }

  private static PumpTimeLine.Input with(PumpTimeLine.Input input, PumpTimeLine.Next next) {
    return new PumpTimeLine.Input(
        input.pump(), input.today(), input.positions(), input.openings(), input.services(), next);
  }

  /** Every part out at each opening, a new product at each second one, long names. */
  private static PumpTimeLine.Input crowded(int positions, int openings, LocalDate best) {
    List<PumpTimeLine.Opening> opened = new ArrayList<>();
    List<PumpTimeLine.Service> services = new ArrayList<>();
    List<PumpTimeLine.Span> spans = new ArrayList<>();
    LocalDate from = Samples.TODAY.minusDays(60L * (openings + 1));
    for (int i = 0; i < openings; i++) {
      LocalDate date = from.plusDays(60);
      opened.add(new PumpTimeLine.Opening(date, i % 3 > 0));
      if (i % 2 == 0) {
        services.add(new PumpTimeLine.Service(date, "a product with a very long name " + i));
      }
      PumpTimeLine.End end =
          i % 3 == 0
              ? PumpTimeLine.End.STOPPED
              : i % 3 == 1 ? PumpTimeLine.End.FOUND : PumpTimeLine.End.GOOD;
      spans.add(new PumpTimeLine.Span(from, date, end));
      from = date;
    }
    services.add(new PumpTimeLine.Service(Samples.TODAY, "kerosene"));
    spans.add(new PumpTimeLine.Span(from, Samples.TODAY, PumpTimeLine.End.IN_PLACE));
    List<PumpTimeLine.Position> rows = new ArrayList<>();
    for (int i = 0; i < positions; i++) {
      rows.add(new PumpTimeLine.Position("a position with a long name, number " + i, spans));
    }
    return new PumpTimeLine.Input(
        "P-1",
        Samples.TODAY,
        rows,
        opened,
        services,
        new PumpTimeLine.Next(
            Optional.of(best),
            Optional.of(new FleetStrip.Window(best.minusDays(20), best.plusDays(40))),
            Optional.of(best.plusDays(90))));
  }

  private static XYSeries series(Paper paper, String name) {
    XYSeries series = paper.chart().getSeries(name);
    assertNotNull(series, name);
    return series;
  }

  private static List<String> texts(Paper paper) {
    return paper.notes().stream().map(Note::text).toList();
  }

  /** One of the notes with a text, the lowest first. */
  private static Note note(Paper paper, String text, int which) {
    return paper.notes().stream()
        .filter(n -> n.text().equals(text))
        .sorted((a, b) -> Double.compare(b.y(), a.y()))
        .skip(which)
        .findFirst()
        .orElseThrow();
  }
}
