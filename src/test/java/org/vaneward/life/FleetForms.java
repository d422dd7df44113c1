package org.vaneward.life;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.zip.GZIPOutputStream;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.vaneward.io.CsvTable;
import org.vaneward.io.Numbers;
import org.vaneward.io.TableRow;

/** The tables of a fleet folder, to be written in other forms that say the same. */
public final class FleetForms {
  public static final List<String> TABLES =
      List.of("pumps", "services", "readings", "rebuilds", "findings");
  private static final DateTimeFormatter GERMAN = DateTimeFormatter.ofPattern("dd.MM.uuuu");
  private static final ObjectMapper JSON = new ObjectMapper();

  private final ObjectNode settings;
  private final Map<String, List<Map<String, String>>> tables = new LinkedHashMap<>();
  private final Map<String, List<String>> headers = new LinkedHashMap<>();

  public FleetForms(Path folder) throws IOException {
    settings = (ObjectNode) JSON.readTree(folder.resolve("fleet.json").toFile());
    for (String table : TABLES) {
      List<Map<String, String>> rows = new ArrayList<>();
      try (CsvTable csv = CsvTable.open(folder.resolve(table + ".csv"), table, List.of())) {
        headers.put(table, csv.header().columns());
        for (Optional<TableRow> row = csv.next(); row.isPresent(); row = csv.next()) {
          Map<String, String> cells = new LinkedHashMap<>();
          for (String column : csv.header().columns()) {
            cells.put(column, row.get().cell(column));
          }
          rows.add(cells);
        }
      }
      tables.put(table, rows);
    }
  }

  List<Map<String, String>> rows(String table) {
    return tables.getOrDefault(table, List.of());
  }

  private List<String> header(String table) {
    return headers.getOrDefault(table, List.of());
  }

  private void settings(Path folder, String mapping) throws IOException {
    ObjectNode own = settings.deepCopy();
    own.set("mapping", JSON.readTree(mapping));
    Files.createDirectories(folder);
    Files.writeString(folder.resolve("fleet.json"), own.toPrettyString());
  }

  /** As CSV, every header and cell put through a change. */
  private String csv(
      String table,
      char separator,
      BiFunction<String, String, String> cell,
      BiFunction<String, String, String> name) {
    StringBuilder text = new StringBuilder();
    line(text, separator, header(table).stream().map(h -> name.apply(table, h)).toList());
    for (Map<String, String> row : rows(table)) {
      line(
          text,
          separator,
          header(table).stream().map(h -> cell.apply(h, row.getOrDefault(h, ""))).toList());
    }
    return text.toString();
  }

  private static void line(StringBuilder text, char separator, List<String> cells) {
    for (int i = 0; i < cells.size(); i++) {
      text.append(i > 0 ? String.valueOf(separator) : "")
          .append('"')
          .append(cells.get(i).replace("\"", "\"\""))
          .append('"');
    }
    text.append("\r\n");
  }

  /** A German export: other headers, words, days, decimals, units, and a title above the header. */
  public void german(Path folder, Charset charset) throws IOException {
    settings(
        folder,
        """
        {"encoding": "%s", "separator": ";", "decimal": ",", "thousands": ".", "dates": ["dd.MM.yyyy"],
         "unknown": ["k. A."],
         "tables": {
           "pumps": {"file": "Anlagen.csv", "header_line": 3,
             "columns": {"pump": "Anlage", "site": "Standort", "commissioned": "in Betrieb seit"}},
           "readings": {"file": "Zaehlerstaende.csv", "columns": {"hours": "Betriebsstunden"},
             "units": {"hours": "minutes", "old_hours": "minutes"},
             "words": {"event": {"Zähler getauscht": "meter-replaced"}}},
           "rebuilds": {"columns": {"trigger": "Anlass", "end_clearance_mm": "Spiel"},
             "units": {"end_clearance_mm": "thousandths"},
             "words": {"trigger": {"Leckage": "leak", "Plan": "planned"}}},
           "findings": {"columns": {"as_found": "Befund", "action": "Maßnahme"},
             "units": {"measured_mm": "micrometres"},
             "words": {"as_found": {"defekt": "failed", "gut": "good"}, "action": {"erneuert": "renewed"},
               "position": {"GLRD innen": "seal-inboard"}}}
         }}
        """
            .formatted(charset.name()));
    Map<String, String> names =
        Map.of(
            "pumps.pump", "Anlage",
            "pumps.site", "Standort",
            "pumps.commissioned", "in Betrieb seit",
            "readings.hours", "Betriebsstunden",
            "rebuilds.trigger", "Anlass",
            "rebuilds.end_clearance_mm", "Spiel",
            "findings.as_found", "Befund",
            "findings.action", "Maßnahme");
    Map<String, String> words =
        Map.of(
            "trigger=leak", "Leckage",
            "trigger=planned", "plan",
            "as_found=failed", "Defekt",
            "as_found=good", "gut",
            "action=renewed", "erneuert",
            "position=seal-inboard", "GLRD  innen",
            "event=meter-replaced", "Zähler getauscht");
    for (String table : TABLES) {
      String text =
          csv(
              table,
              ';',
              (column, cell) -> german(table, column, cell, words),
              (t, column) -> names.getOrDefault(t + "." + column, column));
      String file =
          switch (table) {
            case "pumps" -> "Anlagen.csv";
            case "readings" -> "Zaehlerstaende.csv";
            default -> table + ".csv";
          };
      Files.write(
          folder.resolve(file),
          ((table.equals("pumps") ? "Anlagenliste; \"Stand heute\r\n\r\n" : "") + text)
              .getBytes(charset));
    }
  }

