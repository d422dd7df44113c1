package org.vaneward.report;

import java.util.List;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.stats.renewal.CountDistribution;

/** How many parts a stated life uses up, for people and for programs. */
public final class CountView implements View {
  private static final List<Double> SERVICE_LEVELS = List.of(0.8, 0.9, 0.95, 0.99);
  private static final double WORTH_SHOWING = 0.0005;

  private final CountDistribution parts;

  /** A view of a number of parts. */
  public CountView(CountDistribution parts) {
    this.parts = parts;
  }

  /** The figures in a few lines, then the chance of each number. */
  @Override
  public String text() {
    StringBuilder text = new StringBuilder();
    text.append("Parts used           ")
        .append(Words.significant(parts.mean()))
        .append(" on average, standard deviation ")
        .append(Words.significant(parts.standardDeviation()))
        .append('\n');
    text.append("Enough in 50 of 100  ").append(Words.whole(parts.quantile(0.5))).append('\n');
    for (double level : SERVICE_LEVELS) {
      text.append("Enough in ")
          .append(Math.round(100 * level))
          .append(" of 100  ")
          .append(Words.whole(parts.quantile(level)))
          .append('\n');
    }
    TextTable table = new TextTable("parts", "chance", "enough with");
    double below = 0;
    for (int k = 0; k <= parts.largest(); k++) {
      below += parts.chance(k);
      if (parts.chance(k) >= WORTH_SHOWING) {
        table.row(
            Words.whole(k), Words.percent(parts.chance(k)), Words.percent(Math.min(1, below)));
      }
    }
    return text.append('\n').append(table).toString();
  }

  /** The figures, unrounded. */
  @Override
  public String json() {
    List<JsonFields> stock =
        SERVICE_LEVELS.stream()
            .map(
                level ->
                    new JsonFields()
                        .with("service_level", level)
                        .with("units", parts.quantile(level)))
            .toList();
    JsonFields document =
        new JsonFields()
            .with("mean", parts.mean())
            .with("sd", parts.standardDeviation())
            .with("p50", parts.quantile(0.5))
            .with("p80", parts.quantile(0.8))
            .with("p95", parts.quantile(0.95))
            .with("stock", stock);
    return Json.write(document);
  }

  /** The chance of each number. */
  @Override
  public String csv() {
    CsvWriter table = CsvWriter.forMachines("parts", "probability");
    for (int k = 0; k <= parts.largest(); k++) {
      table.cell(k).cell(parts.chance(k)).endRow();
    }
    return table.text();
  }
}
