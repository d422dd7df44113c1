package org.vaneward.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.vaneward.io.Typeface;
import org.vaneward.io.Xml;
import org.vaneward.report.ColumnWidths.Column;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.w3c.dom.Text;

/**
 * The page's own content laid out on A4, as formatting objects (W3C, Extensible Stylesheet Language
 * 1.1). What is on the page is on paper, but for what only a screen can do and the data behind the
 * pictures; so a figure cannot differ between the two.
 */
final class PrintedReport {
  private static final String FO = "http://www.w3.org/1999/XSL/Format";
  private static final String FOX = "http://xmlgraphics.apache.org/fop/extensions";

  /** Between the margins of a sheet, in points: 210 mm less twice 13 mm. */
  private static final double ROOM = 184 / 25.4 * 72;

  private static final String QUIET = "#57606a";
  private static final String LINE = "#d0d7de";
  private static final String INK = "#1b1f24";
  private static final String WARNING = "#8a3b00";
  private static final double GAP = 10;

  /**
   * Shares of the room: the answer beside its cautions, a picture beside its caption, a wide one.
   */
  private static final double ANSWER = 0.62;

  private static final double PICTURE = 0.7;
  private static final double WIDE = 0.86;

  private static final Set<String> LEFT_OUT = Set.of("script", "noscript", "form", "nav");

  /** In these a blank between two elements is a blank between two words. */
  private static final Set<String> RUNNING = Set.of("p", "li", "dd", "figcaption");

  /** No word of a language; a tag or a digest. */
  private static final Pattern LENGTHY = Pattern.compile("\\S{31,}");

  private static final Pattern LETTER = Pattern.compile("\\X");

  private static final Set<String> ONE_LINE = Set.of("number", "date", "tag");

  private final Document paper = Xml.empty();
  private final List<Element> headings = new ArrayList<>();

  private PrintedReport() {}

  /**
   * The formatting objects.
   *
   * @param main the content, well-formed, from {@code main} on
   * @param fleet for the head of each sheet
   * @param asOf day of record, ISO
   */
  static Document of(String main, String fleet, String asOf) {
    return new PrintedReport().document(Xml.document(main).getDocumentElement(), fleet, asOf);
  }

  // ---- sheets

  private Document document(Element main, String fleet, String asOf) {
    gatherHeadings(main);
    Element root = paper.createElementNS(FO, "fo:root");
    root.setAttributeNS("http://www.w3.org/2000/xmlns/", "xmlns:fox", FOX);
    set(
        root,
        Map.of("font-family", Typeface.family(), "font-size", "8.6pt", "line-height", "1.35"));
    set(root, Map.of("color", INK, "xml:lang", "en"));
    paper.appendChild(root);
    Element master =
        add(add(root, "layout-master-set"), "simple-page-master", Map.of("master-name", "A4"));
    set(
        master,
        Map.of("page-width", "210mm", "page-height", "297mm", "margin", "9mm 13mm 8mm 13mm"));
    add(master, "region-body", Map.of("margin", "9mm 0mm 8mm 0mm"));
    add(master, "region-before", Map.of("extent", "6mm"));
    add(master, "region-after", Map.of("extent", "5mm"));
    bookmarks(add(root, "bookmark-tree"));
    Element sequence = add(root, "page-sequence", Map.of("master-reference", "A4", "id", "all"));
    head(sequence, fleet, "Records up to " + asOf);
    foot(sequence);
    Element flow = add(sequence, "flow", Map.of("flow-name", "xsl-region-body"));
    children(main, flow);
    return paper;
  }

  private void gatherHeadings(Element main) {
    NodeList found = main.getElementsByTagName("h2");
    for (int i = 0; i < found.getLength(); i++) {
      Element heading = (Element) found.item(i);
      if (!heading.getAttribute("id").equals("cautions")) {
        headings.add(heading);
      }
    }
  }

  private void bookmarks(Element tree) {
    for (Element heading : headings) {
      Element mark =
          add(tree, "bookmark", Map.of("internal-destination", heading.getAttribute("id")));
      text(add(mark, "bookmark-title"), heading.getTextContent());
    }
  }

  private void head(Element sequence, String left, String right) {
    Element region = add(sequence, "static-content", Map.of("flow-name", "xsl-region-before"));
    Element line =
        add(region, "block", Map.of("font-size", "8pt", "border-bottom", "0.8pt solid " + INK));
    set(line, Map.of("text-align-last", "justify", "padding-bottom", "1.2mm"));
    text(add(line, "inline", Map.of("font-weight", "bold")), left);
    add(line, "leader", Map.of("leader-pattern", "space"));
    text(line, right);
  }

