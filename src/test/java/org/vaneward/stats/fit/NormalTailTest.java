package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NormalTailTest {
  /** Against values worked out with 60 digits by an arbitrary-precision program. */
  @ParameterizedTest
  @CsvSource({
    "-12, -1.776482112077679e-33, 2.1463837356630603e-32, 12, 1",
    "-3, -0.0013508099647481938, 0.0044378390421256638, 3.0044378390421257, 0.98666678845825919",
    "0.5, -1.1759117615936186, 1.1410777703680645, 0.64107777036806448, 0.26848040715587895",
    "3, -6.6077262215103495, 3.2830986549304365, 0.28309865493043651, 0.070559186785268117",
    "5.999, -20.730610955375184, 6.1575065956586401, 0.1585065956586401, 0.023994591776526422",
    "6.001, -20.742927920586591, 6.1594586203840954, 0.15845862038409536, 0.023980684701012881",
    "20, -203.91715537109726, 20.049753068527851, 0.049753068527850542, 0.0024632616150521636",
    "10000, -50000010.129278915, 10000.000099999998, 9.99999980000001e-5, 9.99999940000005e-9"
  })
  void tail(double z, double log, double hazard, double excess, double variance) {
    NormalTail tail = new NormalTail();
    tail.at(z);
    // exp(-z²/2) in the lower tail carries z²/2 roundings
    assertEquals(log, tail.log, 3e-14 * Math.abs(log));
    assertEquals(hazard, tail.hazard, 3e-14 * hazard);
    assertEquals(excess, tail.excess, 2e-13 * excess);
    assertEquals(variance, tail.variance, 1e-12 * variance);
    assertEquals(-Math.log(hazard), tail.logMills, 3e-14 * (1 + Math.abs(Math.log(hazard))));
  }
}
