package org.vaneward.plan;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import org.vaneward.fleet.Commitment;
import org.vaneward.plan.CalendarPlanner.Candidate;

/** What a calendar could not keep, and why, in words. */
final class Broken {
  private final Weeks weeks;
  private final int[] places;
  private final List<Candidate> candidates;

  /** Places less those the committed take, from the first week to each one. */
  private final long[] placesUntil;

  /** Pumps not committed that can be kept only by each week or an earlier one. */
  private final long[] neededUntil;

  Broken(Weeks weeks, int[] places, List<Candidate> candidates) {
    this.weeks = weeks;
    this.places = places;
    this.candidates = candidates;
    this.placesUntil = new long[places.length];
    this.neededUntil = new long[places.length];
    for (int w = 0; w < places.length; w++) {
      placesUntil[w] = Math.max(0, places[w] - committedIn(w));
    }
    for (Candidate candidate : candidates) {
      int last = weeks.lastBy(candidate.limit());
      if (candidate.committed().isEmpty() && endsWithin(candidate.limit()) && last >= 0) {
        neededUntil[last]++;
      }
    }
    Arrays.parallelPrefix(placesUntil, Long::sum);
    Arrays.parallelPrefix(neededUntil, Long::sum);
  }

  private boolean endsWithin(LocalDate limit) {
    return limit.isBefore(weeks.after());
  }

  private int committedIn(int week) {
    return (int)
        candidates.stream()
            .filter(c -> c.committed().isPresent())
            .filter(c -> c.job().committed().orElse(-1) == week)
            .count();
  }

  List<Calendar.NotKept> notKept(List<Calendar.Booking> bookings) {
    Map<String, LocalDate> days = new HashMap<>();
    bookings.forEach(b -> days.put(b.pump(), b.day()));
    List<Calendar.NotKept> all = new ArrayList<>();
    for (Candidate candidate : candidates) {
      Optional<LocalDate> day = Optional.ofNullable(days.get(candidate.plan().pump()));
      if (missed(candidate.limit(), day)) {
        all.add(late(candidate, Calendar.Kept.LIMIT, candidate.limit(), day));
      } else {
        candidate
            .plan()
            .nextRebuild()
            .to()
            .filter(to -> missed(to, day))
            .ifPresent(to -> all.add(late(candidate, Calendar.Kept.WINDOW, to, day)));
      }
    }
    all.sort(Comparator.comparing(Calendar.NotKept::by).thenComparing(Calendar.NotKept::pump));
    return all;
  }

  private boolean missed(LocalDate by, Optional<LocalDate> day) {
    return day.map(d -> d.isAfter(by)).orElseGet(() -> endsWithin(by));
  }

  private Calendar.NotKept late(
      Candidate candidate, Calendar.Kept what, LocalDate by, Optional<LocalDate> day) {
    return new Calendar.NotKept(
        candidate.plan().pump(),
        what,
        by,
        day,
        day.map(d -> OptionalLong.of(ChronoUnit.DAYS.between(by, d))).orElse(OptionalLong.empty()),
        what == Calendar.Kept.LIMIT
            ? why(candidate)
            : "opening it then costs less than taking another pump's place or one more visit");
  }

  private String why(Candidate candidate) {
    if (candidate.committed().isPresent()) {
      return "committed to that week";
    }
    LocalDate limit = candidate.limit();
    if (limit.isBefore(weeks.monday())) {
      return "the limit is past before the calendar starts on " + weeks.monday();
    }
    int last = weeks.lastBy(limit);
    if (last < 0) {
      return "the workshop is closed from " + weeks.monday() + " until the limit";
    }
    for (int w = last; w < places.length; w++) {
      if (neededUntil[w] > placesUntil[w]) {
        return (placesUntil[w] == 0
                ? "no place is free"
                : placesUntil[w] == 1 ? "only 1 place is free" : tooFew(placesUntil[w]))
            + " until "
            + Weeks.iso(weeks.mondayOf(w))
            + ", and "
            + (neededUntil[w] == 1 ? "1 pump has its limit" : neededUntil[w] + " pumps have limits")
            + " by then";
      }
    }
    throw new IllegalStateException("a limit was given up for nothing: " + candidate.plan().pump());
  }

  private static String tooFew(long places) {
    return "only " + places + " places are free";
  }

  /** What the committed rebuilds themselves break or do not need; nothing of it moves them. */
  List<String> remarks() {
    List<String> remarks = new ArrayList<>();
    for (int w = 0; w < places.length; w++) {
      int taken = committedIn(w);
      if (taken == 0) {
        continue;
      }
      String week = Weeks.iso(weeks.mondayOf(w));
      if (weeks.firstOpen().get(w).isEmpty()) {
        remarks.add(week + " is closed, and " + rebuilds(taken) + " committed to it.");
      } else if (taken > places[w]) {
        remarks.add(
            week + " has " + rebuilds(taken) + " committed and places for " + places[w] + ".");
      }
    }
    for (Candidate candidate : candidates) {
      candidate.committed().ifPresent(c -> remark(candidate, c, remarks));
    }
    return remarks;
  }

  private void remark(Candidate candidate, Commitment committed, List<String> remarks) {
    String pump = candidate.plan().pump();
    if (candidate.plan().nextRebuild().date().isEmpty()) {
      remarks.add(pump + " is committed though no rebuild of it is due: kept, at no extra cost.");
    }
    int week = weeks.indexOf(committed.monday());
    if (week < 0 || week >= weeks.count()) {
      remarks.add(
          pump
              + " is committed to "
              + Weeks.iso(committed.monday())
              + ", "
              + (week < 0 ? "before" : "after")
              + " the weeks of this calendar: kept, outside the workshop's places.");
    }
  }

  private static String rebuilds(int n) {
    return n == 1 ? "1 rebuild" : n + " rebuilds";
  }
}
