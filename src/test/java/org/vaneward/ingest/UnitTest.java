package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Units against the table of NIST Special Publication 811 (2008), appendix B.8, whose factors have
 * seven digits where they are not exact, and the SI Brochure (2019), tables 7 and 8.
 */
class UnitTest {
  @ParameterizedTest
  @CsvSource({
    "MINUTES, 90, 1.5, 0", // SI Brochure, table 8: 1 min = 60 s
    "DAYS, 1.5, 36, 0", // SI Brochure, table 8: 1 d = 24 h
    "SECONDS, 5400, 1.5, 0",
    "INCHES, 1, 25.4, 0", // SP 811: 2.54 E-02 m, exact
    "THOUSANDTHS, 12, 0.3048, 0", // SP 811: mil (0.001 in), 2.54 E-05 m, exact
    "MICROMETRES, 254, 0.254, 0",
    "CM, 2.5, 25, 0",
    "PSI, 1, 0.06894757, 5e-9", // SP 811: 6.894757 E+03 Pa
    "KPA, 350, 3.5, 0", // SI Brochure, table 8: 1 bar = 100 kPa
    "MPA, 0.4, 4, 0",
    "FAHRENHEIT, 212, 100, 0", // SP 811: t = (t_F - 32)/1.8
    "FAHRENHEIT, -40, -40, 0",
    "KELVIN, 288.15, 15, 0", // SI Brochure, 2.3.1: t/°C = T/K - 273.15
    "HOURS, 0.1, 0.1, 0",
    "BAR, 3.3, 3.3, 0",
  })
  void againstPublishedFactors(Unit unit, String value, double expected, double within) {
    assertEquals(expected, unit.toUsual(new BigDecimal(value)), within);
  }

  @Test
  void theTangOfALockWasherIsAThousandthOfAnInch() {
    // common practice, no source: one tang from each end
    assertEquals(0.0508, Unit.THOUSANDTHS.toUsual(new BigDecimal("2")));
  }

  @ParameterizedTest
  @EnumSource(Unit.class)
  void everyUnitIsFoundByItsName(Unit unit) {
    assertEquals(Optional.of(unit), Unit.named(unit.word()));
    assertTrue(unit.quantity().listed().contains(unit.word()));
  }

  @ParameterizedTest
  @CsvSource({
    "LENGTH, Thou, THOUSANDTHS",
    "LENGTH, in, INCHES",
    "TIME, h, HOURS",
    "PRESSURE, kPa, KPA",
    "LENGTH, µm, MICROMETRES"
  })
  void cellsUseSymbols(Unit.Quantity quantity, String symbol, Unit unit) {
    assertEquals(Optional.of(unit), Unit.ofSymbol(quantity, symbol));
    assertEquals(Optional.empty(), Unit.ofSymbol(quantity, "furlong"));
  }
}