  private static String german(
      String table, String column, String cell, Map<String, String> words) {
    String word = words.get(column + "=" + cell);
    if (word != null) {
      return word;
    }
    if (cell.isBlank()) {
      return column.equals("lot") ? "k. a." : cell;
    }
    if (cell.matches("\\d{4}-\\d{2}-\\d{2}")) {
      try {
        return GERMAN.format(LocalDate.parse(cell));
      } catch (java.time.DateTimeException e) {
        return cell;
      }
    }
    if (column.matches("hours|old_hours") && table.equals("readings")) {
      return number(cell, "60", "1");
    }
    return switch (column) {
      case "end_clearance_mm" -> number(cell, "1", "0.0254");
      case "measured_mm" -> number(cell, "1000", "1");
      case "hours",
          "hours_per_week",
          "downtime_hours",
          "cost",
          "pressure_bar",
          "viscosity_cst",
          "speed_rpm",
          "starts_per_day",
          "temperature_c" ->
          number(cell, "1", "1");
      default -> cell;
    };
  }

  private static String number(String cell, String times, String over) {
    String stripped = cell.strip();
    if (!Numbers.isNumber(stripped)) {
      // Still none where a comma stands before the decimals.
      return cell.replace(",", ",,");
    }
    BigDecimal value =
        new BigDecimal(stripped)
            .multiply(new BigDecimal(times))
            .divide(new BigDecimal(over), 20, RoundingMode.HALF_EVEN)
            .stripTrailingZeros();
    String plain = value.toPlainString();
    int point = plain.indexOf('.');
    String whole = point < 0 ? plain : plain.substring(0, point);
    String grouped = whole.replaceAll("(?<=\\d)(?=(\\d{3})+$)", ".");
    return cell.replace(stripped, grouped + (point < 0 ? "" : "," + plain.substring(point + 1)));
  }

  /** As it is, packed. */
  public void packed(Path folder) throws IOException {
    settings(folder, "{}");
    for (String table : TABLES) {
      try (OutputStream out =
          new GZIPOutputStream(Files.newOutputStream(folder.resolve(table + ".csv.gz")))) {
        out.write(
            csv(table, ',', (column, cell) -> cell, (t, column) -> column)
                .getBytes(StandardCharsets.UTF_8));
      }
    }
  }

  /** One workbook with a sheet for each table, days and numbers as such. */
  public void workbook(Path folder) throws IOException {
    settings(folder, "{}");
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (Workbook book = new Workbook(bytes, "Test", "1.0")) {
      for (String table : TABLES) {
        Worksheet sheet = book.newWorksheet(table);
        List<String> columns = header(table);
        for (int c = 0; c < columns.size(); c++) {
          sheet.value(0, c, columns.get(c));
        }
        int r = 1;
        for (Map<String, String> row : rows(table)) {
          for (int c = 0; c < columns.size(); c++) {
            cell(sheet, r, c, row.getOrDefault(columns.get(c), ""));
          }
          r++;
        }
      }
    }
    Files.write(folder.resolve("fleet.xlsx"), bytes.toByteArray());
  }

  private static void cell(Worksheet sheet, int row, int column, String text) {
    if (text.matches("\\d{4}-\\d{2}-\\d{2}")) {
      try {
        sheet.value(row, column, LocalDate.parse(text));
        sheet.style(row, column).format("d mmm yyyy").set();
        return;
      } catch (java.time.DateTimeException e) {
        sheet.value(row, column, text);
        return;
      }
    }
    if (text.matches("0|-?[1-9]\\d{0,9}|-?(0|[1-9]\\d{0,9})\\.\\d{0,6}[1-9]")) {
      sheet.value(row, column, new BigDecimal(text));
    } else if (!text.isEmpty()) {
      sheet.value(row, column, text);
    }
  }

