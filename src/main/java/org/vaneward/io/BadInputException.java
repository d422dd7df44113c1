package org.vaneward.io;

/**
 * Input that cannot be used: a missing file, a missing column, a malformed document, an argument
 * out of its domain. The message is one line that says what is wrong, where, and what would be
 * right; the command line prints it as it is and exits with code 2.
 */
public final class BadInputException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /**
   * Bad input described by one line, such as {@code "pumps.csv: no column 'pump'; the header must
   * name it"}.
   */
  public BadInputException(String message) {
    super(oneLine(message));
  }

  /** Bad input with the failure that revealed it; the cause is shown only with {@code --debug}. */
  public BadInputException(String message, Throwable cause) {
    super(oneLine(message), cause);
  }

  private static String oneLine(String message) {
    return message.replaceAll("\\s*\\R\\s*", " ");
  }
}
