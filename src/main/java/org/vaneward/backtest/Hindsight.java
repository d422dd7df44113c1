package org.vaneward.backtest;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.vaneward.backtest.MoneyCompared.Side;
import org.vaneward.backtest.Story.Advised;
import org.vaneward.backtest.Story.End;
import org.vaneward.backtest.Story.Kind;
import org.vaneward.backtest.Story.LifeOnRecord;
import org.vaneward.backtest.Story.Opened;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.life.Lives;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.ServiceModels;
import org.vaneward.stats.DrawLimits;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Streams;

/**
 * What the years replayed would have come to under the advice.
 *
 * <p>Each pump follows its record as long as the advice would have changed nothing: its stops come
 * when they came and are handled as they were. At the first planned rebuild that the advice moves,
 * brings or spares, it parts from the record. From then on a part on record fails when it is known
 * to have failed; one that was taken out in working order fails at an age drawn from those beyond
 * the age it had reached; a part fitted under the advice fails at an age drawn anew. Stops bring a
 * full rebuild as often as they did in this shop. Lives are drawn from what all records together
 * say, running hours are those on record.
 *
 * <p>What cannot be known is what planned rebuilds prevented, on either side: those failures are
 * drawn, not seen. And advice given at each origin rests on the record as it was, not on the one
 * that the advice itself would have made.
 */
final class Hindsight {
  private static final double DAYS_PER_YEAR = 365.25;

  /** Columns of what a future comes to. */
  private static final int PLANNED = 0;

  private static final int STOPS = 1;
  private static final int ON_RECORD = 2;
  private static final int MONEY = 3;
  private static final int MONEY_HAPPENED = 4;
  private static final int COLUMNS = 5;

  private final Stories stories;
  private final List<Component> components;
  private final double[] hiddenCost;
  private final double[] noticed;
  private final double fullAtStop;
  private final double mandatedDays;
  private final int[] spanStart;
  private final int[] spanEnd;
  private final long seed;

  private Hindsight(
      Stories stories,
      Habits habits,
      Prices prices,
      Fleet records,
      List<HalfYear> halfYears,
      long seed) {
    this.stories = stories;
    this.components = stories.components();
    this.hiddenCost = components.stream().mapToDouble(c -> prices.hidden(c.component())).toArray();
    this.noticed =
        components.stream()
            .mapToDouble(c -> c.announces() ? 1 : habits.noticed(c.component()))
            .toArray();
    this.fullAtStop = habits.fullAtStop;
    this.mandatedDays = records.settings().limits().maxIntervalDays();
    LocalDate zero = halfYears.get(0).span().origin();
    this.spanStart = halfYears.stream().mapToInt(h -> Story.day(zero, h.span().origin())).toArray();
    this.spanEnd = halfYears.stream().mapToInt(h -> Story.day(zero, h.span().end())).toArray();
    this.seed = seed;
  }

  /**
   * The comparison; empty where costs are not stated or no pump can be followed.
   *
   * @param hindsight what is believed of lives with all records at hand
   * @param halfYears replayed, in order of time, one after another without a gap
   */
  static Optional<MoneyCompared> of(
      Fleet records,
      Lives lives,
      ServiceModels hindsight,
      List<HalfYear> halfYears,
      BacktestRequest request) {
    Optional<Prices> prices = Prices.of(records.settings());
    if (prices.isEmpty() || halfYears.isEmpty()) {
      return Optional.empty();
    }
    Openings openings = new Openings(records, lives);
    Stories stories = new Stories(records, lives, openings, hindsight, prices.get(), halfYears);
    if (stories.all.isEmpty()) {
      return Optional.empty();
    }
    Habits habits = new Habits(lives, openings);
    return Optional.of(
        new Hindsight(stories, habits, prices.get(), records, halfYears, request.seed())
            .compare(halfYears, request));
  }

