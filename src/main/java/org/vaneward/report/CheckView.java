package org.vaneward.report;

import java.util.List;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.RowAccount;
import org.vaneward.fleet.RowAccount.FileAccount;
import org.vaneward.fleet.RowFate;
import org.vaneward.fleet.RowNote;
import org.vaneward.io.Json;
import org.vaneward.io.Listing;
import org.vaneward.io.TableWriter;

/** What became of every row, for people and for programs. */
public final class CheckView implements View {
  private final FleetLives fleet;
  private final RowAccount account;

  /** A view of the account of a fleet's rows. */
  public CheckView(FleetLives fleet) {
    this.fleet = fleet;
    this.account = fleet.account();
  }

  /** Number of rows set aside. */
  public long setAside() {
    return account.files().stream().mapToLong(FileAccount::setAside).sum();
  }

  /** Counts by file, then each remark with file, line and column. */
  @Override
  public String text() {
    TextTable files = new TextTable("file", "rows", "used", "repaired", "set aside");
    for (FileAccount file : account.files()) {
      files.row(
          file.file(),
          Words.whole(file.rows()),
          Words.whole(file.used()),
          Words.whole(file.repaired()),
          Words.whole(file.setAside()));
    }
    StringBuilder text = new StringBuilder();
    text.append(fleet.settings().fleet())
        .append(", records up to ")
        .append(fleet.settings().asOf())
        .append("\n\n")
        .append(files)
        .append(otherRemarks());
    appendNotes(text, "Set aside (not used)", true);
    appendNotes(text, "Repaired (used, with an assumption)", false);
    return text.toString();
  }

  private String otherRemarks() {
    int unknown = fleet.lives().unknownAges().size();
    return unknown == 0
        ? ""
        : "\n"
            + Words.count(unknown, "part has", "parts have")
            + " no known fitting date and no age until the first renewal on record; no row is lost"
            + " by that.\n";
  }

  private void appendNotes(StringBuilder text, String heading, boolean setAside) {
    List<RowNote> notes =
        account.notes().stream()
            .filter(note -> note.fate() instanceof RowFate.SetAside == setAside)
            .toList();
    if (notes.isEmpty()) {
      return;
    }
    text.append('\n').append(heading).append('\n');
    for (Effect effect : Effect.values()) {
      List<RowNote> alike = notes.stream().filter(note -> note.effect() == effect).toList();
      if (!alike.isEmpty()) {
        String rows = Words.count(alike.size(), "remark", "remarks");
        text.append(Words.wrapped("  " + rows + "; what it changes: " + effect.words(), 4));
        alike.forEach(note -> text.append(Words.wrapped("    " + line(note), 8)));
      }
    }
  }

  /** Where and what; the column only where the reason does not begin with it. */
  private static String line(RowNote note) {
    String column = note.column();
    String reason = reason(note);
    return note.row().file()
        + ":"
        + note.row().line()
        + (column.isEmpty() || reason.startsWith(column + " ") ? "" : " " + column)
        + "  "
        + reason;
  }

  /** One row for each remark. */
  @Override
  public String csv() {
    return listing().csv();
  }

  /** The same for any form. */
  public Listing listing() {
    return new Listing(
        "Remarks", List.of("file", "line", "column", "fate", "reason", "changes"), this::rows);
  }

  /** Counts of rows by file, for any form. */
  public Listing files() {
    return new Listing(
        "Files",
        List.of("file", "rows", "used", "repaired", "set_aside"),
        table ->
            account
                .files()
                .forEach(
                    f ->
                        table
                            .cell(f.file())
                            .cell(f.rows())
                            .cell(f.used())
                            .cell(f.repaired())
                            .cell(f.setAside())
                            .endRow()));
  }

  private void rows(TableWriter table) {
    for (RowNote note : account.notes()) {
      table
          .cell(note.row().file())
          .cell(note.row().line())
          .cell(note.column())
          .cell(fate(note))
          .cell(reason(note))
          .cell(note.effect().words())
          .endRow();
    }
  }

  /** The document {@code check} promises. */
  @Override
  public String json() {
    return Json.write(document());
  }

  Document document() {
    return new Document(
        account.files(),
        account.notes().stream()
            .map(
                note ->
                    new Row(
                        note.row().file(),
                        note.row().line(),
                        note.column(),
                        fate(note),
                        reason(note),
                        note.effect().words()))
            .toList());
  }

  static String fate(RowNote note) {
    return note.fate() instanceof RowFate.SetAside ? "set-aside" : "repaired";
  }

  static String reason(RowNote note) {
    if (note.fate() instanceof RowFate.SetAside aside) {
      return aside.reason();
    }
    return note.fate() instanceof RowFate.Repaired repaired ? repaired.assumption() : "";
  }

  record Document(List<FileAccount> files, List<Row> rows) {}

  record Row(String file, long line, String column, String fate, String reason, String changes) {}
}