  /** JSON Lines, what was found nested in the openings as far as their number tells which. */
  public void jsonLines(Path folder, boolean nested) throws IOException {
    settings(folder, "{}");
    Map<String, List<ObjectNode>> objects = new LinkedHashMap<>();
    for (String table : TABLES) {
      List<ObjectNode> own = new ArrayList<>();
      for (Map<String, String> row : rows(table)) {
        ObjectNode object = JSON.createObjectNode();
        row.forEach((column, cell) -> value(object, column, cell));
        own.add(object);
      }
      objects.put(table, own);
    }
    if (nested) {
      Map<String, ObjectNode> openings = new LinkedHashMap<>();
      objects
          .getOrDefault("rebuilds", List.of())
          .forEach(o -> openings.putIfAbsent(o.path("rebuild").asText(), o));
      objects
          .getOrDefault("findings", List.of())
          .removeIf(
              finding -> {
                ObjectNode opening = openings.get(finding.path("rebuild").asText());
                if (opening != null) {
                  finding.remove("rebuild");
                  opening.withArray("findings").add(finding);
                }
                return opening != null;
              });
    }
    for (Map.Entry<String, List<ObjectNode>> table : objects.entrySet()) {
      write(folder, table.getKey(), table.getValue());
    }
  }

  private static void value(ObjectNode object, String column, String cell) {
    if (cell.isEmpty()) {
      return;
    }
    if (cell.matches("0|-?[1-9]\\d{0,9}|-?(0|[1-9]\\d{0,9})\\.\\d{0,6}[1-9]")) {
      object.put(column, new BigDecimal(cell));
    } else if (column.equals("primary") && cell.matches("yes|no")) {
      object.put(column, cell.equals("yes"));
    } else {
      object.put(column, cell);
    }
  }

  private static void write(Path folder, String table, List<ObjectNode> objects)
      throws IOException {
    StringBuilder text = new StringBuilder();
    objects.forEach(object -> text.append(object).append('\n'));
    if (!objects.isEmpty()) {
      Files.writeString(folder.resolve(table + ".jsonl"), text);
    }
  }

  /**
   * Findings that name no record: their pump and its day tell the opening, a part and a side the
   * position, days as in another file. Openings that share pump and day with another are left out.
   *
   * @return each opening's own name by its number
   */
  public Map<String, String> sides(Path folder) throws IOException {
    settings(
        folder,
        """
        {"tables": {
          "rebuilds": {"joined": {"rebuild": ["pump", "date"]}},
          "findings": {"dates": ["d/M/yyyy"], "unknown": ["n/a"],
            "joined": {"rebuild": ["Asset", "Opened"], "position": ["Part", "Side"]},
            "words": {"position": {"Mechanical seal inboard": "seal-inboard",
              "Mechanical seal outboard": "seal-outboard", "Vanes": "vane-set"}}}}}
        """);
    dropSharedDays();
    Map<String, String> named = new LinkedHashMap<>();
    for (Map<String, String> row : rows("rebuilds")) {
      named.putIfAbsent(
          row.getOrDefault("rebuild", ""),
          (row.getOrDefault("pump", "").strip() + " " + row.getOrDefault("date", "").strip())
              .strip());
    }
    for (String table : List.of("pumps", "services", "readings", "rebuilds")) {
      List<String> header = new ArrayList<>(header(table));
      header.remove("rebuild");
      write(folder, table, header, rows(table));
    }
    List<Map<String, String>> findings = new ArrayList<>();
    for (Map<String, String> finding : rows("findings")) {
      findings.add(bySides(finding, named.getOrDefault(finding.getOrDefault("rebuild", ""), "")));
    }
    List<String> header = new ArrayList<>(List.of("Part", "Side", "Opened", "Asset"));
    header.addAll(header("findings"));
    header.removeAll(List.of("rebuild", "position"));
    write(folder, "findings", header, findings);
    return named;
  }

  private static Map<String, String> bySides(Map<String, String> finding, String opening) {
    Map<String, String> row = new LinkedHashMap<>(finding);
    int day = opening.lastIndexOf(' ');
    row.put("Asset", day < 0 ? opening : opening.substring(0, day));
    row.put("Opened", day < 0 ? "" : spoken(opening.substring(day + 1)));
    String[] place = finding.getOrDefault("position", "").split("-", 2);
    row.put(
        "Part",
        Map.of("seal", "Mechanical seal", "vane", "Vanes").getOrDefault(place[0], place[0]));
    row.put("Side", place.length < 2 || place[1].equals("set") ? "n/a" : place[1]);
    return row;
  }