  private MoneyCompared compare(List<HalfYear> halfYears, BacktestRequest request) {
    int futures = stories.models.stream().mapToInt(LifeDraws::size).max().orElse(1);
    double[][] columns = new double[COLUMNS][futures];
    IntStream.range(0, futures)
        .parallel()
        .forEach(
            f -> {
              double[] came = new double[COLUMNS];
              for (int p = 0; p < stories.all.size(); p++) {
                new Run(stories.all.get(p), f, p).live(came);
              }
              for (int c = 0; c < COLUMNS; c++) {
                columns[c][f] = came[c];
              }
            });
    double[] more = new double[futures];
    int dearer = 0;
    for (int f = 0; f < futures; f++) {
      more[f] = columns[MONEY][f] - columns[MONEY_HAPPENED][f];
      dearer += more[f] > 0 ? 1 : 0;
    }
    double confidence = request.confidence();
    double days = stories.all.stream().mapToDouble(s -> s.ends - s.enters).sum();
    return new MoneyCompared(
        halfYears.get(0).span().origin(),
        halfYears.get(halfYears.size() - 1).span().end(),
        stories.all.size(),
        days / DAYS_PER_YEAR,
        stories.leftOut,
        new Side(
            sure(happened(Kind.PLANNED)),
            sure(happened(Kind.STOP)),
            DrawLimits.ofMean(columns[MONEY_HAPPENED], confidence)),
        new Side(
            DrawLimits.ofMean(columns[PLANNED], confidence),
            DrawLimits.ofMean(columns[STOPS], confidence),
            DrawLimits.ofMean(columns[MONEY], confidence)),
        DrawLimits.ofMean(more, confidence),
        (double) dearer / futures,
        DrawLimits.ofMean(columns[ON_RECORD], confidence));
  }

  private double happened(Kind kind) {
    return stories.all.stream()
        .flatMap(s -> s.openings.stream().filter(o -> o.day() > s.enters && o.day() <= s.ends))
        .filter(o -> o.kind() == kind)
        .count();
  }

  private static Estimate sure(double number) {
    return new Estimate(number, number, number);
  }

  /** A part, and what becomes of it. */
  private static final class Part {
    /** Count at which it stops the pump; infinite when it never does. */
    double stops = Double.POSITIVE_INFINITY;

    /** Count from which it runs on failed, unseen; infinite when it never does. */
    double unseen = Double.POSITIVE_INFINITY;

    /** Whether its failure is on record. */
    boolean onRecord;

    /** The same part from a count on: what it ran unseen before is counted already. */
    Part from(double count) {
      Part part = new Part();
      part.stops = stops;
      part.unseen = Math.max(unseen, count);
      part.onRecord = onRecord;
      return part;
    }
  }

  /** One pump in one future. */
  private final class Run {
    private final Story story;
    private final int draw;
    private final SplittableRandom random;
    private final Part[][] recorded;
    private final Part[] now;
    private boolean parted;
    private double lastFull;
    private double lastFullDay;

    /** Whether it was rebuilt in full since the advice in force was given. */
    private boolean rebuilt;

    private int nextOpening;

    Run(Story story, int future, int pump) {
      this.story = story;
      this.draw = future;
      this.random = Streams.of(seed, future, pump);
      this.recorded = new Part[story.lives.size()][];
      this.now = new Part[story.lives.size()];
      for (int p = 0; p < recorded.length; p++) {
        List<LifeOnRecord> lives = story.lives.get(p);
        recorded[p] = new Part[lives.size()];
        for (int i = 0; i < recorded[p].length; i++) {
          recorded[p][i] = latent(lives.get(i), noticed[story.component[p]]);
        }
      }
    }

