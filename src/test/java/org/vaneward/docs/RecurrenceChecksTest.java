package org.vaneward.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class RecurrenceChecksTest {
  @Test
  void everyRowAgrees() {
    List<ValidationSection> sections =
        List.of(
            RecurrenceChecks.meanCumulativeFunction(),
            RecurrenceChecks.meanCumulativeDifference(),
            RecurrenceChecks.trend());
    for (ValidationSection section : sections) {
      assertTrue(section.rows().size() >= 15);
      assertEquals(List.of(), section.rows().stream().filter(row -> !row.agrees()).toList());
    }
  }
}
