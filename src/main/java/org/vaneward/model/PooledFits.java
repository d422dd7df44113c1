package org.vaneward.model;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.vaneward.life.LivesTable;
import org.vaneward.stats.Observations;
import org.vaneward.stats.pooling.PartialPooling;
import org.vaneward.stats.pooling.PooledFit;
import org.vaneward.stats.pooling.PoolingSettings;

/**
 * Groups of a lives table fitted together, so that those with few failures lean on the others.
 * Groups of one component are pooled; those of different components are not.
 *
 * @param pools one for each component, in order of name
 */
public record PooledFits(List<Pool> pools) {
  /** Column whose values are pooled apart. */
  public static final String COMPONENT = "component";

  public PooledFits {
    pools = List.copyOf(pools);
  }

  /**
   * Groups that are pooled.
   *
   * @param component their component; blank when groups are not told apart by component
   * @param members the groups, in order of their texts
   * @param fit the fit of all of them, or why there is none
   */
  public record Pool(String component, List<Member> members, PooledFit fit) {
    public Pool {
      members = List.copyOf(members);
    }
  }

  /**
   * One group.
   *
   * @param group the columns that make the group with its values
   * @param lives number of lives, spans of one life counted once
   * @param observations what was fitted
   */
  public record Member(Map<String, String> group, double lives, Observations observations) {}

  /**
   * Fits every pool.
   *
   * @param by columns that make a group
   * @throws org.vaneward.io.BadInputException when there is no such column
   */
  public static PooledFits of(LivesTable table, List<String> by, PoolingSettings settings) {
    Map<String, List<Member>> members = new LinkedHashMap<>();
    table
        .groupBy(by)
        .forEach(
            (values, lives) -> {
              Map<String, String> group = GroupNames.of(by, values);
              members
                  .computeIfAbsent(group.getOrDefault(COMPONENT, ""), c -> new ArrayList<>())
                  .add(new Member(group, lives.lives(), lives.observations()));
            });
    List<Pool> pools = new ArrayList<>();
    members.forEach((component, list) -> pools.add(pool(component, list, settings)));
    return new PooledFits(pools);
  }

  private static Pool pool(String component, List<Member> members, PoolingSettings settings) {
    List<Observations> lives = members.stream().map(Member::observations).toList();
    return new Pool(component, members, PartialPooling.fit(lives, settings));
  }
}
