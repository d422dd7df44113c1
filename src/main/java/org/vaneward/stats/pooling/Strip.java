package org.vaneward.stats.pooling;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/** Things by whole number, made when first asked for; for numbers that lie close together. */
final class Strip<T> {
  private final List<Optional<T>> items = new ArrayList<>();
  private int first;

  T computeIfAbsent(int index, Supplier<T> maker) {
    int at = index - first;
    if (at >= 0 && at < items.size()) {
      Optional<T> item = items.get(at);
      if (item.isPresent()) {
        return item.get();
      }
    }
    T made = maker.get();
    put(index, made);
    return made;
  }

  private void put(int index, T item) {
    if (items.isEmpty()) {
      first = index;
    }
    while (index < first) {
      items.add(0, Optional.empty());
      first--;
    }
    while (index - first >= items.size()) {
      items.add(Optional.empty());
    }
    items.set(index - first, Optional.of(item));
  }
}
