package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.vaneward.fleet.RowFate;
import org.vaneward.fleet.RowNote;
import org.vaneward.io.BadInputException;

/** A small fleet without a fault, to spoil in one place at a time. */
final class FleetFolder {
  static final String SETTINGS =
      """
      {
        "fleet": "Quay", "currency": "EUR", "as_of": "2026-06-30", "clock": "hours",
        "components": [
          {"component": "seal", "positions": ["seal-inboard", "seal-outboard"], "announces": true},
          {"component": "bearing", "positions": ["bearing-inboard"], "announces": true},
          {"component": "vanes", "positions": ["vane-set"], "announces": false, "wear_limit_mm": 1.5}
        ],
        "kits": [{"kit": "K1", "models": ["VP-80"], "contents": {"seal": 1, "vane": 6},
          "price": 310.5, "lead_time_days": 21}],
        "parts": [{"part": "seal", "price": 95, "lead_time_days": 7}],
        "needs": {"seal": 2, "vane": 6},
        "costs": {
          "planned": {"labour": 400, "downtime": 150},
          "unplanned": {"seal": {"labour": 600, "downtime": 900, "clean_up": 250}, "bearing": {}},
          "hidden": {"vanes": {"per_hour": 1.25}, "seal": {}}
        },
        "limits": {"max_interval_months": 60, "max_failure_probability": {"seal": 0.1}},
        "workshop": {"rebuilds_per_week": 2, "site_visit_cost": 80,
          "closed": [{"from": "2026-12-24", "to": "2027-01-02"}]},
        "stock": {"service_level": 0.9, "review_days": 14, "holding_per_year": 0.25, "waiting_per_day": 70},
        "mapping": {}
      }
      """;

  private final Path folder;
  private final Map<String, byte[]> files = new LinkedHashMap<>();

  FleetFolder(Path folder) {
    this.folder = folder;
    with("fleet.json", SETTINGS);
    with(
        "pumps.csv",
        """
        pump,site,model,commissioned,records_from,hours_per_week,retired
        P1,North,VP-80,2020-01-01,,50,
        P2,South,,2020-01-01,2022-01-01,,2025-12-31
        """);
    with(
        "services.csv",
        """
        pump,from,product,duty,pressure_bar,temperature_c
        P1,2020-01-01,petrol,loading,4.5,-5
        P1,2023-01-01,diesel,loading,,
        P2,2020-01-01,diesel,transfer,3,
        """);
    with(
        "readings.csv",
        """
        pump,date,hours,event,old_hours
        P1,2020-01-01,0,,
        P1,2021-01-01,2600,,
        P1,2022-01-01,5200,,
        P1,2023-01-01,0,meter-replaced,7800
        P1,2024-01-01,2600,,
        P2,2021-01-01,1000,,
        """);
    with(
        "rebuilds.csv",
        """
        rebuild,pump,date,hours,trigger,crew,kit,downtime_hours,cost,end_clearance_mm,note
        R1,P1,2021-06-01,3700,leak,Crew A,K1,12,800.5,0.12,"first, quoted"
        R2,P1,2023-06-01,,planned,Crew A,K1,,,,
        R3,P2,2022-05-05,1500,noise,Crew B,,,,,
        """);
    with(
        "findings.csv",
        """
        rebuild,position,as_found,primary,mode,cause,action,measured_mm,lot
        R1,seal-inboard,failed,yes,ELP,,renewed,,L7
        R1,vane-set,worn,no,,,renewed,0.8,
        R2,seal-inboard,good,,,,reused,,
        R3,bearing-inboard,failed,yes,,,reconditioned,,
        """);
  }

  /** Replaces a file. */
  FleetFolder with(String name, String content) {
    files.put(name, content.getBytes(StandardCharsets.UTF_8));
    return this;
  }

  /** Replaces a file by raw bytes. */
  FleetFolder with(String name, byte[] content) {
    files.put(name, content);
    return this;
  }

  FleetFolder without(String name) {
    files.remove(name);
    return this;
  }

  /** Appends a row. */
  FleetFolder plus(String name, String row) {
    return with(name, text(name) + row + "\n");
  }

  /** Replaces a piece of a file, which must be there. */
  FleetFolder change(String name, String from, String to) {
    String before = text(name);
    String after = before.replace(from, to);
    if (after.equals(before)) {
      throw new IllegalArgumentException("nothing to change: " + from);
    }
    return with(name, after);
  }

  String text(String name) {
    return new String(bytes(name), StandardCharsets.UTF_8);
  }

  byte[] bytes(String name) {
    byte[] content = files.get(name);
    if (content == null) {
      throw new IllegalArgumentException(name);
    }
    return content.clone();
  }

  Ingested read() {
    try {
      try (Stream<Path> before = Files.list(folder)) {
        for (Path file : before.toList()) {
          Files.delete(file);
        }
      }
      for (Map.Entry<String, byte[]> file : files.entrySet()) {
        Files.write(folder.resolve(file.getKey()), file.getValue());
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return Ingest.read(folder);
  }

  /** Reads, and shows every note as {@code "file line column fate: text"}. */
  List<String> notes() {
    return read().account().notes().stream().map(FleetFolder::shown).toList();
  }

  static String shown(RowNote note) {
    RowFate fate = note.fate();
    String text =
        fate instanceof RowFate.SetAside aside
            ? "set aside: " + aside.reason()
            : fate instanceof RowFate.Repaired repaired
                ? "repaired: " + repaired.assumption()
                : "used";
    return note.row().file() + " " + note.row().line() + " " + note.column() + " " + text;
  }

  /** The one line with which reading is refused. */
  String refusal() {
    BadInputException refused = assertThrows(BadInputException.class, this::read);
    String message = String.valueOf(refused.getMessage());
    assertEquals(1, message.lines().count(), message);
    return message.replace(folder.toString(), "FOLDER");
  }
}
