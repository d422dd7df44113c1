package org.vaneward.adopt;

import java.math.BigDecimal;
import java.nio.charset.Charset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import org.vaneward.ingest.DateForm;
import org.vaneward.ingest.FleetJson;
import org.vaneward.ingest.MixedUnits;
import org.vaneward.ingest.NumberForm;
import org.vaneward.ingest.Table;
import org.vaneward.ingest.Unit;
import org.vaneward.ingest.Words;
import org.vaneward.io.Cell;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Numbers;

/** The mapping of one table as far as it is proposed, with what speaks for and against it. */
final class TableDraft {
  private static final int SHOWN = 6;
  private static final double MANY_UNREAD = 0.2;
  private static final int MANY = 3;

  private final Table table;
  private final Vocabulary vocabulary;
  private final Places places;
  private final String where;
  private final Doubts doubts = new Doubts();
  private final Set<String> remarks = new LinkedHashSet<>();
  private final Map<String, String> columns = new TreeMap<>();
  private final Map<String, List<String>> joined = new TreeMap<>();
  private final Map<String, Map<String, String>> words = new TreeMap<>();
  private final Map<String, String> units = new TreeMap<>();
  private final Map<String, Map<String, String>> positions = new LinkedHashMap<>();
  private final List<FleetJson.AlsoJson> also = new ArrayList<>();
  private final Set<String> unknown = new LinkedHashSet<>();
  private Optional<DayForms.Choice> days = Optional.empty();
  private Optional<NumberForms.Choice> numbers = Optional.empty();

  TableDraft(Table table, Vocabulary vocabulary, Places places) {
    this.table = table;
    this.vocabulary = vocabulary;
    this.places = places;
    this.where = table.title();
  }

  Doubts doubts() {
    return doubts;
  }

  List<String> remarks() {
    return List.copyOf(remarks);
  }

  /** The form of its numbers. */
  NumberForm numberForm() {
    return numbers.map(NumberForms.Choice::form).orElse(NumberForm.PLAIN);
  }

  /** The form of its days. */
  DateForm dayForm() {
    return days.map(DayForms.Choice::form).orElse(DateForm.ISO);
  }

  /** Whether anything in it is written as a number, so that its form is known. */
  boolean sawNumbers() {
    return numbers.isPresent();
  }

  /** Whether anything in it is written as a day, so that its form is known. */
  boolean sawDays() {
    return days.isPresent();
  }

  void doubt(String key, String doubt) {
    doubts.add(where + "." + key, doubt);
  }

  /** Takes over the columns picked. */
  void columns(TableMatch match) {
    match
        .picks()
        .forEach(
            (column, pick) -> {
              if (!pick.from().name().equals(column)) {
                columns.put(column, pick.from().name());
              }
              pick.doubt().ifPresent(doubt -> doubt("columns." + column, doubt));
            });
    match.joined().forEach((column, from) -> joined(from));
    for (String column : table.required()) {
      if (!match.has(column) && !isNotNeeded(match, column)) {
        doubt(
            "columns." + column,
            "nothing in "
                + match.export().shown()
                + " tells it; name its column, or say under always what holds for every row");
      }
    }
  }

  private void joined(Joined one) {
    joined.put(one.column(), one.headers());
    one.from().forEach(this::names);
    if (one.column().equals("rebuild") && table == Table.FINDINGS) {
      doubt(
          "joined.rebuild",
          "findings name no record number; "
              + one.shown()
              + " together are proposed for it, here and in rebuilds: right if no pump is opened twice on"
              + " one day");
    }
    put(one.column(), one.words());
    open(one);
  }

  /** Texts of a part whose place nothing tells. */
  private void open(Joined one) {
    if (Kind.of(one.column()) != Kind.POSITION) {
      return;
    }
    Map<String, Integer> open = new LinkedHashMap<>();
    for (ColumnProfile from : one.from()) {
      from.texts()
          .forEach(
              (text, count) -> {
                boolean told =
                    one.words().keySet().stream()
                        .anyMatch(word -> Tokens.find(Tokens.of(word), Tokens.of(text)) >= 0);
                if (!told && !vocabulary.isUnknown(text)) {
                  open.put(text, count);
                }
              });
    }
    if (!open.isEmpty()) {
      doubt(
          "words." + one.column(),
          "what do these mean (rows), as they stand with the cell beside them: "
              + listed(open)
              + "? Each is one of "
              + choice(one.column(), Set.of()));
    }
  }