  private void foot(Element sequence) {
    Element region = add(sequence, "static-content", Map.of("flow-name", "xsl-region-after"));
    Element line = add(region, "block", Map.of("font-size", "7pt", "color", QUIET));
    set(line, Map.of("text-align-last", "justify"));
    text(
        line,
        "Statistics from past records, no permit: local codes, the maker's manual and licensed practice come first.");
    add(line, "leader", Map.of("leader-pattern", "space"));
    text(line, "Page ");
    add(line, "page-number");
    text(line, " of ");
    add(line, "page-number-citation-last", Map.of("ref-id", "all"));
  }

  private void contents(Element into) {
    Element block =
        block(into, Map.of("space-before", "5mm", "keep-together.within-page", "always"));
    text(
        add(block, "block", Map.of("font-weight", "bold", "font-size", "10.5pt")),
        "In this report");
    for (Element heading : headings) {
      Element line = add(block, "block", Map.of("text-align-last", "justify"));
      Element link =
          add(line, "basic-link", Map.of("internal-destination", heading.getAttribute("id")));
      text(link, heading.getTextContent() + " ");
      add(link, "leader", Map.of("leader-pattern", "dots", "color", QUIET));
      text(link, " ");
      add(link, "page-number-citation", Map.of("ref-id", heading.getAttribute("id")));
    }
  }

  // ---- what stands on the page

  private void children(Element from, Element into) {
    for (Node node = from.getFirstChild(); node != null; node = node.getNextSibling()) {
      if (node instanceof Element element) {
        element(element, into);
      } else if (node instanceof Text words
          && (RUNNING.contains(from.getTagName()) || !words.getData().isBlank())) {
        text(into, breakable(words.getData()));
      }
    }
  }

  /** A place to break after each letter of words no line may have room for. */
  private static String breakable(String text) {
    return LENGTHY
        .matcher(text)
        .replaceAll(
            word -> Matcher.quoteReplacement(LETTER.matcher(word.group()).replaceAll("$0\u200B")));
  }

  private void element(Element from, Element into) {
    String name = from.getTagName();
    if (LEFT_OUT.contains(name) || is(from, "data")) {
      return;
    }
    switch (name) {
      case "section" -> section(from, into);
      case "aside" -> cautions(from, into);
      case "h1" -> heading(from, into, "15pt", "0mm");
      case "h2" -> heading(from, into, "13pt", "6mm");
      case "h3" -> heading(from, into, "10.5pt", "4mm");
      case "summary" -> heading(from, into, "8.6pt", "3mm");
      case "p" -> paragraph(from, into);
      case "ul", "ol" -> list(from, into);
      case "dl" -> statements(from, into);
      case "table" -> table(from, into);
      case "strong" -> children(from, add(into, "inline", Map.of("font-weight", "bold")));
      case "span", "a", "code" -> children(from, add(into, "inline"));
      case "details" -> children(from, into);
      case "div" -> division(from, into);
      default ->
          throw new IllegalArgumentException("the printed report has no way to set <" + name + ">");
    }
  }

  private void section(Element from, Element into) {
    if (is(from, "first")) {
      List<Element> parts = children(from);
      List<Element> cells = row(List.of(ANSWER * ROOM, (1 - ANSWER) * ROOM), into);
      for (int i = 0; i < cells.size(); i++) {
        element(parts.get(i), cells.get(i));
      }
      return;
    }
    if (is(from, "newpage") && isFirst(from, "newpage")) {
      contents(into);
    }
    Element block = block(into, Map.of());
    if (is(from, "newpage")) {
      block.setAttribute("break-before", "page");
    }
    children(from, block);
  }

  private void division(Element from, Element into) {
    if (is(from, "pictures")) {
      boolean wide = is(from, "wide") || is(from, "one");
      children(from).forEach(figure -> figure(figure, wide, into));
    } else {
      children(from, block(into, Map.of()));
    }
  }

  /** Cells beside each other that stay on one sheet if they can. */
  private List<Element> row(List<Double> widths, Element into) {
    Element table = add(into, "table", Map.of("table-layout", "fixed", "width", points(ROOM)));
    widths.forEach(width -> add(table, "table-column", Map.of("column-width", points(width))));
    Element row =
        add(add(table, "table-body"), "table-row", Map.of("keep-together.within-page", "100"));
    return widths.stream().map(width -> add(row, "table-cell")).toList();
  }

  private void cautions(Element from, Element into) {
    Element box =
        block(into, Map.of("border", "0.6pt solid #e5c59c", "border-left", "3pt solid " + WARNING));
    set(box, Map.of("background-color", "#fff6ec", "padding", "1.5mm 2mm", "font-size", "7.8pt"));
    set(box, Map.of("margin-left", "4mm", "margin-right", "2.5mm"));
    children(from, box);
  }

