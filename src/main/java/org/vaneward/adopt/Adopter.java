package org.vaneward.adopt;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.vaneward.ingest.FleetJson;
import org.vaneward.ingest.Ingest;
import org.vaneward.ingest.Table;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Cell;
import org.vaneward.io.Json;

/**
 * Reads a folder of exports and proposes a {@code fleet.json} for it: which file is which table,
 * which column is what, how days and numbers are written, what the words mean and which units
 * measurements are in. It goes by headers and by what stands in the cells, says for each guess what
 * speaks for it, and puts every doubt on the list {@code unsettled} of the mapping.
 */
public final class Adopter {
  private static final String NOT_NAMED = "kept beside the row as it is";

  /** The components of the pump as most are built (common practice, no source). */
  private static final List<FleetJson.ComponentJson> USUAL =
      List.of(
          component("seal", List.of("seal-inboard", "seal-outboard"), true),
          component("bearing", List.of("bearing-inboard", "bearing-outboard"), true),
          component("vanes", List.of("vane-set"), false));

  private final Path folder;
  private final Optional<FleetJson> before;
  private final Vocabulary vocabulary = Vocabulary.ours();
  private final List<FleetJson.ComponentJson> components;
  private final Places places;
  private final DayForms days;
  private final Doubts unsettled = new Doubts();
  private final Map<Table, TableDraft> drafts = new EnumMap<>(Table.class);
  private final Map<Table, Export> exports = new EnumMap<>(Table.class);
  private final Map<Export, Map<String, Taken>> taken = new LinkedHashMap<>();
  private final Map<Export, Map<String, String>> refuted = new LinkedHashMap<>();
  private final LocalDate today;

  /** What a column is read as, and why. */
  private record Taken(List<String> as, String because) {}

  private Adopter(Path folder, LocalDate today) {
    this.folder = folder;
    this.today = today;
    Path settings = folder.resolve(Ingest.SETTINGS);
    this.before =
        Files.isRegularFile(settings)
            ? Optional.of(Json.read(settings, FleetJson.class))
            : Optional.empty();
    this.components = before.map(FleetJson::components).orElse(USUAL);
    List<String> positions = new ArrayList<>();
    components.forEach(component -> positions.addAll(component.positions()));
    this.places = new Places(vocabulary, positions);
    this.days = new DayForms(vocabulary, before.map(FleetJson::asOf).orElse(today));
  }

  private static FleetJson.ComponentJson component(
      String name, List<String> positions, boolean announces) {
    return new FleetJson.ComponentJson(
        name, positions, announces, OptionalDouble.empty(), Optional.empty(), Optional.empty());
  }

  /**
   * The proposal for {@code folder}. What a {@code fleet.json} in it says of anything but the
   * mapping is kept.
   *
   * @param today years of two digits are taken to lie before it, where no {@code fleet.json} says
   *     when the records end
   * @param progress is told how far long files have been read
   * @throws BadInputException when there is no such folder, or a {@code fleet.json} in it cannot be
   *     read
   */
  public static Proposal propose(Path folder, LocalDate today, Consumer<String> progress) {
    return new Adopter(folder, today).propose(progress);
  }

  private Proposal propose(Consumer<String> progress) {
    ExportReader reader = new ExportReader(folder, vocabulary, progress);
    reader.read();
    Tables found =
        new Tables(
            vocabulary,
            new TableMatch.Finder(vocabulary, days, places),
            new Groups.Finder(vocabulary, places, wornPosition()));
    List<Export> joined = Export.joined(reader.exports());
    found.decide(joined);
    for (Table table : Table.values()) {
      found.of(table).ifPresent(match -> draft(match, found));
      if (table == Table.REBUILDS) {
        found.of(table).map(match -> found.groupsOf(match.export())).ifPresent(this::within);
      }
    }
    for (Table table : Table.values()) {
      missing(table);
    }
    found.of(Table.READINGS).ifPresent(this::pace);
    drafts.values().forEach(draft -> unsettled.addAll(draft.doubts()));
    LocalDate last = new LastDay(found, drafts, today).day();
    if (before.isEmpty()) {
      unsettled.add(
          "as_of",
          last
              + " is the last day in the exports; if the records were closed later, say when: up to"
              + " then parts count as still running");
    }
    return new Proposal(
        sources(reader.exports(), joined, found),
        reader.unread(),
        new Document(drafts, exports).of(before, folder, last, components, unsettled.all()),
        unsettled.all(),
        further());
  }

