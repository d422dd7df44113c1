package org.vaneward.fuzz;

import java.util.regex.Pattern;
import org.vaneward.io.BadInputException;

/** The two ends a reading may have. */
public final class Reading {
  private static final Pattern LINE_BREAK = Pattern.compile("\\R");

  private Reading() {}

  /**
   * Whether {@code reading} comes to its end; otherwise it refuses its input in one clear line.
   *
   * @throws AssertionError when what it says is blank or more than one line
   */
  public static boolean ends(Runnable reading) {
    try {
      reading.run();
      return true;
    } catch (BadInputException e) {
      String message = String.valueOf(e.getMessage());
      if (message.isBlank() || LINE_BREAK.matcher(message).find()) {
        throw new AssertionError("not one clear line: '" + message + "'", e);
      }
      return false;
    }
  }

  /** Fails with {@code what} unless {@code holds}. */
  public static void must(boolean holds, String what) {
    if (!holds) {
      throw new AssertionError(what);
    }
  }
}
