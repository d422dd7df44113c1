package org.vaneward.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class PoolingChecksTest {
  @Test
  void everyRowAgrees() {
    List<ValidationRow> rows = PoolingChecks.section().rows();
    assertTrue(rows.size() > 30, "rows: " + rows.size());
    assertEquals(List.of(), rows.stream().filter(row -> !row.agrees()).toList());
  }
}
