package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.ClosedPeriod;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.FleetSettings.LoosePart;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.fleet.FleetSettings.Stock;
import org.vaneward.fleet.Trigger;

class SettingsReaderTest {
  private static final String BARE =
      """
      {"as_of": "2026-06-30", "components": [
        {"component": "seal", "positions": ["s1"], "announces": true},
        {"component": "bearing", "positions": ["b1"], "announces": true},
        {"component": "vanes", "positions": ["v1"], "announces": false},
        {"component": "gasket", "positions": ["g1"], "announces": false},
        {"component": "coupling", "positions": ["c1"], "announces": true, "triggers": ["noise", "low-flow"]}
      ]}
      """;

  @TempDir Path folder;

  @Test
  void everythingStatedIsTakenOver() {
    FleetSettings s = new FleetFolder(folder).read().fleet().settings();
    assertEquals("Quay", s.fleet());
    assertEquals("EUR", s.currency());
    assertEquals(LocalDate.of(2026, 6, 30), s.asOf());
    assertEquals(Clock.HOURS, s.clock());
    assertEquals(List.of("seal-inboard", "seal-outboard"), s.components().get(0).positions());
    assertEquals(OptionalDouble.of(1.5), s.components().get(2).wearLimitMm());
    assertEquals(
        List.of(new Kit("K1", List.of("VP-80"), Map.of("seal", 1, "vane", 6), 310.5, 21)),
        s.kits());
    assertEquals(List.of(new LoosePart("seal", 95, 7)), s.parts());
    assertEquals(Map.of("seal", 2, "vane", 6), s.needs());
    assertEquals(new OpeningCost(400, 150, 0), s.costs().planned());
    assertEquals(Map.of("seal", 0.1), s.limits().maxFailureProbability());
    assertEquals(OptionalInt.of(60), s.limits().maxIntervalMonths());
    assertEquals(OptionalInt.of(2), s.workshop().rebuildsPerWeek());
    assertEquals(80, s.workshop().siteVisitCost());
    assertEquals(
        List.of(new ClosedPeriod(LocalDate.of(2026, 12, 24), LocalDate.of(2027, 1, 2))),
        s.workshop().closed());
    assertEquals(new Stock(0.9, 14, OptionalDouble.of(0.25), OptionalDouble.of(70)), s.stock());
  }

  @Test
  void aCostThatIsNotStatedIsAbsentNotFree() {
    FleetSettings.Costs costs = new FleetFolder(folder).read().fleet().settings().costs();
    assertEquals(Map.of("seal", new OpeningCost(600, 900, 250)), costs.unplanned());
    assertEquals(Map.of("vanes", 1.25), costs.hiddenPerHour());
    FleetSettings bare =
        new FleetFolder(folder)
            .with("fleet.json", BARE)
            .with("findings.csv", "rebuild,position,as_found,action\n")
            .read()
            .fleet()
            .settings();
    assertTrue(bare.costs().unplanned().isEmpty());
    assertTrue(bare.costs().hiddenPerHour().isEmpty());
  }

  @Test
  void defaultsAreTheDocumentedOnes() {
    FleetSettings s = new FleetFolder(folder).with("fleet.json", BARE).read().fleet().settings();
    assertEquals(String.valueOf(folder.getFileName()), s.fleet());
    assertEquals("", s.currency());
    assertEquals(Clock.HOURS, s.clock());
    assertEquals(Set.of(Trigger.LEAK), s.components().get(0).triggers());
    assertEquals(Set.of(Trigger.NOISE, Trigger.SEIZED), s.components().get(1).triggers());
    assertEquals(Set.of(Trigger.LOW_FLOW), s.components().get(2).triggers());
    assertEquals(Set.of(), s.components().get(3).triggers());
    assertEquals(Set.of(Trigger.NOISE, Trigger.LOW_FLOW), s.components().get(4).triggers());
    assertTrue(s.kits().isEmpty() && s.parts().isEmpty() && s.needs().isEmpty());
    assertFalse(s.limits().maxIntervalMonths().isPresent());
    assertFalse(s.workshop().rebuildsPerWeek().isPresent());
    assertEquals(0, s.workshop().siteVisitCost());
    assertEquals(new Stock(0.95, 30, OptionalDouble.empty(), OptionalDouble.empty()), s.stock());
  }