    /** When a part on record fails or would have failed. */
    private Part latent(LifeOnRecord life, double noticed) {
      Part part = new Part();
      LifeDraws model = stories.models.get(life.model());
      double seen = model.cumulativeHazard(draw, life.seenGood());
      double end = model.cumulativeHazard(draw, life.age());
      double u = random.nextDouble();
      double further = random.nextExponential();
      boolean notices = random.nextDouble() < noticed;
      if (life.end() == End.FAILED) {
        part.stops = life.fitted() + life.age();
        part.onRecord = true;
      } else if (life.end() == End.FOUND) {
        double hazard = seen - Math.log1p(u * Math.expm1(seen - end));
        part.unseen = life.fitted() + model.ageAt(draw, hazard);
        part.onRecord = true;
        if (noticed >= 1) {
          // It should have stopped the pump and did not: it does when it was found.
          part.stops = life.fitted() + life.age();
          part.unseen = Double.POSITIVE_INFINITY;
        }
      } else {
        double silent = -(1 - noticed) * Math.expm1(seen - end);
        boolean failedUnseen = u * (silent + Math.exp(seen - end)) < silent;
        double hazard =
            failedUnseen
                ? seen - Math.log1p(random.nextDouble() * Math.expm1(seen - end))
                : end + further;
        double at = life.fitted() + model.ageAt(draw, hazard);
        if (notices && !failedUnseen) {
          part.stops = at;
        } else {
          part.unseen = at;
        }
      }
      return part;
    }

    void live(double[] came) {
      double begin = story.count[story.enters];
      lastFull = begin - story.sinceFull;
      double perDay = (story.count[story.ends] - begin) / (story.ends - story.enters);
      lastFullDay = perDay > 0 ? story.enters - story.sinceFull / perDay : story.enters;
      while (nextOpening < story.openings.size()
          && story.openings.get(nextOpening).day() <= story.enters) {
        nextOpening++;
      }
      double interval = Double.POSITIVE_INFINITY;
      for (int k = 0; k < spanEnd.length; k++) {
        Optional<Advised> advised = story.advice.get(k);
        int end = Math.min(spanEnd[k], story.ends);
        if (advised.isPresent() && spanStart[k] < end) {
          interval = advised.get().interval();
          halfYear(advised.get(), spanStart[k], end, came);
        }
      }
      double last = story.count[story.ends];
      if (parted) {
        for (int p = 0; p < now.length; p++) {
          ranUnseen(p, last, came);
        }
      } else {
        came[MONEY] += hiddenOnRecord(last);
      }
      came[MONEY_HAPPENED] += happened(last);
      if (!story.retired && interval < Double.POSITIVE_INFINITY) {
        came[MONEY] += wornOff(last - lastFull, interval);
        came[MONEY_HAPPENED] += wornOff(story.sinceFullAtEnd, interval);
      }
    }

    private double wornOff(double since, double interval) {
      return story.planned * Math.min(1, since / interval);
    }

    private double happened(double last) {
      double total = hiddenOnRecord(last);
      for (Opened opening : story.openings) {
        total += opening.day() > story.enters && opening.day() <= story.ends ? opening.cost() : 0;
      }
      return total;
    }

    /** Cost of running on unseen failures on record from the beginning up to a count. */
    private double hiddenOnRecord(double until) {
      double begin = story.count[story.enters];
      double total = 0;
      for (int p = 0; p < recorded.length; p++) {
        List<LifeOnRecord> lives = story.lives.get(p);
        for (int i = 0; i < lives.size(); i++) {
          double end = Math.min(until, lives.get(i).fitted() + lives.get(i).age());
          double from = Math.max(begin, recorded[p][i].unseen);
          total += Math.max(0, end - from) * hiddenCost[story.component[p]];
        }
      }
      return total;
    }

    private void halfYear(Advised advised, int start, int end, double[] came) {
      double at = story.count[start];
      double last = story.count[end];
      rebuilt = false;
      while (true) {
        double planned = planned(advised, at);
        int first = parted ? firstToStop() : -1;
        double stop = first < 0 ? Double.POSITIVE_INFINITY : now[first].stops;
        boolean recordNext = !parted && nextOpening < story.openings.size();
        Opened opening = recordNext ? story.openings.get(nextOpening) : NONE;
        double open = recordNext && opening.day() <= end ? story.count[opening.day()] : NEVER;
        double next = Math.min(planned, Math.min(stop, open));
        if (!(next <= last)) {
          return;
        }
        at = Math.max(at, next);
        if (planned <= stop && planned < open) {
          rebuild(advised, at, came);
        } else if (parted) {
          stop(advised, first, at, came);
        } else {
          follow(opening, at, came);
        }
      }
    }

