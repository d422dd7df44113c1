package org.vaneward.cli;

/** Entry point of the program. */
public final class Main {
  private Main() {}

  /** Runs one command and exits with its code. */
  public static void main(String[] args) {
    System.out.println(args.length);
  }
}
