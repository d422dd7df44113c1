package org.vaneward.backtest;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.life.InstalledPart;
import org.vaneward.life.Life;
import org.vaneward.life.Lives;
import org.vaneward.life.OpeningMade;
import org.vaneward.life.OpeningMade.Reason;
import org.vaneward.model.ServiceModels;
import org.vaneward.plan.Plan;
import org.vaneward.plan.PumpNow;
import org.vaneward.stats.pooling.PoolingSettings;
import org.vaneward.stats.scoring.IntegralTransform;
import org.vaneward.stats.scoring.ReliabilityBin;

/**
 * History replayed half-year by half-year: at each origin lives are fitted, rebuilds advised and
 * stops and kits foretold from what was known on that day alone, and held against what came.
 *
 * <p>Foretold is the half-year as the shop would have carried on, not as advised: what came, came
 * under the shop's own practice.
 *
 * @param halfYears those that could be replayed, in order of time
 * @param skipped origins at which nothing could be foretold
 * @param skippedBecause why, of the latest of them; empty when there is none
 * @param money what happened beside what would have happened under the advice; empty where costs
 *     are not stated
 * @param request what was asked
 */
public record Backtest(
    List<HalfYear> halfYears,
    List<LocalDate> skipped,
    Optional<String> skippedBecause,
    Optional<MoneyCompared> money,
    BacktestRequest request) {
  /** Weeks whose extra cost is asked for: advice needs the day only. */
  private static final int ONE_WEEK = 1;

  /** Bounds of chances of a stop in half a year that are looked at together. */
  private static final double[] CHANCES = {0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.6, 1};

  public Backtest {
    halfYears = List.copyOf(halfYears);
    skipped = List.copyOf(skipped);
  }

  /**
   * Replays the history of a fleet.
   *
   * @param records all its records
   * @param archive its records as they were read on an earlier day; asked by several threads
   * @param lives the lives built from them
   * @param hindsight what is believed of lives with all records at hand
   * @param progress is told, in a few words, how far it has come
   */
  public static Backtest of(
      Fleet records,
      Archive archive,
      Lives lives,
      ServiceModels hindsight,
      BacktestRequest request,
      Consumer<String> progress) {
    List<Span> spans = spans(records, request.halfYears());
    Openings openings = new Openings(records, lives);
    AtomicInteger done = new AtomicInteger();
    List<Replayed> replayed =
        spans.parallelStream()
            .map(
                span -> {
                  Replayed one = replay(records, archive, span, openings, request);
                  progress.accept(
                      "replayed " + done.incrementAndGet() + " of " + spans.size() + " half-years");
                  return one;
                })
            .toList();
    List<HalfYear> halfYears = new ArrayList<>();
    List<LocalDate> skipped = new ArrayList<>();
    Optional<String> because = Optional.empty();
    for (Replayed one : replayed) {
      one.halfYear().ifPresent(halfYears::add);
      if (one.halfYear().isEmpty()) {
        skipped.add(one.span().origin());
        because = Optional.of(one.because());
      }
    }
    return new Backtest(
        halfYears,
        skipped,
        because,
        Hindsight.of(records, lives, hindsight, unbroken(halfYears), request),
        request);
  }

  /** Since the last that could not be replayed: nobody can follow a pump across what is missing. */
  private static List<HalfYear> unbroken(List<HalfYear> halfYears) {
    int count = Span.unbroken(halfYears.stream().map(HalfYear::span).toList());
    return halfYears.subList(halfYears.size() - count, halfYears.size());
  }

  /** A fleet's records as they stood on an earlier day. */
  public interface Archive {
    /** The records as they would have been read on {@code day}, no row judged by later ones. */
    Fleet asOf(LocalDate day);
  }

  private static List<Span> spans(Fleet records, int most) {
    LocalDate asOf = records.settings().asOf();
    LocalDate first =
        records.pumps().stream()
            .map(PumpHistory::pump)
            .flatMap(Backtest::since)
            .min(Comparator.naturalOrder())
            .orElse(asOf);
    List<Span> all = Span.halfYears(first, asOf);
    return all.subList(Math.max(0, all.size() - most), all.size());
  }

  private static Stream<LocalDate> since(Pump pump) {
    return pump.recordsFrom().or(pump::commissioned).stream();
  }

  /** A half-year replayed, or why not. */
  private record Replayed(Span span, Optional<HalfYear> halfYear, String because) {}

  private static Replayed replay(
      Fleet records, Archive archive, Span span, Openings openings, BacktestRequest request) {
    Then then =
        Then.of(
            archive.asOf(span.origin()),
            records,
            span,
            PoolingSettings.defaults()
                .withConfidence(request.confidence())
                .withDraws(ServiceModels.DRAWS)
                .withSeed(request.seed()));
    Optional<String> missing = then.missing();
    if (missing.isPresent()) {
      return new Replayed(
          span, Optional.empty(), "no life of " + missing.get() + " could be fitted yet");
    }
    List<PumpThen> pumps = pumps(then);
    if (pumps.isEmpty()) {
      return new Replayed(
          span, Optional.empty(), "no pump had readings enough to foretell its use");
    }
    AsUsual.Ahead ahead = AsUsual.of(then.habits(), pumps, request.futures(), request.seed());
    List<String> names = pumps.stream().map(p -> p.pump).toList();
    return new Replayed(
        span,
        Optional.of(
            new HalfYear(
                span,
                (int) then.lives().lives().stream().filter(Life::hasFailed).count(),
                names,
                then.pumps().size() - names.size(),
                ahead.forecast(),
                ahead.kits(),
                ahead.planned(),
                Rivals.of(then, pumps, request.fixedInterval()),
                came(openings, span, Set.copyOf(names)),
                advice(then, request))),
        "");
  }

  private static List<PumpThen> pumps(Then then) {
    Map<String, Map<String, InstalledPart>> parts = then.parts();
    return then.pumps().stream()
        .sorted(Comparator.comparing(PumpNow::pump))
        .flatMap(
            pump -> PumpThen.of(then, pump, parts.getOrDefault(pump.pump(), Map.of())).stream())
        .toList();
  }

  private static List<Advice> advice(Then then, BacktestRequest request) {
    return Advice.of(
        Plan.due(
            then.settings(), then.pumps(), then.models()::find, request.confidence(), ONE_WEEK),
        then.span(),
        then.settings().workshop());
  }

  private static Came came(Openings openings, Span span, Set<String> pumps) {
    int stops = 0;
    int kits = 0;
    int planned = 0;
    int startUps = 0;
    Set<String> stopped = new HashSet<>();
    for (OpeningMade opening : openings.all()) {
      if (!span.contains(opening.date()) || !pumps.contains(opening.pump())) {
        continue;
      }
      kits += openings.usedKit(opening) ? 1 : 0;
      planned += opening.reason() == Reason.PLANNED ? 1 : 0;
      startUps += opening.reason() == Reason.STOP && openings.isStartUp(opening) ? 1 : 0;
      if (openings.isStop(opening)) {
        stops++;
        stopped.add(opening.pump());
      }
    }
    return new Came(stops, kits, planned, startUps, stopped);
  }

  /** The score of our forecasts. */
  public Score ours() {
    return halfYears.stream().map(h -> h.score(h.forecast())).reduce(Score.NONE, Score::plus);
  }

  /** The score of a rival, over the half-years of which it foretold something. */
  public Score of(Rival rival) {
    return halfYears.stream()
        .flatMap(h -> h.of(rival).map(h::score).stream())
        .reduce(Score.NONE, Score::plus);
  }

  /** Half-years whose stops came within the limits foretold. */
  public int stopsWithin() {
    return (int) halfYears.stream().filter(h -> h.stopsWithin(request.confidence())).count();
  }

  /** Half-years whose kits came within the limits foretold. */
  public int kitsWithin() {
    return (int) halfYears.stream().filter(h -> h.kitsWithin(request.confidence())).count();
  }

  /** How often pumps given a chance of a stop stopped, by that chance. */
  public List<ReliabilityBin> calibration() {
    int n = halfYears.stream().mapToInt(h -> h.pumps().size()).sum();
    double[] chances = new double[n];
    boolean[] came = new boolean[n];
    int i = 0;
    for (HalfYear halfYear : halfYears) {
      for (int p = 0; p < halfYear.pumps().size(); p++) {
        chances[i] = halfYear.forecast().chanceOfStop().get(p);
        came[i++] = halfYear.came().stopped().contains(halfYear.pumps().get(p));
      }
    }
    return ReliabilityBin.of(chances, came, CHANCES, request.confidence());
  }

  /** How the stops that came lie in those foretold: counts in so many equal parts of 0 to 1. */
  public double[] transforms(int bins) {
    return IntegralTransform.histogram(halfYears.stream().map(HalfYear::transform).toList(), bins);
  }
}
