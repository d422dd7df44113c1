package org.vaneward.adopt;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.vaneward.adopt.Vocabulary.Placed;

/** The positions of the fleet, found in headers and cells that name them in a shop's own words. */
final class Places {
  /** Says nothing of where: a set of vanes sits where vanes sit. */
  private static final String SET = "set";

  private final Vocabulary vocabulary;
  private final Map<String, List<Set<String>>> positions = new LinkedHashMap<>();
  private final Map<String, List<String>> tokens = new LinkedHashMap<>();

  Places(Vocabulary vocabulary, List<String> positions) {
    this.vocabulary = vocabulary;
    for (String position : positions) {
      List<String> own = Tokens.of(position);
      this.tokens.put(position, own);
      this.positions.put(position, places(vocabulary.placed(own)));
    }
  }

  /**
   * A position named in a text, and the words that are left.
   *
   * @param position one of the fleet's
   * @param left words that name no place
   */
  record Found(String position, List<String> left) {}

  /** The position named by {@code text}; empty when it names none or may name several. */
  Optional<String> position(List<String> text) {
    return find(text).filter(found -> found.left().isEmpty()).map(Found::position);
  }

  /** The position that stands in {@code text}, whatever else does. */
  Optional<Found> find(List<String> text) {
    return Stream.of(byName(text), byPlace(text))
        .flatMap(Optional::stream)
        .min(Comparator.comparingInt(found -> found.left().size()));
  }

  /** By the fleet's own name for it. */
  private Optional<Found> byName(List<String> text) {
    for (Map.Entry<String, List<String>> own : tokens.entrySet()) {
      int at = Tokens.find(text, own.getValue());
      if (at >= 0) {
        List<String> left = new ArrayList<>(text.subList(0, at));
        left.addAll(text.subList(at + own.getValue().size(), text.size()));
        return Optional.of(new Found(own.getKey(), left));
      }
    }
    return Optional.empty();
  }

  /** By usual words for the part and its side. */
  private Optional<Found> byPlace(List<String> text) {
    Placed placed = vocabulary.placed(text);
    List<Set<String>> wanted = places(placed);
    if (wanted.isEmpty()) {
      return Optional.empty();
    }
    List<String> fitting =
        positions.entrySet().stream()
            .filter(position -> alike(position.getValue(), wanted))
            .map(Map.Entry::getKey)
            .toList();
    return fitting.size() == 1
        ? Optional.of(new Found(fitting.get(0), placed.left()))
        : Optional.empty();
  }

  private static List<Set<String>> places(Placed placed) {
    return placed.places().stream().filter(names -> !names.contains(SET)).toList();
  }

  /** Whether each names what the other does, in whatever order. */
  private static boolean alike(List<Set<String>> one, List<Set<String>> other) {
    return one.size() == other.size() && covers(one, other) && covers(other, one);
  }

  private static boolean covers(List<Set<String>> one, List<Set<String>> other) {
    return one.stream()
        .allMatch(
            names ->
                other.stream()
                    .anyMatch(
                        others -> {
                          Set<String> both = new TreeSet<>(names);
                          both.retainAll(others);
                          return !both.isEmpty();
                        }));
  }
}
