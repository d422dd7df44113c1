package org.vaneward.report;

/** A result in each form a command can print it. */
public interface View {
  /** For people: tables and sentences. */
  String text();

  /** The JSON document that the command promises, numbers unrounded. */
  String json();

  /** A table, a header row first. */
  String csv();
}
