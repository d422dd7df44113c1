package org.vaneward.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Properties;

/** Styles and scripts that lie on the class path and go into the page as they are. */
final class Embedded {
  private static final String WEB_JARS = "/META-INF/resources/webjars/";

  private Embedded() {}

  /** A style sheet of this package. */
  static String style(String name) {
    return text(name);
  }

  /**
   * A script of this package.
   *
   * @throws IllegalStateException when it is not there, or holds what would end its element
   */
  static String script(String name) {
    return within(name, text(name));
  }

  /**
   * A script of a library that lies in a WebJar.
   *
   * @param library its name
   * @param file path below the library's version
   */
  static String webJar(String library, String file) {
    String folder = "/META-INF/maven/org.webjars.npm/" + library + "/pom.properties";
    Properties about = new Properties();
    try (InputStream in = open(folder)) {
      about.load(in);
    } catch (IOException e) {
      throw new UncheckedIOException(folder + " cannot be read", e);
    }
    String path = WEB_JARS + library + "/" + about.getProperty("version") + "/" + file;
    return within(path, text(path));
  }

  private static String within(String name, String script) {
    String lower = script.toLowerCase(Locale.ROOT);
    if (lower.contains("</script") || lower.contains("<!--")) {
      throw new IllegalStateException(name + " holds what would end the element it stands in");
    }
    return script;
  }

  private static String text(String name) {
    try (InputStream in = open(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(name + " cannot be read", e);
    }
  }

  private static InputStream open(String name) {
    InputStream in = Embedded.class.getResourceAsStream(name);
    if (in == null) {
      throw new IllegalStateException(name + " is not on the class path");
    }
    return in;
  }
}
