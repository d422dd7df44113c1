package org.vaneward.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvWriterTest {
  @Test
  void quotesByRfc4180() {
    String text =
        CsvWriter.forMachines("a", "b")
            .cell("x,y")
            .cell("say \"no\"")
            .endRow()
            .cell("two\nlines")
            .cell(" padded")
            .endRow()
            .text();
    assertEquals("a,b\n\"x,y\",\"say \"\"no\"\"\"\n\"two\nlines\",\" padded\"\n", text);
  }

  @Test
  void writesNumbersWithAPointInAnyLocale() {
    Locale before = Locale.getDefault();
    Locale.setDefault(Locale.GERMANY);
    try {
      String text =
          CsvWriter.forMachines("a", "b", "c", "d", "e", "f", "g")
              .cell(1234567.25)
              .cell(3.0)
              .rounded(0.125, 2)
              .cell(-7L)
              .cell(LocalDate.of(2024, 3, 31))
              .cell(2.0E-3)
              .cell(1.0E-9)
              .endRow()
              .text();
      assertEquals("a,b,c,d,e,f,g\n1234567.25,3,0.12,-7,2024-03-31,0.002,1.0E-9\n", text);
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void writesNothingForTheUnknown() {
    CsvWriter table = CsvWriter.forMachines("a", "b", "c", "d", "e");
    table
        .cell(Optional.empty())
        .cell(OptionalDouble.empty())
        .cell(OptionalInt.empty())
        .date(Optional.empty())
        .empty()
        .endRow();
    assertEquals("a,b,c,d,e\n,,,,\n", table.text());
  }

  @Test
  void aLoneEmptyCellIsNotABlankLine() {
    assertEquals("a\n\"\"\n", CsvWriter.forMachines("a").empty().endRow().text());
  }

  @ParameterizedTest
  @ValueSource(strings = {"=1+1", "+1", "-1", "@x", "\tx"})
  void disarmsFormulasForSpreadsheetsOnly(String value) {
    String people = CsvWriter.forSpreadsheets("a", "b").cell(value).cell(-1.5).endRow().text();
    String programs = CsvWriter.forMachines("a", "b").cell(value).cell(-1.5).endRow().text();
    assertEquals("a,b\n'" + value + ",-1.5\n", people);
    assertEquals(value.strip().equals(value), programs.equals("a,b\n" + value + ",-1.5\n"));
  }

  @Test
  void refusesRowsThatDoNotFit() {
    assertThrows(
        IllegalStateException.class, () -> CsvWriter.forMachines("a", "b").cell("1").endRow());
    assertThrows(IllegalStateException.class, () -> CsvWriter.forMachines("a").cell(1).cell(2));
    assertThrows(IllegalStateException.class, () -> CsvWriter.forMachines("a").cell(1).text());
    assertThrows(IllegalArgumentException.class, () -> CsvWriter.forMachines());
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void refusesNumbersThatAreNotFinite(double value) {
    assertThrows(IllegalArgumentException.class, () -> CsvWriter.forMachines("a").cell(value));
    assertThrows(
        IllegalArgumentException.class, () -> CsvWriter.forMachines("a").rounded(value, 2));
  }
}
