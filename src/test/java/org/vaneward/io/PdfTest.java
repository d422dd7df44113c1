package org.vaneward.io;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Calendar;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;

/** PDF read back by Apache PDFBox. */
class PdfTest {
  private static final LocalDate DAY = LocalDate.of(2025, 12, 31);

  private static Document page(String content) {
    return Xml.document(
        "<fo:root xmlns:fo='http://www.w3.org/1999/XSL/Format' font-family='Liberation Sans' xml:lang='en'>"
            + "<fo:layout-master-set><fo:simple-page-master master-name='a' page-width='210mm'"
            + " page-height='297mm'><fo:region-body margin='20mm'/></fo:simple-page-master>"
            + "</fo:layout-master-set><fo:page-sequence master-reference='a'>"
            + "<fo:flow flow-name='xsl-region-body'>"
            + content
            + "</fo:flow></fo:page-sequence></fo:root>");
  }

  private static byte[] set(String content, List<String> remarks) {
    return Pdf.of(page(content), "A title", DAY, remarks::add);
  }

  private static String text(byte[] pdf) throws IOException {
    try (PDDocument read = Loader.loadPDF(pdf)) {
      return new PDFTextStripper().getText(read).strip();
    }
  }

  @Test
  void lettersComeBackAsTheyWere() throws IOException {
    List<String> remarks = new ArrayList<>();
    String words = "Größe β ≤ 0.95 – насос × 2";
    assertEquals(words, text(set("<fo:block>" + words + "</fo:block>", remarks)));
    assertEquals(List.of(), remarks);
  }

  @Test
  void aLetterTheTypefaceLacksIsToldOf() throws IOException {
    List<String> remarks = new ArrayList<>();
    assertEquals("# pump", text(set("<fo:block>泵 pump</fo:block>", remarks)));
    assertEquals(1, remarks.size(), remarks::toString);
    assertTrue(remarks.get(0).contains("泵"), remarks::toString);
  }

  @Test
  void theTypefaceIsWithin() throws IOException {
    byte[] pdf =
        set(
            "<fo:block>a <fo:inline font-weight='bold'>b</fo:inline></fo:block>",
            new ArrayList<>());
    try (PDDocument read = Loader.loadPDF(pdf)) {
      List<String> names = new ArrayList<>();
      for (var name : read.getPage(0).getResources().getFontNames()) {
        PDFont font = read.getPage(0).getResources().getFont(name);
        assertTrue(font.isEmbedded(), font.getName());
        names.add(font.getName().replaceFirst("^[A-Z]+\\+", ""));
      }
      names.sort(null);
      assertEquals(List.of("LiberationSans", "LiberationSans-Bold"), names);
    }
  }

  @Test
  void bearsItsTitleAndItsDay() throws IOException {
    try (PDDocument read = Loader.loadPDF(set("<fo:block>a</fo:block>", new ArrayList<>()))) {
      assertEquals("A title", read.getDocumentInformation().getTitle());
      Calendar made = read.getDocumentInformation().getCreationDate();
      assertEquals(DAY, made.toInstant().atZone(ZoneId.systemDefault()).toLocalDate());
      assertTrue(read.getDocumentCatalog().getMarkInfo().isMarked());
      assertEquals("en", read.getDocumentCatalog().getLanguage());
    }
  }

  @Test
  void theSameDocumentGivesTheSameBytesAndAnotherAnother() throws InterruptedException {
    byte[] one = set("<fo:block>one</fo:block>", new ArrayList<>());
    // the file names moments to the second
    Thread.sleep(1100);
    assertArrayEquals(one, set("<fo:block>one</fo:block>", new ArrayList<>()));
    byte[] two = set("<fo:block>two</fo:block>", new ArrayList<>());
    assertFalse(id(one).equals(id(two)), id(one));
  }

  private static String id(byte[] pdf) {
    String text = new String(pdf, java.nio.charset.StandardCharsets.ISO_8859_1);
    return text.substring(text.lastIndexOf("/ID ["));
  }

  @Test
  void nothingOutsideTheDocumentIsRead() {
    for (String source : List.of("file:///etc/hostname", "https://example.org/a.png", "a.png")) {
      IllegalArgumentException refused =
          assertThrows(
              IllegalArgumentException.class,
              () ->
                  set(
                      "<fo:block><fo:external-graphic src='" + source + "'/></fo:block>",
                      new ArrayList<>()),
              source);
      assertTrue(refused.toString().contains("mage"), refused::toString);
    }
  }

  @Test
  void whatIsNoDocumentIsRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> Pdf.of(Xml.document("<p>a</p>"), "A title", DAY, said -> {}));
  }

  @Test
  void aDocumentMayNotDeclareAType() {
    IllegalArgumentException refused =
        assertThrows(
            IllegalArgumentException.class,
            () ->
                Xml.document("<!DOCTYPE p [<!ENTITY e SYSTEM 'file:///etc/hostname'>]><p>&e;</p>"));
    assertTrue(refused.toString().contains("DOCTYPE"), refused::toString);
  }

  @Test
  void whatXmlCannotHoldIsReplaced() {
    assertEquals("a\uFFFDb\tc", Xml.held("a\u0001b\tc"));
    assertEquals("a\uFFFD", Xml.document("<p>a\u0000</p>").getDocumentElement().getTextContent());
  }

  /** Widths of Arial's letters, which Liberation Sans keeps, from memory. */
  @Test
  void widthsAreThoseOfTheTypeface() {
    assertEquals(0.556, Typeface.REGULAR.width("0"), 0.0005);
    assertEquals(0.278, Typeface.REGULAR.width(" "), 0.0005);
    assertEquals(0.722, Typeface.BOLD.width("B"), 0.0005);
    assertEquals(3 * 0.556, Typeface.REGULAR.width("012"), 0.0015);
  }
}
