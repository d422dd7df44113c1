package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.vaneward.io.BadInputException;
import org.vaneward.life.Lives;
import org.vaneward.life.LivesTable;
import org.vaneward.model.ServiceModels;

/**
 * How failures differ between the groups, or the numbers, of one column of the records.
 *
 * @param column the column
 * @param comparisons each component's failures at any age, early in life and on the start-up test,
 *     where there are any
 */
public record ColumnReview(String column, List<Comparison> comparisons) {
  /** Columns that tell of a life's end, not of what was known when the part was fitted. */
  private static final Set<String> OF_THE_END =
      Set.of("ended_on", "ended_at", "end", "trigger", "mode", "cause", "measured_mm", "seen_good");

  /** Columns that make no groups: a life of its own each, or what the others rest on. */
  private static final Set<String> NO_GROUPS =
      Set.of("life", "fitted_on", "fitted_at", "marks", "component");

  public ColumnReview {
    comparisons = List.copyOf(comparisons);
  }

  /**
   * Reviews a column.
   *
   * @param component one component; empty for all
   * @throws BadInputException when there is no such column or component, or the column cannot be
   *     asked about
   */
  public static ColumnReview of(
      Lives lives,
      LivesTable table,
      ServiceModels models,
      String column,
      Optional<String> component,
      ReviewQuestion question) {
    Parts parts = new Parts(lives, table, models, question.early());
    refuse(table, column);
    List<String> components = parts.components();
    component
        .filter(c -> !components.contains(c))
        .ifPresent(
            c -> {
              throw new BadInputException(
                  "no component '"
                      + c
                      + "' whose lives can be fitted; there are: "
                      + String.join(", ", components));
            });
    GroupQuestions questions = new GroupQuestions(parts, question.confidence());
    Comparer comparer = new Comparer(parts, questions, question.confidence());
    List<Comparison> comparisons = new ArrayList<>();
    for (String one : component.map(List::of).orElse(components)) {
      Comparison life = comparer.life(one, column);
      add(comparisons, life);
      add(comparisons, comparer.compare(parts.early(one, life.strata()), column, life.strata()));
      add(comparisons, comparer.compare(parts.startUp(one), column, Strata.COMPONENT));
    }
    if (comparisons.isEmpty()) {
      throw new BadInputException(
          "column '" + column + "' has fewer than two different entries to compare by");
    }
    return new ColumnReview(column, Comparer.adjusted(comparisons));
  }

  /** A comparison takes two groups and a failure. */
  private static void add(List<Comparison> comparisons, Comparison comparison) {
    boolean failed = comparison.rows().stream().anyMatch(r -> r.failures() > 0);
    if (comparison.rows().size() > 1 && failed) {
      comparisons.add(comparison);
    }
  }

  private static void refuse(LivesTable table, String column) {
    if (OF_THE_END.contains(column)) {
      throw new BadInputException(
          "column '"
              + column
              + "' says how a life ended; --by takes what was known when the part was fitted, such"
              + " as crew or lot");
    }
    boolean known = column.equals(Parts.KIT_OR_LOOSE) || table.has(column);
    if (!known || NO_GROUPS.contains(column)) {
      Set<String> columns = new TreeSet<>(table.columns());
      columns.removeAll(OF_THE_END);
      columns.removeAll(NO_GROUPS);
      columns.add(Parts.KIT_OR_LOOSE);
      throw new BadInputException(
          "--by takes a column to compare by, not '"
              + column
              + "'; there are: "
              + String.join(", ", columns));
    }
  }
}
