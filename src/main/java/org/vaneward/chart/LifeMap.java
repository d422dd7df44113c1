package org.vaneward.chart;

import java.awt.Color;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/**
 * How long parts last where: a row for each product, a column for each component, in each cell the
 * age with its limits on a ground that is darker the shorter the life. Cells that rest on little of
 * their own are marked; where nothing is known the cell is empty.
 */
public final class LifeMap {
  /** More products than this are too many for one picture. */
  public static final int MOST_PRODUCTS = 30;

  /** More components than this are too many for one picture. */
  public static final int MOST_COMPONENTS = 9;

  private static final int LINE = 17;
  private static final int TINY = 9;
  private static final int RIGHT = 10;
  private static final int HEAD_LINE = 13;
  private static final int MOST_HEAD_LINES = 3;
  private static final double TALL = 2;
  private static final double FLAT = 1.3;

  /** Ages that differ by no more than this share have one shade. */
  private static final double ALIKE = 0.1;

  /** What the age of a cell rests on. */
  public enum Basis {
    /** Enough failures in that service. */
    OWN("", "its own failures"),
    /** Few failures in that service. */
    FEW("*", "few failures"),
    /** Failures in other services too. */
    OTHERS("†", "other services too");

    private final String mark;
    private final String words;

    Basis(String mark, String words) {
      this.mark = mark;
      this.words = words;
    }
  }

  /**
   * The life of one component on one product.
   *
   * @param product one of the rows
   * @param component one of the columns
   * @param age the age, positive
   * @param lower lower limit of that, at most {@code age}
   * @param upper upper limit of that, at least {@code age}; infinite where there is none
   * @param basis what it rests on
   */
  public record Cell(
      String product, String component, double age, double lower, double upper, Basis basis) {
    /**
     * A cell.
     *
     * @throws IllegalArgumentException when a value is outside its domain
     */
    public Cell {
      Guard.positive("an age", age);
      Guard.notNegative("a lower limit", lower);
      if (!(lower <= age && age <= upper)) {
        throw new IllegalArgumentException(
            "limits hold the age " + age + ", not so " + lower + " to " + upper);
      }
    }

    boolean at(String row, String column) {
      return product.equals(row) && component.equals(column);
    }

    String marked() {
      return Words.plain(Math.rint(age)) + basis.mark;
    }

    String limits() {
      String from = Words.plain(Math.rint(lower));
      return Double.isInfinite(upper)
          ? from + " or more"
          : from + " to " + Words.plain(Math.rint(upper));
    }
  }

  /**
   * What is drawn.
   *
   * @param measure which age, in words, such as {@code age by which half have failed}
   * @param products rows from top to bottom
   * @param components columns from left to right
   * @param cells at most one for each row and column, at least one
   * @param confidence confidence of the limits, in (0, 1)
   * @param unit what ages are counted in
   */
  public record Input(
      String measure,
      List<String> products,
      List<String> components,
      List<Cell> cells,
      double confidence,
      AgeUnit unit) {
    /**
     * An input.
     *
     * @throws IllegalArgumentException when there is nothing to draw or too much, a name repeats,
     *     or a cell has no row or column or not one of its own
     */
    public Input {
      products = List.copyOf(products);
      components = List.copyOf(components);
      cells = List.copyOf(cells);
      checkNames("products", products, MOST_PRODUCTS);
      checkNames("components", components, MOST_COMPONENTS);
      Guard.notEmpty("cells", cells);
      Guard.share("a confidence", confidence);
      for (Cell cell : cells) {
        if (!products.contains(cell.product()) || !components.contains(cell.component())) {
          throw new IllegalArgumentException(
              "no row and column for " + cell.component() + " on " + cell.product());
        }
      }
      Guard.distinct("cells", cells.stream().map(LifeMap::name).toList());
    }

    Optional<Cell> cell(String product, String component) {
      return cells.stream().filter(cell -> cell.at(product, component)).findFirst();
    }

    boolean has(Basis basis) {
      return cells.stream().anyMatch(cell -> cell.basis() == basis);
    }

    int unknown() {
      return products.size() * components.size() - cells.size();
    }
  }

  private LifeMap() {}

  private static void checkNames(String what, List<String> names, int most) {
    Guard.notEmpty(what, names);
    Guard.distinct(what, names);
    if (names.size() > most) {
      throw new IllegalArgumentException(
          "at most " + most + " " + what + " fit one picture, not " + names.size());
    }
  }

  private static String name(Cell cell) {
    return cell.component() + " on " + cell.product();
  }

  /** Draws the map. */
  public static Picture draw(String title, Input input) {
    return paper(input)
        .picture(
            title,
            inWords(input),
            List.of(
                "product",
                "component",
                input.measure() + ", " + input.unit().symbol(),
                "lower limit",
                "upper limit",
                "rests on"),
            table(input));
  }

