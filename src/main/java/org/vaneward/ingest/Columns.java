package org.vaneward.ingest;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Pattern;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Cell;
import org.vaneward.io.TableHeader;
import org.vaneward.io.TableRow;
import org.vaneward.io.TextForm;

/** The columns of the record format, as one file has them. */
final class Columns {
  private static final Pattern NUMBERED = Pattern.compile(TextForm.NUMBER + "[1-9]\\d{0,3}");
  private static final int NOWHERE = -1;
  private static final int MOST_KNOWN = 1 << 16;

  private final Table table;
  private final TableForm form;
  private final Map<String, Column> byName;
  private final Map<String, Integer> covariates;
  private final Map<String, Optional<String>> known = new HashMap<>();
  private final Map<String, Map<String, OptionalDouble>> numbers = new HashMap<>();
  private final Map<String, Map<String, Optional<LocalDate>>> days = new HashMap<>();

  private Columns(
      Table table, TableForm form, Map<String, Column> byName, Map<String, Integer> covariates) {
    this.table = table;
    this.form = form;
    this.byName = byName;
    this.covariates = covariates;
  }

  /**
   * One column.
   *
   * @param written its header in the file
   * @param at its number, from 0; -1 where it stands nowhere or in several
   * @param joined those that stand for it together
   * @param always text that holds for every row
   * @param words what words mean, folded
   * @param unknown what stands for unknown, folded
   */
  private record Column(
      String written,
      int at,
      Optional<Joined> joined,
      Optional<String> always,
      Map<String, String> words,
      Set<String> unknown) {

    String text(TableRow row) {
      if (always.isPresent()) {
        return always.get();
      }
      String text = joined.isPresent() ? joined.get().text(row) : row.cell(at);
      if ((words.isEmpty() && unknown.isEmpty()) || text.isBlank()) {
        return text;
      }
      String folded = Words.folded(text);
      return unknown.contains(folded) ? "" : words.getOrDefault(folded, text);
    }
  }

  /**
   * Cells that stand for one column together: what they say, blanks between. One that is a day
   * counts as that day however it is written, so that two files that write days differently agree
   * on what both call by its day.
   */
  private static final class Joined {
    private final List<Integer> at;
    private final TableForm form;
    private final Map<String, String> read = new HashMap<>();

    Joined(List<Integer> at, TableForm form) {
      this.at = at;
      this.form = form;
    }

    String text(TableRow row) {
      StringBuilder joined = new StringBuilder();
      for (int one : at) {
        String text = row.cell(one).strip();
        if (!text.isEmpty() && !form.unknown().contains(Words.folded(text))) {
          joined.append(joined.isEmpty() ? "" : " ").append(part(text));
        }
      }
      return joined.toString();
    }

    private String part(String text) {
      String before = read.get(text);
      if (before != null) {
        return before;
      }
      Set<LocalDate> days = form.dates().days(text);
      String now = days.size() == 1 ? days.iterator().next().toString() : text;
      if (read.size() < MOST_KNOWN) {
        read.put(text, now);
      }
      return now;
    }
  }

  /** The columns of {@code table} in a file of that header. */
  static Columns of(Table table, TableForm form, TableHeader header, String file) {
    Map<String, List<String>> written = new LinkedHashMap<>();
    for (String column : table.columns()) {
      if (header.has(column) || form.names(column)) {
        written.put(column, form.written(column));
      }
    }
    return of(table, form, written, header, file, claimed(form));
  }

  /** Headers that are no covariates, since findings are read from them. */
  private static Set<String> claimed(TableForm form) {
    Set<String> claimed = new HashSet<>();
    form.positions().values().forEach(group -> claimed.addAll(group.values()));
    return claimed;
  }

  /**
   * The columns of a finding that stands in a row of something else.
   *
   * @param form how findings are written
   * @param written header by column
   */
  static Columns group(
      TableForm form, Map<String, String> written, TableHeader header, String file) {
    Map<String, List<String>> single = new LinkedHashMap<>();
    written.forEach((column, name) -> single.put(column, List.of(name)));
    Columns columns = of(Table.FINDINGS, form, single, header, file, Set.of());
    return new Columns(Table.FINDINGS, form, columns.byName, Map.of());
  }

  private static Columns of(
      Table table,
      TableForm form,
      Map<String, List<String>> written,
      TableHeader header,
      String file,
      Set<String> claimed) {
    Map<String, Column> byName = new HashMap<>();
    Map<String, Integer> covariates = new LinkedHashMap<>();
    for (String name : header.columns()) {
      covariates.put(name, header.indexOf(name));
    }
    written.forEach(
        (column, names) -> {
          List<Integer> at = names.stream().map(name -> index(header, name, file, column)).toList();
          covariates.values().removeAll(at);
          byName.put(column, column(form, column, String.join(" + ", names), at));
        });
    claimed.forEach(name -> found(header, name).ifPresent(at -> covariates.values().remove(at)));
    for (String column : form.always().keySet()) {
      if (byName.containsKey(column)) {
        throw new BadInputException(
            file
                + ": has a column "
                + Cell.quoted(String.join(" + ", written.getOrDefault(column, List.of(column))))
                + ", and mapping in fleet.json says always for it; keep one of the two");
      }
    }
    form.always()
        .forEach((column, text) -> byName.put(column, column(form, column, column, List.of())));
    return new Columns(table, form, byName, covariates);
  }

