package org.vaneward.adopt;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/** What a person has to decide, by the place in the mapping it is about. */
final class Doubts {
  private final Map<String, String> byPlace = new LinkedHashMap<>();

  /** Adds a doubt to those about {@code place}. */
  void add(String place, String doubt) {
    byPlace.merge(place, doubt, (one, other) -> one.contains(other) ? one : one + "; " + other);
  }

  /** Takes over all of {@code others}. */
  void addAll(Doubts others) {
    others.byPlace.forEach(this::add);
  }

  /** Forgets those about {@code place}. */
  void forget(String place) {
    byPlace.remove(place);
  }

  /** All, in the order they came up. */
  Map<String, String> all() {
    return Collections.unmodifiableMap(byPlace);
  }
}
