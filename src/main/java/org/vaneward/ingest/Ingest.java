package org.vaneward.ingest;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.io.BadInputException;
import org.vaneward.io.InputFile;

/**
 * Reads a fleet folder: {@code fleet.json} and the tables of pumps, services, readings, rebuilds
 * and findings. Nothing is dropped in silence: a row that cannot be used is set aside with its
 * reason, one that is used under an assumption says which.
 *
 * <p>The histories come out in order of date. Of one day, readings stand in order of hours, save
 * that a replaced meter keeps its place in the file; openings stand in order of hours, those of
 * unknown hours last, then in order of the file. Hours never fall within one meter and never rise
 * faster than the clock; between a reading and an opening of the same day they may differ by up to
 * a day's 24, either way. An opening on the day a meter is replaced shows the old meter.
 */
public final class Ingest {
  /** The document that a fleet folder holds besides its tables. */
  public static final String SETTINGS = "fleet.json";

  private static final Comparator<OpeningDraft> ORDER =
      Comparator.comparing(OpeningDraft::date)
          .thenComparingDouble(o -> o.meterHours().orElse(Double.POSITIVE_INFINITY))
          .thenComparing(OpeningDraft::row);

  private final Ledger ledger;

  private Ingest(Consumer<String> progress) {
    this.ledger = new Ledger(progress);
  }

  /**
   * The fleet in {@code folder}.
   *
   * @throws BadInputException when the folder or one of its files cannot be used at all; one line
   *     that says which, where and what would be right
   */
  public static Ingested read(Path folder) {
    return read(folder, remark -> {});
  }

  /**
   * The same for long files.
   *
   * @param progress is told, in a few words, how far the reading has come, at every million rows
   * @throws BadInputException as {@link #read(Path)}
   */
  public static Ingested read(Path folder, Consumer<String> progress) {
    if (!Files.isDirectory(folder)) {
      throw new BadInputException(
          folder
              + (Files.exists(folder) ? ": not a folder" : ": no such folder")
              + "; give the folder that holds fleet.json and the tables");
    }
    SettingsReader settings = SettingsReader.of(folder);
    return new Ingest(progress)
        .read(settings.settings(), FolderTables.of(folder, settings.mapping()));
  }

  /**
   * The fleet in {@code folder} as its records would have been read on an earlier day: rows of
   * later days are as good as not there, and no row is judged by them.
   *
   * @throws BadInputException as {@link #read(Path)}
   */
  public static Ingested readAsOf(Path folder, LocalDate day) {
    SettingsReader settings = SettingsReader.of(folder);
    return new Ingest(remark -> {})
        .read(settings.settings().withAsOf(day), FolderTables.of(folder, settings.mapping()));
  }

  /**
   * The files that {@link #read} reads from {@code folder}.
   *
   * @throws BadInputException when one of them cannot be read
   */
  public static List<InputFile> files(Path folder) {
    List<InputFile> files = new ArrayList<>();
    files.add(InputFile.of(folder, SettingsReader.NAME));
    FolderTables.of(folder, SettingsReader.of(folder).mapping())
        .files()
        .forEach(name -> files.add(InputFile.of(folder, name)));
    return files;
  }

  private Ingested read(FleetSettings settings, TableSource source) {
    RowReader rows = new RowReader(source, ledger);
    LocalDate asOf = settings.asOf();
    PumpTable pumps = PumpTable.read(rows, asOf);
    UnitCheck units = new UnitCheck();
    ServiceTable services = ServiceTable.read(rows, pumps, asOf, units);
    ReadingTable readings = ReadingTable.read(rows, pumps, asOf);
    RebuildTable rebuilds = RebuildTable.of(source.fileOf(Table.REBUILDS), pumps, asOf, units);
    FindingTable findings = FindingTable.of(rebuilds, settings.components(), units);
    rebuilds.read(rows, findings::add);
    findings.read(rows);
    units.report(ledger);
    Map<String, List<OpeningDraft>> openings = onceEach(rebuilds);
    List<PumpHistory> histories = new ArrayList<>();
    for (Pump pump : pumps.pumps()) {
      String tag = pump.pump();
      List<OpeningDraft> own = openings.getOrDefault(tag, List.of());
      histories.add(
          new PumpHistory(
              pump,
              services.of(tag),
              MeterCheck.settled(pump, readings.of(tag), own, ledger),
              own.stream().sorted(ORDER).map(OpeningDraft::opening).toList()));
    }
    return new Ingested(new Fleet(settings, histories), ledger.notes(), ledger.rowsRead());
  }

  /**
   * The openings by pump, in order. Two openings of one pump on one day with the same findings are
   * one, the first in the file.
   */
  private Map<String, List<OpeningDraft>> onceEach(RebuildTable rebuilds) {
    Map<String, List<OpeningDraft>> byPump = new HashMap<>();
    for (OpeningDraft opening : rebuilds.openings()) {
      byPump.computeIfAbsent(opening.pump(), pump -> new ArrayList<>()).add(opening);
    }
    byPump.replaceAll((pump, openings) -> onceEach(openings));
    return byPump;
  }

  /** The openings of one pump, given in the order of the file. */
  private List<OpeningDraft> onceEach(List<OpeningDraft> openings) {
    openings.sort(Comparator.comparing(OpeningDraft::date));
    List<OpeningDraft> once = new ArrayList<>(openings.size());
    Map<Object, OpeningDraft> sameDay = new HashMap<>();
    for (int i = 0; i < openings.size(); i++) {
      OpeningDraft opening = openings.get(i);
      boolean follows = i > 0 && openings.get(i - 1).date().equals(opening.date());
      boolean goesOn = i + 1 < openings.size() && openings.get(i + 1).date().equals(opening.date());
      if (!follows) {
        sameDay.clear();
      }
      OpeningDraft before =
          follows || goesOn ? sameDay.putIfAbsent(opening.identity(), opening) : null;
      if (before == null) {
        once.add(opening);
      } else {
        noteRepeat(opening, before);
      }
    }
    once.sort(ORDER);
    return once;
  }

  private void noteRepeat(OpeningDraft repeat, OpeningDraft kept) {
    ledger.repair(
        repeat.row(),
        "",
        "same opening as " + Where.beside(kept.row(), repeat.row()) + "; counted once",
        Effect.NOTHING);
    repeat
        .findings()
        .forEach(
            finding ->
                ledger.repair(
                    finding.row(),
                    "",
                    "finding of an opening that stands twice, "
                        + Where.of(kept.row())
                        + " and "
                        + Where.beside(repeat.row(), kept.row())
                        + "; counted once",
                    Effect.NOTHING));
  }
}
