package org.vaneward.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Properties;
import org.jspecify.annotations.Nullable;

/** Which program this is: its version, and the commit it was built from where the build knew it. */
public final class Version {
  private static final String BUILD = "build.properties";

  private Version() {}

  /** Such as {@code 1.2.3}. */
  public static String number() {
    return build().getProperty("version", "");
  }

  /** Such as {@code 1.2.3 (commit 0123abc)}. */
  public static String words() {
    return words(build());
  }

  /**
   * In words.
   *
   * @param build {@code version}, {@code commit} and whether anything was {@code changed} since;
   *     what the build did not know stands there unfilled
   */
  static String words(Properties build) {
    String commit = build.getProperty("commit", "");
    String known = commit.matches("[0-9a-f]{4,40}") ? "commit " + commit : "commit not known";
    String changed = build.getProperty("changed", "").equals("true") ? ", changed since" : "";
    return build.getProperty("version", "") + " (" + known + changed + ")";
  }

  private static Properties build() {
    Properties build = new Properties();
    try (@Nullable InputStream in = Version.class.getResourceAsStream(BUILD)) {
      if (in == null) {
        throw new IllegalStateException("the build left out " + BUILD);
      }
      build.load(in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return build;
  }
}
