package org.vaneward.docs;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every row of these sections agrees. */
class ComparisonChecksTest {
  static Stream<ValidationSection> sections() {
    return Stream.of(
        ComparisonChecks.logRank(),
        ComparisonChecks.countShrinkage(),
        ComparisonChecks.competingRisks(),
        ComparisonChecks.ranks());
  }

  @ParameterizedTest
  @MethodSource("sections")
  void rowsAgree(ValidationSection section) {
    assertTrue(section.rows().size() >= 5, section.title());
    for (ValidationRow row : section.rows()) {
      assertTrue(row.agrees(), row::markdown);
    }
  }
}
