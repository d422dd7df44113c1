package org.vaneward.cli;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.BadInputException;
import org.vaneward.plan.WhatIf;
import picocli.CommandLine.Option;

/** Options that put other costs, limits and usage in the place of the recorded ones. */
final class WhatIfOptions {
  @Option(
      names = "--if-planned",
      paramLabel = "C",
      description = "what if a planned rebuild cost so much beside its parts")
  private @Nullable Double planned;

  @Option(
      names = "--if-unplanned",
      paramLabel = "COMPONENT=C",
      description =
          "what if a stop by that component cost so much beside its parts; repeat for others")
  private Map<String, Double> unplanned = new LinkedHashMap<>();

  @Option(
      names = "--if-mandated",
      paramLabel = "MONTHS",
      description = "what if rebuilds were mandated so often; a question, not a permission")
  private @Nullable Integer months;

  @Option(
      names = "--if-usage",
      paramLabel = "TIMES",
      description = "what if the pumps ran so many times what they do, such as 1.2")
  private @Nullable Double usage;

  /** What is asked. */
  WhatIf question() {
    return new WhatIf(
        Optional.ofNullable(planned).map(OptionalDouble::of).orElse(OptionalDouble.empty()),
        unplanned,
        Optional.ofNullable(months).map(OptionalInt::of).orElse(OptionalInt.empty()),
        Optional.ofNullable(usage).orElse(1.0));
  }

  /** Refuses the options where there is no fleet to ask. */
  void refuse(String other) {
    if (question().isAsked()) {
      throw new BadInputException(
          "--if-planned, --if-unplanned, --if-mandated and --if-usage go with a fleet folder, not"
              + " with "
              + other);
    }
  }
}
