package org.vaneward.adopt;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.vaneward.ingest.Table;
import org.vaneward.io.HeadRow;
import org.vaneward.io.TextHead;

/** Finds the line that names the columns, and what parts the cells. */
final class HeaderChoice {
  private static final List<Character> SEPARATORS = List.of(',', ';', '\t', '|');
  private static final int LOOK_AHEAD = 20;
  private static final int LEAST_COLUMNS = 2;
  private static final double KNOWN_NAME = 5;

  private final Vocabulary vocabulary;

  HeaderChoice(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
  }

  /**
   * A header.
   *
   * @param line its line or row, from 1
   * @param separator what parts its cells
   */
  record Choice(int line, char separator) {}

  private record Scored(Choice choice, double score) {}

  /** The header of a text; empty when no line looks like one. */
  Optional<Choice> ofText(TextHead head) {
    return SEPARATORS.stream()
        .flatMap(separator -> scored(head.rows(separator), separator))
        .reduce(HeaderChoice::better)
        .map(Scored::choice);
  }

  /** The header among rows of a sheet; empty when none looks like one. */
  Optional<Choice> ofRows(List<HeadRow> rows) {
    return scored(rows, SEPARATORS.get(0)).reduce(HeaderChoice::better).map(Scored::choice);
  }

  /** The first of two that score alike. */
  private static Scored better(Scored one, Scored other) {
    return other.score() > one.score() ? other : one;
  }

  private Stream<Scored> scored(List<HeadRow> rows, char separator) {
    return IntStream.range(0, rows.size())
        .mapToObj(i -> new Scored(new Choice(rows.get(i).line(), separator), score(rows, i)))
        .filter(scored -> scored.score() > 0);
  }

  /**
   * Names in a row, those known for a column weighing most, as far as the rows below have as many
   * cells; 0 for a row that is no header.
   */
  private double score(List<HeadRow> rows, int at) {
    List<String> cells = trimmed(rows.get(at).cells());
    if (cells.size() < LEAST_COLUMNS) {
      return 0;
    }
    double names = 0;
    for (String cell : cells) {
      if (isName(cell)) {
        names += 1 + (isKnown(cell) ? KNOWN_NAME : 0);
      }
    }
    int below = 0;
    int alike = 0;
    for (int i = at + 1; i < rows.size() && below < LOOK_AHEAD; i++) {
      below++;
      int size = trimmed(rows.get(i).cells()).size();
      alike +=
          size >= LEAST_COLUMNS && size <= Math.max(cells.size(), rows.get(at).cells().size())
              ? 1
              : 0;
    }
    return names * (below == 0 ? 0.5 : (double) alike / below);
  }

  private static List<String> trimmed(List<String> cells) {
    List<String> kept = new ArrayList<>(cells);
    while (!kept.isEmpty() && kept.get(kept.size() - 1).isBlank()) {
      kept.remove(kept.size() - 1);
    }
    return kept;
  }

  private static boolean isName(String cell) {
    return cell.chars().anyMatch(Character::isLetter) && cell.length() <= 80;
  }

  private boolean isKnown(String cell) {
    Header header = Header.of(cell);
    for (Table table : Table.values()) {
      for (String column : table.columns()) {
        if (vocabulary.nameOf(column, header).weight() >= Vocabulary.NameMatch.WORDS.weight()) {
          return true;
        }
      }
    }
    return false;
  }
}
