package org.vaneward.adopt;

import java.util.List;
import java.util.Map;
import org.vaneward.ingest.FleetJson;

/**
 * What is proposed for a folder of exports.
 *
 * @param sources the tables found, in order of their files
 * @param unread files that were not read, and why
 * @param draft the document {@code fleet.json} with the mapping proposed; what is in doubt stands
 *     in its list {@code unsettled}, and as long as anything stands there no command uses it
 * @param unsettled that list: what a person has to decide, by its place in the mapping
 * @param further what else the document should say before advice can rest on it
 */
public record Proposal(
    List<Source> sources,
    Map<String, String> unread,
    FleetJson draft,
    Map<String, String> unsettled,
    List<String> further) {
  /** Copies the collections. */
  public Proposal {
    sources = List.copyOf(sources);
    further = List.copyOf(further);
  }

  /**
   * A table found.
   *
   * @param name its file, with its sheet or list
   * @param rows number of its rows
   * @param form how it is laid out, in words
   * @param tables tables of the record format that are read from it
   * @param columns its columns
   * @param remarks what was found about days, numbers, words and units
   */
  public record Source(
      String name,
      long rows,
      String form,
      List<String> tables,
      List<Column> columns,
      List<String> remarks) {
    /** Copies the lists. */
    public Source {
      tables = List.copyOf(tables);
      columns = List.copyOf(columns);
      remarks = List.copyOf(remarks);
    }
  }

  /**
   * A column found.
   *
   * @param header its header
   * @param takenAs columns of the record format that are read from it; none when it is kept beside
   *     the row, or not used
   * @param because what speaks for it
   */
  public record Column(String header, List<String> takenAs, String because) {
    /** Copies the list. */
    public Column {
      takenAs = List.copyOf(takenAs);
    }
  }
}
