package org.vaneward.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The validation page, its coverage left out, is what its program writes, and every row of it
 * agrees.
 */
class ValidationTableTest {
  static Stream<ValidationRow> rows() {
    return ValidationTable.sections().stream().flatMap(section -> section.rows().stream());
  }

  @Test
  void pageIsUpToDate() throws IOException {
    String page = Files.readString(ValidationTable.PAGE);
    int coverage = page.indexOf(ValidationTable.COVERAGE_HEAD);
    assertTrue(coverage > 0, "the page ends with the coverage");
    for (String line : List.of("seal ", "bearing ", "vanes ", "20 or more failures ")) {
      assertTrue(page.indexOf("\n" + line, coverage) > 0, line);
    }
    List<String> written = page.substring(0, coverage - 1).lines().toList();
    List<String> now = ValidationTable.page().lines().toList();
    for (int i = 0; i < Math.min(written.size(), now.size()); i++) {
      assertEquals(now.get(i), written.get(i), "line " + (i + 1) + "; write the page again");
    }
    assertEquals(now.size(), written.size());
  }

  @Test
  void sectionsHaveRows() {
    assertEquals(29, ValidationTable.sections().size());
    ValidationTable.sections().forEach(s -> assertTrue(s.rows().size() >= 5, s.title()));
  }

  @ParameterizedTest
  @MethodSource("rows")
  void agrees(ValidationRow row) {
    assertTrue(row.agrees(), row::markdown);
  }

  @Test
  void aRowThatDisagreesSaysSo() {
    assertFalse(row(1, 1.1, 0.05).agrees());
    assertTrue(row(1, 1.04, 0.05).agrees());
    assertFalse(row(1, Double.NaN, 0.05).agrees());
    assertFalse(row(Double.POSITIVE_INFINITY, 3, 0.05).agrees());
    assertFalse(row(3, Double.POSITIVE_INFINITY, 0.05).agrees());
    assertEquals("<1e-1", row(1, 1.04, 0.05).bucket());
    assertEquals("<1e-9", row(1, 1, 0.05).bucket());
    assertEquals("<1e-6", row(1, 1 + 5e-7, 0.05).bucket());
  }

  private static ValidationRow row(double expected, double got, double slack) {
    return ValidationRow.of("case", "quantity", "source", expected, got, slack, "tolerance");
  }
}
