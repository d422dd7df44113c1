package org.vaneward.io;

import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/**
 * Characters of a UTF-8 text, with or without byte order mark. Bytes that are not UTF-8 and control
 * characters that no text holds are refused with the line they stand on.
 */
final class Utf8Reader extends Reader {
  private static final char BYTE_ORDER_MARK = '\uFEFF';

  private final String source;
  private final InputStream in;
  private final CharsetDecoder decoder =
      StandardCharsets.UTF_8
          .newDecoder()
          .onMalformedInput(CodingErrorAction.REPORT)
          .onUnmappableCharacter(CodingErrorAction.REPORT);
  private final ByteBuffer bytes = ByteBuffer.allocate(1 << 15).limit(0);
  private final CharBuffer chars = CharBuffer.allocate(1 << 15).limit(0);
  private boolean endOfBytes;
  private boolean started;
  private boolean lastWasCarriageReturn;
  private long line = 1;

  /** Reads {@code in}, which {@code source} names in messages. */
  Utf8Reader(String source, InputStream in) {
    this.source = source;
    this.in = in;
  }

  /**
   * {@inheritDoc}
   *
   * @throws BadInputException when the bytes are no text in UTF-8
   */
  @Override
  public int read(char[] target, int offset, int length) throws IOException {
    while (!chars.hasRemaining()) {
      if (endOfBytes && !bytes.hasRemaining()) {
        return -1;
      }
      decodeSome();
    }
    int count = Math.min(length, chars.remaining());
    chars.get(target, offset, count);
    return count;
  }

  private void decodeSome() throws IOException {
    bytes.compact();
    int count = in.read(bytes.array(), bytes.position(), bytes.remaining());
    endOfBytes = count < 0;
    bytes.position(bytes.position() + Math.max(count, 0)).flip();
    chars.clear();
    CoderResult result = decoder.decode(bytes, chars, endOfBytes);
    chars.flip();
    checkText();
    if (result.isError()) {
      throw new BadInputException(
          source
              + ", line "
              + line
              + ": not text in UTF-8 (byte 0x"
              + String.format(Locale.ROOT, "%02X", bytes.get(bytes.position()))
              + "); save the file as UTF-8");
    }
  }

  /** Counts lines, drops the byte order mark and refuses control characters. */
  private void checkText() {
    if (!started && chars.hasRemaining()) {
      started = true;
      if (chars.get(chars.position()) == BYTE_ORDER_MARK) {
        chars.get();
      }
    }
    for (int i = chars.position(); i < chars.limit(); i++) {
      char c = chars.get(i);
      if (c < ' ') {
        checkControl(c);
      }
      lastWasCarriageReturn = c == '\r';
    }
  }

  private void checkControl(char c) {
    if (c == '\r' || (c == '\n' && !lastWasCarriageReturn)) {
      line++;
    } else if (c != '\n' && c != '\t') {
      throw new BadInputException(
          source
              + ", line "
              + line
              + ": holds the control character "
              + (int) c
              + ", so it is no text file; a table is a CSV file in UTF-8");
    }
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
