package org.vaneward.fuzz;

import java.io.IOException;

/**
 * A reader under attack. The fuzzer makes one target, with a public constructor without parameters,
 * and hands it one input after another.
 */
@FunctionalInterface
public interface FuzzTarget {
  /**
   * Whether {@code input} is read to its end; otherwise the reader refused it in one clear line.
   *
   * @throws AssertionError when it ends in any other way, or a row is not accounted for
   */
  boolean reads(byte[] input) throws IOException;
}
