package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToLongFunction;
import org.vaneward.fleet.RowAccount;
import org.vaneward.fleet.RowAccount.FileAccount;
import org.vaneward.fleet.RowFate;
import org.vaneward.life.UnknownAge;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.Page.RecordsPart;

/** How good the records are. */
final class RecordsSection {
  private static final int MOST_ROWS = 60;

  private final FleetLives fleet;
  private final RowAccount account;
  private final FleetAnalysis analysis;

  RecordsSection(FleetAnalysis analysis) {
    this.fleet = analysis.fleet();
    this.account = fleet.account();
    this.analysis = analysis;
  }

  RecordsPart part() {
    return new RecordsPart(summary(), files(), notes(), notesRemark(), unknownAges(), madeFrom());
  }

  private long sum(ToLongFunction<FileAccount> count) {
    return account.files().stream().mapToLong(count).sum();
  }

  private String summary() {
    return "Of "
        + Words.whole(sum(FileAccount::rows))
        + " rows read, "
        + Words.whole(sum(FileAccount::used))
        + " are used as they stand, "
        + Words.whole(sum(FileAccount::repaired))
        + " with an assumption, and "
        + Words.whole(sum(FileAccount::setAside))
        + " are set aside. Every remark, with file and line, is in check.csv beside this page.";
  }

  private Grid files() {
    List<List<String>> rows =
        account.files().stream()
            .map(
                f ->
                    List.of(
                        f.file(),
                        Words.whole(f.rows()),
                        Words.whole(f.used()),
                        Words.whole(f.repaired()),
                        Words.whole(f.setAside())))
            .toList();
    return new Grid(
        List.of("File", "Rows", "Used", "Used, repaired", "Set aside"),
        List.of(Kind.TAG, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER),
        rows,
        "No file was read.");
  }

  private List<List<String>> setAside() {
    return account.notes().stream()
        .filter(n -> n.fate() instanceof RowFate.SetAside)
        .map(
            n ->
                List.of(
                    n.row().file(),
                    Words.whole(n.row().line()),
                    n.column().isEmpty() ? Words.NONE : n.column(),
                    CheckView.reason(n),
                    n.effect().words()))
        .toList();
  }

  private Grid notes() {
    return new Grid(
        List.of("File", "Line", "Column", "Why", "What it changes"),
        List.of(Kind.TAG, Kind.NUMBER, Kind.TEXT, Kind.SENTENCE, Kind.SENTENCE),
        setAside().stream().limit(MOST_ROWS).toList(),
        "No row was set aside.");
  }

  private String notesRemark() {
    int all = setAside().size();
    return all > MOST_ROWS
        ? "The first " + MOST_ROWS + " of " + Words.whole(all) + "; all are in check.csv."
        : "";
  }

  private Grid unknownAges() {
    Map<String, int[]> counts = new TreeMap<>();
    for (UnknownAge unknown : fleet.lives().unknownAges()) {
      int[] count = counts.computeIfAbsent(unknown.component(), c -> new int[2]);
      count[0]++;
      count[1] += unknown.until().isEmpty() ? 1 : 0;
    }
    List<List<String>> rows = new ArrayList<>();
    counts.forEach(
        (component, count) ->
            rows.add(List.of(component, Words.whole(count[0]), Words.whole(count[1]))));
    return new Grid(
        List.of("Component", "Parts without an age", "Still in the pump"),
        List.of(Kind.TAG, Kind.NUMBER, Kind.NUMBER),
        rows,
        "The fitting of every part is on record.");
  }

  private Grid madeFrom() {
    return new Grid(
        List.of("File", "Bytes", "SHA-256"),
        List.of(Kind.TAG, Kind.NUMBER, Kind.CODE),
        analysis.files().stream()
            .map(f -> List.of(f.name(), Words.whole(f.bytes()), f.sha256()))
            .toList(),
        "No file was read.");
  }

  /** What the records cannot say, as sentences. */
  List<String> notKnown() {
    List<String> sentences = new ArrayList<>();
    long aside = sum(FileAccount::setAside);
    if (aside > 0) {
      sentences.add(
          Words.count(aside, "row is", "rows are")
              + " set aside as unusable; what they recorded is missing here.");
    }
    int unknown = fleet.lives().unknownAges().size();
    if (unknown > 0) {
      sentences.add(
          Words.count(unknown, "part", "parts")
              + " that were running when the records began have no known age and say nothing about"
              + " lives until renewed.");
    }
    return sentences;
  }
}
