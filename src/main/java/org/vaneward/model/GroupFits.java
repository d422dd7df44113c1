package org.vaneward.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.vaneward.life.LivesTable;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFitter;

/** Fits of the groups of a lives table, each on its own. */
public final class GroupFits {
  private GroupFits() {}

  /**
   * Fits every group.
   *
   * @param by columns that make a group; none makes one group of all
   * @return one fit for each group, in order of the groups' texts
   * @throws org.vaneward.io.BadInputException when there is no such column
   */
  public static List<GroupFit> of(LivesTable table, List<String> by, FitSettings settings) {
    List<GroupFit> fits = new ArrayList<>();
    table
        .groupBy(by)
        .forEach((values, lives) -> fits.add(fit(GroupNames.of(by, values), lives, settings)));
    return fits;
  }

  private static GroupFit fit(Map<String, String> group, LivesTable lives, FitSettings settings) {
    Observations observations = lives.observations();
    return new GroupFit(
        group, lives.lives(), observations, WeibullFitter.fit(observations, settings));
  }
}
