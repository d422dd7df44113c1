package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WordsTest {
  @ParameterizedTest
  @CsvSource({
    "0, 0%",
    "0.0001, <0.1%",
    "0.034, 3.4%",
    "0.34, 34%",
    "0.9949, 99%",
    "0.9962, 99.6%",
    "0.9999, >99.9%",
    "1, 100%",
    "NaN, –"
  })
  void sharesInPercent(double share, String words) {
    assertEquals(words, Words.percent(share));
  }

  @ParameterizedTest
  @CsvSource({"0.2345, 0.235", "0.0004, <0.001", "0, <0.001", "1, 1.000", "NaN, –"})
  void valuesOfP(double p, String words) {
    assertEquals(words, Words.p(p));
  }
}
