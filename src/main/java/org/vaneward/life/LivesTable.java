package org.vaneward.life;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.BadInputException;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Numbers;
import org.vaneward.io.SafeFiles;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import tech.tablesaw.api.ColumnType;
import tech.tablesaw.api.DoubleColumn;
import tech.tablesaw.api.StringColumn;
import tech.tablesaw.api.Table;

/**
 * The lives table: one row for each span of a life, in columns. Immutable.
 *
 * <p>A row comes under observation at {@code entry}; it failed at {@code lower} when {@code upper}
 * equals it, had not failed by {@code lower} when {@code upper} is infinite, and otherwise failed
 * in (lower, upper]. A life that lived through several services has a row for each, all but the
 * last right-censored where the span ends; the text column {@value #LIFE} holds its number, so that
 * the rows of one life are not counted as several lives. Text columns stand in a fixed order, blank
 * where nothing is known.
 */
public final class LivesTable {
  /** Column that numbers the lives. */
  public static final String LIFE = "life";

  /**
   * Column with the age at which a part was last seen in working order, for a life that ended
   * without a failure of a part that does not announce one; blank otherwise.
   */
  public static final String SEEN_GOOD = "seen_good";

  /** The columns of numbers, in the order in which they are written. */
  static final List<String> NUMBERS = List.of("entry", "lower", "upper", "count");

  /** Lives laid out at a time where a table is only written. */
  private static final int BLOCK = 1 << 14;

  private final double[] entry;
  private final double[] lower;
  private final double[] upper;
  private final double[] count;
  private final Map<String, TextColumn> texts;

  LivesTable(
      double[] entry,
      double[] lower,
      double[] upper,
      double[] count,
      Map<String, TextColumn> texts) {
    this.entry = entry;
    this.lower = lower;
    this.upper = upper;
    this.count = count;
    this.texts = texts;
  }

  /** The table of the given lives, in their order. */
  public static LivesTable of(Lives lives) {
    return LifeRows.table(lives.lives());
  }

  /**
   * Reads a lives table somebody brings. Blank {@code entry} is 0, blank {@code lower} is {@code
   * entry}, blank {@code upper} is not failed, blank {@code count} is 1; any of these columns may
   * be absent except that there is a {@code lower} or an {@code upper}.
   *
   * @throws BadInputException when the file cannot be read or a row is no observation of a life
   */
  public static LivesTable read(Path file) {
    return LivesReader.read(file);
  }

  /** Number of rows. */
  public int rows() {
    return lower.length;
  }

  /** Age at which row {@code i} comes under observation. */
  public double entry(int i) {
    return entry[i];
  }

  /** Age of failure or censoring, or the last age known not failed. */
  public double lower(int i) {
    return lower[i];
  }

  /** Age of failure, age by which it had failed, or infinity when it had not. */
  public double upper(int i) {
    return upper[i];
  }

  /** How many lives row {@code i} stands for. */
  public double count(int i) {
    return count[i];
  }

  /** Whether row {@code i} ends in a failure. */
  public boolean failed(int i) {
    return upper[i] < Double.POSITIVE_INFINITY;
  }

  /** Names of the text columns, in their order. */
  public List<String> columns() {
    return List.copyOf(texts.keySet());
  }

  /** Whether there is a text column of that name. */
  public boolean has(String column) {
    return texts.containsKey(column);
  }

  /**
   * The text in a column, blank when unknown.
   *
   * @throws BadInputException when there is no such column
   */
  public String text(String column, int i) {
    return column(column)[i];
  }

  /**
   * Whether every text in a column that is not blank is a number, and at least one is.
   *
   * @throws BadInputException when there is no such column
   */
  public boolean isNumeric(String column) {
    String[] values = column(column);
    return Arrays.stream(values).anyMatch(v -> !v.isEmpty())
        && Arrays.stream(values).allMatch(v -> v.isEmpty() || Numbers.isNumber(v));
  }

