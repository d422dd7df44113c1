package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import biweekly.Biweekly;
import biweekly.ICalVersion;
import biweekly.component.VEvent;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What the writer writes, a library of another make reads. */
class ICalendarTest {
  private static final LocalDate DAY = LocalDate.of(2026, 12, 31);

  @ParameterizedTest
  @ValueSource(
      strings = {
        "plain",
        "",
        "a, b; c \\ d: \"e\"",
        "first\nsecond\n\n- third",
        "=cmd()",
        "<script>alert('x')</script>",
        "Pumpe für Öl, Größe „10“",
        "\\n is not a new line, \\; is not escaped",
        "BEGIN:VEVENT\nEND:VCALENDAR",
        "😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀",
      })
  void textComesBackAsItWas(String text) {
    String hostile = text.repeat(7);
    String file = file(hostile);
    assertLines(file);
    VEvent event = event(file);
    assertEquals(hostile, event.getSummary().getValue());
    assertEquals(hostile, event.getLocation().getValue());
    assertEquals(hostile, event.getDescription().getValue());
  }

  @Test
  void anAllDayEventEndsOnTheNextDay() {
    String file = file("x");
    assertTrue(file.contains("\r\nDTSTART;VALUE=DATE:20261231\r\nDTEND;VALUE=DATE:20270101\r\n"));
    assertTrue(file.contains("\r\nDTSTAMP:20260630T000000Z\r\n"));
    VEvent event = event(file);
    assertFalse(event.getDateStart().getValue().hasTime());
    assertEquals("rebuild-1", event.getUid().getValue());
    assertTrue(Biweekly.parse(file).first().validate(ICalVersion.V2_0).isEmpty());
  }

  @Test
  void controlCharactersAndCarriageReturnsDoNotGetThrough() {
    String file = file("a\r\nb\rc\u0000d\u0007e");
    assertEquals("a\nb\nc d e", event(file).getSummary().getValue());
  }

  /** CRLF alone ends lines, none longer than 75 octets, none cut inside a character. */
  static void assertLines(String file) {
    assertTrue(file.endsWith("\r\n"));
    assertFalse(file.replace("\r\n", "").contains("\n"));
    assertFalse(file.replace("\r\n", "").contains("\r"));
    for (String line : file.split("\r\n", -1)) {
      byte[] octets = line.getBytes(StandardCharsets.UTF_8);
      assertTrue(octets.length <= 75, line);
      assertEquals(line, new String(octets, StandardCharsets.UTF_8));
      assertFalse(!line.isEmpty() && Character.isLowSurrogate(line.charAt(0)), line);
    }
  }

  private static String file(String text) {
    ICalendar file = new ICalendar("Fleet, " + text, LocalDate.of(2026, 6, 30));
    file.event("rebuild-1", DAY, "TENTATIVE", text, text, text);
    return file.text();
  }

  private static VEvent event(String file) {
    return Biweekly.parse(file).first().getEvents().get(0);
  }
}