  /** The one position whose wear is measured. */
  private Optional<String> wornPosition() {
    List<String> worn = new ArrayList<>();
    components.stream()
        .filter(component -> component.wearLimitMm().isPresent() || !component.announces())
        .forEach(component -> worn.addAll(component.positions()));
    return worn.size() == 1 ? Optional.of(worn.get(0)) : Optional.empty();
  }

  private void draft(TableMatch match, Tables found) {
    Table table = match.table();
    Export export = match.export();
    exports.put(table, export);
    TableDraft draft = drafts.computeIfAbsent(table, t -> new TableDraft(t, vocabulary, places));
    Groups groups =
        table == Table.REBUILDS ? found.groupsOf(export) : new Groups(Map.of(), Map.of());
    groups.byPosition().forEach((position, own) -> position(draft, position, own, export));
    draft.columns(match);
    match
        .picks()
        .forEach(
            (column, pick) ->
                take(export, pick.from().name(), table.title() + "." + column, pick.because()));
    refuted.computeIfAbsent(export, e -> new LinkedHashMap<>()).putAll(match.refuted());
    match.joined().values().forEach(one -> takeAll(match, one));
    draft.days(daysOf(match), days);
    List<ColumnProfile> numeric = new ArrayList<>(of(match, Kind.NUMBER));
    numeric.addAll(groups.from("measured_mm"));
    draft.numbers(numeric, export.form().separator());
    of(match, Kind.NAME).forEach(draft::names);
    of(match, Kind.TEXT).forEach(draft::names);
    match.picks().forEach((column, pick) -> meaning(draft, column, pick.from()));
    export.form().doubt().ifPresent(doubt -> draft.doubt("encoding", doubt));
    special(draft, match, found);
    parts(draft, match, found.others(table));
  }

  private void takeAll(TableMatch match, Joined one) {
    String as = match.table().title() + "." + one.column();
    for (ColumnProfile from : one.from()) {
      String others =
          String.join(
              ", ",
              one.from().stream()
                  .filter(other -> other != from)
                  .map(other -> Cell.quoted(other.name()))
                  .toList());
      take(match.export(), from.name(), as + " with " + others, one.because());
    }
  }

  /** Columns of days, one that helps to tell an opening among them. */
  private static List<ColumnProfile> daysOf(TableMatch match) {
    Set<ColumnProfile> of = new LinkedHashSet<>(of(match, Kind.DAY));
    match.joined().values().forEach(one -> of.addAll(one.days()));
    return List.copyOf(of);
  }

  private static void meaning(TableDraft draft, String column, ColumnProfile from) {
    switch (Kind.of(column)) {
      case WORDS, POSITION -> draft.words(column, List.of(from));
      case NUMBER -> draft.unit(column, List.of(from));
      default -> {}
    }
  }

  private static List<ColumnProfile> of(TableMatch match, Kind kind) {
    return match.picks().entrySet().stream()
        .filter(pick -> Kind.of(pick.getKey()) == kind)
        .map(pick -> pick.getValue().from())
        .toList();
  }

  private void position(
      TableDraft draft, String position, Map<String, ColumnProfile> own, Export export) {
    Map<String, String> headers = new TreeMap<>();
    own.forEach(
        (column, from) -> {
          headers.put(column, from.name());
          boolean named = places.find(from.header().name()).isPresent();
          if (!named) {
            draft.doubt(
                "positions." + position + "." + column,
                "taken from "
                    + Cell.quoted(from.name())
                    + ", which names no position, since wear is measured there alone");
          }
          take(
              export,
              from.name(),
              column + " of " + position,
              named ? "its header names the position" : "a usual word for it; see below");
        });
    draft.position(position, headers);
  }

