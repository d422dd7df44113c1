package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.logging.Level;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.vaneward.cli.Main;

/**
 * The report's page in a real Chromium. Needs Debian's chromium and chromium-driver, so it runs
 * only when asked for; {@code -Dreport.folder=FOLDER} takes a report of the sample fleet that is
 * there already.
 */
@Tag("browser")
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class InABrowserTest {
  private static final Duration PATIENCE = Duration.ofMinutes(5);
  private static final int WIDE = 1440;
  private static final int HIGH = 1000;

  private Path folder = Path.of("");
  private Path downloads = Path.of("");
  private ChromeDriver browser;

  @BeforeAll
  void openBrowser(@TempDir Path temp) {
    String given = System.getProperty("report.folder", "");
    folder = given.isEmpty() ? temp.resolve("report") : Path.of(given);
    if (given.isEmpty()) {
      run("report", "sample-fleet", "--out", folder.toString(), "--quiet");
    }
    downloads = temp.resolve("downloads");
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    logs.enable(LogType.PERFORMANCE, Level.ALL);
    ChromeOptions options = new ChromeOptions();
    options.setBinary("/usr/bin/chromium");
    options.addArguments(
        "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage");
    options.setExperimentalOption(
        "prefs", Map.of("download.default_directory", downloads.toString()));
    options.setCapability("goog:loggingPrefs", logs);
    browser =
        new ChromeDriver(
            new ChromeDriverService.Builder()
                .usingDriverExecutable(Path.of("/usr/bin/chromedriver").toFile())
                .build(),
            options);
  }

  @AfterAll
  void closeBrowser() {
    if (browser != null) {
      browser.quit();
    }
  }

  @BeforeEach
  void openPage() {
    browser.manage().window().setSize(new Dimension(WIDE, HIGH));
    browser.get(folder.resolve("index.html").toUri().toString());
  }

  @Test
  void nothingGoesWrongAndNothingLeavesThePage() {
    browser.manage().logs().get(LogType.PERFORMANCE);
    openPage();
    answer();
    List<String> complaints = new ArrayList<>();
    for (LogEntry entry : browser.manage().logs().get(LogType.BROWSER)) {
      complaints.add(entry.getMessage());
    }
    assertEquals(List.of(), complaints);
    List<String> requests =
        browser.manage().logs().get(LogType.PERFORMANCE).getAll().stream()
            .map(LogEntry::getMessage)
            .filter(message -> message.contains("\"Network.requestWillBeSent\""))
            .filter(message -> !message.contains("\"url\":\"file:"))
            .filter(message -> !message.contains("\"url\":\"blob:"))
            .toList();
    assertEquals(List.of(), requests);
  }

  @Test
  void aTableSortsByClickAndByKey() {
    WebElement table = table("Every pump in service, most urgent first");
    WebElement heading = heading(table, "Pump");
    heading.click();
    assertSorted(column(table, "Pump"));
    assertEquals("ascending", heading.getDomAttribute("aria-sort"));
    WebElement chance = heading(table, "in 90");
    chance.findElement(By.cssSelector("[role=button]")).sendKeys(Keys.ENTER);
    List<Double> shares =
        column(table, "in 90").stream()
            .filter(cell -> !cell.equals("–"))
            .map(cell -> Double.valueOf(cell.replaceAll("[<>%]", "")))
            .toList();
    assertEquals(shares.stream().sorted().toList(), shares);
  }

  @Test
  void aTableShowsOnePagesRowsAndTurnsPages() {
    WebElement table = table("Every pump in service, most urgent first");
    assertEquals(25, rows(table).size());
    WebElement paging = region(table).findElement(By.cssSelector(".dt-paging"));
    paging.findElement(By.xpath(".//button[normalize-space()='2']")).click();
    assertEquals(25, rows(table).size());
  }

  @Test
  void aTableFiltersBySiteAndState() {
    WebElement table = table("Every pump in service, most urgent first");
    WebElement controls = controls(table);
    String site = column(table, "Site").get(0);
    choose(controls, "Site", site);
    assertFalse(rows(table).isEmpty());
    assertTrue(column(table, "Site").stream().allMatch(site::equals));
    choose(controls, "State", "later");
    assertTrue(column(table, "State").stream().allMatch("later"::equals));
  }

  @Test
  void aTableIsSavedAsItStands() throws Exception {
    WebElement table = table("Every pump in service, most urgent first");
    WebElement controls = controls(table);
    String site = column(table, "Site").get(0);
    choose(controls, "Site", site);
    long shown = rows(table).size();
    controls.findElement(By.tagName("button")).click();
    Path file = downloads.resolve("every-pump-in-service-most-urgent-first.csv");
    for (int i = 0; i < 100 && !Files.exists(file); i++) {
      Thread.sleep(50);
    }
    List<String> lines = Files.readAllLines(file);
    assertTrue(lines.get(0).startsWith("\ufeffPump,Site,"), lines.get(0));
    assertEquals(shown, lines.size() - 1);
    assertTrue(lines.stream().skip(1).allMatch(line -> line.contains(site)));
  }

  /** Cell for cell what the commands print for the same question. */
  @Test
  void aQuestionIsAnsweredAsTheCommandLineAnswersIt() {
    type("if-planned", "2345.5");
    type("if-stop-seal", "9100");
    type("if-months", "30");
    type("if-usage", "115");
    answer();
    String[] question = {
      "--if-planned",
      "2345.5",
      "--if-unplanned",
      "seal=9100",
      "--if-mandated",
      "30",
      "--if-usage",
      "1.15",
      "--quiet"
    };
    String plan = run(words("plan", question));
    String interval = run(words("interval", question));
    script("window.dispatchEvent(new Event('beforeprint'))");
    assertPrinted(answerTable("Planned interval by service"), interval);
    assertPrinted(answerTable("Every pump, most urgent first"), plan);
    assertPrinted(answerTable("Kits and loose parts for the pumps due"), plan);
    assertTrue(
        plan.contains(browser.findElement(By.id("what-if-said")).getText()), "the question itself");
  }

  @Test
  void aQuestionThatMakesNoSenseIsNotSent() {
    type("if-usage", "0");
    browser.findElement(By.cssSelector("#what-if-form button[type=submit]")).click();
    assertEquals("", browser.findElement(By.id("what-if-said")).getText());
    assertEquals(
        true, script("return document.querySelector('#if-usage').validationMessage !== ''"));
  }

  @Test
  void thePrintedPageHasEveryRowAndNoControls() {
    WebElement table = table("Every pump in service, most urgent first");
    int all =
        ((Number) script("return new DataTable.Api(arguments[0]).rows().count()", table))
            .intValue();
    script("window.dispatchEvent(new Event('beforeprint'))");
    assertEquals(all, rows(table).size());
    browser.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", "print"));
    try {
      assertFalse(controls(table).isDisplayed());
      assertFalse(browser.findElement(By.id("what-if-form")).isDisplayed());
    } finally {
      browser.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", ""));
    }
    script("window.dispatchEvent(new Event('afterprint'))");
    assertEquals(25, rows(table).size());
    Object pdf =
        browser.executeCdpCommand("Page.printToPDF", Map.of("preferCSSPageSize", true)).get("data");
    assertTrue(Base64.getDecoder().decode(String.valueOf(pdf)).length > 100_000);
  }

  @ParameterizedTest
  @ValueSource(ints = {WIDE, 768, 390})
  void anAccessibilityCheckerFindsNothingSerious(int width) {
    browser.manage().window().setSize(new Dimension(width, HIGH));
    assertEquals(List.of(), violations());
  }

  @ParameterizedTest
  @ValueSource(strings = {"pumps/FW-P07.html", "sites/Ferrow_Wharf", "job-sheets.html"})
  void norOnTheOtherPages(String name) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      Path file =
          files
              .filter(f -> folder.relativize(f).toString().startsWith(name))
              .findFirst()
              .orElseThrow();
      browser.get(file.toUri().toString());
    }
    assertEquals(List.of(), violations());
    long wide = ((Number) script("return document.documentElement.scrollWidth")).longValue();
    assertTrue(wide <= WIDE, "the page is " + wide + " pixels wide");
  }

  private List<String> violations() {
    List<String> found = new ArrayList<>();
    for (Rule rule :
        new AxeBuilder()
            .withTags(List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa"))
            .analyze(browser)
            .getViolations()) {
      found.add(rule.getImpact() + " " + rule.getId() + ": " + rule.getNodes().get(0).getHtml());
    }
    return found;
  }

  /** At 400% a window of 1280 pixels is 320 wide: text must not run off to the side. */
  @Test
  void textFitsAtFourHundredPercent() {
    browser.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", 320, "height", 256, "deviceScaleFactor", 4, "mobile", false));
    try {
      long wide = ((Number) script("return document.documentElement.scrollWidth")).longValue();
      assertTrue(wide <= 320, "the page is " + wide + " pixels wide");
    } finally {
      browser.executeCdpCommand("Emulation.clearDeviceMetricsOverride", Map.of());
    }
  }

  /**
   * The limits leave room for a slow machine; work that grows faster than the table breaks them.
   */
  @Test
  void aThousandPumpsSortAndSearchAtOnce(@TempDir Path temp) {
    Path fleet = OddFleet.drawn(temp.resolve("drawn")).times(84).write(temp.resolve("fleet"));
    Path report = temp.resolve("report");
    run("report", fleet.toString(), "--out", report.toString(), "--quiet");
    browser.get(report.resolve("index.html").toUri().toString());
    WebElement table = table("Every pump in service, most urgent first");
    assertEquals(25, rows(table).size());
    WebElement pump = heading(table, "Pump").findElement(By.cssSelector("[role=button]"));
    assertTrue(milliseconds("arguments[0].click()", pump) < 1000, "sorting");
    assertSorted(column(table, "Pump"));
    WebElement search = controls(table).findElement(By.cssSelector("input[type=search]"));
    double searching =
        milliseconds(
            "arguments[0].value = '-83'; arguments[0].dispatchEvent(new Event('input'))", search);
    assertTrue(searching < 1000, "searching");
    List<String> found = column(table, "Pump");
    assertFalse(found.isEmpty());
    assertTrue(found.stream().allMatch(tag -> tag.endsWith("-83")), found::toString);
  }

  /** How long the page takes for something and for laying itself out anew. */
  private double milliseconds(String what, WebElement element) {
    Object took =
        script(
            "const start = performance.now(); "
                + what
                + "; document.body.getBoundingClientRect(); return performance.now() - start",
            element);
    return ((Number) took).doubleValue();
  }

  // ---- in the page

  private void answer() {
    browser.findElement(By.cssSelector("#what-if-form button[type=submit]")).click();
    long until = System.nanoTime() + PATIENCE.toNanos();
    while (browser.findElements(By.cssSelector("#what-if-answer table")).size() < 3) {
      assertTrue(System.nanoTime() < until, "no answer in " + PATIENCE);
      try {
        Thread.sleep(200);
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }
  }

  private void type(String id, String value) {
    WebElement field = browser.findElement(By.id(id));
    field.clear();
    field.sendKeys(value);
  }

  private WebElement table(String caption) {
    return browser.findElement(By.xpath("//table[caption='" + caption + "']"));
  }

  private WebElement answerTable(String caption) {
    return browser.findElement(
        By.xpath("//div[@id='what-if-answer']//table[caption='" + caption + "']"));
  }

  private static WebElement region(WebElement table) {
    return table.findElement(By.xpath("ancestor::div[@data-table]"));
  }

  private static WebElement controls(WebElement table) {
    return region(table).findElement(By.xpath("preceding-sibling::div[1]"));
  }

  private static void choose(WebElement controls, String label, String value) {
    controls
        .findElement(
            By.xpath(
                ".//label[.='"
                    + label
                    + "']/following-sibling::select/option[@value='"
                    + value
                    + "']"))
        .click();
  }

  private static WebElement heading(WebElement table, String heading) {
    return table.findElement(By.xpath(".//th[normalize-space()='" + heading + "']"));
  }

  private static List<WebElement> rows(WebElement table) {
    return table.findElements(By.cssSelector("tbody tr"));
  }

  @SuppressWarnings("unchecked")
  private List<List<String>> cells(WebElement table) {
    return (List<List<String>>)
        script(
            "return [...arguments[0].tBodies[0].rows].map(r => [...r.cells].map(c =>"
                + " c.textContent.trim()))",
            table);
  }

  private List<String> column(WebElement table, String heading) {
    List<String> headings =
        table.findElements(By.cssSelector("thead th")).stream().map(WebElement::getText).toList();
    int index = headings.indexOf(heading);
    assertTrue(index >= 0, heading + " is not among " + headings);
    return cells(table).stream().map(row -> row.get(index)).toList();
  }

  private Object script(String script, Object... arguments) {
    return Optional.ofNullable(browser.executeScript(script, arguments)).orElse("");
  }

  private static void assertSorted(List<String> cells) {
    assertFalse(cells.isEmpty());
    assertEquals(cells.stream().sorted().toList(), cells);
  }

  // ---- beside the command line

  private void assertPrinted(WebElement table, String printed) {
    List<List<String>> lines =
        printed.lines().map(line -> List.of(line.strip().split(" {2,}"))).toList();
    List<List<String>> rows = cells(table);
    assertFalse(rows.isEmpty());
    for (List<String> row : rows) {
      List<String> cells = row.stream().filter(cell -> !cell.isEmpty()).toList();
      assertTrue(
          lines.stream()
              .anyMatch(
                  line ->
                      line.size() >= cells.size() && line.subList(0, cells.size()).equals(cells)),
          "not printed: " + cells);
    }
  }

  private static String[] words(String command, String... options) {
    return Stream.concat(Stream.of(command, "sample-fleet"), Arrays.stream(options))
        .toArray(String[]::new);
  }

  private static String run(String... words) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(words, new PrintWriter(out), new PrintWriter(err));
    assertTrue(code <= 1, err.toString());
    return out.toString();
  }

  @Test
  void thePageIsSmallEnoughToSend() throws IOException {
    assertTrue(Files.size(folder.resolve("index.html")) < 5_000_000);
  }
}
