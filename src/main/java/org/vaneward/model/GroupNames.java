package org.vaneward.model;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Names of groups: the columns that make them, with their values. */
final class GroupNames {
  private GroupNames() {}

  static Map<String, String> of(List<String> by, List<String> values) {
    Map<String, String> group = new LinkedHashMap<>();
    for (int i = 0; i < by.size(); i++) {
      group.put(by.get(i), values.get(i));
    }
    return Collections.unmodifiableMap(group);
  }
}
