package org.vaneward.ingest;

import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.UnsupportedCharsetException;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IllformedLocaleException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Cell;
import org.vaneward.io.TextForm;

/** What {@code mapping} in {@code fleet.json} says of the tables. */
final class Mapping {
  private static final String WHERE = "mapping";

  /** Nothing said. */
  static final Mapping NONE = new Mapping(Map.of());

  private final Map<Table, TableForm> forms;

  private Mapping(Map<Table, TableForm> forms) {
    this.forms = forms;
  }

  /** How {@code table} is written. */
  TableForm of(Table table) {
    return forms.getOrDefault(table, TableForm.PLAIN);
  }

  /**
   * The mapping as written.
   *
   * @param positions of the fleet
   * @param asOf last day the records speak of
   * @throws BadInputException when it names a table, column, word, unit, pattern or encoding that
   *     is none
   */
  static Mapping of(FleetJson.MappingJson json, Set<String> positions, LocalDate asOf) {
    requireSettled(present(WHERE + ".unsettled", json.unsettled()));
    Map<String, FleetJson.TableJson> stated = present(WHERE + ".tables", json.tables());
    for (String title : stated.keySet()) {
      require(
          Table.titled(title).isPresent(),
          WHERE + ".tables",
          Cell.quoted(title)
              + " is no table; tables are pumps, services, readings, rebuilds and findings");
    }
    Map<Table, TableForm> forms = new EnumMap<>(Table.class);
    for (Table table : Table.values()) {
      Optional<FleetJson.TableJson> own = Optional.ofNullable(stated.get(table.title()));
      forms.put(table, new Reader(table, json, own, positions, asOf).form());
    }
    return new Mapping(forms);
  }

  /** A proposal is not used before a person has looked at each of its doubts. */
  private static void requireSettled(Map<String, String> unsettled) {
    unsettled.entrySet().stream()
        .findFirst()
        .ifPresent(
            first -> {
              int count = unsettled.size();
              throw refusal(
                  WHERE + ".unsettled",
                  (count == 1 ? "1 point waits" : count + " points wait")
                      + " for your word; settle each in the mapping and take it off this list."
                      + " The first: "
                      + Cell.onOneLine(first.getKey() + ": " + first.getValue()));
            });
  }

  /** One table's part. */
  private static final class Reader {
    private final Table table;
    private final FleetJson.MappingJson all;
    private final Optional<FleetJson.TableJson> own;
    private final Set<String> fleetPositions;
    private final LocalDate asOf;
    private final String where;

    Reader(
        Table table,
        FleetJson.MappingJson all,
        Optional<FleetJson.TableJson> own,
        Set<String> fleetPositions,
        LocalDate asOf) {
      this.table = table;
      this.all = all;
      this.own = own;
      this.fleetPositions = fleetPositions;
      this.asOf = asOf;
      this.where = WHERE + ".tables." + table.title();
    }

    TableForm form() {
      return new TableForm(
          own.flatMap(FleetJson.TableJson::file).map(this::file),
          own.flatMap(FleetJson.TableJson::sheet),
          also(),
          text(),
          numbers(),
          dates(),
          unknown(),
          columns(where + ".columns", table, stated(FleetJson.TableJson::columns)),
          joined(),
          words(),
          units(),
          always(),
          positions());
    }

    private <T> Optional<T> either(
        Function<FleetJson.TableJson, Optional<T>> one,
        Function<FleetJson.MappingJson, Optional<T>> other) {
      return own.flatMap(one).or(() -> other.apply(all));
    }

    /** Where a key that holds for one table or for all has been stated. */
    private String place(String key, Function<FleetJson.TableJson, ? extends Optional<?>> one) {
      return (own.map(one).filter(Optional::isPresent).isPresent() ? where : WHERE) + "." + key;
    }

    private <V> Map<String, V> stated(
        Function<FleetJson.TableJson, Optional<Map<String, V>>> part) {
      return present(where, own.flatMap(part));
    }

    private List<TableForm.Part> also() {
      List<TableForm.Part> parts = new ArrayList<>();
      for (FleetJson.AlsoJson part : own.flatMap(FleetJson.TableJson::also).orElse(List.of())) {
        require(
            part != null && (part.file().isPresent() || part.sheet().isPresent()),
            where + ".also",
            "names neither file nor sheet");
        parts.add(new TableForm.Part(part.file().map(this::file), part.sheet()));
      }
      return parts;
    }