  private void heading(Element from, Element into, String size, String before) {
    boolean inBox = from.getAttribute("id").equals("cautions");
    Element block = block(into, Map.of("font-weight", "bold", "line-height", "1.2"));
    set(block, Map.of("font-size", inBox ? "9.5pt" : size, "space-before", inBox ? "0mm" : before));
    set(block, Map.of("space-after", "1.5mm", "keep-with-next.within-page", "always"));
    if (inBox) {
      block.setAttribute("color", WARNING);
    }
    if (from.hasAttribute("id")) {
      block.setAttribute("id", from.getAttribute("id"));
    }
    children(from, block);
  }

  private void paragraph(Element from, Element into) {
    Element block = block(into, Map.of("space-after", "1.5mm", "orphans", "2", "widows", "2"));
    if (is(from, "none") || is(from, "remark")) {
      block.setAttribute("color", QUIET);
    }
    children(from, block);
  }

  private void list(Element from, Element into) {
    if (is(from, "inline")) {
      Element line = block(into, Map.of("space-after", "1.5mm"));
      text(
          line,
          String.join(
              " · ",
              children(from).stream().map(Element::getTextContent).map(String::strip).toList()));
      return;
    }
    if (children(from).isEmpty()) {
      return;
    }
    boolean numbered = from.getTagName().equals("ol");
    boolean bare = is(from, "weeks");
    String indent = numbered ? "7mm" : bare ? "0mm" : "4mm";
    Element list = add(into, "list-block", Map.of("provisional-distance-between-starts", indent));
    set(list, Map.of("provisional-label-separation", "1mm", "space-after", "1.5mm"));
    int number = 0;
    for (Element item : children(from)) {
      number++;
      String label = numbered ? number + "." : bare ? "" : "•";
      children(item, add(item(list, label, Map.of()), "block"));
    }
  }

  /** An item of a list; what it says goes into the element returned. */
  private Element item(Element list, String label, Map<String, String> style) {
    Element item = add(list, "list-item", Map.of("space-after", "0.8mm"));
    set(item, style);
    Element labelled = add(item, "list-item-label", Map.of("end-indent", "label-end()"));
    text(add(labelled, "block", Map.of("color", QUIET)), label);
    return add(item, "list-item-body", Map.of("start-indent", "body-start()"));
  }

  private void statements(Element from, Element into) {
    if (is(from, "methods")) {
      for (Element statement : children(from)) {
        Element block =
            block(into, Map.of("space-after", "1.8mm", "keep-together.within-page", "100"));
        List<Element> parts = children(statement);
        children(parts.get(0), add(block, "block", Map.of("font-weight", "bold")));
        children(parts.get(1), add(block, "block"));
      }
      return;
    }
    if (children(from).isEmpty()) {
      return;
    }
    Element list = add(into, "list-block", Map.of("provisional-distance-between-starts", "24mm"));
    list.setAttribute("provisional-label-separation", "2mm");
    for (Element statement : children(from)) {
      List<Element> parts = children(statement);
      Element body =
          item(
              list,
              parts.get(0).getTextContent(),
              Map.of("border-top", "0.5pt solid " + LINE, "padding-top", "1mm"));
      for (Element part : children(parts.get(1))) {
        children(
            part,
            add(
                body,
                "block",
                part.getTagName().equals("strong")
                    ? Map.of("font-weight", "bold")
                    : Map.of("color", QUIET)));
      }
    }
  }

  // ---- pictures

  /** A wide picture stands above its caption, others beside it: letters keep a size to be read. */
  private void figure(Element from, boolean wide, Element into) {
    Element block = block(into, Map.of("keep-together.within-page", "100", "space-after", "4mm"));
    Element drawn = first(from, "svg");
    Element caption = first(from, "figcaption");
    if (wide) {
      picture(drawn, WIDE * ROOM, block);
      caption(caption, block);
    } else {
      List<Element> cells = row(List.of(PICTURE * ROOM, (1 - PICTURE) * ROOM), block);
      picture(drawn, PICTURE * ROOM - GAP, cells.get(0));
      caption(caption, cells.get(1));
    }
  }

  private void picture(Element svg, double width, Element into) {
    Element frame = add(block(into, Map.of("line-height", "1")), "instream-foreign-object");
    set(frame, Map.of("content-width", points(width), "scaling", "uniform"));
    frame.setAttributeNS(FOX, "fox:alt-text", svg.getAttribute("aria-label"));
    Element picture = (Element) paper.importNode(svg, true);
    List<String> box = List.of(svg.getAttribute("viewBox").split(" ", -1));
    set(picture, Map.of("width", box.get(2), "height", box.get(3)));
    picture.setAttribute("font-family", Typeface.family());
    frame.appendChild(picture);
  }

