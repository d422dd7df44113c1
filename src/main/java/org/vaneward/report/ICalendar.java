package org.vaneward.report;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;

/**
 * A file of all-day events, RFC 5545: escaped text, lines folded at 75 octets, CRLF. It has no
 * clock: the stamp of every event is the day it is given, so that the same input gives the same
 * bytes.
 */
final class ICalendar {
  private static final int OCTETS = 75;
  private static final String CRLF = "\r\n";

  private final StringBuilder text = new StringBuilder();
  private final String stamp;

  /**
   * An empty calendar.
   *
   * @param name what a reader calls it
   * @param stamp the day its events are stamped with
   */
  ICalendar(String name, LocalDate stamp) {
    this.stamp = basic(stamp) + "T000000Z";
    line("BEGIN:VCALENDAR");
    line("VERSION:2.0");
    line("PRODID:-//Vaneward//Rebuild calendar//EN");
    line("CALSCALE:GREGORIAN");
    line("X-WR-CALNAME:" + escaped(name));
  }

  /**
   * An all-day event.
   *
   * @param uid what it is known by for good; letters, digits and hyphens
   * @param status {@code CONFIRMED} or {@code TENTATIVE}
   */
  void event(
      String uid,
      LocalDate day,
      String status,
      String summary,
      String location,
      String description) {
    line("BEGIN:VEVENT");
    line("UID:" + uid);
    line("DTSTAMP:" + stamp);
    line("DTSTART;VALUE=DATE:" + basic(day));
    line("DTEND;VALUE=DATE:" + basic(day.plusDays(1)));
    line("SUMMARY:" + escaped(summary));
    line("LOCATION:" + escaped(location));
    line("DESCRIPTION:" + escaped(description));
    line("STATUS:" + status);
    line("TRANSP:TRANSPARENT");
    line("END:VEVENT");
  }

  /** The file. */
  String text() {
    return text + "END:VCALENDAR" + CRLF;
  }

  private static String basic(LocalDate day) {
    return day.format(DateTimeFormatter.BASIC_ISO_DATE);
  }

  /** RFC 5545, 3.3.11; control characters, which it forbids, become spaces. */
  private static String escaped(String value) {
    StringBuilder out = new StringBuilder();
    value
        .replace("\r\n", "\n")
        .replace('\r', '\n')
        .codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '\n' -> out.append("\\n");
                case '\\', ';', ',' -> out.append('\\').appendCodePoint(c);
                default -> out.appendCodePoint(Character.isISOControl(c) && c != '\t' ? ' ' : c);
              }
            });
    return out.toString();
  }

  /** RFC 5545, 3.1: a long line goes on after CRLF and a space, never inside a character. */
  private void line(String content) {
    int octets = 0;
    for (int i = 0; i < content.length(); i += Character.charCount(content.codePointAt(i))) {
      String character = Character.toString(content.codePointAt(i));
      int size = character.getBytes(StandardCharsets.UTF_8).length;
      if (octets + size > OCTETS) {
        text.append(CRLF).append(' ');
        octets = 1;
      }
      text.append(character);
      octets += size;
    }
    text.append(CRLF);
  }
}
