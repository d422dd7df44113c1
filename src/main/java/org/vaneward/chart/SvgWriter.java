package org.vaneward.chart;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.vaneward.io.Sha256;
import org.vaneward.io.Xml;

/** Writes a {@link Paper} as one SVG element. */
final class SvgWriter {
  private static final String SVG = "http://www.w3.org/2000/svg";
  private static final int ID_DIGITS = 10;

  private final StringBuilder out = new StringBuilder(16_384);

  private SvgWriter() {}

  static String write(Paper paper, String title, String alternative) {
    SvgCanvas canvas = new SvgCanvas();
    paper.chart().paint(canvas, paper.plotWidth(), paper.plotHeight());
    String plot = canvas.svg();
    SvgWriter text = new SvgWriter();
    paper.notes().forEach(text::note);
    String notes = text.out.toString();
    byte[] content = (title + alternative + plot + notes).getBytes(StandardCharsets.UTF_8);
    String id = "p" + Sha256.hex(content).substring(0, ID_DIGITS) + "-plot";
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

  // ---- text

  private void note(Note note) {
    if (note.veil()) {
      Note.Box box = note.box().grown(1);
      out.append("<rect x=\"").append(Decimals.text(box.left()));
      out.append("\" y=\"").append(Decimals.text(box.top()));
      out.append("\" width=\"").append(Decimals.text(box.right() - box.left()));
      out.append("\" height=\"").append(Decimals.text(box.bottom() - box.top()));
      out.append("\" fill=\"#fff\" fill-opacity=\"0.8\"/>");
    }
    Map<String, String> attributes = new TreeMap<>();
    attributes.put("x", Decimals.text(note.x()));
    attributes.put("y", Decimals.text(note.y()));
    attributes.put("font-size", Integer.toString(note.size()));
    attributes.put("fill", SvgCanvas.hex(note.colour()));
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
}
