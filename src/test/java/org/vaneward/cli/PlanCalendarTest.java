package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import biweekly.Biweekly;
import biweekly.component.VEvent;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The calendar of the sample fleet, out and in again. */
class PlanCalendarTest {
  private static final String SAMPLE = "sample-fleet";

  @TempDir Path folder = Path.of("unset");

  @Test
  void aCalendarGoesOutAsCsvAndIcsAndComesBackCommitted() {
    Path csv = folder.resolve("calendar.csv");
    Path ics = folder.resolve("calendar.ics");
    JsonNode first = plan("--calendar", csv.toString(), "--ics", ics.toString());
    JsonNode sums = first.get("calendar_sums");
    int booked = sums.get("bookings").size();
    assertTrue(booked > 50, "booked: " + booked);
    assertTrue(sums.get("visits").asInt() < booked, "visits are shared");
    assertTrue(List.of("optimal", "gap").contains(sums.get("status").asText()));
    assertTrue(sums.get("gap").asDouble() < 0.05, () -> sums.get("gap").toString());
    assertEquals(450.0 * sums.get("visits").asInt(), sums.get("visit_cost").asDouble(), 1e-9);
    assertEquals(booked + 1, Run.read(csv).lines().count());

    Map<String, String> uids = uids(ics);
    assertEquals(booked, uids.size());

    Path again = folder.resolve("again.csv");
    Path icsAgain = folder.resolve("again.ics");
    JsonNode second =
        plan(
            "--committed",
            csv.toString(),
            "--calendar",
            again.toString(),
            "--ics",
            icsAgain.toString());
    assertEquals(first.get("calendar"), second.get("calendar"));
    assertEquals(
        sums.get("extra_cost").asDouble(),
        second.get("calendar_sums").get("extra_cost").asDouble(),
        1e-6);
    assertEquals(Run.read(csv).replace(",no,", ",yes,"), Run.read(again));
    assertEquals(uids, uids(icsAgain));
  }

  @Test
  void aCommittedPumpKeepsItsWeek() throws IOException {
    Path file = folder.resolve("committed.csv");
    Files.writeString(file, "pump,week,note\nCN-P01,2026-W52,\"crane, then\"\n");
    Run run = Run.ending(1, "plan", SAMPLE, "--committed", file.toString(), "--quiet");
    assertTrue(run.out().contains("2026-W52 is closed, and 1 rebuild committed to it."));
    assertTrue(run.out().contains("yes: 'crane, then'"));
    Files.writeString(file, "pump,week\nCN-P99,2026-W52\n");
    Run refused = Run.of("plan", SAMPLE, "--committed", file.toString(), "--quiet");
    refused.isRefusedInOneLine();
    assertTrue(refused.err().contains("line 2: pump 'CN-P99' is not among the pumps"));
  }

  @Test
  void fewerWeeksLeaveMorePumpsForLater() {
    JsonNode year = plan("--weeks", "26");
    JsonNode last = year.get("calendar").get(year.get("calendar").size() - 1);
    assertTrue(last.get("week").asText().compareTo("2027-W01") <= 0, last::toString);
    assertTrue(year.get("calendar_sums").get("left_for_later").asInt() > 30);
    Run refused = Run.of("plan", SAMPLE, "--weeks", "0");
    assertEquals(2, refused.code());
    assertTrue(refused.err().contains("a calendar covers 1 to 520 weeks"), refused.err());
  }

  @Test
  void everyEventSaysWhyAndWarns() {
    Path ics = folder.resolve("calendar.ics");
    plan("--ics", ics.toString());
    String text = Run.read(ics);
    assertFalse(text.replace("\r\n", "").contains("\n"));
    for (VEvent event : Biweekly.parse(text).first().getEvents()) {
      String description = event.getDescription().getValue();
      assertTrue(description.contains("\nWhy: "), description);
      assertTrue(description.contains("lock out the drive"), description);
      assertFalse(event.getLocation().getValue().isEmpty());
    }
  }

  private static JsonNode plan(String... options) {
    List<String> args = new ArrayList<>(List.of("plan", SAMPLE, "--format", "json", "--quiet"));
    args.addAll(List.of(options));
    return Run.ending(1, args.toArray(new String[0])).json();
  }

  private static Map<String, String> uids(Path ics) {
    Map<String, String> uids = new HashMap<>();
    for (VEvent event : Biweekly.parse(Run.read(ics)).first().getEvents()) {
      uids.put(event.getSummary().getValue(), event.getUid().getValue());
    }
    return uids;
  }
}
