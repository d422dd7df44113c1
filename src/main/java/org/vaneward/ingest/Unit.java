package org.vaneward.ingest;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * Units a column may be written in, each an exact multiple of the unit the record format uses for
 * its quantity, degrees Fahrenheit and kelvins besides an offset.
 *
 * <p>Source: BIPM, The International System of Units (9th edition, 2019), tables 7 and 8, for
 * minute, hour, day, bar and degree Celsius; NIST Special Publication 811 (2008), appendix B.8, for
 * inch (25.4 mm exactly), mil (its thousandth), degree Fahrenheit and pound-force per square inch,
 * which is taken from its definition: 4.448 221 615 260 5 N over the square of 0.0254 m.
 */
@SuppressWarnings("ImmutableEnumChecker") // the list is an unmodifiable copy
public enum Unit {
  HOURS(Quantity.TIME, "1", "1", "h", "hr", "hrs", "hour"),
  DAYS(Quantity.TIME, "24", "1", "day"),
  MINUTES(Quantity.TIME, "1", "60", "min", "minute"),
  SECONDS(Quantity.TIME, "1", "3600", "sec", "second"),
  MM(Quantity.LENGTH, "1", "1", "millimetre", "millimeter"),
  MICROMETRES(Quantity.LENGTH, "1", "1000", "µm", "μm", "um", "micron", "microns"),
  CM(Quantity.LENGTH, "10", "1", "centimetre"),
  INCHES(Quantity.LENGTH, "25.4", "1", "in", "inch", "\"", "″"),
  THOUSANDTHS(Quantity.LENGTH, "0.0254", "1", "thou", "mil", "mils", "thousandth"),
  BAR(Quantity.PRESSURE, "1", "1"),
  KPA(Quantity.PRESSURE, "1", "100"),
  MPA(Quantity.PRESSURE, "10", "1"),
  PSI(Quantity.PRESSURE, "4.4482216152605", "64.516", "psid", "lb/in2"),
  CELSIUS(Quantity.TEMPERATURE, "1", "1", "°c", "c"),
  FAHRENHEIT(Quantity.TEMPERATURE, "1", "1.8", "°f", "f"),
  KELVIN(Quantity.TEMPERATURE, "1", "1");

  /** Digits kept: more than any gauge has, fewer than a double, so that 12 thou is 0.3048 mm. */
  private static final MathContext DIGITS = new MathContext(12, RoundingMode.HALF_EVEN);

  private static final BigDecimal ICE_POINT_FAHRENHEIT = new BigDecimal("32");
  private static final BigDecimal ICE_POINT_KELVIN = new BigDecimal("273.15");

  private final Quantity quantity;
  private final BigDecimal times;
  private final BigDecimal over;
  private final double size;

  /** What cells call it besides; no single letter that a slip of the finger may be. */
  private final List<String> symbols;

  Unit(Quantity quantity, String times, String over, String... symbols) {
    this.quantity = quantity;
    this.times = new BigDecimal(times);
    this.over = new BigDecimal(over);
    this.size = this.times.doubleValue() / this.over.doubleValue();
    this.symbols = List.of(symbols);
  }

  /** What is measured; each in its own unit of the record format. */
  public enum Quantity {
    TIME,
    LENGTH,
    PRESSURE,
    TEMPERATURE;

    /** The unit of the record format. */
    public Unit usual() {
      return switch (this) {
        case TIME -> HOURS;
        case LENGTH -> MM;
        case PRESSURE -> BAR;
        case TEMPERATURE -> CELSIUS;
      };
    }

    /** The units it may be written in, for messages. */
    String listed() {
      return Arrays.stream(Unit.values())
          .filter(unit -> unit.quantity == this)
          .map(Unit::word)
          .collect(Collectors.joining(", "));
    }
  }

  public Quantity quantity() {
    return quantity;
  }

  /** Its name in {@code fleet.json}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The unit of that name. */
  public static Optional<Unit> named(String word) {
    return Arrays.stream(values()).filter(unit -> unit.word().equals(word)).findFirst();
  }

  /** The unit of {@code quantity} that a cell calls {@code symbol}. */
  public static Optional<Unit> ofSymbol(Quantity quantity, String symbol) {
    String small = symbol.strip().toLowerCase(Locale.ROOT);
    return Arrays.stream(values())
        .filter(unit -> unit.quantity == quantity)
        .filter(unit -> unit.word().equals(small) || unit.symbols.contains(small))
        .findFirst();
  }

  /** Whether nothing of it is nothing: a temperature of 0 degrees is not. */
  public boolean isRatio() {
    return quantity != Quantity.TEMPERATURE;
  }

  /** Its size in the unit of the record format. */
  public double size() {
    return size;
  }

  /** {@code value} in the unit of the record format, to 12 digits. */
  public double toUsual(BigDecimal value) {
    if (this == quantity.usual()) {
      return value.doubleValue();
    }
    BigDecimal shifted =
        switch (this) {
          case FAHRENHEIT -> value.subtract(ICE_POINT_FAHRENHEIT);
          case KELVIN -> value.subtract(ICE_POINT_KELVIN);
          default -> value;
        };
    return shifted.multiply(times).divide(over, DIGITS).doubleValue();
  }
}
