package org.vaneward.chart;

import java.awt.Color;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.vaneward.io.Xml;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/**
 * Writes a {@link Paper} as one SVG element.
 *
 * <p>Batik records what XChart paints as a tree; of it only shapes, fills and strokes are kept.
 * XChart paints a curve as many two-point lines, each clipped by itself: those that touch are
 * joined to one path, so that dashes run through, and one clip serves the whole plot.
 */
final class SvgWriter {
  private static final String SVG = "http://www.w3.org/2000/svg";
  private static final int DECIMALS = 1;
  private static final Set<String> KEPT =
      Set.of(
          "fill",
          "fill-opacity",
          "stroke",
          "stroke-opacity",
          "stroke-width",
          "stroke-dasharray",
          "stroke-linecap",
          "stroke-linejoin");

  private final StringBuilder out = new StringBuilder(16_384);

  private SvgWriter() {}

  static String write(Paper paper, String title, String alternative) {
    SvgWriter inner = new SvgWriter();
    inner.plot(paint(paper));
    String plot = inner.out.toString();
    SvgWriter text = new SvgWriter();
    paper.notes().forEach(text::note);
    String notes = text.out.toString();
    String id = "p" + digest(title + alternative + plot + notes) + "-plot";
    return new SvgWriter().sheet(paper, id, title, alternative, plot, notes);
  }

  private String sheet(
      Paper paper, String id, String title, String alternative, String plot, String notes) {
    open(
        "svg",
        Map.of(
            "xmlns",
            SVG,
            "viewBox",
            "0 0 " + paper.width() + " " + paper.height(),
            "role",
            "img",
            "aria-label",
            alternative,
            "font-family",
            House.FONTS));
    element("title", title);
    out.append("<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>");
    Paper.Margins margins = paper.margins();
    out.append("<clipPath id=\"").append(id).append("\"><rect width=\"");
    out.append(paper.plotWidth()).append("\" height=\"").append(paper.plotHeight());
    out.append("\"/></clipPath>");
    out.append("<g transform=\"translate(").append(margins.left()).append(',');
    out.append(margins.top()).append(")\"><g clip-path=\"url(#").append(id).append(")\">");
    out.append(plot).append("</g></g>").append(notes).append("</svg>");
    return out.toString();
  }

  // ---- what XChart paints

  private static Element paint(Paper paper) {
    SVGGeneratorContext context = SVGGeneratorContext.createDefault(document());
    context.setPrecision(DECIMALS);
    SVGGraphics2D graphics = new SVGGraphics2D(context, false);
    paper.chart().paint(graphics, paper.plotWidth(), paper.plotHeight());
    return graphics.getRoot();
  }

  private static Document document() {
    try {
      return DocumentBuilderFactory.newDefaultInstance()
          .newDocumentBuilder()
          .getDOMImplementation()
          .createDocument(SVG, "svg", null);
    } catch (ParserConfigurationException e) {
      throw new IllegalStateException("the platform's own XML library gives no document", e);
    }
  }

  private void plot(Element root) {
    open("g", kept(root));
    groups(root);
    out.append("</g>");
  }

  private void groups(Element parent) {
    for (Node node = parent.getFirstChild(); node != null; node = node.getNextSibling()) {
      if (node instanceof Element && "g".equals(node.getNodeName())) {
        Element group = (Element) node;
        Map<String, String> style = kept(group);
        String shapes = shapes(group, style);
        if (!shapes.isEmpty()) {
          open("g", style);
          out.append(shapes).append("</g>");
        }
        groups(group);
      }
    }
  }

  private static String shapes(Element group, Map<String, String> style) {
    Shapes shapes = new Shapes();
    for (Node node = group.getFirstChild(); node != null; node = node.getNextSibling()) {
      if (node instanceof Element && !Set.of("g", "defs").contains(node.getNodeName())) {
        Element shape = (Element) node;
        Map<String, String> own = kept(shape);
        if (shows(own, style)) {
          shapes.add(shape, own);
        }
      }
    }
    return shapes.finish();
  }

  /** Batik lets a shape differ from its group in a few attributes. */
  private static boolean shows(Map<String, String> own, Map<String, String> group) {
    Map<String, String> style = new TreeMap<>(group);
    style.putAll(own);
    boolean filled = !"none".equals(style.get("fill"));
    return !"0".equals(style.get(filled ? "fill-opacity" : "stroke-opacity"));
  }