  /**
   * A text column as numbers, not a number where it is blank.
   *
   * @throws BadInputException when there is no such column, or a text in it is no number
   */
  public double[] numbers(String column) {
    String[] values = column(column);
    double[] numbers = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      if (!values[i].isEmpty() && !Numbers.isNumber(values[i])) {
        throw new BadInputException(
            "column '" + column + "' of the lives table holds '" + values[i] + "', not a number");
      }
      numbers[i] = values[i].isEmpty() ? Double.NaN : Double.parseDouble(values[i]);
    }
    return numbers;
  }

  private String[] column(String name) {
    @Nullable TextColumn column = texts.get(name);
    if (column == null) {
      throw new BadInputException(
          "no column '" + name + "' in the lives table; it has: " + String.join(", ", columns()));
    }
    return column.values();
  }

  /**
   * The rows as observations, for the fits. Where {@value #SEEN_GOOD} holds an age, a row without a
   * failure is right-censored there and not at {@code lower}, and left out where that is at or
   * before its entry: from then on nobody knows whether the part had failed. To count it as good on
   * to the end would make the lives of parts that do not announce their failure look longer than
   * they are.
   *
   * @throws BadInputException when a text in {@value #SEEN_GOOD} is no number
   */
  public Observations observations() {
    double[] seenGood = seenGood();
    Observations.Builder builder = Observations.builder();
    for (int i = 0; i < rows(); i++) {
      if (!failed(i)) {
        double good = goodUntil(seenGood, i);
        if (good > entry[i]) {
          builder.addRightCensored(entry[i], good, count[i]);
        }
      } else if (lower[i] == upper[i]) {
        builder.addFailure(entry[i], upper[i], count[i]);
      } else {
        builder.add(new Observation.Interval(entry[i], lower[i], upper[i], count[i]));
      }
    }
    return builder.build();
  }

  /**
   * The rows that {@link #observations} does not leave out: its observations and this table's rows
   * stand side by side.
   *
   * @throws BadInputException when a text in {@value #SEEN_GOOD} is no number
   */
  public LivesTable observed() {
    double[] seenGood = seenGood();
    return where(i -> failed(i) || goodUntil(seenGood, i) > entry[i]);
  }

  private double[] seenGood() {
    return has(SEEN_GOOD) ? numbers(SEEN_GOOD) : new double[0];
  }

  private double goodUntil(double[] seenGood, int i) {
    return seenGood.length == 0 || Double.isNaN(seenGood[i])
        ? lower[i]
        : Math.min(lower[i], seenGood[i]);
  }

  /** Number of lives: each number in the column {@value #LIFE} once, and each row without one. */
  public double lives() {
    String[] ids = has(LIFE) ? column(LIFE) : new String[0];
    Set<String> seen = new HashSet<>();
    double lives = 0;
    for (int i = 0; i < rows(); i++) {
      if (ids.length == 0 || ids[i].isEmpty() || seen.add(ids[i])) {
        lives += count[i];
      }
    }
    return lives;
  }

  /** Number of failures, at a known age or in an interval. */
  public double failures() {
    double failures = 0;
    for (int i = 0; i < rows(); i++) {
      failures += failed(i) ? count[i] : 0;
    }
    return failures;
  }

  /** The rows that satisfy {@code keep}, in their order. */
  public LivesTable where(IntPredicate keep) {
    return select(IntStream.range(0, rows()).filter(keep).toArray());
  }

  private LivesTable select(int[] rows) {
    Map<String, TextColumn> chosen = new LinkedHashMap<>();
    texts.forEach((name, column) -> chosen.put(name, column.select(rows)));
    return new LivesTable(
        select(entry, rows), select(lower, rows), select(upper, rows), select(count, rows), chosen);
  }

  private static double[] select(double[] values, int[] rows) {
    return Arrays.stream(rows).mapToDouble(i -> values[i]).toArray();
  }

  /**
   * The rows by their texts in the given columns, in order of these texts; a life that lived
   * through two groups has rows, and is counted, in both.
   *
   * @param by columns to group by; none puts every row in one group
   * @throws BadInputException when there is no such column
   */
  public SortedMap<List<String>, LivesTable> groupBy(List<String> by) {
    List<String[]> keys = by.stream().map(this::column).toList();
    Map<List<String>, Integer> numbers = new HashMap<>();
    int[] groupOf = new int[rows()];
    int[] sizes = new int[16];
    for (int i = 0; i < groupOf.length; i++) {
      groupOf[i] = numbers.computeIfAbsent(key(keys, i), key -> numbers.size());
      if (groupOf[i] == sizes.length) {
        sizes = Arrays.copyOf(sizes, 2 * sizes.length);
      }
      sizes[groupOf[i]]++;
    }
    int[][] rowsOf = rowsByGroup(groupOf, Arrays.copyOf(sizes, numbers.size()));
    SortedMap<List<String>, LivesTable> groups = new TreeMap<>(LivesTable::compareTexts);
    numbers.forEach((key, number) -> groups.put(key, select(rowsOf[number])));
    return Collections.unmodifiableSortedMap(groups);
  }

  private static int[][] rowsByGroup(int[] groupOf, int[] sizes) {
    int[][] rows = new int[sizes.length][];
    for (int g = 0; g < rows.length; g++) {
      rows[g] = new int[sizes[g]];
    }
    int[] filled = new int[sizes.length];
    for (int i = 0; i < groupOf.length; i++) {
      int g = groupOf[i];
      rows[g][filled[g]++] = i;
    }
    return rows;
  }

  private static List<String> key(List<String[]> columns, int row) {
    String[] key = new String[columns.size()];
    for (int c = 0; c < key.length; c++) {
      key[c] = columns.get(c)[row];
    }
    return List.of(key);
  }

  private static int compareTexts(List<String> one, List<String> other) {
    for (int i = 0; i < Math.min(one.size(), other.size()); i++) {
      int byText = one.get(i).compareTo(other.get(i));
      if (byText != 0) {
        return byText;
      }
    }
    return Integer.compare(one.size(), other.size());
  }

  /** The table as CSV, as {@link #read} reads it. */
  public String toCsv() {
    StringBuilder text = new StringBuilder();
    CsvWriter csv = CsvWriter.forMachines(text, csvHeader());
    addTo(csv);
    csv.finish();
    return text.toString();
  }

  /**
   * Writes the table of {@code lives} as CSV, some lives at a time: for fleets whose table would
   * not fit in memory beside their records.
   *
   * @throws java.io.UncheckedIOException when {@code out} takes no more
   */
  public static void writeCsv(Lives lives, Appendable out) {
    Set<String> further = LifeRows.further(lives.lives());
    CsvWriter csv = CsvWriter.forMachines(out, LifeRows.table(List.of(), further).csvHeader());
    for (int from = 0; from < lives.lives().size(); from += BLOCK) {
      int to = Math.min(lives.lives().size(), from + BLOCK);
      LifeRows.table(lives.lives().subList(from, to), further).addTo(csv);
    }
    csv.finish();
  }

  private List<String> csvHeader() {
    List<String> header = new ArrayList<>(texts.keySet());
    header.addAll(NUMBERS);
    return header;
  }

  private void addTo(CsvWriter csv) {
    List<String[]> columns = texts.values().stream().map(TextColumn::values).toList();
    for (int i = 0; i < rows(); i++) {
      for (String[] values : columns) {
        csv.cell(values[i]);
      }
      csv.cell(entry[i]).cell(lower[i]);
      if (failed(i)) {
        csv.cell(upper[i]);
      } else {
        csv.empty();
      }
      csv.cell(count[i]).endRow();
    }
  }

  /**
   * Writes the table as CSV.
   *
   * @throws BadInputException when the file cannot be written
   */
  public void write(Path file) {
    SafeFiles.write(file, toCsv());
  }

  /**
   * A copy as a Tablesaw table, to slice. {@code upper} is missing where a life had not failed.
   * Tablesaw tells names apart by letters, not by case; of two alike the later gets a number.
   */
  public Table toTable() {
    ColumnType.values(); // two threads that first meet Tablesaw's types elsewhere may deadlock
    Table table = Table.create("lives");
    texts.forEach(
        (name, column) ->
            table.addColumns(StringColumn.create(free(table, name), column.values())));
    double[] upperOrMissing = Arrays.stream(upper).map(LivesTable::finiteOrMissing).toArray();
    table.addColumns(
        DoubleColumn.create("entry", entry.clone()),
        DoubleColumn.create("lower", lower.clone()),
        DoubleColumn.create("upper", upperOrMissing),
        DoubleColumn.create("count", count.clone()));
    return table;
  }

  private static double finiteOrMissing(double x) {
    return Double.isInfinite(x) ? Double.NaN : x;
  }

  private static String free(Table table, String name) {
    String free = name;
    for (int n = 2; table.containsColumn(free) || isNumberName(free); n++) {
      free = name + "_" + n;
    }
    return free;
  }

  private static boolean isNumberName(String name) {
    return NUMBERS.stream().anyMatch(name::equalsIgnoreCase);
  }
}
