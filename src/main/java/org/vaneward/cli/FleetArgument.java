package org.vaneward.cli;

import java.nio.file.Path;
import picocli.CommandLine.Parameters;

/** The fleet folder a command works on. */
final class FleetArgument {
  @Parameters(
      index = "0",
      paramLabel = "FLEET",
      description =
          "folder with fleet.json and the tables of pumps, services, readings, rebuilds and findings")
  Path folder = Path.of("");
}
