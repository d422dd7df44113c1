package org.vaneward.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Properties;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.IVersionProvider;

/** The version, and the commit it was built from where the build knew it. */
final class VersionText implements IVersionProvider {
  private static final String BUILD = "build.properties";

  @Override
  public String[] getVersion() {
    return new String[] {text(build())};
  }

  /**
   * In words.
   *
   * @param build {@code version}, {@code commit} and whether anything was {@code changed} since;
   *     what the build did not know stands there unfilled
   */
  static String text(Properties build) {
    String commit = build.getProperty("commit", "");
    String known = commit.matches("[0-9a-f]{4,40}") ? "commit " + commit : "commit not known";
    String changed = build.getProperty("changed", "").equals("true") ? ", changed since" : "";
    return "vaneward " + build.getProperty("version", "") + " (" + known + changed + ")";
  }

  private static Properties build() {
    Properties build = new Properties();
    try (@Nullable InputStream in = VersionText.class.getResourceAsStream(BUILD)) {
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
