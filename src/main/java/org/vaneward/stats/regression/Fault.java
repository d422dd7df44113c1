package org.vaneward.stats.regression;

import java.util.List;

/**
 * What keeps a regression from being estimable.
 *
 * @param reason in one short phrase
 * @param terms at fault
 */
record Fault(String reason, List<String> terms) {
  static String listed(List<String> names) {
    int last = names.size() - 1;
    return last < 1
        ? String.join("", names)
        : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
  }
}