  private static Column column(TableForm form, String column, String written, List<Integer> at) {
    return new Column(
        written,
        at.size() == 1 ? at.get(0) : NOWHERE,
        at.size() > 1 ? Optional.of(new Joined(at, form)) : Optional.empty(),
        at.isEmpty() ? Optional.ofNullable(form.always().get(column)) : Optional.empty(),
        form.words().getOrDefault(column, Map.of()),
        form.unknown());
  }

  /** Number of the column that a mapping calls {@code name}, from 0. */
  private static Optional<Integer> found(TableHeader header, String name) {
    if (header.has(name)) {
      return Optional.of(header.indexOf(name));
    }
    return NUMBERED.matcher(name).matches()
        ? Optional.of(Integer.parseInt(name.substring(TextForm.NUMBER.length())) - 1)
        : Optional.empty();
  }

  private static int index(TableHeader header, String name, String file, String column) {
    return found(header, name).orElseThrow(() -> missing(header, name, file, column));
  }

  private static BadInputException missing(
      TableHeader header, String name, String file, String column) {
    return new BadInputException(
        file
            + ": no column '"
            + name
            + "', which mapping in fleet.json gives for "
            + Cell.quoted(column)
            + new Nearest(header.columns()).offer(name)
            + "; the header has: "
            + String.join(", ", header.columns().stream().limit(30).toList()));
  }

  /** Columns that have to be in the header of a file for {@code table} to be read from it. */
  static List<String> required(Table table, TableForm form, boolean numbered) {
    return table.required().stream()
        .filter(column -> !form.always().containsKey(column))
        .filter(column -> !numbered || !column.equals("rebuild"))
        .flatMap(column -> form.written(column).stream())
        .filter(name -> !NUMBERED.matcher(name).matches())
        .toList();
  }

  /** The table they belong to. */
  Table table() {
    return table;
  }

  /** Whether the list of that key within a row is read: the findings of an opening. */
  boolean isList(String key) {
    return table == Table.REBUILDS && form.written(Table.FINDINGS.title()).contains(key);
  }

  /** How the cells are written. */
  TableForm form() {
    return form;
  }

  /** Whether there is such a column. */
  boolean has(String column) {
    return byName.containsKey(column);
  }

  /** Whether any of its cells in a row says something. */
  boolean anyIn(TableRow row) {
    return byName.values().stream()
        .anyMatch(column -> column.always().isEmpty() && !column.text(row).isBlank());
  }

  /** The cell of a row, what its words mean put in; empty text when blank or there is none. */
  String text(TableRow row, String column) {
    Column found = byName.get(column);
    return found == null ? "" : found.text(row);
  }

  /** A text that is kept: one object for each distinct one, as long as there are not too many. */
  Optional<String> kept(String text) {
    Optional<String> before = known.get(text);
    if (before != null) {
      return before;
    }
    Optional<String> kept = Optional.of(text);
    if (known.size() < MOST_KNOWN) {
      known.put(text, kept);
    }
    return kept;
  }

  /** The number that a text of a column has been found to be; empty when it has not been. */
  OptionalDouble knownNumber(String column, String text) {
    return numbers.getOrDefault(column, Map.of()).getOrDefault(text, OptionalDouble.empty());
  }

  /** Remembers a number, and hands it on. */
  OptionalDouble known(String column, String text, double number) {
    OptionalDouble found = OptionalDouble.of(number);
    remember(numbers, column, text, found);
    return found;
  }

  /** The day that a text of a column has been found to be; empty when it has not been. */
  Optional<LocalDate> knownDay(String column, String text) {
    return days.getOrDefault(column, Map.of()).getOrDefault(text, Optional.empty());
  }

  /** Remembers a day, and hands it on. */
  Optional<LocalDate> known(String column, String text, Optional<LocalDate> day) {
    remember(days, column, text, day);
    return day;
  }

  private static <T> void remember(
      Map<String, Map<String, T>> all, String column, String text, T value) {
    Map<String, T> own = all.computeIfAbsent(column, c -> new HashMap<>());
    if (own.size() < MOST_KNOWN) {
      own.put(text, value);
    }
  }

  /** Whether the cell is a number, a date or a truth value in the file itself. */
  boolean isTyped(TableRow row, String column) {
    Column found = byName.get(column);
    return found != null && found.always().isEmpty() && row.isTyped(found.at());
  }

  /** What the file calls a column. */
  String written(String column) {
    Column found = byName.get(column);
    return found == null ? column : found.written();
  }

  /** Columns the record format does not name: their cells in a row, as written. */
  Map<String, String> covariates(TableRow row) {
    Map<String, String> cells = new HashMap<>();
    covariates.forEach(
        (name, at) -> {
          String cell = row.cell(at);
          if (!cell.isBlank()) {
            cells.put(name, cell);
          }
        });
    return cells;
  }
}
