package org.vaneward.io;

import java.io.IOException;
import java.io.StringReader;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/** What XML 1.0 can hold, and documents in memory. */
public final class Xml {
  private static final char REPLACEMENT = '\uFFFD';

  private Xml() {}

  /** Whether the character may stand in a document (XML 1.0, production 2). */
  public static boolean holds(int character) {
    return character == '\t'
        || character == '\n'
        || character == '\r'
        || (character >= 0x20 && character <= 0xD7FF)
        || (character >= 0xE000 && character <= 0xFFFD)
        || character >= 0x10000;
  }

  /** The text with U+FFFD for each character that may not stand in a document. */
  public static String held(String text) {
    if (text.codePoints().allMatch(Xml::holds)) {
      return text;
    }
    StringBuilder result = new StringBuilder(text.length());
    text.codePoints().forEach(c -> result.appendCodePoint(holds(c) ? c : REPLACEMENT));
    return result.toString();
  }

  /** An empty document. */
  public static Document empty() {
    try {
      return factory().newDocumentBuilder().newDocument();
    } catch (ParserConfigurationException e) {
      throw new IllegalStateException("the platform's own XML library gives no document", e);
    }
  }

  /**
   * A document from text, which is not let declare a document type.
   *
   * @throws IllegalArgumentException when it is not well-formed
   */
  public static Document document(String text) {
    try {
      return factory().newDocumentBuilder().parse(new InputSource(new StringReader(held(text))));
    } catch (SAXException e) {
      throw new IllegalArgumentException("not well-formed: " + e.getMessage(), e);
    } catch (IOException | ParserConfigurationException e) {
      throw new IllegalStateException("reading from memory failed", e);
    }
  }

  private static DocumentBuilderFactory factory() throws ParserConfigurationException {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultNSInstance();
    factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
    factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
    return factory;
  }
}
