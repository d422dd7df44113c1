package org.vaneward.cli;

import java.nio.file.Path;
import picocli.CommandLine.Parameters;

/** The fleet folder a command works on. */
final class FleetArgument {
  @Parameters(
      index = "0",
      paramLabel = "FLEET",
      description =
          "folder with fleet.json, pumps.csv, services.csv, readings.csv, rebuilds.csv, findings.csv")
  Path folder = Path.of("");
}
