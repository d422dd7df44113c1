package org.vaneward.backtest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;

class SpanTest {
  @Test
  void halfYearsEndWithMonthsWhereTheRecordsDo() {
    List<Span> spans = Span.halfYears(LocalDate.parse("2024-12-31"), LocalDate.parse("2026-06-30"));
    assertEquals(
        List.of("2024-12-31", "2025-06-30", "2025-12-31"),
        spans.stream().map(s -> s.origin().toString()).toList());
    assertEquals(LocalDate.parse("2026-06-30"), spans.get(2).end());
    assertEquals(184, spans.get(1).days());
    assertEquals(
        List.of("2025-08-15"),
        Span.halfYears(LocalDate.parse("2025-08-15"), LocalDate.parse("2026-02-15")).stream()
            .map(s -> s.origin().toString())
            .toList());
    assertTrue(
        Span.halfYears(LocalDate.parse("2025-08-16"), LocalDate.parse("2026-02-15")).isEmpty());
  }

  @Test
  void beginsTheDayAfterItsOrigin() {
    Span span = new Span(LocalDate.parse("2025-06-30"), LocalDate.parse("2025-12-31"));
    assertFalse(span.contains(LocalDate.parse("2025-06-30")));
    assertTrue(span.contains(LocalDate.parse("2025-07-01")));
    assertTrue(span.contains(LocalDate.parse("2025-12-31")));
    assertThrows(IllegalArgumentException.class, () -> new Span(span.end(), span.origin()));
  }

  @Test
  void onlyWhatFollowsTheLastGapIsUnbroken() {
    List<Span> all = Span.halfYears(LocalDate.of(2023, 12, 31), LocalDate.of(2026, 6, 30));
    assertEquals(5, all.size());
    assertEquals(5, Span.unbroken(all));
    assertEquals(2, Span.unbroken(List.of(all.get(0), all.get(1), all.get(3), all.get(4))));
    assertEquals(1, Span.unbroken(List.of(all.get(0), all.get(4))));
    assertEquals(0, Span.unbroken(List.of()));
  }
}
