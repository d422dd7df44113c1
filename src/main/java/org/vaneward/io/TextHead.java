package org.vaneward.io;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.vaneward.io.TextReader.Encoding;

/**
 * How a text file is encoded, as far as its bytes tell, and its first lines.
 *
 * @param charset the encoding its bytes are text in
 * @param sign what tells so
 * @param foreign letters and signs beyond ASCII that it holds in this encoding, some of them
 * @param lines its first lines
 */
public record TextHead(Charset charset, Sign sign, List<String> foreign, List<String> lines) {
  private static final int LINES = 40;
  private static final int PEEK = 1 << 12;
  private static final int FOREIGN_KEPT = 40;
  private static final int LONGEST_LINE = 1 << 16;
  private static final double MANY = 0.3;
  private static final List<Charset> ONE_BYTE =
      List.of(Charset.forName("windows-1252"), Charset.forName("IBM850"));

  /** What tells an encoding. */
  public enum Sign {
    /** A byte order mark. */
    MARK,
    /** All is ASCII, in whatever encoding. */
    ASCII,
    /** No other encoding has these bytes. */
    BYTES,
    /** Other encodings of one byte to a letter would do; this one gives most letters. */
    LETTERS
  }

  /** Copies the lists. */
  public TextHead {
    foreign = List.copyOf(foreign);
    lines = List.copyOf(lines);
  }

  /**
   * The head of {@code file}, unpacked where it is packed.
   *
   * @param name of the file, for messages
   * @throws BadInputException when it cannot be read, or is text in no encoding known here
   */
  public static TextHead of(Path file, String name) {
    try {
      Optional<Charset> wide;
      try (InputStream in = PackedFile.open(file)) {
        wide = wide(in.readNBytes(PEEK));
      }
      if (wide.isPresent()) {
        Text text = read(file, name, wide.get());
        return text.head(Sign.BYTES);
      }
      return narrow(file, name);
    } catch (IOException e) {
      throw PackedFile.unreadable(name, e);
    }
  }

  /** Not of two bytes to a letter, or with a mark. */
  private static TextHead narrow(Path file, String name) throws IOException {
    BadInputException refused;
    try {
      Text text = read(file, name, StandardCharsets.UTF_8);
      return text.head(text.foreign.isEmpty() ? Sign.ASCII : Sign.BYTES);
    } catch (BadInputException e) {
      refused = e;
    }
    Optional<TextHead> best = Optional.empty();
    double most = -1;
    for (Charset charset : ONE_BYTE) {
      try {
        Text text = read(file, name, charset);
        if (text.letters() > most) {
          most = text.letters();
          best = Optional.of(text.head(Sign.LETTERS));
        }
      } catch (BadInputException e) {
        refused.addSuppressed(e); // these bytes are no text in it
      }
    }
    BadInputException none = refused;
    return best.orElseThrow(() -> none);
  }

  /** UTF-16 without a mark shows in zeros at every second byte. */
  private static Optional<Charset> wide(byte[] first) {
    int[] zeros = new int[2];
    for (int i = 0; i < first.length; i++) {
      zeros[i % 2] += first[i] == 0 ? 1 : 0;
    }
    double half = Math.max(1, first.length / 2.0);
    if (zeros[1] / half > MANY && zeros[0] == 0) {
      return Optional.of(StandardCharsets.UTF_16LE);
    }
    return zeros[0] / half > MANY && zeros[1] == 0
        ? Optional.of(StandardCharsets.UTF_16BE)
        : Optional.empty();
  }

  private static Text read(Path file, String name, Charset charset) throws IOException {
    try (InputStream in = PackedFile.open(file);
        TextReader reader =
            new TextReader(
                name, in, new Encoding(charset, "save the file as UTF-8, or leave it out"))) {
      Text text = new Text();
      char[] buffer = new char[1 << 14];
      for (int n = reader.read(buffer, 0, buffer.length);
          n >= 0;
          n = reader.read(buffer, 0, buffer.length)) {
        text.add(buffer, n);
      }
      text.charset = reader.charset();
      text.marked = reader.isMarked();
      return text;
    }
  }

  /** What is kept of a text that is read to its end. */
  private static final class Text {
    private final StringBuilder head = new StringBuilder();
    private final Set<String> foreign = new TreeSet<>();
    private Charset charset = StandardCharsets.UTF_8;
    private boolean marked;
    private int linesBegun;
    private long beyondAscii;
    private long lettersBeyond;

    void add(char[] buffer, int count) {
      for (int i = 0; i < count; i++) {
        char c = buffer[i];
        if (c > '\u007f') {
          beyondAscii++;
          lettersBeyond += Character.isLetter(c) || c == '\u00b0' || c == '\u00b5' ? 1 : 0;
          if (foreign.size() < FOREIGN_KEPT && !Character.isSurrogate(c)) {
            foreign.add(String.valueOf(c));
          }
        }
        if (linesBegun < LINES && head.length() < LONGEST_LINE) {
          head.append(c);
          linesBegun += c == '\n' ? 1 : 0;
        }
      }
    }

    /** Share of letters in what is beyond ASCII. */
    double letters() {
      return beyondAscii == 0 ? 1 : (double) lettersBeyond / beyondAscii;
    }

    TextHead head(Sign otherwise) {
      return new TextHead(
          charset,
          marked ? Sign.MARK : otherwise,
          List.copyOf(foreign),
          head.toString().lines().limit(LINES).toList());
    }
  }

  /** The first lines that are not blank, as rows of cells parted by {@code separator}. */
  public List<HeadRow> rows(char separator) {
    List<HeadRow> rows = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      if (!lines.get(i).isBlank()) {
        rows.add(new HeadRow(i + 1, split(lines.get(i), separator)));
      }
    }
    return rows;
  }

  private static List<String> split(String line, char separator) {
    try {
      return CsvReader.builder()
          .fieldSeparator(separator)
          .ofSingleCsvRecord(line)
          .getFields()
          .stream()
          .map(String::strip)
          .toList();
    } catch (CsvParseException e) {
      return List.of(line); // a quote of a title above the table, or of a cell of several lines
    }
  }
}
