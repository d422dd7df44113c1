package org.vaneward.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.vaneward.io.BadInputException;
import org.vaneward.life.LivesTable;
import org.vaneward.stats.Observations;
import org.vaneward.stats.competing.CauseLives;
import org.vaneward.stats.competing.CauseSpecificFits;
import org.vaneward.stats.competing.CompetingModes;
import org.vaneward.stats.competing.CumulativeIncidence;
import org.vaneward.stats.fit.FitSettings;

/**
 * Fits by cause of failure of the groups of a lives table.
 *
 * @param groups one for each group, in order of the groups' texts
 */
public record CauseFits(List<Group> groups) {
  /** What stands for the cause of a failure of which none is written down. */
  public static final String UNKNOWN = "(not on record)";

  public CauseFits {
    groups = List.copyOf(groups);
  }

  /**
   * One group.
   *
   * @param group the columns that make the group with its values
   * @param lives number of lives, spans of one life counted once
   * @param fits a Weibull for each cause, the other causes taken as removals
   * @param incidence cumulative incidence without a model; empty without a failure
   * @param modes one Weibull for all against one for each cause
   */
  public record Group(
      Map<String, String> group,
      double lives,
      CauseSpecificFits fits,
      Optional<CumulativeIncidence> incidence,
      CompetingModes modes) {
    /** What was fitted. */
    public CauseLives causes() {
      return fits.lives();
    }
  }

  /**
   * Fits every group.
   *
   * @param by columns that make a group
   * @param column that names the cause of each failure
   * @throws BadInputException when there is no such column
   */
  public static CauseFits of(
      LivesTable table, List<String> by, String column, FitSettings settings) {
    List<Group> groups = new ArrayList<>();
    table
        .groupBy(by)
        .forEach(
            (values, lives) ->
                groups.add(group(GroupNames.of(by, values), lives, column, settings)));
    return new CauseFits(groups);
  }

  private static Group group(
      Map<String, String> name, LivesTable lives, String column, FitSettings settings) {
    LivesTable observed = lives.observed();
    Observations observations = observed.observations();
    TreeSet<String> names = new TreeSet<>();
    for (int i = 0; i < observed.rows(); i++) {
      if (observed.failed(i)) {
        names.add(cause(observed, column, i));
      }
    }
    List<String> order = List.copyOf(names);
    int[] cause = new int[observed.rows()];
    for (int i = 0; i < cause.length; i++) {
      cause[i] = observed.failed(i) ? order.indexOf(cause(observed, column, i)) : CauseLives.NONE;
    }
    CauseLives causes = CauseLives.of(observations, cause, order);
    return new Group(
        name,
        lives.lives(),
        CauseSpecificFits.fit(causes, settings),
        order.isEmpty()
            ? Optional.empty()
            : Optional.of(CumulativeIncidence.of(causes, settings.confidence())),
        CompetingModes.of(causes));
  }

  private static String cause(LivesTable lives, String column, int row) {
    String text = lives.text(column, row);
    return text.isEmpty() ? UNKNOWN : text;
  }
}
