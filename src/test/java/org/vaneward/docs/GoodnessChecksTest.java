package org.vaneward.docs;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class GoodnessChecksTest {
  @Test
  void everyRowAgrees() {
    ValidationSection section = GoodnessChecks.section();
    assertEquals(20, section.rows().size());
    assertAll(section.rows().stream().map(row -> () -> assertTrue(row.agrees(), row.markdown())));
  }
}
