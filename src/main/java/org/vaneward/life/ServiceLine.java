package org.vaneward.life;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.fleet.ServicePeriod;
import org.vaneward.life.Life.LifeSpan;
import org.vaneward.life.RunningHours.Hours;

/**
 * What one pump did over time, and the spans of service of the lives it held.
 *
 * <p>A row that repeats the service and conditions before it changes nothing. Before the first row
 * the service is unknown.
 */
final class ServiceLine {
  private final List<Stretch> stretches = new ArrayList<>();
  private final PumpClock clock;

  ServiceLine(List<ServicePeriod> periods, PumpClock clock) {
    this.clock = clock;
    stretches.add(new Stretch(LocalDate.MIN, Optional.empty(), Map.of()));
    for (ServicePeriod period : periods) {
      Stretch last = stretches.get(stretches.size() - 1);
      Stretch next = new Stretch(period.from(), Optional.of(period.service()), period.conditions());
      if (!next.isLike(last)) {
        stretches.add(next);
      }
    }
  }

  Optional<Service> serviceOn(LocalDate date) {
    return stretches.get(indexOn(date)).service();
  }

  Map<String, Double> conditionsOn(LocalDate date) {
    return stretches.get(indexOn(date)).conditions();
  }

  /**
   * The spans of a life: contiguous from the first age to the last, none of them empty.
   *
   * @param fromDay day observation starts; a change on that day counts from the start
   * @param toDay day it ends; a change on that day comes too late
   * @param zero the pump's count when the part's age was 0
   * @param fromAge age at the start
   * @param toAge age at the end
   */
  List<LifeSpan> spans(
      LocalDate fromDay, LocalDate toDay, double zero, double fromAge, double toAge) {
    List<LifeSpan> spans = new ArrayList<>(2);
    int i = indexOn(fromDay);
    double from = fromAge;
    while (i + 1 < stretches.size() && stretches.get(i + 1).from().isBefore(toDay)) {
      double change = clamp(ageAt(stretches.get(i + 1).from(), zero, from), from, toAge);
      if (change > from) {
        spans.add(stretches.get(i).span(from, change));
      }
      from = change;
      i++;
    }
    if (toAge > from) {
      spans.add(stretches.get(i).span(from, toAge));
    }
    return spans;
  }

  /**
   * The spans of a life that failed somewhere in an interval, when the interval crosses a change:
   * the failure goes to the stretch in which the longest part of the interval was run (the later of
   * two alike), entered at the start of the interval.
   *
   * <p>This is an approximation. Given that the part was good at the start of the interval, the
   * chance of failing in it is taken from one service alone, as though all of it had been run
   * there; what the part lived through before the interval stays where it was, right-censored.
   *
   * @param spans the spans of the whole life
   * @param lower age at the start of the interval
   */
  static List<LifeSpan> gather(List<LifeSpan> spans, double lower) {
    List<LifeSpan> gathered = new ArrayList<>(spans.size());
    LifeSpan longest = spans.get(spans.size() - 1);
    for (LifeSpan span : spans) {
      if (span.fromAge() < lower) {
        gathered.add(upTo(span, Math.min(span.toAge(), lower)));
      }
      if (partAfter(span, lower) > partAfter(longest, lower)) {
        longest = span;
      }
    }
    double from = lower;
    if (!gathered.isEmpty() && isLike(gathered.get(gathered.size() - 1), longest)) {
      from = gathered.remove(gathered.size() - 1).fromAge();
    }
    double end = spans.get(spans.size() - 1).toAge();
    gathered.add(new LifeSpan(longest.service(), longest.conditions(), from, end));
    return gathered;
  }

  private static double partAfter(LifeSpan span, double lower) {
    return span.toAge() - Math.max(span.fromAge(), lower);
  }

  private static LifeSpan upTo(LifeSpan span, double age) {
    return new LifeSpan(span.service(), span.conditions(), span.fromAge(), age);
  }

  private static boolean isLike(LifeSpan one, LifeSpan other) {
    return one.service().equals(other.service()) && one.conditions().equals(other.conditions());
  }

  private double ageAt(LocalDate day, double zero, double otherwise) {
    return clock.at(day).map(Hours::hours).map(h -> h - zero).orElse(otherwise);
  }

  private static double clamp(double x, double low, double high) {
    return Math.min(Math.max(x, low), high);
  }

  /** Last stretch that starts on a day or before it. */
  private int indexOn(LocalDate date) {
    int low = 0;
    int high = stretches.size();
    while (high - low > 1) {
      int middle = (low + high) >>> 1;
      if (stretches.get(middle).from().isAfter(date)) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return low;
  }

  private record Stretch(
      LocalDate from, Optional<Service> service, Map<String, Double> conditions) {
    boolean isLike(Stretch other) {
      return service.equals(other.service) && conditions.equals(other.conditions);
    }

    LifeSpan span(double fromAge, double toAge) {
      return new LifeSpan(service, conditions, fromAge, toAge);
    }
  }
}
