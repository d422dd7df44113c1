package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.fleet.Commitment;
import org.vaneward.io.BadInputException;
import org.vaneward.io.SafeFiles;

class CommittedFileTest {
  /** A Tuesday. */
  private static final LocalDate AS_OF = LocalDate.of(2026, 6, 30);

  private static final Set<String> PUMPS = Set.of("P1", "P2", "=cmd()");

  @TempDir Path folder = Path.of("unset");

  @Test
  void weeksDatesAndNotes() {
    List<Commitment> read =
        read("pump;week;date;note\nP1;2026-W36;;crane booked\n'=cmd();;2026-07-02;\nP2;2026-W53;;");
    LocalDate september = LocalDate.of(2026, 8, 31);
    assertEquals(
        List.of(
            new Commitment("P1", september, Optional.empty(), Optional.of("crane booked")),
            new Commitment(
                "=cmd()", AS_OF.minusDays(1), Optional.of(AS_OF.plusDays(2)), Optional.empty()),
            new Commitment("P2", LocalDate.of(2026, 12, 28), Optional.empty(), Optional.empty())),
        read);
  }

  @Test
  void theRunningWeekIsNotPast() {
    assertEquals(AS_OF.minusDays(1), read("pump,week\nP1,2026-W27\n").get(0).monday());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "P9,2026-W36,|line 2: pump 'P9' is not among the pumps in service on 2026-06-30",
        ",2026-W36,|line 2: no pump; write its tag as in pumps.csv",
        "P1,,|line 2: no week and no date; write one of them, such as 2026-W36",
        "P1,2026-36,|line 2: week '2026-36' is no ISO 8601 week; write it as 2026-W36",
        "P1,2027-W53,|line 2: week '2027-W53' is no ISO 8601 week",
        "P1,,30.09.2026|line 2: date '30.09.2026' is no day; write it as YYYY-MM-DD",
        "P1,,2026-02-30|line 2: date '2026-02-30' is no day",
        "P1,,2026-06-29|line 2: date 2026-06-29 is past; the records reach to 2026-06-30",
        "P1,2026-W26,|line 2: week '2026-W26' is past",
        "P1,2026-W36,2026-07-06|line 2: date 2026-07-06 is not in week '2026-W36'",
        "P1,2026-W36,,x|line 2"
      })
  void badRowsAreRefusedInOneLine(String row, String says) {
    assertTrue(refused("pump,week,date\n" + row + "\n").contains(says), row);
  }

  @Test
  void aPumpTwiceAndAHeaderWithoutWeeks() {
    assertTrue(
        refused("pump,week\nP1,2026-W36\nP2,2026-W36\nP1,2026-W40\n")
            .contains("line 4: pump 'P1' is already committed in line 2"));
    assertTrue(refused("pump,note\nP1,x\n").contains("no column 'week' and no column 'date'"));
    assertTrue(refused("week\n2026-W36\n").contains("pump"));
  }

  @Test
  void noRowsIsNothingCommitted() {
    assertEquals(List.of(), read("pump,week\n"));
  }

  private List<Commitment> read(String text) {
    Path file = folder.resolve("committed.csv");
    SafeFiles.write(file, text);
    return CommittedFile.read(file, AS_OF, PUMPS);
  }

  private String refused(String text) {
    String message =
        String.valueOf(assertThrows(BadInputException.class, () -> read(text)).getMessage());
    assertEquals(1, message.lines().count());
    assertTrue(message.contains("committed.csv"), message);
    return message;
  }
}