  /** Openings without a number are called by their line where nothing else names them. */
  private boolean isNotNeeded(TableMatch match, String column) {
    return column.equals("rebuild") && (match.export().key().isPresent() || !positions.isEmpty());
  }

  /** Reads rows from another export of the same form too. */
  void also(Export first, Export other) {
    also.add(
        new FleetJson.AlsoJson(
            Optional.of(other.file())
                .filter(file -> !file.equals(first.file()) || other.sheet().isEmpty()),
            other.sheet()));
  }

  /** Reads {@code column} from a header without a pick of its own. */
  void column(String column, String header) {
    columns.put(column, header);
  }

  /** Reads what was found at a position from columns of the row. */
  void position(String position, Map<String, String> headers) {
    positions.put(position, new TreeMap<>(headers));
  }

  /** The form of its days. */
  void days(List<ColumnProfile> from, DayForms forms) {
    Map<String, Integer> texts = merged(from);
    noteUnknown(texts);
    if (texts.isEmpty()) {
      return;
    }
    DayForms.Choice choice = forms.choose(texts, from.stream().map(ColumnProfile::first).toList());
    days = Optional.of(choice);
    if (!choice.patterns().isEmpty()) {
      remarks.add("days as " + String.join(" or ", choice.patterns()) + ": " + choice.because());
    }
    choice.doubts().forEach(doubt -> doubt("dates", doubt));
    unread("dates", "days", choice.unread(), texts);
  }

  /** The form of its numbers. */
  void numbers(List<ColumnProfile> from, Optional<Character> separator) {
    Map<String, Integer> texts = merged(from);
    noteUnknown(texts);
    if (texts.isEmpty()) {
      return;
    }
    NumberForms.Choice choice = NumberForms.choose(texts, separator);
    numbers = Optional.of(choice);
    if (!choice.because().isEmpty()) {
      remarks.add("numbers with " + choice.because());
    }
    choice.doubt().ifPresent(doubt -> doubt("decimal", doubt));
    unread("decimal", "numbers", choice.unread(), texts);
  }

  private static Map<String, Integer> merged(List<ColumnProfile> from) {
    Map<String, Integer> texts = new LinkedHashMap<>();
    from.forEach(profile -> profile.texts().forEach((t, n) -> texts.merge(t, n, Integer::sum)));
    return texts;
  }

  /** Takes words that stand for unknown out of {@code texts}. */
  private void noteUnknown(Map<String, Integer> texts) {
    for (String text : List.copyOf(texts.keySet())) {
      if (vocabulary.isUnknown(text)) {
        unknown.add(text);
        texts.remove(text);
      }
    }
  }

  /** Looks for words that stand for unknown in a column of names. */
  void names(ColumnProfile from) {
    from.texts().keySet().stream().filter(vocabulary::isUnknown).forEach(unknown::add);
  }

  private void unread(
      String key, String what, Map<String, Integer> unread, Map<String, Integer> texts) {
    if (unread.isEmpty()) {
      return;
    }
    long all = ColumnProfile.sum(texts);
    String said =
        ColumnProfile.sum(unread)
            + " of "
            + all
            + " cells are no "
            + what
            + ", such as "
            + listed(unread);
    long none = ColumnProfile.sum(unread);
    if (none > MANY_UNREAD * all && (none >= MANY || none == all)) {
      doubt(key, said);
    } else {
      remarks.add(said + "; check will name each");
    }
  }

  private static String listed(Map<String, Integer> texts) {
    String some =
        texts.entrySet().stream()
            .sorted(Map.Entry.<String, Integer>comparingByValue().reversed())
            .limit(SHOWN)
            .map(text -> Cell.quoted(text.getKey()) + " (" + text.getValue() + ")")
            .collect(Collectors.joining(", "));
    return texts.size() > SHOWN ? some + ", …" : some;
  }

