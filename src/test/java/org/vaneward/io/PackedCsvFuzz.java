package org.vaneward.io;

import static org.vaneward.fuzz.Reading.must;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.zip.GZIPOutputStream;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.ScratchFolder;

/**
 * CSV packed by gzip. The first character says how: {@code r} the bytes are the packed file, {@code
 * p} they are the text, to be packed, and {@code t} the same with as many bytes cut off as the next
 * says.
 */
public final class PackedCsvFuzz implements FuzzTarget {
  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    char way = input.length == 0 ? 'r' : (char) input[0];
    byte[] rest = Arrays.copyOfRange(input, Math.min(1, input.length), input.length);
    return switch (way) {
      case 'p' -> packedReadsAsPlain(rest);
      case 't' -> readsCut(rest);
      default -> Reading.ends(() -> rows("table.csv.gz", rest));
    };
  }

  private boolean packedReadsAsPlain(byte[] text) throws IOException {
    byte[] packed = packed(text);
    long[] rows = new long[2];
    boolean plain = Reading.ends(() -> rows[0] = rows("table.csv", text));
    boolean same = Reading.ends(() -> rows[1] = rows("table.csv.gz", packed));
    must(plain == same && rows[0] == rows[1], "packed reads otherwise than plain");
    return same;
  }

  private boolean readsCut(byte[] rest) throws IOException {
    if (rest.length == 0) {
      return false;
    }
    byte[] packed = packed(Arrays.copyOfRange(rest, 1, rest.length));
    int cut = Math.min(packed.length, 1 + Byte.toUnsignedInt(rest[0]));
    byte[] shorter = Arrays.copyOf(packed, packed.length - cut);
    boolean read = Reading.ends(() -> rows("table.csv.gz", shorter));
    must(!read, "a packed file without its end was read as if whole");
    return read;
  }

  private long rows(String name, byte[] content) {
    try {
      Path file = folder.write(name, content);
      return CsvTableFuzz.rows(CsvTable.open(file, name, List.of("a")));
    } catch (IOException e) {
      throw new AssertionError("cannot write " + name, e);
    }
  }

  private static byte[] packed(byte[] text) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(bytes)) {
      out.write(text);
    }
    return bytes.toByteArray();
  }
}
