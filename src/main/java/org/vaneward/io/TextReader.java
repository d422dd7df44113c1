package org.vaneward.io;

import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;

/**
 * Characters of a text. A byte order mark of UTF-8 or UTF-16 settles the encoding; without one it
 * is the encoding stated, UTF-8 where none is. Bytes that are no text in it and control characters
 * that no text holds are refused with the line they stand on.
 */
final class TextReader extends Reader {
  private static final char BYTE_ORDER_MARK = '\uFEFF';
  private static final int MARK_LENGTH = 3;

  private final String source;
  private final InputStream in;
  private final Encoding stated;
  private CharsetDecoder decoder;
  private final ByteBuffer bytes = ByteBuffer.allocate(1 << 15).limit(0);
  private final CharBuffer chars = CharBuffer.allocate(1 << 15).limit(0);
  private boolean endOfBytes;
  private boolean settled;
  private boolean byMark;
  private boolean started;
  private boolean lastWasCarriageReturn;
  private long line = 1;

  /**
   * The encoding of a text without a byte order mark.
   *
   * @param charset the encoding
   * @param remedy what would be right where the text is in another, for messages
   */
  record Encoding(Charset charset, String remedy) {
    /** UTF-8, which nothing can replace. */
    static Encoding utf8() {
      return new Encoding(StandardCharsets.UTF_8, "save the file as UTF-8");
    }
  }

  /** Reads {@code in}, which {@code source} names in messages. */
  TextReader(String source, InputStream in, Encoding stated) {
    this.source = source;
    this.in = in;
    this.stated = stated;
    this.decoder = decoder(stated.charset());
  }

  private static CharsetDecoder decoder(Charset charset) {
    return charset
        .newDecoder()
        .onMalformedInput(CodingErrorAction.REPORT)
        .onUnmappableCharacter(CodingErrorAction.REPORT);
  }

  /**
   * {@inheritDoc}
   *
   * @throws BadInputException when the bytes are no text in the encoding
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

  /** The encoding; settled once something has been read. */
  Charset charset() {
    return decoder.charset();
  }

  /** Whether a byte order mark told the encoding; known once something has been read. */
  boolean isMarked() {
    return byMark;
  }

  private void decodeSome() throws IOException {
    bytes.compact();
    int count = in.read(bytes.array(), bytes.position(), bytes.remaining());
    endOfBytes = count < 0;
    bytes.position(bytes.position() + Math.max(count, 0)).flip();
    if (!settled) {
      if (bytes.remaining() < MARK_LENGTH && !endOfBytes) {
        return;
      }
      settled = true;
      Optional<Charset> told = marked();
      told.ifPresent(charset -> decoder = decoder(charset));
      byMark = told.isPresent();
    }
    chars.clear();
    CoderResult result = decoder.decode(bytes, chars, endOfBytes);
    chars.flip();
    checkText();
    if (result.isError()) {
      throw new BadInputException(
          source
              + ", line "
              + line
              + ": not text in "
              + decoder.charset().name()
              + " (byte 0x"
              + String.format(Locale.ROOT, "%02X", bytes.get(bytes.position()))
              + "); "
              + stated.remedy());
    }
  }

  /** The encoding that a byte order mark tells. */
  private Optional<Charset> marked() {
    int first = byteAt(0);
    int second = byteAt(1);
    if (first == 0xEF && second == 0xBB && byteAt(2) == 0xBF) {
      return Optional.of(StandardCharsets.UTF_8);
    }
    if (first == 0xFF && second == 0xFE) {
      return Optional.of(StandardCharsets.UTF_16LE);
    }
    return first == 0xFE && second == 0xFF
        ? Optional.of(StandardCharsets.UTF_16BE)
        : Optional.empty();
  }

  private int byteAt(int index) {
    return index < bytes.remaining() ? Byte.toUnsignedInt(bytes.get(bytes.position() + index)) : -1;
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
              + ", so it is no text in "
              + decoder.charset().name()
              + "; "
              + stated.remedy());
    }
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
