package org.vaneward.study;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import org.vaneward.io.SafeFiles;
import org.vaneward.study.KnownTruthFleet.FleetKey;

/**
 * Fleets of known truth over sizes and lengths of records: do limits hold the truth as often as
 * they say, how far off are estimates, and what do the advised intervals cost beyond the best?
 *
 * <p>Every fleet is a line in a file of results. A run keeps the whole lines it finds there, draws
 * the fleets that are missing on all cores and ends with the lines in order: the same bytes however
 * often it was interrupted and whatever the number of cores. Results do not know the program that
 * made them: after a change of method, begin with an empty folder.
 */
public final class KnownTruthStudy {
  /** Where results go unless said otherwise. */
  public static final Path FOLDER = Path.of("target", "known-truth");

  /** Fleets of each scenario, size and span unless said otherwise; of larger fleets fewer. */
  public static final int FLEETS = 40;

  static final String FILE = "fleets.txt";

  /** The scenario whose lives are in part planted short. */
  static final String PLANTED = "depots-six";

  static final List<String> SCENARIOS = List.of("depots-plain", "small-terminal", PLANTED);
  static final List<Integer> PUMPS = List.of(10, 20, 50, 100, 300, 1000);
  static final List<Integer> YEARS = List.of(2, 5, 10, 15);

  private static final int LARGE = 300;
  private static final int LARGEST = 1000;
  private static final int REMARK_EVERY = 20;

  private KnownTruthStudy() {}

  /**
   * Of how many fleets a cell is made: a quarter from 300 pumps on, a tenth from 1,000. Of fleets
   * with planted causes there are a quarter as many, and none of 1,000 pumps, since planting flaws
   * in long records is slow.
   */
  static int fleets(String scenario, int pumps, int most) {
    boolean planted = scenario.equals(PLANTED);
    if (planted && pumps >= LARGEST) {
      return 0;
    }
    int part = pumps >= LARGEST ? 10 : pumps >= LARGE ? 4 : 1;
    return Math.max(1, most / (planted ? 4 * part : part));
  }

  /** The fleets of the design, first fleets of all cells first. */
  static List<FleetKey> design(int most) {
    List<FleetKey> keys = new ArrayList<>();
    for (int number = 1; number <= most; number++) {
      for (int pumps : PUMPS) {
        for (int years : YEARS) {
          for (String scenario : SCENARIOS) {
            if (number <= fleets(scenario, pumps, most)) {
              keys.add(new FleetKey(scenario, pumps, years, number));
            }
          }
        }
      }
    }
    return keys;
  }

  /**
   * The results of the design, with {@code most} fleets of each scenario, size and span; those that
   * are missing in {@code folder} are drawn.
   */
  public static KnownTruthSummary run(Path folder, int most) {
    return new KnownTruthSummary(List.copyOf(run(folder, design(most))));
  }

  /** The results of some fleets, in order. */
  static Collection<KnownTruthFleet> run(Path folder, List<FleetKey> wanted) {
    Path file = folder.resolve(FILE);
    SortedMap<FleetKey, KnownTruthFleet> found = found(file);
    List<FleetKey> missing = wanted.stream().filter(key -> !found.containsKey(key)).toList();
    if (!missing.isEmpty()) {
      keep(file, found.values());
      drawn(file, missing).forEach(fleet -> found.put(fleet.key(), fleet));
      keep(file, found.values());
    }
    found.keySet().retainAll(wanted);
    return found.values();
  }

  private static SortedMap<FleetKey, KnownTruthFleet> found(Path file) {
    SortedMap<FleetKey, KnownTruthFleet> found = new TreeMap<>();
    if (Files.exists(file)) {
      new String(SafeFiles.read(file), StandardCharsets.UTF_8)
          .lines()
          .flatMap(line -> KnownTruthFleet.parse(line).stream())
          .forEach(fleet -> found.put(fleet.key(), fleet));
    }
    return found;
  }

  private static void keep(Path file, Collection<KnownTruthFleet> fleets) {
    SafeFiles.write(
        file, fleets.stream().map(fleet -> fleet.line() + "\n").collect(Collectors.joining()));
  }

  private static List<KnownTruthFleet> drawn(Path file, List<FleetKey> missing) {
    AtomicInteger done = new AtomicInteger();
    try (Writer out =
        Files.newBufferedWriter(file, StandardCharsets.UTF_8, StandardOpenOption.APPEND)) {
      List<KnownTruthFleet> fleets = new ArrayList<>();
      // One round of all cells after another: a run that is cut short has something of each.
      new TreeMap<>(missing.stream().collect(Collectors.groupingBy(FleetKey::number)))
          .values()
          .forEach(
              round ->
                  round.parallelStream()
                      .map(
                          key -> {
                            KnownTruthFleet fleet = KnownTruthFleet.draw(key);
                            append(out, fleet.line());
                            tell(key, done.incrementAndGet(), missing.size());
                            return fleet;
                          })
                      .forEachOrdered(fleets::add));
      return fleets;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void append(Writer out, String line) {
    synchronized (out) {
      try {
        out.write(line + "\n");
        out.flush();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private static void tell(FleetKey last, int done, int all) {
    if (done % REMARK_EVERY == 0 || done == all) {
      System.err.printf(
          Locale.ROOT,
          "%d of %d fleets; last %s, %d pumps, %d years%n",
          done,
          all,
          last.scenario(),
          last.pumps(),
          last.years());
    }
  }

  /**
   * Prints the tables.
   *
   * @param args folder of results and number of fleets, both with defaults
   */
  public static void main(String[] args) {
    Path folder = args.length > 0 ? Path.of(args[0]) : FOLDER;
    int most = args.length > 1 ? Integer.parseInt(args[1]) : FLEETS;
    KnownTruthSummary summary = run(folder, most);
    System.out.print(summary.markdown());
    System.out.print("\n## Cells off what is aimed for\n\n" + summary.missed());
  }
}
