package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** Bad input and bad usage: one line on standard error, exit code 2, nothing else. */
class BadUsageTest {
  private static final String TURBINE = "src/test/resources/reference/data/turbine.csv";

  @TempDir Path folder = Path.of("unset");

  @ParameterizedTest
  @ValueSource(strings = {"check", "lives", "fit", "interval", "plan", "report"})
  void aFolderThatIsNotThere(String command) {
    Path out = folder.resolve("out");
    Run run = Run.of(command, folder + "/missing", "--out", out.toString(), "--quiet");
    run.isRefusedInOneLine();
    assertTrue(run.err().contains("missing: no such folder"), run.err());
    assertFalse(Files.exists(out));
  }

  @Test
  void aFolderThatIsAFile() {
    refused("pom.xml: not a folder", "check", "pom.xml");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "fleet.json",
        "pumps.csv",
        "services.csv",
        "readings.csv",
        "rebuilds.csv",
        "findings.csv"
      })
  void aTableThatIsNotThere(String file) throws IOException {
    Path fleet = small();
    Files.delete(fleet.resolve(file));
    refused(file, "check", fleet.toString());
  }

  @ParameterizedTest
  @CsvSource({
    "pumps.csv, pump",
    "services.csv, product",
    "readings.csv, hours",
    "rebuilds.csv, trigger",
    "findings.csv, as_found"
  })
  void aColumnThatIsNotThere(String file, String column) {
    Path fleet = small();
    Run.edit(fleet.resolve(file), text -> text.replaceFirst("\\b" + column + "\\b", "other"));
    refused("'" + column + "'", "check", fleet.toString());
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "{", "[]", "null", "{\"fleet\": 3}", "\u0000\u0001", "{} {}"})
  void aFleetJsonThatCannotBeRead(String text) {
    Path fleet = small();
    Run.edit(fleet.resolve("fleet.json"), old -> text);
    refused("fleet.json", "check", fleet.toString());
  }

  @Test
  void aCommandOrOptionThatIsNotKnown() {
    Run command = Run.of("chek", "sample-fleet");
    command.isRefused();
    assertTrue(command.err().contains("'chek'"), command.err());
    assertTrue(command.err().contains("vaneward check"), command.err());
    Run option = Run.of("check", "sample-fleet", "--fomat", "json");
    option.isRefused();
    assertTrue(option.err().contains("--fomat"), option.err());
    assertTrue(option.err().contains("vaneward check --help"), option.err());
    assertTrue(option.err().contains("--format"), option.err());
  }

  @Test
  void aFleetThatIsNotNamed() {
    for (String command : new String[] {"check", "lives", "plan", "report"}) {
      refused("FLEET", command);
    }
    refused("SCENARIO", "sample");
    refused("either a fleet folder or --lives FILE", "fit");
    refused("either a fleet folder or --lives FILE", "fit", "sample-fleet", "--lives", TURBINE);
    refused("'extra'", "check", "sample-fleet", "extra");
    refused("--quiet", "--quiet");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "--pooled --cause mode | different fits",
        "--pooled --covariates duty | different fits",
        "--pooled --limits wald | --limits does not go with --pooled",
        "--pooled --distribution lognormal | --distribution does not go with --pooled",
        "--cause mode --mixture | --mixture does not go with --cause",
        "--covariates duty --strata site | --strata does not go with --covariates",
        "--covariates duty --limits bootstrap | --limits bootstrap does not go with --covariates",
        "--covariates duty --by duty | 'duty'",
        "--covariates temper | 'temper'",
        "--names duty | --covariates",
        "--ages -3 | an age is positive",
        "--cause mod | 'mod'",
        "--by component --strata crw | 'crw'",
        "--limits bootstrap --replicates 20 | at least 100",
        "--limits lifted --distribution all | --limits lifted goes with",
        "--limits lifted --fixed-shape 2 | --limits lifted goes with",
        "--limits lifted --cause mode | --limits lifted goes with",
        "--replicates -1 | --replicates -1",
      })
  void fitsThatDoNotGoTogether(String options, String names) {
    List<String> args = new ArrayList<>(List.of("fit", "sample-fleet"));
    args.addAll(List.of(options.split(" ")));
    refused(names, args.toArray(String[]::new));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "unit,age,event;1,5,1;1,9,0 | none",
        "unit,age,event;1,5,1 | no row with event 0",
        "unit,age,event;1,5,1;1,4,0 | after its observation ends at 4",
        "unit,age,event;1,5,0;1,7,0 | ends twice",
        "unit,age,event;1,5,2;1,7,0 | 1 for an event, 0 where observation ends",
        "unit,age,event;1,x,1;1,7,0 | column 'age' holds 'x'",
        "unit,age,event;1,-1,1;1,7,0 | column 'age' is blank or negative",
        "unit,age,event;,1,1;1,7,0 | column 'unit' is blank",
        "unit,age,event;1,0,1;1,7,0 | where its observation starts",
        "unit,age,event | has no rows",
        "unit,event;1,1 | no column 'age'",
        "unit,age,event,start;1,5,1,2;1,9,0,3 | one start",
      })
  void tablesOfEvents(String table, String says) throws IOException {
    Path file = Files.writeString(folder.resolve("events.csv"), table.replace(";", "\n") + "\n");
    if (says.equals("none")) {
      Run.ending(0, "review", "--events", file.toString());
    } else {
      refused(says, "review", "--events", file.toString());
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "unit,count,exposure;a,2,10;b,0,20 | none",
        "unit,count,exposure;a,2,10;a,0,20 | stands on line 2 already",
        "unit,count,exposure;a,2.5,10 | no whole number",
        "unit,count,exposure;a,-1,10 | no whole number",
        "unit,count,exposure;a,1,0 | no positive number",
        "unit,count,exposure;a,1, | no positive number",
        "unit,count,exposure;,1,3 | column 'unit' is blank",
        "unit,count,exposure | has no rows",
        "unit,count;a,1 | no column 'exposure'",
      })
  void tablesOfCounts(String table, String says) throws IOException {
    Path file = Files.writeString(folder.resolve("counts.csv"), table.replace(";", "\n") + "\n");
    if (says.equals("none")) {
      Run.ending(0, "review", "--counts", file.toString());
    } else {
      refused(says, "review", "--counts", file.toString());
    }
  }

  @Test
  void reviewTakesOneTable() {
    String events = "src/test/resources/reference/data/valve_seat.csv";
    String counts = "src/test/resources/reference/data/cloth.csv";
    refused("one of a fleet folder, --events FILE and --counts FILE", "review");
    refused("not several", "review", "sample-fleet", "--events", "events.csv");
    refused("--component goes with --by", "review", "sample-fleet", "--component", "seal");
    refused("a share is between 0 and 1", "review", "sample-fleet", "--false-share", "2");
    refused("go with a fleet", "review", "--events", "events.csv", "--component", "seal");
    refused("go with --events", "review", "sample-fleet", "--ages", "10");
    refused("not several", "review", "--events", events, "--counts", counts);
    refused(
        "--by, --ages and --truncation go with --events",
        "review",
        "--counts",
        counts,
        "--by",
        "unit");
    refused("no such file", "review", "--events", "nowhere.csv");
    refused("'crew'", "review", "--events", events, "--by", "crew");
  }

  @Test
  void aValueThatAnOptionCannotTake() {
    refused("--seed", "check", "sample-fleet", "--seed", "x");
    refused("--seed", "sample", "seeds/small-terminal.json", "--out", "x", "--seed", "1.5");
    refused("--confidence", "check", "sample-fleet", "--confidence", "high");
    refused("--format", "check", "sample-fleet", "--format", "xml");
    refused("--limits", "fit", "sample-fleet", "--limits", "exact");
    refused("--distribution normal", "fit", "sample-fleet", "--distribution", "normal");
    refused("--positions", "interval", "--positions", "two");
    refused("--policy block goes with stated", "interval", "sample-fleet", "--policy", "block");
    refused("--policy opening", "interval", "--policy", "opening", "--shape", "2");
    refused("--out", "check", "sample-fleet", "--out");
  }

  @ParameterizedTest
  @ValueSource(strings = {"1.5", "1", "0", "-0.9", "90", "NaN", "Infinity"})
  void aConfidenceThatIsNone(String confidence) {
    for (String command : new String[] {"check", "lives", "fit", "interval", "plan", "report"}) {
      refused(
          "between 0 and 1",
          command,
          "sample-fleet",
          "--confidence",
          confidence,
          "--out",
          folder.resolve("out").toString());
    }
    assertFalse(Files.exists(folder.resolve("out")));
  }

  @ParameterizedTest
  @ValueSource(strings = {"-1", "0", "NaN", "Infinity"})
  void aShapeThatIsNone(String shape) {
    refused("a shape is positive", "fit", "--lives", TURBINE, "--fixed-shape", shape);
    refused(
        "a shape is positive",
        "interval",
        "--shape=" + shape,
        "--scale=10",
        "--planned=1",
        "--unplanned=2");
  }

  @Test
  void aTableOfLivesThatCannotBeRead() throws IOException {
    refused("missing.csv", "fit", "--lives", folder.resolve("missing.csv").toString());
    refused("cannot be read", "fit", "--lives", folder.toString());
    refused("line 3", "fit", "--lives", table("lower,upper\n5,6\n5,abc\n"));
    refused("line 2", "fit", "--lives", table("lower,upper\n7,6\n"));
    refused("line 2", "fit", "--lives", table("lower,upper\n-7,6\n"));
    refused("line 2", "fit", "--lives", table("lower,upper\n0,0\n"));
    refused("lower", "fit", "--lives", table("a,b\n5,6\n"));
    refused("junk.csv", "fit", "--lives", table(""));
    byte[] junk = new byte[4000];
    new Random(7).nextBytes(junk);
    Path file = Files.write(folder.resolve("junk.bin"), junk);
    refused("junk.bin", "fit", "--lives", file.toString());
  }

  @Test
  void aColumnToGroupByThatIsNotThere() {
    refused("'crew'", "fit", "--lives", TURBINE, "--by", "crew");
    refused("the groups of --by", "fit", "--lives", TURBINE, "--strata", "count");
    refused("'nothing'", "fit", "sample-fleet", "--by", "component,nothing");
    refused("''", "fit", "--lives", TURBINE, "--by", "");
  }

  @Test
  void aPlaceThatCannotBeWritten() throws IOException {
    Path file = Files.writeString(folder.resolve("file"), "mine");
    for (String command : new String[] {"lives", "fit", "report"}) {
      refused(
          "cannot be written", command, small().toString(), "--quiet", "--out", file + "/below");
    }
    refused("cannot be written", "check", small().toString(), "--out", folder.toString());
    refused("cannot be written", "report", small().toString(), "--quiet", "--out", file.toString());
    refused("cannot be written", "sample", "seeds/small-terminal.json", "--out", file.toString());
    assertEquals("mine", Run.read(file));
  }

  @Test
  void aFolderToWriteToThatIsNotNamed() {
    refused("report needs --out FOLDER", "report", "sample-fleet");
    refused("sample needs --out FOLDER", "sample", "seeds/small-terminal.json");
  }

  @Test
  void anOptionThatWouldDoNothing() {
    String out = folder.resolve("out").toString();
    refused("--format", "report", "sample-fleet", "--out", out, "--format", "json");
    refused("--format", "sample", "seeds/small-terminal.json", "--out", out, "--format", "json");
    refused("not both", "interval", "sample-fleet", "--shape", "2");
    refused("not both", "interval", "sample-fleet", "--positions", "2");
    refused("not both", "interval", "--planned=1", "--position", "2,10,5", "--shape", "2");
    refused("not both", "interval", "--planned=1", "--position", "2,10,5", "--positions", "2");
  }

  @Test
  void aScenarioThatIsNone() throws IOException {
    String scenario = Run.read(Path.of("seeds/small-terminal.json"));
    refusedScenario("shop", scenario.replaceFirst("\"shop\"", "\"shoop\""));
    refusedScenario("seed", scenario.replaceFirst("\"seed\": 12", "\"seed\": \"twelve\""));
    refusedScenario("seed", scenario.replaceFirst("\"seed\": 12,", ""));
    refusedScenario("line 1", "not json");
    refused("missing.json", "sample", folder + "/missing.json", "--out", folder + "/drawn");
    assertFalse(Files.exists(folder.resolve("drawn")));
  }

  @Test
  void aCalculatorCallThatIsIncomplete() {
    refused("--planned is missing", "interval");
    refused("--planned is missing", "interval", "--shape", "2");
    refused("--shape is missing", "interval", "--planned", "2");
    refused("--scale is missing", "interval", "--planned", "2", "--shape", "2");
    refused("--unplanned is missing", "interval", "--planned=2", "--shape=2", "--scale=9");
    refused("three numbers", "interval", "--planned", "1", "--position", "1,2");
    refused("three numbers", "interval", "--planned", "1", "--position", "1,2,3,4");
    refused("'a' is not a number", "interval", "--planned", "1", "--position", "1,2,a");
    refused("a scale is positive", "interval", "--planned", "1", "--position", "1,0,4");
    refused("unplanned cost", "interval", "--planned", "1", "--position", "1,3,-4");
    refused("above 0", "interval", "--planned=0", "--shape=2", "--scale=9", "--unplanned=3");
    refused(
        "--positions 0",
        "interval",
        "--planned=1",
        "--shape=2",
        "--scale=9",
        "--unplanned=3",
        "--positions=0");
  }

  @Test
  void debugShowsTheStackTrace() {
    Run run = Run.of("check", "pom.xml", "--debug");
    assertEquals(2, run.code());
    assertEquals("", run.out());
    assertTrue(run.err().startsWith("pom.xml: not a folder"), run.err());
    assertTrue(run.err().contains("\tat org.vaneward."), run.err());
  }

  @Command(name = "break")
  static final class BreakCommand implements Callable<Integer> {
    private final Throwable failure;

    @Mixin private Common common = new Common();

    BreakCommand(Throwable failure) {
      this.failure = failure;
    }

    @Override
    public Integer call() throws Exception {
      common.say("breaking");
      if (failure instanceof Error error) {
        throw error;
      }
      throw (Exception) failure;
    }
  }

  @Test
  void whatNobodyForesawIsAnInternalError() {
    Run plain = broken(new IllegalStateException("first\nsecond"), "--quiet");
    assertEquals(3, plain.code(), plain.err());
    assertEquals(
        "internal error: first second; run again with --debug for the details",
        plain.err().strip());
    Run debug = broken(new IllegalStateException("first"), "--debug");
    assertEquals(3, debug.code());
    assertTrue(debug.err().contains("\tat org.vaneward."), debug.err());
    Run nameless = broken(new NullPointerException(), "--quiet");
    assertTrue(nameless.err().contains("internal error: NullPointerException"), nameless.err());
  }

  @Test
  void aMachineThatRunsOutIsAnInternalErrorToo() {
    Run run = broken(new StackOverflowError(), "--quiet");
    assertEquals(3, run.code());
    assertTrue(run.err().startsWith("internal error: java.lang.StackOverflowError"), run.err());
    assertEquals(3, broken(new NoClassDefFoundError("font"), "--quiet").code());
  }

  private static Run broken(Throwable failure, String option) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    CommandLine program =
        Main.commandLine(new PrintWriter(out), new PrintWriter(err))
            .addSubcommand(
                new CommandLine(new BreakCommand(failure))
                    .setErr(new PrintWriter(err))
                    .setCaseInsensitiveEnumValuesAllowed(true)
                    .setExecutionExceptionHandler(Failures::failed));
    int code = Main.execute(program, "break", option);
    assertEquals("", out.toString());
    return new Run(code, out.toString(), err.toString());
  }

  private static void refused(String part, String... args) {
    Run run = Run.of(args);
    run.isRefusedInOneLine();
    assertTrue(run.err().contains(part), run.err());
  }

  private void refusedScenario(String part, String scenario) throws IOException {
    Path file = Files.writeString(folder.resolve("scenario.json"), scenario);
    refused(part, "sample", file.toString(), "--out", folder + "/drawn");
  }

  private String table(String text) throws IOException {
    return Files.write(folder.resolve("junk.csv"), text.getBytes(StandardCharsets.UTF_8))
        .toString();
  }

  private Path small() {
    Path fleet = folder.resolve("small");
    Run.ending(0, "sample", "seeds/small-terminal.json", "--out", fleet.toString());
    return fleet;
  }
}
