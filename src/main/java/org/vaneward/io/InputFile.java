package org.vaneward.io;

import java.nio.file.Path;

/**
 * A file that was read, so that a reader of the result can tell whether it is the one at hand.
 *
 * @param name its name within the folder
 * @param bytes its length
 * @param sha256 its SHA-256 digest (FIPS 180-4), hexadecimal
 */
public record InputFile(String name, long bytes, String sha256) {
  /**
   * The file {@code name} in {@code folder}.
   *
   * @throws BadInputException when it cannot be read
   */
  public static InputFile of(Path folder, String name) {
    byte[] content = SafeFiles.read(folder.resolve(name));
    return new InputFile(name, content.length, Sha256.hex(content));
  }
}