    /** A name and no path: nothing outside the folder is ever read. */
    private String file(String name) {
      require(
          isPath(name)
              && !name.isBlank()
              && !name.contains("/")
              && !name.contains("\\")
              && !name.contains(":")
              && name.chars().noneMatch(c -> c < ' ')
              && !name.equals(".")
              && !name.equals(".."),
          where + ".file",
          Cell.quoted(name)
              + " is not the name of a file in the fleet's folder; give its name only");
      return name;
    }

    private static boolean isPath(String name) {
      try {
        return !Path.of(name).isAbsolute();
      } catch (InvalidPathException e) {
        return false;
      }
    }

    private TextForm text() {
      Optional<String> separator =
          either(FleetJson.TableJson::separator, FleetJson.MappingJson::separator);
      separator.ifPresent(
          s ->
              require(
                  s.length() == 1 && ",;\t| ".contains(s),
                  place("separator", FleetJson.TableJson::separator),
                  Cell.quoted(s) + " separates no cells; one of , ; | a blank or \\t"));
      OptionalInt line = own.map(FleetJson.TableJson::headerLine).orElse(OptionalInt.empty());
      require(line.orElse(1) >= 1, where + ".header_line", "the first line is 1");
      return new TextForm(
          either(FleetJson.TableJson::encoding, FleetJson.MappingJson::encoding).map(this::charset),
          separator.map(s -> s.charAt(0)),
          line.orElse(1),
          true);
    }

    private Charset charset(String name) {
      try {
        return Charset.forName(name);
      } catch (IllegalCharsetNameException | UnsupportedCharsetException e) {
        throw new BadInputException(
            SettingsReader.NAME
                + ": "
                + place("encoding", FleetJson.TableJson::encoding)
                + ": "
                + Cell.quoted(name)
                + " is no encoding known here; UTF-8, UTF-16 and windows-1252 are some",
            e);
      }
    }

    private NumberForm numbers() {
      char decimal =
          mark(
                  place("decimal", FleetJson.TableJson::decimal),
                  either(FleetJson.TableJson::decimal, FleetJson.MappingJson::decimal),
                  ".,")
              .orElse('.');
      Optional<Character> thousands =
          mark(
              place("thousands", FleetJson.TableJson::thousands),
              either(FleetJson.TableJson::thousands, FleetJson.MappingJson::thousands),
              ".,' \u2019");
      require(
          thousands.filter(t -> t == decimal).isEmpty(),
          place("thousands", FleetJson.TableJson::thousands),
          "the same as decimal; then 1,234 is two numbers");
      return new NumberForm(decimal, thousands);
    }

    private Optional<Character> mark(String place, Optional<String> given, String known) {
      given.ifPresent(
          mark ->
              require(
                  mark.length() == 1 && known.contains(mark),
                  place,
                  Cell.quoted(mark) + " is none of these: " + known.replace("", " ").strip()));
      return given.map(mark -> mark.charAt(0));
    }

    private DateForm dates() {
      List<String> patterns =
          either(FleetJson.TableJson::dates, FleetJson.MappingJson::dates).orElse(List.of());
      String language =
          either(FleetJson.TableJson::language, FleetJson.MappingJson::language).orElse("en");
      try {
        Locale locale = new Locale.Builder().setLanguageTag(language).build();
        return DateForm.of(patterns, locale, asOf);
      } catch (IllformedLocaleException e) {
        throw refusal(
            place("language", FleetJson.TableJson::language),
            Cell.quoted(language) + " is no language tag (BCP 47) such as de");
      } catch (IllegalArgumentException | DateTimeException e) {
        throw refusal(
            place("dates", FleetJson.TableJson::dates),
            Cell.quoted(String.join(", ", patterns))
                + " does not tell a day; a pattern is one such as dd.MM.yyyy: "
                + e.getMessage());
      }
    }

    private Set<String> unknown() {
      Set<String> unknown = new HashSet<>();
      either(FleetJson.TableJson::unknown, FleetJson.MappingJson::unknown)
          .orElse(List.of())
          .forEach(word -> unknown.add(Words.folded(word)));
      return unknown;
    }

    private static Map<String, String> columns(
        String where, Table table, Map<String, String> stated) {
      Map<String, String> columns = new LinkedHashMap<>();
      stated.forEach(
          (column, header) -> {
            knownColumn(where, table, column);
            columns.put(column, header(where + "." + column, header));
          });
      return columns;
    }

    private static String header(String where, String stated) {
      require(!stated.isBlank(), where, "blank; name the column's header");
      return stated.replaceAll("\\s+", " ").strip();
    }

