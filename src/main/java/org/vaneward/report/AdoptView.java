package org.vaneward.report;

import java.util.Map;
import org.vaneward.adopt.Proposal;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;

/** What is proposed for a folder of exports, with what speaks for it and what is in doubt. */
public final class AdoptView implements View {
  private static final int HANGING = 4;

  private final Proposal proposal;

  /** A view of {@code proposal}. */
  public AdoptView(Proposal proposal) {
    this.proposal = proposal;
  }

  /** Each table with its columns, then what a person has to decide. */
  @Override
  public String text() {
    StringBuilder text = new StringBuilder();
    int tables = (int) proposal.sources().stream().filter(s -> !s.tables().isEmpty()).count();
    text.append(Words.count(proposal.sources().size(), "table", "tables"))
        .append(" found, ")
        .append(tables)
        .append(" read; ")
        .append(Words.count(proposal.unsettled().size(), "point waits", "points wait"))
        .append(" for your word\n");
    proposal.sources().forEach(source -> append(text, source));
    append(text, "Not read", proposal.unread());
    if (!proposal.unsettled().isEmpty()) {
      text.append(
          "\nTo settle, in mapping of fleet.json; every command refuses the mapping until its list"
              + " unsettled is empty:\n");
      append(text, proposal.unsettled());
    }
    if (!proposal.further().isEmpty()) {
      text.append("\nTo state besides:\n");
      proposal.further().forEach(point -> text.append(Words.wrapped("  " + point, HANGING)));
    }
    return text.toString();
  }

  private static void append(StringBuilder text, Proposal.Source source) {
    text.append('\n')
        .append(source.name())
        .append(": ")
        .append(Words.count(source.rows(), "row", "rows"))
        .append(
            source.tables().isEmpty()
                ? source.columns().isEmpty() ? ", read with another" : ", not read"
                : ", read as " + String.join(" and ", source.tables()))
        .append('\n')
        .append("  ")
        .append(source.form())
        .append('\n');
    for (String remark : source.remarks()) {
      text.append(Words.wrapped("  " + remark, HANGING));
    }
    if (source.tables().isEmpty()) {
      return;
    }
    TextTable columns = new TextTable("column", "taken as", "because");
    for (Proposal.Column column : source.columns()) {
      columns.row(
          column.header(),
          column.takenAs().isEmpty() ? Words.NONE : String.join(", ", column.takenAs()),
          column.because());
    }
    text.append('\n').append(columns);
  }

  private static void append(StringBuilder text, String heading, Map<String, String> points) {
    if (!points.isEmpty()) {
      text.append('\n').append(heading).append(":\n");
      points.forEach(
          (name, why) ->
              text.append(
                  Words.wrapped("  " + (why.startsWith(name) ? why : name + ": " + why), HANGING)));
    }
  }

  private static void append(StringBuilder text, Map<String, String> points) {
    points.forEach(
        (place, point) -> text.append(Words.wrapped("  " + place + ": " + point, HANGING)));
  }

  /** One row for each column found. */
  @Override
  public String csv() {
    CsvWriter table = CsvWriter.forSpreadsheets("source", "header", "taken_as", "because");
    for (Proposal.Source source : proposal.sources()) {
      for (Proposal.Column column : source.columns()) {
        table
            .cell(source.name())
            .cell(column.header())
            .cell(String.join(", ", column.takenAs()))
            .cell(column.because())
            .endRow();
      }
    }
    return table.text();
  }

  /** The proposal, the draft of {@code fleet.json} in it. */
  @Override
  public String json() {
    return Json.write(proposal);
  }

  /** The draft of {@code fleet.json} alone. */
  public String draft() {
    return Json.write(proposal.draft());
  }
}
