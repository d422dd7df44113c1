package org.vaneward.spares;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.vaneward.policy.PartsCost;

/** What one opening takes: so many of each line, and what the parts cost. */
final class Recipe {
  final int[] line;
  final int[] number;
  final double partsCost;

  /** How many kits and loose parts that is in all. */
  final int kits;

  final int loose;
  final PartsCost bought;

  /**
   * A recipe.
   *
   * @param bought how the parts are bought; what is bought and not left over is fitted
   * @param contents what each kit holds
   * @param lines numbers of the lines
   */
  Recipe(PartsCost bought, Map<String, Map<String, Integer>> contents, LineIndex lines) {
    this.bought = bought;
    this.partsCost = bought.cost();
    this.kits = bought.kits().values().stream().mapToInt(n -> n).sum();
    this.loose = bought.looseParts().values().stream().mapToInt(n -> n).sum();
    Tally tally = new Tally(lines.count());
    bought
        .kits()
        .forEach(
            (kit, n) -> {
              tally.add(lines.of(Line.Kind.KIT, kit), n);
              contents
                  .getOrDefault(kit, Map.of())
                  .forEach((part, k) -> tally.add(lines.of(Line.Kind.FITTED, part), n * k));
            });
    bought
        .looseParts()
        .forEach(
            (part, n) -> {
              tally.add(lines.of(Line.Kind.LOOSE, part), n);
              tally.add(lines.of(Line.Kind.FITTED, part), n);
            });
    bought
        .leftOver()
        .forEach(
            (part, n) -> {
              tally.add(lines.of(Line.Kind.LEFT_OVER, part), n);
              tally.add(lines.of(Line.Kind.FITTED, part), -n);
            });
    this.line = tally.lines();
    this.number = tally.numbers(line);
  }

  /** Numbers of lines. */
  interface LineIndex {
    int of(Line.Kind kind, String name);

    int count();
  }

  private static final class Tally {
    private final int[] numbers;

    Tally(int lines) {
      numbers = new int[lines];
    }

    void add(int at, int n) {
      numbers[at] += n;
    }

    int[] lines() {
      return IntStream.range(0, numbers.length).filter(i -> numbers[i] != 0).toArray();
    }

    int[] numbers(int[] of) {
      return Arrays.stream(of).map(i -> numbers[i]).toArray();
    }
  }

  /** Marks the lines it takes. */
  void mark(boolean[] taken) {
    for (int at : line) {
      taken[at] = true;
    }
  }

  /** Parts that are needed loose and have no price. */
  List<String> unpriced() {
    return bought.unpriced();
  }
}