  @Test
  void ageInDays() {
    FleetFolder fleet = new FleetFolder(folder).change("fleet.json", "\"hours\"", "\"days\"");
    assertEquals(Clock.DAYS, fleet.read().fleet().settings().clock());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "\"clock\": \"hours\"|\"clock\": \"weeks\"|clock: 'weeks' is not one of hours, days",
        "\"as_of\": \"2026-06-30\",||as_of: missing; this key is required",
        "2026-06-30|30.06.2026|as_of: '30.06.2026' is not a date such as 2024-03-31",
        "2026-06-30|0026-06-30|as_of: 0026-06-30 is no day records speak of; check the year",
        "\"fleet\": \"Quay\"|\"flet\": \"Quay\"|flet: unknown key",
        "\"EUR\"|\"Euro\"|currency: 'Euro' is not an ISO 4217 code such as EUR",
        "\"seal-outboard\"|\"seal-inboard\"|components[0].positions: 'seal-inboard' stands twice;"
            + " names are unique",
        "[\"vane-set\"]|[\"seal-inboard\"]|components[2].positions: 'seal-inboard' stands twice",
        "[\"vane-set\"]|[]|components[2].positions: empty; a component sits somewhere",
        "[\"vane-set\"]|[null]|components[2].positions: holds null; leave the entry out",
        "[\"vane-set\"]|[\" \"]|components[2].positions: blank; it needs a name",
        "[\"vane-set\"]|[\" v\"]|components[2].positions: ' v' has white space around it",
        "\"component\": \"vanes\"|\"component\": \"seal\"|components[2].component: 'seal' stands"
            + " twice",
        "1.5}|0}|components[2].wear_limit_mm: 0.0 is not a wear; it must be above 0",
        "1.5}|1.5, \"triggers\": [\"planned\"]}|components[2].triggers: a planned opening points at"
            + " no component",
        "1.5}|1.5, \"triggers\": [\"smell\"]}|components[2].triggers[0]: 'smell' is not one of"
            + " planned, leak",
        "310.5|-1|kits[0].price: -1.0 is no amount; it is at least 0",
        "310.5|1e999|kits[0].price: Infinity is no amount",
        "\"price\": 310.5,||kits[0].price: missing; this key is required",
        "\"lead_time_days\": 21|\"lead_time_days\": -1|kits[0].lead_time_days: -1 days; it is at"
            + " least 0",
        "\"seal\": 1, \"vane\": 6}|\"seall\": 1}|kits[0].contents: 'seall' is no part of needs or"
            + " parts; nearest is 'seal'; known are seal, vane",
        "\"vane\": 6}|\"vane\": 0}|vane: 0 is no number of parts; at least 1",
        "\"vane\": 6}|\"vane\": 6.5}|vane",
        "\"price\": 95|\"price\": \"95\"|parts[0].price",
        "\"planned\": {\"labour\": 400, \"downtime\": 150},||costs: unplanned is stated but planned"
            + " is not",
        "\"labour\": 600, ||costs.unplanned.seal: labour and downtime must both be stated; 0 where"
            + " there is no cost",
        "\"downtime\": 900|\"downtime\": -900|costs.unplanned.seal.downtime: -900.0 is no amount",
        "\"bearing\": {}|\"berring\": {}|costs.unplanned: 'berring' is no component; nearest is"
            + " 'bearing'",
        "\"bearing\": {}|\"bearing\": null|costs.unplanned: holds null",
        "1.25|-1.25|costs.hidden.vanes.per_hour: -1.25 is no amount",
        "{\"seal\": 0.1}|{\"seal\": 1}|limits.max_failure_probability.seal: 1.0 is no ceiling",
        "{\"seal\": 0.1}|{\"seal\": 0}|limits.max_failure_probability.seal: 0.0 is no ceiling",
        "{\"seal\": 0.1}|{\"rotor\": 0.1}|limits.max_failure_probability: 'rotor' is no component;"
            + " known are bearing, seal, vanes",
        "\"max_interval_months\": 60|\"max_interval_months\": 0|limits.max_interval_months: 0 is too"
            + " few; at least 1, or leave it out",
        "\"rebuilds_per_week\": 2|\"rebuilds_per_week\": 0|workshop.rebuilds_per_week: 0 is too few",
        "\"site_visit_cost\": 80|\"site_visit_cost\": -8|workshop.site_visit_cost: -8.0 is no"
            + " amount",
        "2027-01-02|2026-12-23|workshop.closed[0]: from 2026-12-24 lies after to 2026-12-23",
        "\"service_level\": 0.9|\"service_level\": 95|stock.service_level: 95.0 is no chance that"
            + " the shelf lasts; it must be above 0 and below 1",
        "\"review_days\": 14|\"review_days\": -1|stock.review_days: -1 days; it is at least 0",
        "0.25|0|stock.holding_per_year: 0 is no cost; leave it out when it is not known",
        "\"waiting_per_day\": 70|\"waiting_per_day\": -70|stock.waiting_per_day: -70.0 is no amount",
        "\"mapping\": {}|\"mapping\": {\"pumps\": {}}|mapping.pumps: unknown key; the keys here are dates",
        "\"mapping\": {}|\"mapping\": {},|fleet.json, line",
      })
  void whatIsWrongIsSaidInOneLine(String from, String to, String expected) {
    FleetFolder fleet = new FleetFolder(folder).change("fleet.json", from, to == null ? "" : to);
    String message = fleet.refusal();
    assertTrue(message.contains(expected), message);
    assertTrue(message.contains("fleet.json"), message);
  }

  @Test
  void anUnknownKeyIsRefusedWithItsPlace() {
    String message =
        new FleetFolder(folder).change("fleet.json", "\"hidden\"", "\"hiden\"").refusal();
    assertTrue(message.startsWith("FOLDER/fleet.json, line "), message);
    assertTrue(message.contains("costs.hiden: unknown key"), message);
  }

  @Test
  void noComponents() {
    FleetFolder fleet =
        new FleetFolder(folder)
            .with("fleet.json", "{\"as_of\": \"2026-06-30\", \"components\": []}");
    assertEquals(
        "fleet.json: components: empty; name at least one component with its positions",
        fleet.refusal());
  }
}
