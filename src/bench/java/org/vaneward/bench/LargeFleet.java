package org.vaneward.bench;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * Writes a fleet folder of any number of rebuilds, five findings to each, drawn with a fixed seed:
 * an invented fleet to time reading with, not one to learn from. Arguments: the folder, the number
 * of rebuilds, and {@code sample-fleet/fleet.json}, whose components and prices it takes.
 */
public final class LargeFleet {
  private static final LocalDate AS_OF = LocalDate.of(2026, 6, 30);
  private static final String[] POSITIONS = {
    "seal-inboard", "seal-outboard", "bearing-inboard", "bearing-outboard", "vane-set"
  };
  private static final double[] SHAPE = {1.8, 1.8, 2.4, 2.4, 2.0};
  private static final double[] SCALE = {7_000, 7_000, 16_000, 16_000, 14_000};
  private static final String[] TRIGGER = {"leak", "leak", "noise", "noise", "low-flow"};
  private static final String[] PRODUCTS = {
    "road diesel", "petrol", "ethanol blend", "aviation kerosene", "heating oil", "urea solution"
  };
  private static final String[] DUTIES = {"loading", "transfer"};
  private static final double PLANNED = 5_500;
  private static final int DAYS_BETWEEN_READINGS = 182;

  private final SplittableRandom random = new SplittableRandom(20260701);
  private final BufferedWriter pumps;
  private final BufferedWriter services;
  private final BufferedWriter readings;
  private final BufferedWriter rebuilds;
  private final BufferedWriter findings;
  private long written;

  private LargeFleet(Path folder) throws IOException {
    pumps =
        table(folder, "pumps", "pump,site,model,commissioned,records_from,hours_per_week,retired");
    services = table(folder, "services", "pump,from,product,duty,pressure_bar");
    readings = table(folder, "readings", "pump,date,hours,event,old_hours");
    rebuilds =
        table(
            folder,
            "rebuilds",
            "rebuild,pump,date,hours,trigger,crew,kit,downtime_hours,cost,end_clearance_mm,note");
    findings =
        table(
            folder,
            "findings",
            "rebuild,position,as_found,primary,mode,cause,action,measured_mm,lot");
  }

  private static BufferedWriter table(Path folder, String name, String header) throws IOException {
    BufferedWriter writer =
        Files.newBufferedWriter(folder.resolve(name + ".csv"), StandardCharsets.UTF_8);
    writer.write(header + "\n");
    return writer;
  }

  /** Writes the folder. */
  public static void main(String[] args) throws IOException {
    Path folder = Path.of(args[0]);
    long rebuilds = Long.parseLong(args[1]);
    Files.createDirectories(folder);
    Files.copy(
        Path.of(args[2]),
        folder.resolve("fleet.json"),
        java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    LargeFleet fleet = new LargeFleet(folder);
    int pumps = 0;
    while (fleet.written < rebuilds) {
      fleet.pump(++pumps, rebuilds);
    }
    fleet.close();
    System.out.printf(Locale.ROOT, "%,d pumps, %,d rebuilds in %s%n", pumps, fleet.written, folder);
  }

  private void close() throws IOException {
    for (BufferedWriter table : Arrays.asList(pumps, services, readings, rebuilds, findings)) {
      table.close();
    }
  }

  private void pump(int number, long most) throws IOException {
    String tag = "P" + number;
    LocalDate commissioned = LocalDate.of(2012, 1, 1).plusDays(random.nextInt(2000));
    int perWeek = 20 + random.nextInt(60);
    double perDay = perWeek / 7.0;
    int service = random.nextInt(PRODUCTS.length * DUTIES.length);
    double factor = 0.7 + 0.05 * service;
    pumps.write(tag + ",Depot " + number % 400 + ",V4," + commissioned + ",," + perWeek + ",\n");
    services.write(
        tag
            + ","
            + commissioned
            + ","
            + PRODUCTS[service / DUTIES.length]
            + ","
            + DUTIES[service % DUTIES.length]
            + ",4\n");
    for (LocalDate day = commissioned;
        !day.isAfter(AS_OF);
        day = day.plusDays(DAYS_BETWEEN_READINGS)) {
      double hours = perDay * (day.toEpochDay() - commissioned.toEpochDay());
      readings.write(tag + "," + day + "," + (long) hours + ",,\n");
    }
    double end = perDay * (AS_OF.toEpochDay() - commissioned.toEpochDay());
    live(tag, commissioned, perDay, end, factor, most);
  }

  private void live(
      String tag, LocalDate commissioned, double perDay, double end, double factor, long most)
      throws IOException {
    double[] fails = new double[POSITIONS.length];
    for (int p = 0; p < fails.length; p++) {
      fails[p] = draw(p, factor);
    }
    double planned = PLANNED * (0.8 + 0.4 * random.nextDouble());
    while (written < most) {
      int first = 0;
      for (int p = 1; p < fails.length; p++) {
        first = fails[p] < fails[first] ? p : first;
      }
      double now = Math.min(planned, fails[first]);
      if (now >= end) {
        return;
      }
      boolean failed = fails[first] <= planned;
      long hours = (long) Math.max(1, now);
      LocalDate day = commissioned.plusDays((long) Math.ceil(now / perDay));
      if (day.isAfter(AS_OF)) {
        return;
      }
      open(tag, day, hours, failed ? TRIGGER[first] : "planned");
      for (int p = 0; p < fails.length; p++) {
        boolean renewed = !failed || p == first || random.nextInt(4) == 0;
        found(p, failed && p == first, renewed);
        if (renewed) {
          fails[p] = now + draw(p, factor);
        }
      }
      planned = failed ? planned : now + PLANNED * (0.8 + 0.4 * random.nextDouble());
    }
  }

  private double draw(int position, double factor) {
    double survival = 1 - random.nextDouble();
    return 30 + factor * SCALE[position] * Math.pow(-Math.log(survival), 1 / SHAPE[position]);
  }

  private void open(String tag, LocalDate day, long hours, String trigger) throws IOException {
    written++;
    rebuilds.write(
        "R"
            + written
            + ","
            + tag
            + ","
            + day
            + ","
            + hours
            + ","
            + trigger
            + ",crew "
            + random.nextInt(8)
            + (trigger.equals("planned") ? ",K-V4," : ",,")
            + random.nextInt(60)
            + ","
            + (1000 + 10 * random.nextInt(600))
            + ",0."
            + (10 + random.nextInt(20))
            + ",\n");
  }

  private void found(int position, boolean failed, boolean renewed) throws IOException {
    findings.write(
        "R"
            + written
            + ","
            + POSITIONS[position]
            + (failed ? ",failed,yes,ELP,," : ",good,,,,")
            + (renewed ? "renewed,," : "reused,,")
            + (renewed ? "L" + random.nextInt(500) : "")
            + "\n");
  }
}
