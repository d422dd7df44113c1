package org.vaneward.io;

import java.util.regex.Pattern;

/**
 * Looks for cells of a sheet that stand in no column a sheet can have. A row is kept as a list as
 * long as its last column is far, so that one such cell would fill the memory. Takes in the
 * characters of a part one by one, whatever it holds; it need not be XML.
 */
final class CellAddressGuard {
  /** A column of up to three letters, as far as {@code XFD}, and a row; every blank left out. */
  private static final Pattern ADDRESS = Pattern.compile("\\$?[A-Za-z]{0,3}\\$?\\d{0,10}");

  private static final int LONGEST = 16;

  private final StringBuilder word = new StringBuilder();
  private State state = State.TEXT;
  private char quote;
  private boolean ofAddress;

  /** Where the next character stands. */
  private enum State {
    /** Outside of any cell's tag. */
    TEXT,
    /** In the name of an element. */
    NAME,
    /** In a cell's tag, outside of a value. */
    TAG,
    /** In a value of a cell's tag. */
    VALUE
  }

  /** Whether the address of a cell is none, now that {@code c} has come. */
  boolean finds(char c) {
    switch (state) {
      case TEXT -> {
        if (c == '<') {
          begin(State.NAME);
        }
      }
      case NAME -> inName(c);
      case TAG -> inTag(c);
      case VALUE -> {
        if (c == quote) {
          boolean found = ofAddress && !ADDRESS.matcher(word).matches();
          begin(State.TAG);
          return found;
        }
        keep(c);
      }
    }
    return false;
  }

  private void inName(char c) {
    if (c == ':') {
      word.setLength(0); // what stood before it is the prefix
    } else if (c == '<') {
      begin(State.NAME);
    } else if (c == '>') {
      begin(State.TEXT);
    } else if (isBlank(c)) {
      begin(word.length() == 1 && word.charAt(0) == 'c' ? State.TAG : State.TEXT);
    } else {
      keep(c);
    }
  }

  private void inTag(char c) {
    if (c == '>') {
      begin(State.TEXT);
    } else if (c == '"' || c == '\'') {
      ofAddress = word.length() == 1 && word.charAt(0) == 'r';
      quote = c;
      begin(State.VALUE);
    } else if (c != '=' && !isBlank(c)) {
      keep(c);
    }
  }

  private void begin(State next) {
    state = next;
    word.setLength(0);
  }

  private void keep(char c) {
    if (word.length() < LONGEST) {
      word.append(c);
    }
  }

  private static boolean isBlank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
  }
}