  static Paper paper(Input input) {
    int n = input.products().size();
    int left = left(input);
    double wide = (double) (House.WIDTH - left - RIGHT) / input.components().size();
    int headSize = headSize(input, wide);
    List<List<String>> heads =
        input.components().stream()
            .map(c -> Words.lines(c, headSize, wide - 4, MOST_HEAD_LINES))
            .toList();
    int headLines = heads.stream().mapToInt(List::size).max().orElse(1);
    boolean limits = limitsFit(input, wide);
    double row = limits ? TALL : FLAT;
    MarkKey key = new MarkKey(key(input), House.WIDTH - left - RIGHT);
    double units = row * n + 0.5 + key.height();
    int top = 36 + HEAD_LINE * headLines;
    Paper paper =
        new Paper(
            House.WIDTH,
            top + (int) Math.ceil(LINE * units) + 6,
            new Paper.Margins(top, RIGHT, 6, left),
            new Range(0, input.components().size()),
            new Range(-0.5 - key.height(), row * n));
    grounds(paper, input, row);
    rules(paper, input.components().size(), n, row);
    texts(paper, input, row, limits);
    heads(paper, heads, headSize);
    key.draw(paper, -0.5);
    heading(paper, input, limits);
    return paper;
  }

  private static int left(Input input) {
    double widest =
        input.products().stream().mapToDouble(p -> Words.width(p, House.SMALL)).max().orElse(0);
    double most = Math.max(150, Math.min(230, House.WIDTH - 100.0 * input.components().size()));
    return (int) Math.max(60, Math.min(most, Math.ceil(widest) + 16));
  }

  /** Small enough that no word of a heading is cut, where that can be. */
  private static int headSize(Input input, double wide) {
    List<String> words =
        input.components().stream()
            .flatMap(component -> Words.pieces(component).stream())
            .map(String::stripTrailing)
            .toList();
    return Words.largest(words, wide - 4, House.SMALL, TINY);
  }

  private static boolean limitsFit(Input input, double wide) {
    return input.cells().stream().allMatch(cell -> Words.width(cell.limits(), TINY) <= wide - 4);
  }

  private static void heading(Paper paper, Input input, boolean limits) {
    String below = limits ? "; below, " + Words.percent(input.confidence()) + " limits" : "";
    String text = input.measure() + ", " + input.unit().words() + below;
    String cut = Words.fit(text, House.TEXT, House.WIDTH - 16.0);
    paper.note(Note.at(8, 20, Note.Anchor.START, cut, House.INK, House.TEXT));
  }

  private static void heads(Paper paper, List<List<String>> heads, int size) {
    for (int column = 0; column < heads.size(); column++) {
      List<String> lines = heads.get(column);
      double base = paper.margins().top() - 7.0 - HEAD_LINE * (lines.size() - 1);
      for (int i = 0; i < lines.size(); i++) {
        paper.note(
            Note.at(
                paper.px(column + 0.5),
                base + HEAD_LINE * i,
                Note.Anchor.MIDDLE,
                lines.get(i),
                House.INK,
                size));
      }
    }
  }

  // ---- shades

  /** Round ages at which the shade changes, ascending; evenly spaced in ratio. */
  private static List<Double> bounds(Input input) {
    double least = input.cells().stream().mapToDouble(Cell::age).min().orElse(1);
    double most = input.cells().stream().mapToDouble(Cell::age).max().orElse(1);
    TreeSet<Double> bounds = new TreeSet<>();
    int shades = Shades.LIGHT_TO_DARK.size();
    if (most > least * (1 + ALIKE)) {
      for (int i = 1; i < shades; i++) {
        double bound = round(least * Math.pow(most / least, (double) i / shades));
        // a shade that no age can have explains nothing
        if (bound > least && bound <= most) {
          bounds.add(bound);
        }
      }
    }
    return List.copyOf(bounds);
  }

  /** To two digits. */
  private static double round(double age) {
    double digit = Math.pow(10, Math.floor(Math.log10(age)) - 1);
    return digit < 1
        ? Math.rint(age / digit) / Math.rint(1 / digit)
        : Math.rint(age / digit) * digit;
  }

  /** Which shade an age has, 0 for the shortest. */
  private static int step(List<Double> bounds, double age) {
    return (int) bounds.stream().filter(bound -> age >= bound).count();
  }

  /** The shade of a step: darkest for the shortest lives, lightest for the longest. */
  private static Shades.Shade shade(int step, int bounds) {
    int last = Shades.LIGHT_TO_DARK.size() - 1;
    int from = bounds == 0 ? 1 : (int) Math.rint((double) last * (bounds - step) / bounds);
    return Shades.LIGHT_TO_DARK.get(from);
  }

  private static void grounds(Paper paper, Input input, double row) {
    List<Double> bounds = bounds(input);
    for (int step = 0; step <= bounds.size(); step++) {
      List<Paper.Block> blocks = new ArrayList<>();
      for (Cell cell : input.cells()) {
        if (step(bounds, cell.age()) == step) {
          int column = input.components().indexOf(cell.component());
          blocks.add(new Paper.Block(new Range(column, column + 1.0), level(input, cell, row)));
        }
      }
      if (!blocks.isEmpty()) {
        Color fill = shade(step, bounds.size()).fill();
        paper.blocks("shade " + step, blocks, row * LINE, fill);
      }
    }
  }

