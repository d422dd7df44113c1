package org.vaneward.report;

import java.util.List;
import org.vaneward.io.InputFile;

/**
 * Where a report came from: with the same of each, the same program writes the same bytes.
 *
 * @param version of the program
 * @param confidence of limits
 * @param seed of random draws
 * @param months the futures go ahead
 * @param futures how many of them
 * @param files what was read
 */
record MadeFrom(
    String version, double confidence, long seed, int months, int futures, List<InputFile> files) {
  MadeFrom {
    files = List.copyOf(files);
  }

  static MadeFrom of(FleetAnalysis analysis, SparesAnalysis ahead) {
    return new MadeFrom(
        Version.number(),
        analysis.settings().confidence(),
        analysis.seed(),
        ahead.plan().months().size(),
        ahead.plan().futures(),
        analysis.files());
  }

  /** In a sentence. */
  String words() {
    return "Vaneward "
        + version
        + "; limits at "
        + Words.percent(confidence)
        + "; seed "
        + seed
        + "; "
        + Words.count(futures, "future", "futures")
        + " over "
        + Words.count(months, "month", "months")
        + ".";
  }
}
