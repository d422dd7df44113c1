package org.vaneward.bench;

import java.nio.file.Path;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.vaneward.plan.PumpNow;
import org.vaneward.report.FleetAnalysis;
import org.vaneward.spares.DemandRequest;
import org.vaneward.spares.FleetAhead;
import org.vaneward.spares.Outlook;
import org.vaneward.spares.Rule;
import org.vaneward.stats.fit.FitSettings;

/**
 * Demand over five years of a fleet of 534 pumps with 5 positions each: the 89 of the sample fleet,
 * six times over.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(2)
@Warmup(iterations = 1)
@Measurement(iterations = 5)
public class DemandBench {
  private static final int MONTHS = 60;
  private static final int COPIES = 6;

  /** Futures lived. */
  @Param({"10000"})
  public int futures;

  private List<FleetAhead> fleet = List.of();

  /** Reads, fits and plans the sample fleet. */
  @Setup
  public void plan() {
    FleetAnalysis analysis =
        FleetAnalysis.of(Path.of("sample-fleet"), FitSettings.defaults(), 1, said -> {});
    List<PumpNow> pumps =
        Collections.nCopies(COPIES, analysis.pumps()).stream().flatMap(List::stream).toList();
    fleet =
        List.of(
            FleetAhead.of(
                analysis.fleetSettings(), pumps, analysis.plan(), analysis.models()::find, MONTHS));
  }

  /** As planned. */
  @Benchmark
  public Outlook planned() {
    return live(Rule.PLAN);
  }

  /** Run to failure, only what failed renewed. */
  @Benchmark
  public Outlook mended() {
    return live(Rule.TO_FAILURE.mending());
  }

  private Outlook live(Rule rule) {
    return Outlook.of(fleet.get(0), rule, new DemandRequest(MONTHS, futures, 1), said -> {});
  }
}
