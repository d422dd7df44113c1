package org.vaneward.ingest;

import static java.util.Objects.requireNonNull;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.Service;
import org.vaneward.fleet.ServicePeriod;

/** What each pump handles, from {@code services.csv}. */
final class ServiceTable {
  private static final Map<String, Cells.Range> CONDITIONS =
      Map.of(
          "pressure_bar", Cells.Range.NOT_NEGATIVE,
          "speed_rpm", Cells.Range.NOT_NEGATIVE,
          "temperature_c", Cells.Range.ANY,
          "viscosity_cst", Cells.Range.NOT_NEGATIVE,
          "starts_per_day", Cells.Range.NOT_NEGATIVE);

  private final PumpTable pumps;
  private final LocalDate asOf;
  private final UnitCheck units;
  private final Map<String, Map<LocalDate, ServicePeriod>> byPump = new HashMap<>();

  private ServiceTable(PumpTable pumps, LocalDate asOf, UnitCheck units) {
    this.pumps = pumps;
    this.asOf = asOf;
    this.units = units;
  }

  static ServiceTable read(RowReader rows, PumpTable pumps, LocalDate asOf, UnitCheck units) {
    ServiceTable table = new ServiceTable(pumps, asOf, units);
    Map<String, Spellings> spellings = rows.spellings(Table.SERVICES, "product", "duty");
    Spellings products = requireNonNull(spellings.get("product"));
    Spellings duties = requireNonNull(spellings.get("duty"));
    rows.forEach(Table.SERVICES, cells -> table.add(cells, products, duties));
    return table;
  }

  /** The services of one pump, in order of date. */
  List<ServicePeriod> of(String pump) {
    List<ServicePeriod> periods = new ArrayList<>(byPump.getOrDefault(pump, Map.of()).values());
    periods.sort(Comparator.comparing(ServicePeriod::from));
    return periods;
  }

  private void add(Cells cells, Spellings products, Spellings duties) {
    Optional<Pump> pump = pumps.named(cells);
    Optional<LocalDate> from = cells.requiredDate("from", asOf);
    String product = cells.requiredSpelling("product", products);
    String duty = cells.requiredSpelling("duty", duties);
    Map<String, Double> conditions = new HashMap<>();
    CONDITIONS.forEach(
        (column, range) ->
            cells.number(column, range).ifPresent(value -> conditions.put(column, value)));
    if (cells.refused()) {
      return;
    }
    Double pressure = conditions.get("pressure_bar");
    if (pressure != null) {
      units.add(cells, "pressure_bar", "pressure", pressure);
    }
    ServicePeriod period =
        new ServicePeriod(
            pump.orElseThrow().pump(),
            from.orElseThrow(),
            new Service(product, duty),
            conditions,
            cells.covariates(),
            cells.ref());
    ServicePeriod before =
        byPump
            .computeIfAbsent(period.pump(), tag -> new HashMap<>())
            .putIfAbsent(period.from(), period);
    if (before != null) {
      repeated(cells, before, period);
    }
  }

  private static void repeated(Cells cells, ServicePeriod before, ServicePeriod period) {
    String line = Where.beside(before.row(), cells.ref());
    if (before.service().equals(period.service())
        && before.conditions().equals(period.conditions())) {
      cells.readAs("", "same as " + line + "; counted once");
    } else {
      cells.refuse(
          "from", "contradicts " + line + ", another service of the same pump from the same day");
    }
  }
}