  private static double level(Input input, Cell cell, double row) {
    int index = input.products().indexOf(cell.product());
    return row * (input.products().size() - index - 0.5);
  }

  /** White gaps between cells, and a frame that shows where the empty ones are. */
  private static void rules(Paper paper, int columns, int rows, double row) {
    for (int i = 0; i <= columns; i++) {
      double[] up = {0, row * rows};
      rule(paper, "column " + i, new double[] {i, i}, up);
    }
    for (int i = 0; i <= rows; i++) {
      double[] level = {row * i, row * i};
      rule(paper, "row " + i, new double[] {0, columns}, level);
    }
  }

  private static void rule(Paper paper, String name, double[] xs, double[] ys) {
    paper.line(name, xs, ys, Color.WHITE, House.HEAVY);
    paper.line(name + " frame", xs, ys, House.GRID, House.HAIR);
  }

  // ---- text

  private static void texts(Paper paper, Input input, double row, boolean limits) {
    int n = input.products().size();
    for (int i = 0; i < n; i++) {
      paper.labelY(row * (n - i - 0.5), input.products().get(i), House.INK);
    }
    List<Double> bounds = bounds(input);
    double wide = paper.plotWidth() / paper.x().length();
    int size =
        Words.largest(
            input.cells().stream().map(Cell::marked).toList(), wide - 4, House.TEXT, TINY);
    for (Cell cell : input.cells()) {
      Color ink = shade(step(bounds, cell.age()), bounds.size()).ink();
      double x = paper.px(input.components().indexOf(cell.component()) + 0.5);
      double middle = paper.py(level(input, cell, row));
      double base = middle + (limits ? -1 : 4);
      paper.note(Note.at(x, base, Note.Anchor.MIDDLE, cell.marked(), ink, size));
      if (limits) {
        paper.note(Note.at(x, middle + 11, Note.Anchor.MIDDLE, cell.limits(), ink, TINY));
      }
    }
  }

  private static List<MarkKey.Entry> key(Input input) {
    List<Double> bounds = bounds(input);
    List<MarkKey.Entry> key = new ArrayList<>();
    for (int step = 0; step <= bounds.size() && !bounds.isEmpty(); step++) {
      Color fill = shade(step, bounds.size()).fill();
      key.add(MarkKey.bar(between(bounds, step, input.unit()), fill, 0.32));
    }
    for (Basis basis : List.of(Basis.FEW, Basis.OTHERS)) {
      if (input.has(basis)) {
        key.add(MarkKey.text(basis.mark + " rests on " + basis.words));
      }
    }
    if (input.unknown() > 0) {
      key.add(MarkKey.text("empty: not known"));
    }
    return key;
  }

  private static String between(List<Double> bounds, int step, AgeUnit unit) {
    if (step == 0) {
      return "below " + Words.plain(bounds.get(0));
    }
    String from = "from " + Words.plain(bounds.get(step - 1));
    return step == bounds.size() ? from + " " + unit.symbol() : from;
  }

  private static String inWords(Input input) {
    Comparator<Cell> byAge = Comparator.comparingDouble(Cell::age);
    Cell shortest = input.cells().stream().min(byAge).orElseThrow();
    Cell longest = input.cells().stream().max(byAge).orElseThrow();
    List<String> doubtful = new ArrayList<>();
    doubt(doubtful, input, Basis.FEW);
    doubt(doubtful, input, Basis.OTHERS);
    if (input.unknown() > 0) {
      doubtful.add(input.unknown() + " not known");
    }
    String cells = Words.counted(input.cells().size() + (long) input.unknown(), "cell", "cells");
    return "By product and component, "
        + input.measure()
        + ", darker where shorter: shortest "
        + inWords(shortest, input.unit())
        + (longest.equals(shortest) ? "" : ", longest " + inWords(longest, input.unit()))
        + "."
        + (doubtful.isEmpty() ? "" : " Of " + cells + ", " + Words.list(doubtful) + ".");
  }

  private static void doubt(List<String> doubtful, Input input, Basis basis) {
    long cells = input.cells().stream().filter(cell -> cell.basis() == basis).count();
    if (cells > 0) {
      doubtful.add(cells + (cells == 1 ? " rests on " : " rest on ") + basis.words);
    }
  }

  private static String inWords(Cell cell, AgeUnit unit) {
    return name(cell) + " " + Words.age(cell.age(), unit) + " (" + cell.limits() + ")";
  }

  private static List<List<String>> table(Input input) {
    List<List<String>> rows = new ArrayList<>();
    for (String product : input.products()) {
      for (String component : input.components()) {
        rows.add(
            input
                .cell(product, component)
                .map(LifeMap::tabled)
                .orElse(List.of(product, component, "", "", "", "not known")));
      }
    }
    return rows;
  }

  private static List<String> tabled(Cell cell) {
    return List.of(
        cell.product(),
        cell.component(),
        Words.plain(Math.rint(cell.age())),
        Words.plain(Math.rint(cell.lower())),
        Double.isInfinite(cell.upper()) ? "none" : Words.plain(Math.rint(cell.upper())),
        cell.basis().words);
  }
}
