package org.vaneward.stats.recurrence;

import java.util.Arrays;

/**
 * The distinct event ages of some histories in rising order, and what happens at each: which events
 * come, which units are first and last at risk. All by counting sorts, so linear but for one sort.
 */
final class EventAges {
  final double[] distinct;

  /** Units of the events, in the order of their ages; those of age k begin at eventFrom[k]. */
  final int[] eventUnit;

  final int[] eventFrom;

  /** Units first at risk at age k, from enterFrom[k] on; never at risk: after the last. */
  final int[] enterUnit;

  final int[] enterFrom;

  /** Units no longer at risk at age k, from leaveFrom[k] on. */
  final int[] leaveUnit;

  final int[] leaveFrom;

  EventAges(EventHistories histories) {
    distinct = distinct(histories.allAges());
    int units = histories.size();
    int events = histories.events();
    int[] unitOfEvent = new int[events];
    int[] rankOfEvent = new int[events];
    int[] enters = new int[units];
    int[] leaves = new int[units];
    for (int i = 0; i < units; i++) {
      enters[i] = firstAbove(histories.start(i));
      leaves[i] = firstAbove(histories.end(i));
      int from = histories.firstIndex(i);
      for (int j = 0; j < histories.events(i); j++) {
        unitOfEvent[from + j] = i;
        rankOfEvent[from + j] = firstAbove(histories.age(i, j)) - 1;
      }
    }
    int slots = distinct.length + 1;
    eventFrom = starts(rankOfEvent, slots);
    eventUnit = placed(rankOfEvent, unitOfEvent, eventFrom);
    int[] all = new int[units];
    Arrays.setAll(all, i -> i);
    enterFrom = starts(enters, slots);
    enterUnit = placed(enters, all, enterFrom);
    leaveFrom = starts(leaves, slots);
    leaveUnit = placed(leaves, all, leaveFrom);
  }

  private static double[] distinct(double[] ages) {
    double[] sorted = ages.clone();
    Arrays.sort(sorted);
    int n = 0;
    for (double t : sorted) {
      if (n == 0 || t > sorted[n - 1]) {
        sorted[n++] = t;
      }
    }
    return Arrays.copyOf(sorted, n);
  }

  /** Index of the first distinct age above {@code t}; their number when there is none. */
  int firstAbove(double t) {
    int at = Arrays.binarySearch(distinct, t);
    return at >= 0 ? at + 1 : -at - 1;
  }

  private static int[] starts(int[] slot, int slots) {
    int[] from = new int[slots + 1];
    for (int s : slot) {
      from[s + 1]++;
    }
    for (int s = 0; s < slots; s++) {
      from[s + 1] += from[s];
    }
    return from;
  }

  private static int[] placed(int[] slot, int[] what, int[] from) {
    int[] next = from.clone();
    int[] placed = new int[slot.length];
    for (int i = 0; i < slot.length; i++) {
      placed[next[slot[i]]++] = what[i];
    }
    return placed;
  }
}