  private void take(Export export, String header, String as, String because) {
    taken
        .computeIfAbsent(export, e -> new LinkedHashMap<>())
        .merge(
            header,
            new Taken(List.of(as), because),
            (one, other) -> {
              Set<String> both = new LinkedHashSet<>(one.as());
              both.addAll(other.as());
              return new Taken(List.copyOf(both), one.because());
            });
  }

  /** What holds for one table only. */
  private void special(TableDraft draft, TableMatch match, Tables found) {
    switch (match.table()) {
      case SERVICES -> sinceCommissioning(draft, match, found);
      case READINGS -> fromOpenings(draft, match, found);
      case FINDINGS -> asList(match.export());
      default -> {}
    }
  }

  /** One list for pumps and what they handle, without a day of its own for the service. */
  private void sinceCommissioning(TableDraft draft, TableMatch match, Tables found) {
    found
        .of(Table.PUMPS)
        .filter(pumps -> pumps.export().equals(match.export()) && pumps.has("commissioned"))
        .filter(
            pumps -> !match.has("from") || match.from("from").equals(pumps.from("commissioned")))
        .flatMap(pumps -> pumps.from("commissioned"))
        .ifPresent(
            from -> {
              draft.column("from", from.name());
              draft.days(List.of(from), days);
              take(match.export(), from.name(), "services.from", "");
              draft.doubts().forget("services.columns.from");
              draft.doubt(
                  "columns.from",
                  "taken from "
                      + Cell.quoted(from.name())
                      + ", the day each pump was commissioned: right only for pumps that have"
                      + " handled one product ever since");
            });
  }

  private static void fromOpenings(TableDraft draft, TableMatch match, Tables found) {
    if (found.of(Table.REBUILDS).filter(r -> r.export().equals(match.export())).isPresent()) {
      draft.doubt(
          "file",
          "no file holds readings of hour meters; the hours of the openings are proposed for them."
              + " Add readings where there are any: without them running hours between openings are"
              + " an average");
    }
  }

  /** Findings that stand as a list in the rows of rebuilds, under a key of its own. */
  private void asList(Export export) {
    export
        .key()
        .filter(key -> !key.equals(Table.FINDINGS.title()))
        .ifPresent(key -> draftOf(Table.REBUILDS).column(Table.FINDINGS.title(), key));
  }

  /** Further files of the same form, and others that look like the table. */
  private static void parts(TableDraft draft, TableMatch match, List<Export> others) {
    Export export = match.export();
    List<Export> more = export.more();
    more.forEach(other -> draft.also(export, other));
    if (!more.isEmpty()) {
      draft.doubt(
          "also",
          shown(more)
              + (more.size() == 1 ? " has" : " have")
              + " the columns of "
              + export.shown()
              + " and "
              + (more.size() == 1 ? "is" : "are")
              + " read with it; take off what holds something else");
    }
    if (!others.isEmpty()) {
      draft.doubt(
          "file",
          export.shown()
              + " is proposed; "
              + shown(others)
              + (others.size() == 1 ? " looks" : " look")
              + " like "
              + match.table().title()
              + " as well, with other columns. Rows that belong together need one form: put them"
              + " together");
    }
  }

  private static String shown(List<Export> exports) {
    return String.join(", ", exports.stream().map(Export::shown).toList());
  }

  /** Findings that stand in the rows of rebuilds. */
  private void within(Groups groups) {
    if (groups.isEmpty()) {
      return;
    }
    TableDraft draft = new TableDraft(Table.FINDINGS, vocabulary, places);
    for (String column : List.of("as_found", "action", "primary")) {
      List<ColumnProfile> own = groups.from(column);
      if (!own.isEmpty()) {
        draft.words(column, own);
      }
    }
    if (!groups.whole().isEmpty()) {
      draft.wordsOfBoth(List.copyOf(groups.whole().values()));
    }
    draft.numbers(groups.from("measured_mm"), Optional.empty());
    draft.unit("measured_mm", groups.from("measured_mm"));
    groups
        .byPosition()
        .forEach(
            (position, own) -> {
              for (String column : List.of("as_found", "action")) {
                if (!own.containsKey(column)) {
                  draft.doubt(
                      "columns." + column,
                      "no column tells it of "
                          + position
                          + "; name one under positions, or say under always what holds for every"
                          + " finding");
                }
              }
            });
    drafts.put(Table.FINDINGS, draft);
  }

