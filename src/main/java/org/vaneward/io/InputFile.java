package org.vaneward.io;

import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

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
    return new InputFile(name, content.length, HexFormat.of().formatHex(digest().digest(content)));
  }

  private static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
