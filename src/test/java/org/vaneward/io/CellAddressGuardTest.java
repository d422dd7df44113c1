package org.vaneward.io;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CellAddressGuardTest {
  @ParameterizedTest
  @ValueSource(
      strings = {
        "<c r=\"ZZZZ1\">",
        "<x:c s='1' r = 'ABCDEF'/>",
        "<row r=\"1\"><c\n  r=\"\u00e91\"><v>1</v>",
        "<v><c r=\"&#65;1\">",
        "<c r=\"A12345678901\">"
      })
  void aColumnOfMoreThanThreeLettersIsFound(String part) {
    assertEquals(1, found(part));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "<c r=\"XFD1048576\" s=\"1\"><v>ABCDE1</v></c>",
        "<c r='$A$1'><f>ABCDEF1</f></c>",
        "<c><v>r=\"ABCDE1\"</v></c>",
        "<t>x:c r=\"ABCDE1\"</t>",
        "<c t=\"ABCDE1\" rr=\"ABCDE1\"/>",
        "<col r=\"ABCDE1\"/><rect r=\"connsiteX0\"/>",
        "no XML at all: r=\"ABCDE1\""
      })
  void whatIsNoAddressOfACellIsPassedOver(String part) {
    assertEquals(0, found(part));
  }

  private static long found(String part) {
    CellAddressGuard guard = new CellAddressGuard();
    return part.chars().filter(c -> guard.finds((char) c)).count();
  }
}
