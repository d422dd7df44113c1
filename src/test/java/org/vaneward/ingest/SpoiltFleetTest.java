package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.fleet.MeterReading;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.RowAccount;
import org.vaneward.fleet.RowAccount.FileAccount;
import org.vaneward.io.BadInputException;

/**
 * Spoils a small fleet at random: whatever is done to it, reading it ends in one clear line or in
 * records whose rows all add up.
 */
class SpoiltFleetTest {
  private static final List<String> TABLES =
      List.of("pumps.csv", "services.csv", "readings.csv", "rebuilds.csv", "findings.csv");
  private static final List<String> JUNK =
      List.of(
          "",
          " ",
          "0",
          "-1",
          "1e309",
          "NaN",
          "12,5",
          "2024-02-30",
          "2999-01-01",
          "1999-01-01",
          "P1",
          "P2",
          "R1",
          "R3",
          "failed",
          "GOOD",
          "planned",
          "meter-replaced",
          "\"",
          "\"\"",
          "'",
          "\u00e9",
          "\u2028",
          "x".repeat(300),
          "0x10",
          "2023-01-01",
          "7800",
          "99999",
          "yes",
          "seal-inboard");
  private static final int ROUNDS = 300;

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void readingEndsInOneLineOrInRowsThatAddUp(long seed) {
    Random random = new Random(seed);
    int refused = 0;
    for (int round = 0; round < ROUNDS; round++) {
      FleetFolder fleet = new FleetFolder(folder);
      int blows = 1 + random.nextInt(4);
      for (int i = 0; i < blows; i++) {
        spoil(fleet, random);
      }
      refused += ends(fleet, "seed " + seed + ", round " + round) ? 0 : 1;
    }
    assertTrue(refused > 0 && refused < ROUNDS, "both ends are reached; refused " + refused);
  }

  /** Whether the fleet could be read. */
  private static boolean ends(FleetFolder fleet, String where) {
    Ingested ingested;
    try {
      ingested = fleet.read();
    } catch (BadInputException e) {
      String message = String.valueOf(e.getMessage());
      assertEquals(1, message.lines().count(), () -> where + ": " + message);
      assertFalse(message.isBlank(), where);
      return false;
    }
    RowAccount account = ingested.account();
    for (FileAccount file : account.files()) {
      assertEquals(file.rows(), file.used() + file.repaired() + file.setAside(), where);
      assertTrue(file.used() >= 0, where);
    }
    account
        .notes()
        .forEach(n -> assertEquals(1, FleetFolder.shown(n).lines().count(), () -> where + n));
    recordsMatchTheAccount(ingested, account, where);
    ingested.fleet().pumps().forEach(history -> inOrder(history, where));
    return true;
  }

  /** No row that is not set aside is missing from the fleet unless it repeats another. */
  private static void recordsMatchTheAccount(Ingested ingested, RowAccount account, String where) {
    long pumps = ingested.fleet().pumps().size();
    FileAccount first = account.files().get(0);
    assertEquals(first.rows() - first.setAside(), pumps, where);
    long readings = ingested.fleet().pumps().stream().mapToLong(h -> h.readings().size()).sum();
    FileAccount third = account.files().get(2);
    long repeats =
        account.notes().stream()
            .filter(n -> n.row().file().equals(third.file()))
            .filter(n -> FleetFolder.shown(n).endsWith("counted once"))
            .count();
    assertEquals(third.rows() - third.setAside() - repeats, readings, where);
  }

  private static void inOrder(PumpHistory history, String where) {
    List<LocalDate> opened = history.openings().stream().map(Opening::date).toList();
    assertEquals(opened.stream().sorted().toList(), opened, where);
    List<MeterReading> readings = history.readings();
    for (int i = 1; i < readings.size(); i++) {
      MeterReading before = readings.get(i - 1);
      MeterReading after = readings.get(i);
      double shown = after.oldMeterHours().orElse(after.hours());
      assertTrue(
          MeterChain.fits(
              before.date().toEpochDay(), before.hours(), after.date().toEpochDay(), shown),
          () -> where + ": " + before + " then " + after);
    }
  }

  private static void spoil(FleetFolder fleet, Random random) {
    String name = TABLES.get(random.nextInt(TABLES.size()));
    switch (random.nextInt(10)) {
      case 0 -> flipByte(fleet, random.nextInt(4) == 0 ? "fleet.json" : name, random);
      case 1 -> cutShort(fleet, name, random);
      case 2, 3, 4, 5 -> changeCell(fleet, name, random);
      case 6 -> dropCell(fleet, name, random);
      case 7 -> repeatLine(fleet, name, random);
      case 8 -> shuffleRows(fleet, name, random);
      default -> swapColumns(fleet, name, random);
    }
  }

  private static void flipByte(FleetFolder fleet, String name, Random random) {
    byte[] bytes = fleet.bytes(name);
    if (bytes.length > 0) {
      bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
      fleet.with(name, bytes);
    }
  }

  private static void cutShort(FleetFolder fleet, String name, Random random) {
    byte[] bytes = fleet.bytes(name);
    fleet.with(name, Arrays.copyOf(bytes, random.nextInt(bytes.length + 1)));
  }

  private static void changeCell(FleetFolder fleet, String name, Random random) {
    List<String> lines = lines(fleet, name);
    if (lines.size() > 1) {
      int at = 1 + random.nextInt(lines.size() - 1);
      String[] cells = lines.get(at).split(",", -1);
      cells[random.nextInt(cells.length)] = JUNK.get(random.nextInt(JUNK.size()));
      lines.set(at, String.join(",", cells));
      put(fleet, name, lines);
    }
  }

  private static void dropCell(FleetFolder fleet, String name, Random random) {
    List<String> lines = lines(fleet, name);
    if (!lines.isEmpty()) {
      int at = random.nextInt(lines.size());
      List<String> cells = new ArrayList<>(List.of(lines.get(at).split(",", -1)));
      cells.remove(random.nextInt(cells.size()));
      lines.set(at, String.join(",", cells));
      put(fleet, name, lines);
    }
  }

  private static void repeatLine(FleetFolder fleet, String name, Random random) {
    List<String> lines = lines(fleet, name);
    if (!lines.isEmpty()) {
      lines.add(random.nextInt(lines.size()) + 1, lines.get(random.nextInt(lines.size())));
      put(fleet, name, lines);
    }
  }

  private static void shuffleRows(FleetFolder fleet, String name, Random random) {
    List<String> lines = lines(fleet, name);
    if (lines.size() > 2) {
      Collections.shuffle(lines.subList(1, lines.size()), random);
      put(fleet, name, lines);
    }
  }

  private static void swapColumns(FleetFolder fleet, String name, Random random) {
    int from = random.nextInt(5);
    int to = random.nextInt(5);
    boolean header = random.nextBoolean();
    List<String> lines = lines(fleet, name);
    for (int i = header ? 0 : 1; i < lines.size(); i++) {
      String[] cells = lines.get(i).split(",", -1);
      if (Math.max(from, to) < cells.length) {
        String cell = cells[from];
        cells[from] = cells[to];
        cells[to] = cell;
        lines.set(i, String.join(",", cells));
      }
    }
    put(fleet, name, lines);
  }

  private static List<String> lines(FleetFolder fleet, String name) {
    return fleet.text(name).lines().collect(Collectors.toCollection(ArrayList::new));
  }

  private static void put(FleetFolder fleet, String name, List<String> lines) {
    fleet.with(name, String.join("\n", lines) + "\n");
  }
}