    private Map<String, List<String>> joined() {
      Map<String, List<String>> joined = new LinkedHashMap<>();
      this.<List<String>>stated(FleetJson.TableJson::joined)
          .forEach(
              (column, headers) -> {
                knownColumn(where + ".joined", table, column);
                String here = where + ".joined." + column;
                require(table.names(column), here, "a list is no text that could be joined");
                require(
                    headers.size() > 1 && headers.stream().allMatch(Objects::nonNull),
                    here,
                    "two headers or more belong here; one goes under columns");
                require(
                    !stated(FleetJson.TableJson::columns).containsKey(column),
                    here,
                    "stands under columns too; keep one of the two");
                joined.put(column, headers.stream().map(header -> header(here, header)).toList());
              });
      return joined;
    }

    private Map<String, Map<String, String>> words() {
      Map<String, Map<String, String>> words = new HashMap<>();
      this.<Map<String, String>>stated(FleetJson.TableJson::words)
          .forEach(
              (column, given) -> {
                String here = where + ".words." + column;
                knownColumn(where + ".words", table, column);
                Map<String, String> own = new HashMap<>();
                present(here, Optional.of(given))
                    .forEach(
                        (word, meaning) -> {
                          knownWord(here + "." + word, column, meaning);
                          own.put(Words.folded(word), meaning);
                        });
                words.put(column, own);
              });
      return words;
    }

    private void knownWord(String here, String column, String meaning) {
      Set<String> known =
          column.equals("position")
              ? new TreeSet<>(fleetPositions)
              : Words.of(column).map(Words::words).orElse(Set.of());
      require(
          known.isEmpty() || meaning.isEmpty() || known.contains(meaning),
          here,
          Cell.quoted(meaning)
              + " is none of "
              + String.join(", ", known)
              + ", nor blank (unknown)");
    }

    private Map<String, Unit> units() {
      Map<String, Unit> units = new HashMap<>();
      this.<String>stated(FleetJson.TableJson::units)
          .forEach(
              (column, word) -> {
                knownColumn(where + ".units", table, column);
                Optional<Unit.Quantity> quantity = Table.quantity(column);
                require(quantity.isPresent(), where + ".units." + column, "the column has no unit");
                Optional<Unit> unit = Unit.named(word).filter(u -> u.quantity() == quantity.get());
                require(
                    unit.isPresent(),
                    where + ".units." + column,
                    Cell.quoted(word) + " is none of " + quantity.get().listed());
                units.put(column, unit.get());
              });
      return units;
    }

    private Map<String, String> always() {
      Map<String, String> always = new HashMap<>();
      this.<String>stated(FleetJson.TableJson::always)
          .forEach(
              (column, text) -> {
                knownColumn(where + ".always", table, column);
                knownWord(where + ".always." + column, column, text);
                always.put(column, text);
              });
      return always;
    }

    private Map<String, Map<String, String>> positions() {
      Map<String, Map<String, String>> groups = new LinkedHashMap<>();
      this.<Map<String, String>>stated(FleetJson.TableJson::positions)
          .forEach(
              (position, columns) -> {
                String here = where + ".positions";
                require(table == Table.REBUILDS, here, "only rebuilds can hold what was found");
                require(
                    fleetPositions.contains(position),
                    here,
                    Cell.quoted(position)
                        + " is no position of fleet.json"
                        + new Nearest(fleetPositions).offer(position));
                groups.put(
                    position,
                    columns(
                        here + "." + position,
                        Table.FINDINGS,
                        present(here, Optional.of(columns))));
              });
      return groups;
    }
  }

  private static void knownColumn(String where, Table table, String column) {
    boolean known =
        table.names(column) || (table == Table.REBUILDS && column.equals(Table.FINDINGS.title()));
    require(
        known,
        where,
        Cell.quoted(column)
            + " is no column of "
            + table.title()
            + new Nearest(table.columns()).offer(column)
            + "; known are "
            + String.join(", ", new TreeSet<>(table.columns())));
  }

  private static <V> Map<String, V> present(String where, Optional<Map<String, V>> stated) {
    Map<String, V> values = stated.orElse(Map.of());
    require(values.values().stream().allMatch(Objects::nonNull), where, "holds null; leave it out");
    return values;
  }

  private static void require(boolean good, String where, String problem) {
    if (!good) {
      throw refusal(where, problem);
    }
  }

  private static BadInputException refusal(String where, String problem) {
    return new BadInputException(SettingsReader.NAME + ": " + where + ": " + problem);
  }
}
