package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.SAXException;

/** What holds for every kind of picture. */
class EveryPictureTest {
  private static final int MOST_BYTES = 60_000;

  @Test
  void isAWellFormedFragmentThatScales() throws Exception {
    for (Picture picture : Samples.all(Samples.EVIL)) {
      assertTrue(picture.svg().startsWith("<svg "), picture.title());
      assertFalse(picture.svg().contains("<!DOCTYPE"), picture.title());
      Element root = parse(picture.svg()).getDocumentElement();
      assertEquals("http://www.w3.org/2000/svg", root.getNamespaceURI());
      assertTrue(root.getAttribute("viewBox").startsWith("0 0 640 "), picture.title());
      assertEquals("", root.getAttribute("width"));
      assertEquals("", root.getAttribute("height"));
    }
  }

  @Test
  void saysInWordsWhatItShows() throws Exception {
    for (Picture picture : Samples.all("petrol")) {
      Element root = parse(picture.svg()).getDocumentElement();
      assertEquals("img", root.getAttribute("role"));
      assertEquals(picture.alternative(), root.getAttribute("aria-label"));
      assertEquals(picture.title(), root.getElementsByTagName("title").item(0).getTextContent());
      assertTrue(picture.alternative().length() > 40, picture.alternative());
      assertTrue(picture.alternative().endsWith("."), picture.alternative());
      assertFalse(picture.rows().isEmpty(), picture.title());
    }
  }

  @Test
  void writesTextAsText() throws Exception {
    for (Picture picture : Samples.all("petrol")) {
      Document document = parse(picture.svg());
      assertTrue(texts(document).size() >= 5, () -> picture.title() + texts(document));
    }
  }

  @Test
  void namesFromRecordsStayText() throws Exception {
    for (Picture picture : Samples.all(Samples.EVIL)) {
      assertFalse(picture.svg().contains("<script"), picture.title());
      Document document = parse(picture.svg());
      assertEquals(0, document.getElementsByTagName("script").getLength());
      assertTrue(
          texts(document).stream().anyMatch(text -> text.contains("P-<scr")),
          () -> picture.title() + texts(document));
    }
  }

  @Test
  void idsAreUniqueOnAPageAndClipsFindTheirs() throws Exception {
    HashSet<String> ids = new HashSet<>();
    for (Picture picture : Samples.all("petrol")) {
      NodeList elements = parse(picture.svg()).getElementsByTagName("*");
      List<String> own = new ArrayList<>();
      for (int i = 0; i < elements.getLength(); i++) {
        Element element = (Element) elements.item(i);
        if (element.hasAttribute("id")) {
          own.add(element.getAttribute("id"));
          assertTrue(ids.add(element.getAttribute("id")), picture.title());
        }
        if (element.hasAttribute("clip-path")) {
          String clip = element.getAttribute("clip-path");
          assertTrue(own.contains(clip.substring(5, clip.length() - 1)), clip);
        }
      }
      assertEquals(1, own.size(), picture.title());
    }
  }

  @Test
  void isSmall() {
    List<Picture> pictures = new ArrayList<>(Samples.all("petrol"));
    List<FleetStrip.Row> many = new ArrayList<>();
    for (int i = 0; i < FleetStrip.MOST_ROWS; i++) {
      FleetStrip.Row row = Samples.rows("P-1").get(1);
      many.add(
          new FleetStrip.Row(
              "P-" + i, row.due(), row.window(), row.mandated(), row.hoursSinceRebuild()));
    }
    pictures.add(FleetStrip.draw("Many", many, Samples.TODAY, Samples.HORIZON, AgeUnit.HOURS));
    pictures.add(
        ProbabilityPlot.draw("Many", List.of(Samples.group("petrol", Samples.LIFE, 5000))));
    for (Picture picture : pictures) {
      int bytes = picture.svg().getBytes(StandardCharsets.UTF_8).length;
      assertTrue(bytes < MOST_BYTES, picture.title() + ": " + bytes);
    }
  }

  @Test
  void isTheSameAgainAndInAnyLocaleAndZone() {
    Locale locale = Locale.getDefault();
    TimeZone zone = TimeZone.getDefault();
    List<Picture> before = Samples.all("petrol");
    try {
      Locale.setDefault(Locale.GERMANY);
      TimeZone.setDefault(TimeZone.getTimeZone("America/St_Johns"));
      assertEquals(before, Samples.all("petrol"));
    } finally {
      Locale.setDefault(locale);
      TimeZone.setDefault(zone);
    }
    assertEquals(before, Samples.all("petrol"));
  }

  @Test
  void coordinatesHaveOneDecimalAtMost() {
    for (Picture picture : Samples.all("petrol")) {
      Matcher path = Pattern.compile(" d=\"([^\"]*)\"").matcher(picture.svg());
      int paths = 0;
      while (path.find()) {
        paths++;
        assertFalse(Pattern.compile("\\.[0-9]{2}").matcher(path.group(1)).find(), path.group(1));
      }
      assertTrue(paths > 0, picture.title());
    }
  }

  static List<String> texts(Document document) {
    NodeList elements = document.getElementsByTagName("text");
    List<String> texts = new ArrayList<>();
    for (int i = 0; i < elements.getLength(); i++) {
      Node element = elements.item(i);
      texts.add(element.getTextContent());
    }
    return texts;
  }

  static Document parse(String svg) throws ParserConfigurationException, SAXException, IOException {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
    factory.setNamespaceAware(true);
    return factory
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
  }
}
