package org.vaneward.api;

import java.nio.file.Path;
import org.vaneward.chart.Picture;
import org.vaneward.io.SafeFiles;
import tech.tablesaw.api.StringColumn;
import tech.tablesaw.api.Table;

/**
 * A picture, with the same content in words and in numbers.
 *
 * <pre>{@code
 * Chart chart = fit.survivalCurve();
 * String words = chart.words();
 * Table numbers = chart.data();
 * chart.save(Path.of("target", "seals.svg"));
 * String forAPage = "<h2>" + chart.title() + "</h2>" + chart.svg();
 * }</pre>
 */
public final class Chart {
  private final Picture picture;

  Chart(Picture picture) {
    this.picture = picture;
  }

  /** What it shows. */
  public String title() {
    return picture.title();
  }

  /** One or two sentences that say what there is to see. */
  public String words() {
    return picture.alternative();
  }

  /** The picture as an SVG element, which a page or a notebook shows as it is. */
  public String svg() {
    return picture.svg();
  }

  /** What is drawn, as on the page below the picture: texts, with units in the headings. */
  public Table data() {
    Table table = Table.create(picture.title());
    for (int c = 0; c < picture.columns().size(); c++) {
      int column = c;
      table.addColumns(
          StringColumn.create(
              picture.columns().get(c),
              picture.rows().stream().map(row -> row.get(column)).toArray(String[]::new)));
    }
    return table;
  }

  /**
   * Writes the picture as an SVG file.
   *
   * @throws org.vaneward.io.BadInputException when the file cannot be written
   */
  public void save(Path file) {
    SafeFiles.write(file, picture.svg());
  }

  /** The title and the words, for where no picture can be shown. */
  @Override
  public String toString() {
    return title() + ". " + words();
  }
}
