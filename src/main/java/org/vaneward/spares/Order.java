package org.vaneward.spares;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What the rebuilds booked for one month need of one kit or loose part, and by when to order it.
 *
 * @param line what
 * @param number how many
 * @param month the month of the rebuilds
 * @param rebuilds how many rebuilds need it
 * @param firstNeeded day of the first of them
 * @param orderBy that day less the lead time
 */
public record Order(
    Line line,
    int number,
    YearMonth month,
    int rebuilds,
    LocalDate firstNeeded,
    LocalDate orderBy) {

  private record Key(YearMonth month, int line) implements Comparable<Key> {
    @Override
    public int compareTo(Key other) {
      int months = month.compareTo(other.month);
      return months != 0 ? months : Integer.compare(line, other.line);
    }
  }

  /** Orders for the rebuilds booked within the months looked at, the earliest first. */
  public static List<Order> of(FleetAhead fleet) {
    LocalDate asOf = fleet.settings.asOf();
    Map<Key, Order> orders = new TreeMap<>();
    for (PumpAhead pump : fleet.pumps) {
      if (pump.visit >= 0 && pump.firstDay <= fleet.months.days()) {
        add(fleet, pump, asOf.plusDays((long) pump.firstDay), orders);
      }
    }
    List<Order> sorted = new ArrayList<>(orders.values());
    sorted.sort(Comparator.comparing(Order::orderBy).thenComparing(Order::month));
    return sorted;
  }

  private static void add(FleetAhead fleet, PumpAhead pump, LocalDate day, Map<Key, Order> orders) {
    Recipe recipe = fleet.books.get(pump.book).full;
    for (int i = 0; i < recipe.line.length; i++) {
      Line line = fleet.lines.get(recipe.line[i]);
      int number = recipe.number[i];
      fleet
          .leadTimeDays(line)
          .ifPresent(
              lead ->
                  orders.merge(
                      new Key(YearMonth.from(day), fleet.lines.indexOf(line)),
                      new Order(line, number, YearMonth.from(day), 1, day, day.minusDays(lead)),
                      Order::with));
    }
  }

  private Order with(Order other) {
    boolean earlier = other.firstNeeded.isBefore(firstNeeded);
    return new Order(
        line,
        number + other.number,
        month,
        rebuilds + other.rebuilds,
        earlier ? other.firstNeeded : firstNeeded,
        earlier ? other.orderBy : orderBy);
  }
}
