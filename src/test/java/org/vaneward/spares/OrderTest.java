package org.vaneward.spares;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What booked rebuilds need, and by when. */
class OrderTest {
  private static List<Order> orders(MadeFleet fleet, String name) {
    return Order.of(fleet.ahead(MadeFleet.usualLives(1), 6)).stream()
        .filter(o -> o.line().name().equals(name))
        .toList();
  }

  @Test
  void oneOrderForEachMonthAndItem() {
    MadeFleet fleet = new MadeFleet(1);
    fleet.booked = true;
    fleet.add("north", "diesel", 60, 0, 20, 9000);
    fleet.add("south", "petrol", 60, 0, 6, 9000);
    fleet.add("south", "petrol", 60, 0, 70, 9000);
    fleet.add("south", "petrol", 60, 0, 900, 9000);
    List<Order> kits = orders(fleet, "K-1");
    assertEquals(2, kits.size());
    // The kit takes 35 days: for the 6th of July it is late already.
    assertEquals(
        new Order(
            new Line(Line.Kind.KIT, "K-1"),
            2,
            YearMonth.of(2026, 7),
            2,
            LocalDate.of(2026, 7, 6),
            LocalDate.of(2026, 6, 1)),
        kits.get(0));
    assertEquals(LocalDate.of(2026, 8, 4), kits.get(1).orderBy());
    assertEquals(2, orders(fleet, "bearing").get(0).number());
    assertEquals(4, orders(fleet, "cover-gasket").get(0).number());
  }

  @Test
  void nothingIsOrderedForWhatIsNotBooked() {
    MadeFleet fleet = new MadeFleet(1);
    fleet.add("north", "diesel", 60, 0, 20, 9000);
    assertEquals(List.of(), Order.of(fleet.ahead(MadeFleet.usualLives(1), 6)));
  }
}