  /** What the words of a column mean. */
  void words(String column, List<ColumnProfile> from) {
    Map<String, Integer> texts = merged(from);
    noteUnknown(texts);
    Set<String> own = Words.known(column);
    Map<String, String> found = new TreeMap<>();
    Map<String, Integer> open = new LinkedHashMap<>();
    texts.forEach(
        (text, count) -> {
          Optional<String> meaning =
              Kind.of(column) == Kind.POSITION
                  ? places.position(Tokens.of(text))
                  : vocabulary.meaning(column, text);
          if (own.contains(text) || text.equals(meaning.orElse(""))) {
            return;
          }
          meaning.ifPresentOrElse(m -> found.put(text, m), () -> open.put(text, count));
        });
    put(column, found);
    if (!open.isEmpty()) {
      doubt(
          "words." + column,
          "what do these mean (rows): " + listed(open) + "? Each is one of " + choice(column, own));
    }
  }

  private String choice(String column, Set<String> own) {
    return Kind.of(column) == Kind.POSITION
        ? "the positions of fleet.json, or \"\" (unknown)"
        : String.join(", ", own) + ", or \"\" (unknown)";
  }

  /** One entry for spellings that differ in capitals and blanks only. */
  private static Map<String, String> folded(Map<String, String> found) {
    Map<String, String> kept = new TreeMap<>();
    Set<String> seen = new LinkedHashSet<>();
    found.forEach(
        (text, meaning) -> {
          if (seen.add(Words.folded(text))) {
            kept.put(text, meaning);
          }
        });
    return kept;
  }

  private static String told(Map<String, String> words) {
    String some =
        words.entrySet().stream()
            .limit(2L * SHOWN)
            .map(word -> Cell.quoted(word.getKey()) + " is " + word.getValue())
            .collect(Collectors.joining(", "));
    return words.size() > 2 * SHOWN ? some + ", …" : some;
  }

  /** Reads two columns of a finding from cells that say both, such as {@code failed, new}. */
  void wordsOfBoth(List<ColumnProfile> from) {
    Map<String, Integer> texts = merged(from);
    noteUnknown(texts);
    Map<String, String> found = new TreeMap<>();
    Map<String, String> done = new TreeMap<>();
    Map<String, Integer> open = new LinkedHashMap<>();
    Map<String, Integer> onlyDone = new LinkedHashMap<>();
    Map<String, Integer> onlyFound = new LinkedHashMap<>();
    texts.forEach(
        (text, count) -> {
          Optional<String> asFound = vocabulary.meaning("as_found", text);
          Optional<String> action = vocabulary.meaning("action", text);
          if (asFound.isEmpty() && action.isEmpty()) {
            open.put(text, count);
            return;
          }
          if (asFound.isEmpty()) {
            onlyDone.put(text, count);
          }
          if (action.isEmpty()) {
            onlyFound.put(text, count);
          }
          found.put(text, asFound.orElse("not-seen"));
          done.put(
              text,
              action.orElse(asFound.filter("good"::equals).isPresent() ? "reused" : "renewed"));
        });
    put("as_found", found);
    put("action", done);
    if (!open.isEmpty()) {
      doubt(
          "words.as_found",
          "what do these mean (rows): " + listed(open) + "? Say as_found and action of each");
    }
    if (!onlyDone.isEmpty()) {
      doubt(
          "words.as_found",
          listed(onlyDone)
              + " say what was done, not what was found; not-seen is proposed, so that no failure is"
              + " counted. If the shop renews only what has failed, failed is right");
    }
    if (!onlyFound.isEmpty()) {
      doubt(
          "words.action",
          listed(onlyFound)
              + " say what was found, not what was done; proposed is reused where it was good, else"
              + " renewed");
    }
  }

  private void put(String column, Map<String, String> meanings) {
    Map<String, String> folded = folded(meanings);
    folded.entrySet().removeIf(word -> word.getKey().equals(word.getValue()));
    if (!folded.isEmpty()) {
      words.computeIfAbsent(column, c -> new TreeMap<>()).putAll(folded);
      remarks.add("words of " + column + ": " + told(folded));
    }
  }

