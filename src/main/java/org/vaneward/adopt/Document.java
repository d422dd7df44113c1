package org.vaneward.adopt;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import org.vaneward.ingest.FleetJson;
import org.vaneward.ingest.FleetJson.MappingJson;
import org.vaneward.ingest.FleetJson.TableJson;
import org.vaneward.ingest.Table;

/** Writes the drafts of tables down as {@code fleet.json}: what all have in common once. */
record Document(Map<Table, TableDraft> drafts, Map<Table, Export> exports) {

  FleetJson of(
      Optional<FleetJson> before,
      Path folder,
      LocalDate asOf,
      List<FleetJson.ComponentJson> components,
      Map<String, String> unsettled) {
    Optional<MappingJson> mapping =
        Optional.of(mapping(unsettled)).filter(m -> !m.equals(MappingJson.NOTHING));
    if (before.isPresent()) {
      return before.get().with(mapping);
    }
    Path name = folder.toAbsolutePath().normalize().getFileName();
    return new FleetJson(
        Optional.ofNullable(name).map(Path::toString),
        Optional.empty(),
        asOf,
        Optional.empty(),
        components,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        mapping);
  }

  /**
   * One table.
   *
   * @param export what it is read from; empty where it stands in the rows of another
   */
  private record Part(TableDraft draft, Optional<Export> export, TableJson json) {
    boolean isInAnEncoding() {
      return export.filter(from -> !from.form().anyCharset()).isPresent();
    }

    boolean isCsv() {
      return export.flatMap(from -> from.form().separator()).isPresent();
    }
  }

  private MappingJson mapping(Map<String, String> unsettled) {
    Map<Table, Part> parts = new LinkedHashMap<>();
    drafts.forEach(
        (table, draft) -> {
          Optional<Export> export = Optional.ofNullable(exports.get(table));
          Optional<String> file = export.flatMap(from -> file(table, from));
          parts.put(
              table, new Part(draft, export, draft.json(export.orElse(Export.NOWHERE), file)));
        });
    Optional<String> encoding = common(parts, TableJson::encoding, Part::isInAnEncoding);
    Optional<String> separator = common(parts, TableJson::separator, Part::isCsv);
    Optional<String> decimal = common(parts, TableJson::decimal, p -> p.draft().sawNumbers());
    Optional<String> thousands = common(parts, TableJson::thousands, p -> p.draft().sawNumbers());
    Optional<List<String>> dates = common(parts, TableJson::dates, p -> p.draft().sawDays());
    Optional<String> language = common(parts, TableJson::language, p -> p.draft().sawDays());
    Optional<List<String>> unknown = common(parts, TableJson::unknown, p -> true);
    Map<String, TableJson> own = new LinkedHashMap<>();
    parts.forEach(
        (table, part) -> {
          TableJson json = part.json();
          TableJson rest =
              new TableJson(
                  json.file(),
                  json.sheet(),
                  json.also(),
                  json.headerLine(),
                  unless(encoding, json.encoding()),
                  unless(separator, json.separator()),
                  unless(decimal, json.decimal()),
                  unless(thousands, json.thousands()),
                  unless(dates, json.dates()),
                  unless(language, json.language()),
                  unless(unknown, json.unknown()),
                  json.columns(),
                  json.joined(),
                  json.words(),
                  json.units(),
                  json.always(),
                  json.positions());
          if (!rest.equals(TableJson.NOTHING)) {
            own.put(table.title(), rest);
          }
        });
    return new MappingJson(
        encoding,
        separator,
        decimal,
        thousands,
        dates,
        language,
        unknown,
        own.isEmpty() ? Optional.empty() : Optional.of(own),
        unsettled.isEmpty() ? Optional.empty() : Optional.of(unsettled));
  }

  private static <T> Optional<T> unless(Optional<T> common, Optional<T> own) {
    return common.isPresent() ? Optional.empty() : own;
  }

  /** What every table says that has reason to say anything of it; empty when they differ. */
  private static <T> Optional<T> common(
      Map<Table, Part> parts, Function<TableJson, Optional<T>> key, Predicate<Part> speaks) {
    Set<Optional<T>> said = new HashSet<>();
    parts.values().stream().filter(speaks).forEach(part -> said.add(key.apply(part.json())));
    return said.size() == 1 ? said.iterator().next() : Optional.empty();
  }

  /** The file as the mapping has to name it; empty where it is found by its name. */
  private static Optional<String> file(Table table, Export export) {
    boolean usual =
        export.sheet().isPresent()
            ? export.file().equals(Table.WORKBOOK)
            : table.files().contains(export.file());
    return usual || export.key().isPresent() ? Optional.empty() : Optional.of(export.file());
  }
}
