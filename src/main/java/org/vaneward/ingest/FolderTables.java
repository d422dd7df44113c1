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
import org.vaneward.io.TextForm;

/** The tables as files in one folder: CSV, JSON Lines, or sheets of a workbook. */
final class FolderTables implements TableSource {
  private final Path folder;
  private final Mapping mapping;
  private final Map<Table, List<Place>> places = new EnumMap<>(Table.class);

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
    Optional<List<String>> sheets = tables.sheets(Table.WORKBOOK);
    for (Table table : Table.values()) {
      tables
          .place(table, sheets)
          .ifPresent(place -> tables.places.put(table, tables.all(table, place)));
    }
    return tables;
  }

  /** A place, and the further ones that the mapping names. */
  private List<Place> all(Table table, Place first) {
    List<Place> all = new ArrayList<>();
    all.add(first);
    for (TableForm.Part part : mapping.of(table).also()) {
      String file = part.file().orElse(first.file());
      Place place = stated(table, part.sheet(), file);
      if (all.contains(place)) {
        throw new BadInputException(
            "fleet.json: mapping.tables."
                + table.title()
                + ".also: "
                + place.shown()
                + " stands twice; its rows would count twice");
      }
      all.add(place);
    }
    return List.copyOf(all);
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
      return Optional.of(stated(table, form.sheet(), form.file().get()));
    }
    List<Place> found = new ArrayList<>();
    table.files().stream()
        .filter(name -> Files.isRegularFile(folder.resolve(name)))
        .forEach(name -> found.add(new Place(name, Optional.empty())));
    String sheet = form.sheet().orElse(table.title());
    if (sheets.filter(names -> names.contains(sheet)).isPresent()) {
      found.add(new Place(Table.WORKBOOK, Optional.of(sheet)));
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

  private Place stated(Table table, Optional<String> named, String file) {
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
    String sheet = named.orElseGet(() -> sheets.size() == 1 ? sheets.get(0) : table.title());
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
    return !mapping.of(Table.REBUILDS).positions().isEmpty()
        || placesOf(Table.REBUILDS).stream().anyMatch(place -> isJsonLines(place.file()));
  }

  private List<Place> placesOf(Table table) {
    return places.getOrDefault(table, List.of());
  }

  @Override
  public boolean has(Table table) {
    return places.containsKey(table);
  }

  @Override
  public List<Part> partsOf(Table table) {
    return placesOf(table).stream().<Part>map(place -> new PlacedPart(table, place)).toList();
  }

  private String name(Table table, Place place) {
    long sharing = places.values().stream().filter(others -> others.contains(place)).count();
    return place.shown() + (sharing > 1 ? " [" + table.title() + "]" : "");
  }

  @Override
  public TableForm formOf(Table table) {
    return mapping.of(table);
  }

  @Override
  public List<String> files() {
    return places.values().stream().flatMap(List::stream).map(Place::file).distinct().toList();
  }

  /** A file or a sheet of this folder. */
  private final class PlacedPart implements Part {
    private final Table table;
    private final Place place;

    PlacedPart(Table table, Place place) {
      this.table = table;
      this.place = place;
    }

    @Override
    public String name() {
      return FolderTables.this.name(table, place);
    }

    @Override
    public TableRows open() {
      Path path = folder.resolve(place.file());
      TextForm text = formOf(table).text();
      List<String> required =
          Columns.required(table, formOf(table), table == Table.REBUILDS && rebuildsHoldFindings());
      if (place.sheet().isPresent()) {
        return SheetTable.open(path, place.sheet().get(), place.shown(), text, required);
      }
      return isJsonLines(place.file())
          ? JsonLinesTable.open(path, place.file(), text, required)
          : CsvTable.open(path, place.file(), text, required);
    }
  }
}