  private void missing(Table table) {
    if (!drafts.containsKey(table)) {
      unsettled.add(
          table.title(),
          "no file here looks like them ("
              + table.meaning()
              + ", with at least "
              + String.join(", ", table.required())
              + "); export them too, or name the file and its columns in the mapping");
    }
  }

  /** Hours that run faster than the clock are minutes or seconds. */
  private void pace(TableMatch readings) {
    TableDraft draft = draftOf(Table.READINGS);
    if (draft.unitOf("hours").isEmpty()) {
      Pace.of(readings, draft.dayForm(), draft.numberForm())
          .ifPresent(pace -> draft.unit("hours", pace.unit().word(), pace.because()));
    }
    if (readings.has("old_hours") && draft.unitOf("old_hours").isEmpty()) {
      draft
          .unitOf("hours")
          .ifPresent(
              unit ->
                  draft.unit(
                      "old_hours",
                      unit,
                      "no unit is named; " + unit + " are proposed as for hours"));
    }
  }

  /** What the document should say besides, before advice can rest on it. */
  private List<String> further() {
    if (before.isPresent()) {
      return List.of();
    }
    return List.of(
        "components: correct them if the pumps have other parts; wear_limit_mm of vanes is the"
            + " maker's",
        "costs, kits, parts, needs, limits: without costs no interval can be weighed, without"
            + " max_interval_months no mandated one is kept");
  }

  private List<Proposal.Source> sources(List<Export> all, List<Export> joined, Tables found) {
    Map<String, Export> byName = new LinkedHashMap<>();
    joined.forEach(export -> byName.put(export.shown(), export));
    Map<String, Export> firstOf = new LinkedHashMap<>();
    joined.forEach(first -> first.more().forEach(part -> firstOf.put(part.shown(), first)));
    List<Proposal.Source> sources = new ArrayList<>();
    for (Export export : all) {
      Export first = firstOf.get(export.shown());
      sources.add(
          first == null
              ? source(byName.getOrDefault(export.shown(), export), found)
              : further(export, first));
    }
    return sources;
  }

  /** A file or a sheet that is read with another. */
  private static Proposal.Source further(Export export, Export first) {
    return new Proposal.Source(
        export.shown(),
        export.rows(),
        export.form().words(),
        List.of(),
        List.of(),
        List.of("the columns of " + first.shown() + ": goes with it"));
  }

  private Proposal.Source source(Export export, Tables found) {
    Map<String, Taken> own = taken.getOrDefault(export, Map.of());
    List<Proposal.Column> columns = new ArrayList<>();
    for (ColumnProfile column : export.columns()) {
      String why = refuted.getOrDefault(export, Map.of()).getOrDefault(column.name(), NOT_NAMED);
      Taken as = own.getOrDefault(column.name(), new Taken(List.of(), why));
      columns.add(new Proposal.Column(column.name(), as.as(), as.because()));
    }
    List<String> titles = new ArrayList<>();
    List<String> remarks = new ArrayList<>();
    for (Table table : tablesOf(export)) {
      titles.add(table.title());
      draftOf(table).remarks().forEach(remark -> remarks.add(table.title() + ": " + remark));
    }
    if (titles.isEmpty()) {
      found.nearest(export).ifPresent(remarks::add);
    }
    return new Proposal.Source(
        export.shown(), export.rows(), export.form().words(), titles, columns, remarks);
  }

  /** The tables read from an export, findings that stand in the rows of rebuilds among them. */
  private List<Table> tablesOf(Export export) {
    List<Table> tables = new ArrayList<>();
    exports.forEach(
        (table, from) -> {
          if (from.equals(export)) {
            tables.add(table);
          }
        });
    boolean within = drafts.containsKey(Table.FINDINGS) && !exports.containsKey(Table.FINDINGS);
    if (within && tables.contains(Table.REBUILDS)) {
      tables.add(Table.FINDINGS);
    }
    return tables;
  }

  private TableDraft draftOf(Table table) {
    return drafts.computeIfAbsent(table, t -> new TableDraft(t, vocabulary, places));
  }
}