  /** The unit of a column of measurements. */
  void unit(String column, List<ColumnProfile> from) {
    Optional<Unit.Quantity> quantity = Table.quantity(column);
    if (quantity.isEmpty()) {
      return;
    }
    Unit usual = quantity.get().usual();
    Optional<Unit> stated =
        from.stream()
            .flatMap(profile -> profile.header().unit(quantity.get(), vocabulary).stream())
            .findFirst();
    double[] values = values(from);
    if (stated.isPresent() && stated.get() != usual) {
      units.put(column, stated.get().word());
      remarks.add(column + " in " + stated.get().word() + ", as its header says");
      return;
    }
    Optional<Unit> likelier = Sizes.likelier(column, median(values));
    if (likelier.isPresent()) {
      units.put(column, likelier.get().word());
      doubt(
          "units." + column,
          (stated.isPresent() ? "its header says " + usual.word() : "no unit is named")
              + ", and the middle of "
              + values.length
              + " numbers is "
              + CsvWriter.plain(median(values))
              + ", which is odd for "
              + usual.word()
              + "; "
              + likelier.get().word()
              + " is proposed");
    } else if (stated.isEmpty() && values.length > 0) {
      remarks.add(column + ": no unit is named; taken as " + usual.word());
    }
    if (quantity.get() != Unit.Quantity.TIME) {
      MixedUnits.find(values, likelier.orElse(usual))
          .ifPresent(heaps -> doubt("units." + column, mixed(heaps, likelier.orElse(usual))));
    }
  }

  /** The unit proposed for a column; empty for that of the record format. */
  Optional<String> unitOf(String column) {
    return Optional.ofNullable(units.get(column));
  }

  /** A unit that something else than its header tells. */
  void unit(String column, String unit, String doubt) {
    units.put(column, unit);
    doubt("units." + column, doubt);
  }

  private static String mixed(MixedUnits.Heaps heaps, Unit taken) {
    return "two units seem to stand in one column: "
        + heaps.inLower()
        + " numbers up to "
        + CsvWriter.plain(heaps.highest())
        + " and "
        + heaps.inUpper()
        + " from "
        + CsvWriter.plain(heaps.lowest())
        + "; the "
        + (heaps.otherIsUpper() ? "upper" : "lower")
        + " ones would fit "
        + heaps.other().word()
        + " where the others are "
        + taken.word()
        + "; put the export right, or write the unit into the cells";
  }

  private double[] values(List<ColumnProfile> from) {
    return from.stream()
        .flatMapToDouble(
            profile ->
                DoubleStream.concat(
                    profile.texts().keySet().stream()
                        .filter(text -> !NumberForms.hasUnit(text))
                        .flatMap(text -> NumberForms.read(numberForm(), text).stream())
                        .mapToDouble(Double::doubleValue),
                    profile.typed().keySet().stream()
                        .filter(Numbers::isNumber)
                        .mapToDouble(text -> new BigDecimal(text).doubleValue())))
        .toArray();
  }

  private static double median(double[] values) {
    double[] sorted = Arrays.stream(values).filter(value -> value > 0).sorted().toArray();
    return sorted.length == 0 ? Double.NaN : sorted[sorted.length / 2];
  }

  /** The table as {@code fleet.json} has it. */
  FleetJson.TableJson json(Export export, Optional<String> file) {
    Export.Form form = export.form();
    NumberForm written = numberForm();
    return new FleetJson.TableJson(
        file,
        export.sheet().filter(sheet -> !sheet.equals(table.title())),
        stated(also),
        form.headerLine() == 1 ? OptionalInt.empty() : OptionalInt.of(form.headerLine()),
        form.charset().map(Charset::name),
        form.separator().filter(c -> c != ',').map(String::valueOf),
        Optional.of(written.decimal()).filter(c -> c != '.').map(String::valueOf),
        written.thousands().map(String::valueOf),
        days.flatMap(choice -> stated(choice.patterns())),
        days.flatMap(DayForms.Choice::language).filter(l -> !l.equals("en")),
        stated(List.copyOf(unknown)),
        stated(columns),
        stated(joined),
        stated(words),
        stated(units),
        Optional.empty(),
        stated(positions));
  }

  private static <T> Optional<List<T>> stated(List<T> list) {
    return list.isEmpty() ? Optional.empty() : Optional.of(list);
  }

  private static <V> Optional<Map<String, V>> stated(Map<String, V> map) {
    return map.isEmpty() ? Optional.empty() : Optional.of(map);
  }
}
