package org.vaneward.report;

import java.util.List;

/** What stands on the first page of every report and work list. Common practice, no source. */
public final class Cautions {
  private static final List<String> OPENING_A_FUEL_PUMP =
      List.of(
          "Isolate and lock out the drive and every valve; prove that it cannot start.",
          "Relieve the pressure and drain pump and pipework before loosening a cover; trapped liquid"
              + " and vapour come out when it opens, liquefied gas with force.",
          "Vapour ignites: test the air, ventilate, keep sparks and hot work away, bond and earth"
              + " against static.",
          "Fuel harms skin, eyes and lungs: gloves, eye protection, breathing protection where the"
              + " permit says so; keep spills out of drains.",
          "These dates and intervals are statistics from past records, not a permit and not an"
              + " inspection. Local codes, the maker's manual and licensed practice come first, and"
              + " no date here may be later than one they set.");

  private Cautions() {}

  /** The cautions, one sentence or two each. */
  public static List<String> openingAFuelPump() {
    return OPENING_A_FUEL_PUMP;
  }
}