  private static Map<String, String> kept(Element element) {
    Map<String, String> kept = new TreeMap<>();
    for (int i = 0; i < element.getAttributes().getLength(); i++) {
      Node attribute = element.getAttributes().item(i);
      if (KEPT.contains(attribute.getNodeName())) {
        kept.put(attribute.getNodeName(), attribute.getNodeValue());
      }
    }
    return kept;
  }

  /** Shapes of one style, joined to paths where they are alike. */
  private static final class Shapes {
    private final StringBuilder written = new StringBuilder();
    private final StringBuilder path = new StringBuilder();
    private Map<String, String> style = Map.of();
    private String endX = "";
    private String endY = "";

    void add(Element shape, Map<String, String> own) {
      if (!own.equals(style)) {
        flush();
        style = own;
      }
      if ("line".equals(shape.getNodeName())) {
        line(shape);
      } else if ("path".equals(shape.getNodeName())) {
        path.append(shape.getAttribute("d").replace(" L", "L").replace(" Z", "Z"));
        endX = "";
      } else {
        flush();
        other(shape);
      }
    }

    private void line(Element line) {
      String startX = line.getAttribute("x1");
      String startY = line.getAttribute("y1");
      if (!(startX.equals(endX) && startY.equals(endY))) {
        path.append('M').append(startX).append(' ').append(startY);
      }
      endX = line.getAttribute("x2");
      endY = line.getAttribute("y2");
      path.append('L').append(endX).append(' ').append(endY);
    }

    private void other(Element shape) {
      written.append('<').append(shape.getNodeName());
      for (int i = 0; i < shape.getAttributes().getLength(); i++) {
        Node attribute = shape.getAttributes().item(i);
        if (!"clip-path".equals(attribute.getNodeName())) {
          written.append(' ').append(attribute.getNodeName()).append("=\"");
          written.append(escaped(attribute.getNodeValue())).append('"');
        }
      }
      written.append("/>");
    }

    String finish() {
      flush();
      return written.toString();
    }

    private void flush() {
      if (path.length() > 0) {
        written.append("<path d=\"").append(path).append('"');
        style.forEach((key, value) -> written.append(' ' + key + "=\"" + escaped(value) + '"'));
        written.append("/>");
      }
      path.setLength(0);
      endX = "";
      endY = "";
    }
  }

  // ---- text

  private void note(Note note) {
    if (note.veil()) {
      Note.Box box = note.box().grown(1);
      out.append("<rect x=\"").append(pixels(box.left()));
      out.append("\" y=\"").append(pixels(box.top()));
      out.append("\" width=\"").append(pixels(box.right() - box.left()));
      out.append("\" height=\"").append(pixels(box.bottom() - box.top()));
      out.append("\" fill=\"#fff\" fill-opacity=\"0.8\"/>");
    }
    Map<String, String> attributes = new TreeMap<>();
    attributes.put("x", pixels(note.x()));
    attributes.put("y", pixels(note.y()));
    attributes.put("font-size", Integer.toString(note.size()));
    attributes.put("fill", colour(note.colour()));
    if (note.anchor() != Note.Anchor.START) {
      attributes.put("text-anchor", note.anchor().svg);
    }
    if (note.bold()) {
      attributes.put("font-weight", "bold");
    }
    open("text", attributes);
    out.append(escaped(note.text())).append("</text>");
  }

  // ---- XML

  private void open(String name, Map<String, String> attributes) {
    out.append('<').append(name);
    new TreeMap<>(attributes)
        .forEach((key, value) -> out.append(' ' + key + "=\"" + escaped(value) + '"'));
    out.append('>');
  }

  private void element(String name, String text) {
    out.append('<').append(name).append('>').append(escaped(text));
    out.append("</").append(name).append('>');
  }

  private static String pixels(double value) {
    String text = String.format(Locale.ROOT, "%.1f", value);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }

  private static String colour(Color colour) {
    return String.format(Locale.ROOT, "#%06x", colour.getRGB() & 0xffffff);
  }

  /** Text for content and for attributes; what XML 1.0 cannot hold becomes U+FFFD. */
  static String escaped(String text) {
    StringBuilder result = new StringBuilder(text.length() + 16);
    text.codePoints()
        .forEach(
            c -> {
              int entity = "&<>\"'".indexOf(c);
              if (entity >= 0) {
                result.append(ENTITIES.get(entity));
              } else {
                result.appendCodePoint(Xml.holds(c) ? c : 0xFFFD);
              }
            });
    return result.toString();
  }

  private static final List<String> ENTITIES = List.of("&amp;", "&lt;", "&gt;", "&quot;", "&#39;");

  private static String digest(String content) {
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256").digest(content.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(hash, 0, 5);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
