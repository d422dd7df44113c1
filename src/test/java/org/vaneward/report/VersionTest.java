package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.util.Properties;
import org.junit.jupiter.api.Test;

class VersionTest {
  private static String text(String build) throws IOException {
    Properties properties = new Properties();
    properties.load(new StringReader(build));
    return Version.words(properties);
  }

  @Test
  void namesTheCommit() throws IOException {
    assertEquals("1.2.3 (commit 0123abc)", text("version=1.2.3\ncommit=0123abc\nchanged=false\n"));
    assertEquals(
        "1.2.3 (commit 0123abc, changed since)",
        text("version=1.2.3\ncommit=0123abc\nchanged=true\n"));
  }

  @Test
  void sourcesWithoutARepositoryHaveNone() throws IOException {
    assertEquals(
        "1.2.3 (commit not known)",
        text("version=1.2.3\ncommit=${git.commit.id.abbrev}\nchanged=${git.dirty}\n"));
  }

  @Test
  void thisBuildFilledItsOwnIn() {
    String said = Version.words();
    assertTrue(said.startsWith(Version.number() + " "), said);
    assertTrue(said.matches("\\d+\\.\\d+\\.\\d+\\S* \\(commit [^$]*\\)"), said);
  }
}
