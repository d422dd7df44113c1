package org.vaneward.fleet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.RowAccount.FileAccount;

class RowAccountTest {
  private static final RowRef A5 = new RowRef("a.csv", 5);
  private static final RowRef A9 = new RowRef("a.csv", 9);

  private static Map<String, Long> read() {
    Map<String, Long> read = new LinkedHashMap<>();
    read.put("z.csv", 4L);
    read.put("a.csv", 10L);
    return read;
  }

  @Test
  void theGravestFateCounts() {
    RowAccount account =
        RowAccount.of(
            read(),
            List.of(
                RowNote.repaired(A9, "hours", "assumed", Effect.NOTHING),
                RowNote.setAside(A5, "pump", "unknown", Effect.NOTHING),
                RowNote.repaired(A5, "date", "assumed", Effect.NOTHING)));
    assertEquals(
        List.of(new FileAccount("z.csv", 4, 4, 0, 0), new FileAccount("a.csv", 10, 8, 1, 1)),
        account.files());
    assertEquals(
        List.of("date", "pump", "hours"), account.notes().stream().map(RowNote::column).toList());
  }

  @Test
  void aNoteOfUseChangesNothing() {
    RowAccount account =
        RowAccount.of(read(), List.of(new RowNote(A5, "", new RowFate.Used(), Effect.NOTHING)));
    assertEquals(new FileAccount("a.csv", 10, 10, 0, 0), account.files().get(1));
  }

  @Test
  void aNoteOnARowNeverReadIsABug() {
    RowNote stray = RowNote.repaired(new RowRef("b.csv", 2), "", "x", Effect.NOTHING);
    String message =
        assertThrows(IllegalArgumentException.class, () -> RowAccount.of(read(), List.of(stray)))
            .getMessage();
    assertTrue(String.valueOf(message).contains("b.csv"), message);
    assertThrows(
        IllegalArgumentException.class,
        () ->
            RowAccount.of(
                Map.of("a.csv", 1L),
                List.of(
                    RowNote.repaired(A5, "", "x", Effect.NOTHING),
                    RowNote.repaired(A9, "", "x", Effect.NOTHING))));
  }
}