  private void caption(Element from, Element into) {
    children(from, block(into, Map.of("font-size", "7.2pt", "color", QUIET)));
  }

  // ---- tables

  private void table(Element from, Element into) {
    Element caption = first(from, "caption");
    List<Element> heads = children(first(first(from, "thead"), "tr"));
    List<List<Element>> rows =
        children(first(from, "tbody")).stream().map(PrintedReport::children).toList();
    ColumnWidths widths = widths(heads, rows);
    Element said = block(into, Map.of("color", QUIET, "font-size", "7.5pt", "space-before", "2mm"));
    set(said, Map.of("space-after", "0.8mm", "keep-with-next.within-page", "always"));
    children(caption, said);
    Element table = add(into, "table", Map.of("table-layout", "fixed", "width", points(ROOM)));
    set(
        table,
        Map.of("font-size", points(widths.size()), "line-height", "1.2", "space-after", "3mm"));
    for (int c = 0; c < heads.size(); c++) {
      add(table, "table-column", Map.of("column-width", points(widths.width(c))));
    }
    Element header =
        add(add(table, "table-header"), "table-row", Map.of("border-bottom", "0.9pt solid " + INK));
    cells(heads, widths, header, true);
    Element body = add(table, "table-body");
    for (List<Element> row : rows) {
      Element line = add(body, "table-row", Map.of("border-bottom", "0.4pt solid " + LINE));
      line.setAttribute("keep-together.within-page", "100");
      cells(row, widths, line, false);
    }
  }

  private ColumnWidths widths(List<Element> heads, List<List<Element>> rows) {
    List<Column> columns = new ArrayList<>();
    for (int c = 0; c < heads.size(); c++) {
      int column = c;
      columns.add(
          new Column(
              heads.get(c).getTextContent(),
              rows.stream().map(row -> row.get(column).getTextContent()).toList(),
              ONE_LINE.contains(heads.get(c).getAttribute("class")),
              heads.get(c).getAttribute("class").equals("sentence")));
    }
    return ColumnWidths.of(columns, ROOM);
  }

  private void cells(List<Element> from, ColumnWidths widths, Element row, boolean bold) {
    for (int c = 0; c < from.size(); c++) {
      String kind = from.get(c).getAttribute("class");
      boolean heavy = bold || kind.equals("tag");
      String words = from.get(c).getTextContent();
      Map<String, String> style = new LinkedHashMap<>();
      style.put("padding", "0.7mm " + points(ColumnWidths.PADDING / 2));
      style.put("text-align", kind.equals("number") ? "end" : "start");
      style.put("display-align", bold ? "after" : "before");
      Element block = add(add(row, "table-cell", style), "block");
      if (heavy) {
        block.setAttribute("font-weight", "bold");
      }
      if (ONE_LINE.contains(kind) && widths.fits(words, c, heavy)) {
        block.setAttribute("wrap-option", "no-wrap");
      }
      text(block, widths.breakable(words, c, heavy));
    }
  }

  // ---- elements

  private static List<Element> children(Element parent) {
    List<Element> children = new ArrayList<>();
    for (Node node = parent.getFirstChild(); node != null; node = node.getNextSibling()) {
      if (node instanceof Element element) {
        children.add(element);
      }
    }
    return children;
  }

  private static Element first(Element parent, String name) {
    return children(parent).stream()
        .filter(child -> child.getTagName().equals(name))
        .findFirst()
        .orElseThrow(
            () -> new IllegalArgumentException("<" + parent.getTagName() + "> without " + name));
  }

  private static boolean is(Element element, String style) {
    return List.of(element.getAttribute("class").split(" ")).contains(style);
  }

  /** Whether no element before it among its siblings has the style. */
  private static boolean isFirst(Element element, String style) {
    for (Node node = element.getPreviousSibling(); node != null; node = node.getPreviousSibling()) {
      if (node instanceof Element before && is(before, style)) {
        return false;
      }
    }
    return true;
  }

  private Element block(Element into, Map<String, String> style) {
    return add(into, "block", style);
  }

  private Element add(Element into, String name) {
    return add(into, name, Map.of());
  }

  private Element add(Element into, String name, Map<String, String> style) {
    Element element = paper.createElementNS(FO, "fo:" + name);
    set(element, style);
    into.appendChild(element);
    return element;
  }

  private static void set(Element element, Map<String, String> style) {
    style.forEach(element::setAttribute);
  }

  private void text(Element into, String words) {
    into.appendChild(paper.createTextNode(words));
  }

  private static String points(double length) {
    return String.format(Locale.ROOT, "%.2fpt", length);
  }
}
