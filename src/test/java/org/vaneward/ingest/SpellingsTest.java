package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class SpellingsTest {
  private static Spellings of(String... raw) {
    Spellings spellings = new Spellings();
    List.of(raw).forEach(spellings::add);
    return spellings;
  }

  @Test
  void theMostFrequentStands() {
    Spellings spellings = of("Jet A1", "jet a1", " jet  a1", "JET A1");
    assertEquals("jet a1", spellings.usual("Jet A1"));
    assertEquals("jet a1", spellings.usual("\tJET   A1 "));
  }

  @Test
  void theFirstMetStandsWhenSeveralAreAsFrequent() {
    assertEquals("Diesel", of("Diesel", "diesel").usual("DIESEL"));
    assertEquals("diesel", of("diesel", "Diesel").usual("DIESEL"));
  }

  @Test
  void blanksAndOtherNamesDoNotMatter() {
    Spellings spellings = of("", "  ", "petrol", "Diesel", "diesel", "diesel");
    assertEquals("petrol", spellings.usual("petrol"));
    assertEquals("kerosene", spellings.usual(" kerosene"));
  }
}