    /** The count of the next planned rebuild; one that is past is made at once. */
    private double planned(Advised advised, double at) {
      if (!parted && !rebuilt) {
        return advised.day().map(day -> story.count[day]).filter(c -> c >= at).orElse(NEVER);
      }
      double due = lastFull + advised.interval();
      double mandated = lastFullDay + mandatedDays;
      if (mandated < story.count.length) {
        due = Math.min(due, story.count[(int) Math.max(0, mandated)]);
      }
      return Math.max(at, due);
    }

    private int firstToStop() {
      int first = 0;
      for (int p = 1; p < now.length; p++) {
        first = now[p].stops < now[first].stops ? p : first;
      }
      return first;
    }

    /** A planned rebuild under the advice: the pump parts from its record. */
    private void rebuild(Advised advised, double at, double[] came) {
      if (!parted) {
        came[MONEY] += hiddenOnRecord(at);
      }
      came[PLANNED]++;
      came[MONEY] += story.planned;
      renewAll(advised, at, came);
      parted = true;
    }

    private void renewAll(Advised advised, double at, double[] came) {
      for (int p = 0; p < now.length; p++) {
        if (parted) {
          ranUnseen(p, at, came);
        }
        now[p] = fresh(advised, p, at);
      }
      wasRebuilt(at);
    }

    private void wasRebuilt(double at) {
      lastFull = at;
      lastFullDay = story.dayOf(at);
      rebuilt = true;
    }

    private void ranUnseen(int p, double until, double[] came) {
      double from = Math.max(now[p].unseen, story.count[story.enters]);
      came[MONEY] += Math.max(0, until - from) * hiddenCost[story.component[p]];
    }

    private Part fresh(Advised advised, int p, double at) {
      Part part = new Part();
      double budget = random.nextExponential();
      boolean notices = random.nextDouble() < noticed[story.component[p]];
      if (advised.model()[p] >= 0) {
        double fails = at + stories.models.get(advised.model()[p]).ageAt(draw, budget);
        if (notices) {
          part.stops = fails;
        } else {
          part.unseen = fails;
        }
      }
      return part;
    }

    private void stop(Advised advised, int first, double at, double[] came) {
      boolean full = random.nextDouble() < fullAtStop;
      int component = story.component[first];
      came[STOPS]++;
      came[ON_RECORD] += now[first].onRecord ? 1 : 0;
      came[MONEY] += full ? story.stopRebuilt[component] : story.stopMended[component];
      if (full) {
        renewAll(advised, at, came);
      } else {
        now[first] = fresh(advised, first, at);
      }
    }

    /** The next opening on record, where nothing yet is other than it was. */
    private void follow(Opened opening, double at, double[] came) {
      nextOpening++;
      if (opening.kind() == Kind.PLANNED) {
        // Not advised: its parts run on.
        came[MONEY] += hiddenOnRecord(at);
        for (int p = 0; p < now.length; p++) {
          now[p] = inPlace(p, opening.day() - 1).from(at);
        }
        parted = true;
        return;
      }
      if (opening.kind() == Kind.STOP) {
        came[STOPS]++;
        came[ON_RECORD]++;
        came[MONEY] += opening.cost();
      }
      if (opening.full()) {
        wasRebuilt(at);
      }
    }

    /** The part on record in a position at the end of a day; one that never fails if none is. */
    private Part inPlace(int p, int day) {
      List<LifeOnRecord> lives = story.lives.get(p);
      for (int i = 0; i < lives.size(); i++) {
        if (lives.get(i).from() <= day && day < lives.get(i).to()) {
          return recorded[p][i];
        }
      }
      return new Part();
    }
  }

  private static final double NEVER = Double.POSITIVE_INFINITY;
  private static final Opened NONE = new Opened(Integer.MAX_VALUE, Kind.NEITHER, false, 0);
}
