package org.vaneward.io;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/**
 * The letters a {@link Pdf} is set in: Liberation Sans, of the widths of Arial, for Latin, Greek,
 * Cyrillic and Hebrew.
 */
public enum Typeface {
  REGULAR("LiberationSans-Regular.ttf"),
  BOLD("LiberationSans-Bold.ttf");

  private static final String FAMILY = "Liberation Sans";

  private static final String FOLDER = "/liberation/";
  private static final int UNKNOWN = -1;
  private static final Map<Typeface, Glyphs> READ = new ConcurrentHashMap<>();

  private final String file;

  Typeface(String file) {
    this.file = file;
  }

  /** Name of the family both belong to. */
  public static String family() {
    return FAMILY;
  }

  /** Name of its file. */
  String file() {
    return file;
  }

  /** Its file, to be closed by the caller. */
  InputStream open() {
    InputStream in = Typeface.class.getResourceAsStream(FOLDER + file);
    if (in == null) {
      throw new IllegalStateException(FOLDER + file + " is not on the class path");
    }
    return in;
  }

  /** Width of text in its own size: times the size in points, it is in points. */
  public double width(String text) {
    Glyphs glyphs = READ.computeIfAbsent(this, Glyphs::of);
    return text.codePoints().mapToLong(glyphs::advance).sum() / (double) glyphs.unitsPerEm;
  }

  /** Widths of letters as the font's file has them, looked up once. */
  private static final class Glyphs {
    private static final int BASIC_PLANE = 0x10000;

    private final TrueTypeFont font;
    private final CmapLookup letters;
    private final int unitsPerEm;
    private final int[] advances = new int[BASIC_PLANE];

    private Glyphs(TrueTypeFont font) throws IOException {
      this.font = font;
      this.letters = font.getUnicodeCmapLookup();
      this.unitsPerEm = font.getUnitsPerEm();
      Arrays.fill(advances, UNKNOWN);
    }

    static Glyphs of(Typeface face) {
      try (InputStream in = face.open()) {
        return new Glyphs(new TTFParser().parse(new RandomAccessReadBuffer(in)));
      } catch (IOException e) {
        throw new UncheckedIOException(face.file + " cannot be read", e);
      }
    }

    /** Threads that look up the same letter come to the same width. */
    int advance(int letter) {
      if (letter >= BASIC_PLANE) {
        return read(letter);
      }
      if (advances[letter] == UNKNOWN) {
        advances[letter] = read(letter);
      }
      return advances[letter];
    }

    private synchronized int read(int letter) {
      try {
        return font.getAdvanceWidth(letters.getGlyphId(letter));
      } catch (IOException e) {
        throw new UncheckedIOException("the typeface cannot be read", e);
      }
    }
  }
}
