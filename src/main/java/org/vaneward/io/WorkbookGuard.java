package org.vaneward.io;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Enumeration;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;

/**
 * Refuses a workbook that would fill the memory: its parts are unpacked once, counted and thrown
 * away before anything is read out of them, since what an archive says of its own size need not be
 * true. A part that declares a document type, which no workbook needs, is refused too, and so is
 * one with a cell in a column far beyond the last.
 */
final class WorkbookGuard {
  /** Most bytes all parts may come to, unpacked. */
  private static final long MOST_BYTES = 4L << 30;

  /** Most bytes of a part that is packed more tightly than tables are. */
  private static final long MOST_DENSE_BYTES = 64L << 20;

  private static final int DENSEST = 100;
  private static final int MOST_PARTS = 10_000;
  private static final String DOCUMENT_TYPE = "<!DOCTYPE";

  private final String name;
  private final byte[] buffer = new byte[1 << 16];
  private long total;

  private WorkbookGuard(String name) {
    this.name = name;
  }

  /**
   * Nothing, where {@code file} is an archive of a bearable size.
   *
   * @throws BadInputException otherwise
   */
  static void check(Path file, String name) {
    WorkbookGuard guard = new WorkbookGuard(name);
    try (ZipFile parts = new ZipFile(file.toFile())) {
      if (parts.size() > MOST_PARTS) {
        throw new BadInputException(
            name + ": has " + parts.size() + " parts; no workbook has more than " + MOST_PARTS);
      }
      Enumeration<? extends ZipEntry> all = parts.entries();
      while (all.hasMoreElements()) {
        guard.check(parts, all.nextElement());
      }
    } catch (NoSuchFileException e) {
      throw PackedFile.unreadable(name, e);
    } catch (ZipException e) {
      throw new BadInputException(
          name + ": no workbook (.xlsx), or a damaged one; save it again as .xlsx", e);
    } catch (IOException e) {
      throw new BadInputException(
          name + ": cannot be unpacked; it ends too early or is damaged, so copy it again", e);
    }
  }

  private void check(ZipFile parts, ZipEntry part) throws IOException {
    try (InputStream in = parts.getInputStream(part)) {
      long bytes = 0;
      String carried = "";
      CellAddressGuard addresses = new CellAddressGuard();
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        if (bytes < buffer.length) {
          carried = refuseDocumentType(carried, n);
        }
        refuseFarCells(addresses, n);
        bytes += n;
        total += n;
        boolean dense =
            bytes > MOST_DENSE_BYTES && bytes > DENSEST * Math.max(1, part.getCompressedSize());
        if (dense || total > MOST_BYTES) {
          throw new BadInputException(
              name
                  + ": unpacks to more than a table should ("
                  + (bytes >> 20)
                  + " MiB in one part so far); save it again, or as CSV");
        }
      }
    }
  }

  private void refuseFarCells(CellAddressGuard addresses, int count) {
    for (int i = 0; i < count; i++) {
      // A part may be in UTF-16, where every other byte of what matters here is 0.
      if (buffer[i] != 0 && addresses.finds((char) Byte.toUnsignedInt(buffer[i]))) {
        throw new BadInputException(
            name + ": has a cell in a column that no sheet has; save it again as .xlsx");
      }
    }
  }

  /** Looks at the beginning of a part, where a document type would stand. */
  private String refuseDocumentType(String carried, int count) {
    StringBuilder seen = new StringBuilder(carried);
    for (int i = 0; i < count; i++) {
      if (buffer[i] != 0) {
        seen.append((char) buffer[i]);
      }
    }
    if (seen.indexOf(DOCUMENT_TYPE) >= 0) {
      throw new BadInputException(
          name + ": declares a document type, which no workbook does; save it again as .xlsx");
    }
    return seen.substring(Math.max(0, seen.length() - DOCUMENT_TYPE.length()));
  }
}
