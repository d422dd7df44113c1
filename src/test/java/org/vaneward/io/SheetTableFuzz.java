package org.vaneward.io;

import static org.vaneward.fuzz.Reading.must;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.ScratchFolder;
import org.vaneward.fuzz.Sections;

/**
 * A workbook. Input that is no zip file holds parts, each after a line {@code === name}, that are
 * put in the place of those of a small workbook, so that the fuzzer need not find its way past a
 * checksum.
 */
public final class SheetTableFuzz implements FuzzTarget {
  private static final String NAME = "table.xlsx";
  private static final String SHEET = "S";
  private static final String MAIN =
      "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"";
  private static final String OFFICE =
      "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  private static final String PACKAGE = "http://schemas.openxmlformats.org/package/2006/";
  private static final String CONTENT =
      "application/vnd.openxmlformats-officedocument.spreadsheetml.";
  private static final Map<String, String> PARTS =
      Map.of(
          "[Content_Types].xml",
          "<Types xmlns=\""
              + PACKAGE
              + "content-types\"><Default Extension=\"xml\" ContentType=\"application/xml\"/>"
              + "<Override PartName=\"/xl/workbook.xml\" ContentType=\""
              + CONTENT
              + "sheet.main+xml\"/><Override PartName=\"/xl/styles.xml\" ContentType=\""
              + CONTENT
              + "styles+xml\"/><Override PartName=\"/xl/sharedStrings.xml\" ContentType=\""
              + CONTENT
              + "sharedStrings+xml\"/></Types>",
          "_rels/.rels",
          "<Relationships xmlns=\""
              + PACKAGE
              + "relationships\"><Relationship Id=\"r1\" Type=\""
              + OFFICE
              + "/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>",
          "xl/_rels/workbook.xml.rels",
          "<Relationships xmlns=\""
              + PACKAGE
              + "relationships\"><Relationship Id=\"r1\" Type=\""
              + OFFICE
              + "/worksheet\" Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"r2\" Type=\""
              + OFFICE
              + "/styles\" Target=\"styles.xml\"/><Relationship Id=\"r3\" Type=\""
              + OFFICE
              + "/sharedStrings\" Target=\"sharedStrings.xml\"/></Relationships>",
          "xl/workbook.xml",
          "<workbook "
              + MAIN
              + " xmlns:r=\""
              + OFFICE
              + "\"><sheets><sheet name=\""
              + SHEET
              + "\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>",
          "xl/styles.xml",
          "<styleSheet "
              + MAIN
              + "><numFmts count=\"1\"><numFmt numFmtId=\"164\" formatCode=\"d mmm yyyy\"/>"
              + "</numFmts><cellXfs count=\"2\"><xf numFmtId=\"0\"/><xf numFmtId=\"164\"/>"
              + "</cellXfs></styleSheet>",
          "xl/sharedStrings.xml",
          "<sst " + MAIN + "><si><t>a</t></si><si><t>b</t></si></sst>",
          "xl/worksheets/sheet1.xml",
          "<worksheet "
              + MAIN
              + "><sheetData><row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"B1\" t=\"s\">"
              + "<v>1</v></c></row><row r=\"2\"><c r=\"A2\" s=\"1\"><v>45000</v></c></row>"
              + "</sheetData></worksheet>");

  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    boolean archive = input.length > 1 && input[0] == 'P' && input[1] == 'K';
    Path file = folder.write(NAME, archive ? input : workbook(Sections.of(input)));
    return Reading.ends(
        () -> {
          List<String> sheets = SheetTable.sheets(file, NAME);
          CsvTableFuzz.rows(SheetTable.open(file, SHEET, NAME, TextForm.plain(), List.of("a")));
          must(sheets.contains(SHEET), "a sheet was read that is not listed");
        });
  }

  private static byte[] workbook(Map<String, byte[]> replaced) throws IOException {
    Map<String, byte[]> parts = new LinkedHashMap<>();
    PARTS.forEach((name, part) -> parts.put(name, part.getBytes(StandardCharsets.UTF_8)));
    replaced.keySet().retainAll(PARTS.keySet());
    parts.putAll(replaced);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      zip.setLevel(Deflater.NO_COMPRESSION);
      for (Map.Entry<String, byte[]> part : parts.entrySet()) {
        zip.putNextEntry(new ZipEntry(part.getKey()));
        zip.write(part.getValue());
        zip.closeEntry();
      }
    }
    return bytes.toByteArray();
  }
}