  private static String spoken(String day) {
    try {
      return DateTimeFormatter.ofPattern("d/M/uuuu").format(LocalDate.parse(day));
    } catch (java.time.DateTimeException e) {
      return day;
    }
  }

  /** As the record format has it, without openings that share pump and day with another. */
  public void withoutSharedDays(Path folder) throws IOException {
    settings(folder, "{}");
    dropSharedDays();
    for (String table : TABLES) {
      write(folder, table, header(table), rows(table));
    }
  }

  private void dropSharedDays() {
    Map<String, List<String>> byDay = new LinkedHashMap<>();
    for (Map<String, String> row : rows("rebuilds")) {
      String day =
          row.getOrDefault("pump", "").strip() + " " + row.getOrDefault("date", "").strip();
      byDay.computeIfAbsent(day, d -> new ArrayList<>()).add(row.getOrDefault("rebuild", ""));
    }
    List<String> dropped = new ArrayList<>();
    byDay.values().stream().filter(own -> own.size() > 1).forEach(dropped::addAll);
    for (String table : List.of("rebuilds", "findings")) {
      rows(table).removeIf(row -> dropped.contains(row.getOrDefault("rebuild", "")));
    }
  }

  private static void write(
      Path folder, String table, List<String> header, List<Map<String, String>> rows)
      throws IOException {
    StringBuilder text = new StringBuilder();
    line(text, ',', header);
    rows.forEach(
        row -> line(text, ',', header.stream().map(c -> row.getOrDefault(c, "")).toList()));
    Files.writeString(folder.resolve(table + ".csv"), text);
  }

  /** One row for each opening, a group of columns for each position; what does not fit apart. */
  public void wide(Path folder) throws IOException {
    List<String> columns =
        List.of("as_found", "primary", "mode", "cause", "action", "measured_mm", "lot");
    List<String> positions = new ArrayList<>();
    settings
        .get("components")
        .forEach(c -> c.get("positions").forEach(position -> positions.add(position.asText())));
    ObjectNode groups = JSON.createObjectNode();
    for (String position : positions) {
      ObjectNode group = groups.putObject(position);
      columns.forEach(column -> group.put(column, position + " " + column));
    }
    settings(folder, "{\"tables\": {\"rebuilds\": {\"positions\": " + groups + "}}}");
    Map<String, Map<String, Map<String, String>>> byOpening = new LinkedHashMap<>();
    rows("rebuilds")
        .forEach(row -> byOpening.put(row.getOrDefault("rebuild", ""), new LinkedHashMap<>()));
    List<Map<String, String>> apart = new ArrayList<>();
    for (Map<String, String> finding : rows("findings")) {
      var own = byOpening.get(finding.getOrDefault("rebuild", ""));
      String position = finding.getOrDefault("position", "");
      if (own == null
          || !positions.contains(position)
          || own.putIfAbsent(position, finding) != null) {
        apart.add(finding);
      }
    }
    StringBuilder text = new StringBuilder();
    List<String> header = new ArrayList<>(header("rebuilds"));
    positions.forEach(p -> columns.forEach(column -> header.add(p + " " + column)));
    line(text, ',', header);
    for (Map<String, String> row : rows("rebuilds")) {
      List<String> cells = new ArrayList<>();
      header("rebuilds").forEach(column -> cells.add(row.getOrDefault(column, "")));
      var own = byOpening.remove(row.getOrDefault("rebuild", ""));
      for (String position : positions) {
        Map<String, String> finding = own == null ? Map.of() : own.getOrDefault(position, Map.of());
        columns.forEach(column -> cells.add(finding.getOrDefault(column, "")));
      }
      line(text, ',', cells);
    }
    Files.writeString(folder.resolve("rebuilds.csv"), text);
    StringBuilder rest = new StringBuilder();
    line(rest, ',', header("findings"));
    for (Map<String, String> finding : apart) {
      line(rest, ',', header("findings").stream().map(c -> finding.getOrDefault(c, "")).toList());
    }
    Files.writeString(folder.resolve("findings.csv"), rest);
    for (String table : List.of("pumps", "services", "readings")) {
      Files.writeString(
          folder.resolve(table + ".csv"),
          csv(table, ',', (column, cell) -> cell, (t, column) -> column));
    }
  }
}
