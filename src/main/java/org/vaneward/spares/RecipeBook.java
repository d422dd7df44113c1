package org.vaneward.spares;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.policy.PartsCost;

/** What the openings of the pumps of one model take. */
final class RecipeBook {
  /** Hidden positions told apart when a pump is mended; more of them keep their parts then. */
  static final int MOST_HIDDEN = 6;

  final Recipe full;

  /** By component of the part that failed, then by which hidden positions were found failed. */
  private final Recipe[][] mend;

  /**
   * The recipes.
   *
   * @param hidden component of each hidden position
   */
  RecipeBook(
      FleetSettings settings, Optional<String> model, List<String> hidden, Recipe.LineIndex lines) {
    Map<String, Map<String, Integer>> contents = new HashMap<>();
    settings.kits().forEach(kit -> contents.put(kit.kit(), kit.contents()));
    full = new Recipe(PartsCost.of(settings, model), contents, lines);
    List<Component> components = settings.components();
    mend = new Recipe[components.size()][1 << Math.min(MOST_HIDDEN, hidden.size())];
    for (int c = 0; c < mend.length; c++) {
      for (int mask = 0; mask < mend[c].length; mask++) {
        Map<String, Integer> renewed = new HashMap<>();
        renewed.put(components.get(c).component(), 1);
        for (int h = 0; h < Math.min(MOST_HIDDEN, hidden.size()); h++) {
          if ((mask >> h & 1) == 1) {
            renewed.merge(hidden.get(h), 1, Integer::sum);
          }
        }
        mend[c][mask] = new Recipe(PartsCost.ofRenewing(settings, model, renewed), contents, lines);
      }
    }
  }

  /** Every recipe in it. */
  Stream<Recipe> all() {
    return Stream.concat(Stream.of(full), Arrays.stream(mend).flatMap(Arrays::stream));
  }

  /** Where only a part of component {@code c} and the hidden ones in {@code mask} are renewed. */
  Recipe mend(int c, int mask) {
    return mend[c][mask];
  }
}
