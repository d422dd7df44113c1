package org.vaneward.report;

import java.io.Writer;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.vaneward.io.Json;
import org.vaneward.life.Life;
import org.vaneward.life.Life.LifeEnd;
import org.vaneward.life.Lives;
import org.vaneward.life.LivesTable;

/** The lives of a fleet, for people and for programs. */
public final class LivesView implements View {
  private final FleetLives fleet;

  /** A view of a fleet's lives. */
  public LivesView(FleetLives fleet) {
    this.fleet = fleet;
  }

  /** Counts by component and how lives ended. */
  @Override
  public String text() {
    Lives lives = fleet.lives();
    TextTable table =
        new TextTable(
            "component",
            "lives",
            "failed",
            "found failed",
            "taken out working",
            "still running",
            "retired",
            "lost sight of",
            "late entry",
            Words.unitWords(fleet.settings().clock()) + " watched");
    Map<String, List<Life>> byComponent = new LinkedHashMap<>();
    fleet
        .settings()
        .components()
        .forEach(component -> byComponent.put(component.component(), new ArrayList<>()));
    lives
        .lives()
        .forEach(
            life ->
                byComponent
                    .computeIfAbsent(life.component(), component -> new ArrayList<>())
                    .add(life));
    byComponent.forEach((component, list) -> addRow(table, component, list));
    return fleet.settings().fleet()
        + ", records up to "
        + fleet.settings().asOf()
        + "\n\n"
        + table
        + "\n"
        + Words.count(lives.startUps().size(), "failure", "failures")
        + " on the start-up test, kept apart\n"
        + Words.count(lives.unknownAges().size(), "part", "parts")
        + " of unknown age, without a life until renewed\n";
  }

  private static void addRow(TextTable table, String component, List<Life> lives) {
    double watched = lives.stream().mapToDouble(l -> l.end().age() - l.entryAge()).sum();
    table.row(
        component,
        Words.whole(lives.size()),
        Words.whole(count(lives, LifeEnd.Failed.class)),
        Words.whole(count(lives, LifeEnd.FoundFailed.class)),
        Words.whole(count(lives, LifeEnd.RemovedWorking.class)),
        Words.whole(count(lives, LifeEnd.StillRunning.class)),
        Words.whole(count(lives, LifeEnd.Retired.class)),
        Words.whole(count(lives, LifeEnd.LostSight.class)),
        Words.whole(lives.stream().filter(l -> l.entryAge() > 0).count()),
        Words.whole(watched));
  }

  private static long count(List<Life> lives, Class<? extends LifeEnd> end) {
    return lives.stream().filter(life -> end.isInstance(life.end())).count();
  }

  /** The lives table, as {@code fit --lives} reads it. */
  @Override
  public String csv() {
    return LivesTable.of(fleet.lives()).toCsv();
  }

  @Override
  public void writeCsv(Writer out) {
    LivesTable.writeCsv(fleet.lives(), out);
  }

  /** The rows of the lives table. */
  @Override
  public String json() {
    LivesTable table = LivesTable.of(fleet.lives());
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < table.rows(); i++) {
      Map<String, String> columns = new LinkedHashMap<>();
      for (String column : table.columns()) {
        columns.put(column, table.text(column, i));
      }
      rows.add(
          new Row(
              table.entry(i),
              table.lower(i),
              table.failed(i) ? OptionalDouble.of(table.upper(i)) : OptionalDouble.empty(),
              table.count(i),
              columns));
    }
    return Json.write(new Document(rows));
  }

  record Document(List<Row> lives) {}

  record Row(
      double entry,
      double lower,
      OptionalDouble upper,
      double count,
      Map<String, String> columns) {}
}
