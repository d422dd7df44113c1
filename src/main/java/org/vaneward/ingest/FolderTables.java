package org.vaneward.ingest;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Cell;
import org.vaneward.io.CsvTable;
import org.vaneward.io.JsonLinesTable;
import org.vaneward.io.SheetTable;
import org.vaneward.io.TableRows;

/** The tables as files in one folder: CSV, JSON Lines, or sheets of a workbook. */
final class FolderTables implements TableSource {
  private static final String WORKBOOK = "fleet.xlsx";
  private static final List<String> ENDINGS = List.of(".csv", ".csv.gz", ".jsonl", ".jsonl.gz");

  private final Path folder;
  private final Mapping mapping;
  private final Map<Table, Place> places = new EnumMap<>(Table.class);

  private FolderTables(Path folder, Mapping mapping) {
    this.folder = folder;
    this.mapping = mapping;
  }

  /**
   * Where a table stands.
   *
   * @param file name of the file
   * @param sheet sheet of a workbook
   */
  private record Place(String file, Optional<String> sheet) {
    String shown() {
      return sheet.map(name -> file + " [" + Cell.shortened(name) + "]").orElse(file);
    }
  }

  /**
   * The tables in {@code folder}.
   *
   * @throws BadInputException when one of them is not there, or is there twice
   */
  static FolderTables of(Path folder, Mapping mapping) {
    FolderTables tables = new FolderTables(folder, mapping);
    Optional<List<String>> sheets = tables.sheets(WORKBOOK);
    for (Table table : Table.values()) {
      tables.place(table, sheets).ifPresent(place -> tables.places.put(table, place));
    }
    return tables;
  }

  /** The sheets of a workbook in the folder; empty when there is no such file. */
  private Optional<List<String>> sheets(String file) {
    Path path = folder.resolve(file);
    return Files.isRegularFile(path)
        ? Optional.of(SheetTable.sheets(path, file))
        : Optional.empty();
  }

  private Optional<Place> place(Table table, Optional<List<String>> sheets) {
    TableForm form = mapping.of(table);
    if (form.file().isPresent()) {
      return Optional.of(stated(table, form, form.file().get()));
    }
    List<Place> found = new ArrayList<>();
    ENDINGS.stream()
        .map(ending -> table.title() + ending)
        .filter(name -> Files.isRegularFile(folder.resolve(name)))
        .forEach(name -> found.add(new Place(name, Optional.empty())));
    String sheet = form.sheet().orElse(table.title());
    if (sheets.filter(names -> names.contains(sheet)).isPresent()) {
      found.add(new Place(WORKBOOK, Optional.of(sheet)));
    }
    if (found.size() > 1) {
      throw new BadInputException(
          folder
              + ": "
              + table.title()
              + " stand in "
              + found.get(0).shown()
              + " and in "
              + found.get(1).shown()
              + "; keep one of them, or name it under mapping in fleet.json");
    }
    if (found.isEmpty() && !(table == Table.FINDINGS && rebuildsHoldFindings())) {
      throw missing(table);
    }
    return found.stream().findFirst();
  }

  private Place stated(Table table, TableForm form, String file) {
    Path path = folder.resolve(file);
    if (!Files.isRegularFile(path)) {
      throw new BadInputException(
          folder
              + ": no file "
              + Cell.quoted(file)
              + ", which mapping in fleet.json names for "
              + table.title()
              + new Nearest(names()).offer(file));
    }
    if (!isWorkbook(file)) {
      return new Place(file, Optional.empty());
    }
    List<String> sheets = SheetTable.sheets(path, file);
    String sheet = form.sheet().orElseGet(() -> sheets.size() == 1 ? sheets.get(0) : table.title());
    return new Place(file, Optional.of(sheet));
  }

  private List<String> names() {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> String.valueOf(file.getFileName())).toList();
    } catch (IOException e) {
      return List.of();
    }
  }

  private BadInputException missing(Table table) {
    return new BadInputException(
        folder
            + ": no file "
            + table.title()
            + ".csv; it holds "
            + table.meaning()
            + ", with at least the columns "
            + String.join(", ", table.required()));
  }

  private static boolean isWorkbook(String file) {
    return file.toLowerCase(Locale.ROOT).endsWith(".xlsx");
  }

  private static boolean isJsonLines(String file) {
    String name = file.toLowerCase(Locale.ROOT).replaceFirst("\\.gz$", "");
    return name.endsWith(".jsonl") || name.endsWith(".ndjson");
  }

  /** Whether the rows of rebuilds hold what was found: by the mapping, or as lists of JSON. */
  boolean rebuildsHoldFindings() {
    Place rebuilds = places.get(Table.REBUILDS);
    return !mapping.of(Table.REBUILDS).positions().isEmpty()
        || (rebuilds != null && isJsonLines(rebuilds.file()));
  }

  @Override
  public boolean has(Table table) {
    return places.containsKey(table);
  }

  @Override
  public String fileOf(Table table) {
    Place place = place(table);
    boolean shared = places.values().stream().filter(place::equals).count() > 1;
    return place.shown() + (shared ? " [" + table.title() + "]" : "");
  }

  private Place place(Table table) {
    Place place = places.get(table);
    if (place == null) {
      throw new IllegalStateException(table.title() + " stand in no file of their own");
    }
    return place;
  }

  @Override
  public TableForm formOf(Table table) {
    return mapping.of(table);
  }

  @Override
  public List<String> files() {
    return places.values().stream().map(Place::file).distinct().toList();
  }

  @Override
  public TableRows open(Table table) {
    Place place = place(table);
    Path path = folder.resolve(place.file());
    TableForm form = formOf(table);
    List<String> required =
        Columns.required(table, form, table == Table.REBUILDS && rebuildsHoldFindings());
    if (place.sheet().isPresent()) {
      return SheetTable.open(path, place.sheet().get(), place.shown(), form.text(), required);
    }
    return isJsonLines(place.file())
        ? JsonLinesTable.open(path, place.file(), form.text(), required)
        : CsvTable.open(path, place.file(), form.text(), required);
  }
}
