package org.vaneward.study;

import java.nio.file.Path;
import java.util.*;
import java.util.stream.*;
import org.vaneward.fleet.*;
import org.vaneward.life.*;
import org.vaneward.model.*;
import org.vaneward.plan.*;
import org.vaneward.policy.*;
import org.vaneward.report.*;
import org.vaneward.sample.*;
import org.vaneward.stats.*;
import org.vaneward.stats.distribution.*;
import org.vaneward.stats.fit.*;

public final class IntervalRegret {
  record Case(
      String service,
      int pumps,
      double[] regret,
      double saving,
      double failures,
      String basis,
      double gmin,
      double[] at) {}

  static LifeModel known(String c, Optional<Service> s, Weibull w) {
    return new LifeModel(
        c,
        s,
        w,
        new Estimate(0, 0, 0),
        new Estimate(0, 0, 0),
        LifeModel.Basis.OWN_FAILURES,
        0,
        0,
        0,
        LifeDraws.certain(w));
  }

  static long mn, mc;

  static ServiceModels models(LivesTable t) {
    long t0 = System.nanoTime();
    ServiceModels m =
        ServiceModels.of(
            t,
            org.vaneward.stats.pooling.PoolingSettings.defaults()
                .withDraws(Integer.getInteger("draws", 1000)));
    mn += System.nanoTime() - t0;
    mc++;
    return m;
  }

  static List<Case> cases(Path scenario, long seed) {
    return DrawnFleet.look(scenario, seed, (folder, truth) -> cases(folder, truth));
  }

  static List<Case> cases(Path folder, Truth truth) {
    FleetLives fl = FleetLives.read(folder);
    LivesTable table = LivesTable.of(fl.lives());
    ServiceModels ladder = models(table);
    Map<List<String>, Weibull> own = new HashMap<>();
    Map<String, Weibull> all = new HashMap<>();
    table
        .groupBy(List.of("component"))
        .forEach(
            (k, l) -> {
              if (WeibullFitter.fit(l.observations(), FitSettings.defaults())
                  instanceof WeibullFit.Fitted f) all.put(k.get(0), f.weibull());
            });
    table
        .groupBy(List.of("component", "product", "duty"))
        .forEach(
            (k, l) -> {
              if (WeibullFitter.fit(l.observations(), FitSettings.defaults())
                  instanceof WeibullFit.Fitted f) own.put(k, f.weibull());
            });
    LifeLookup oracle =
        (c, s) ->
            truth.lifetimes().stream()
                .filter(
                    t ->
                        t.component().equals(c)
                            && s.equals(Optional.of(new Service(t.product(), t.duty()))))
                .findFirst()
                .map(t -> known(c, s, new Weibull(t.shape(), t.scale())));
    LifeLookup owns =
        (c, s) ->
            Optional.ofNullable(
                    own.getOrDefault(
                        s.map(x -> List.of(c, x.product(), x.duty())).orElse(List.of()),
                        all.get(c)))
                .map(w -> known(c, s, w));
    LifeLookup alls = (c, s) -> Optional.ofNullable(all.get(c)).map(w -> known(c, s, w));
    Map<List<Object>, Integer> pumps = new LinkedHashMap<>();
    for (PumpNow p : PumpNow.of(fl.records().fleet(), fl.lives()))
      pumps.merge(List.of(p.model(), p.service()), 1, Integer::sum);
    List<Case> cases = new ArrayList<>();
    pumps.forEach(
        (k, n) -> {
          @SuppressWarnings("unchecked")
          Optional<String> model = (Optional<String>) k.get(0);
          @SuppressWarnings("unchecked")
          Optional<Service> service = (Optional<Service>) k.get(1);
          if (!(CostModels.forService(fl.settings(), model, service, oracle)
              instanceof CostModels.Available o)) return;
          CostRate g = CostRate.of(o.model());
          IntervalAdvice best = IntervalSearch.best(g);
          List<OptionalDouble> advised =
              List.of(
                  point(fl, model, service, alls),
                  point(fl, model, service, owns),
                  point(fl, model, service, ladder::find),
                  drawn(fl, model, service, ladder::find));
          double[] r = new double[advised.size()];
          for (int i = 0; i < r.length; i++) {
            r[i] =
                (advised.get(i).isPresent()
                            ? g.costPerHour(advised.get(i).getAsDouble())
                            : g.runToFailureCostPerHour())
                        / best.costPerHour()
                    - 1;
          }
          LifeModel seal = ladder.find("seal", service).orElseThrow();
          cases.add(
              new Case(
                  service.toString(),
                  n,
                  r,
                  best.saving(),
                  seal.failures(),
                  seal.basis().key(),
                  best.costPerHour(),
                  advised.stream().mapToDouble(x -> x.orElse(1e9)).toArray()));
        });
    return cases;
  }

  static OptionalDouble point(
      FleetLives fl, Optional<String> model, Optional<Service> service, LifeLookup l) {
    return CostModels.forService(fl.settings(), model, service, l) instanceof CostModels.Available a
        ? IntervalSearch.best(a.model()).intervalHours()
        : OptionalDouble.empty();
  }

  static OptionalDouble drawn(
      FleetLives fl, Optional<String> model, Optional<Service> service, LifeLookup l) {
    if (!(CostModels.forService(fl.settings(), model, service, l)
        instanceof CostModels.Available a)) return OptionalDouble.empty();
    long t0 = System.nanoTime();
    DrawnRun run = DrawnRun.fromNew(a.drawn());
    double[] e = run.edges();
    int at = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int j = 0; j < e.length; j++) {
      double c = run.expectedCostPerHour(e[j]);
      if (c < least) {
        least = c;
        at = j;
      }
    }
    var m =
        org.vaneward.stats.numeric.Minimum.between(
            run::expectedCostPerHour, e[Math.max(0, at - 1)], e[Math.min(e.length - 1, at + 1)], 5);
    nanos += System.nanoTime() - t0;
    runs++;
    return m.value() < run.expectedCostPerHour(Double.POSITIVE_INFINITY) * (1 - 1e-9)
        ? OptionalDouble.of(m.at())
        : OptionalDouble.empty();
  }

  static long nanos, runs;

  static String line(String name, List<Case> cases, int m) {
    double[] r = cases.stream().mapToDouble(c -> c.regret()[m]).sorted().toArray();
    double[] w =
        cases.stream()
            .flatMapToDouble(c -> DoubleStream.generate(() -> c.regret()[m]).limit(c.pumps()))
            .sorted()
            .toArray();
    double cw =
        cases.stream().mapToDouble(c -> c.pumps() * c.regret()[m] * c.gmin()).sum()
            / cases.stream().mapToDouble(c -> c.pumps() * c.gmin()).sum();
    return String.format(Locale.ROOT, "money %5.2f  ", 100 * cw)
        + String.format(
            Locale.ROOT,
            "%-28s %5d  %6.2f %6.2f %6.2f   by pump %6.2f %6.2f %6.2f",
            name,
            r.length,
            100 * r[r.length / 2],
            100 * r[r.length * 9 / 10],
            100 * Arrays.stream(r).average().orElse(0),
            100 * w[w.length / 2],
            100 * w[w.length * 9 / 10],
            100 * Arrays.stream(w).average().orElse(0));
  }

  public static void main(String[] args) {
    Path scenario = Path.of(args[0]);
    int n = Integer.parseInt(args[1]);
    List<Case> all =
        IntStream.rangeClosed(1, n)
            .parallel()
            .mapToObj(s -> cases(scenario, s))
            .collect(Collectors.toList())
            .stream()
            .flatMap(List::stream)
            .toList();
    String[] names = {"all together", "own", "model middle", "model expected"};
    for (int m = 0; m < names.length; m++) System.out.println(line(names[m], all, m));
    Map<String, List<Case>> by = new TreeMap<>();
    for (Case c : all) by.computeIfAbsent(c.service(), x -> new ArrayList<>()).add(c);
    for (int f : new int[] {0, 1, 3, 6, 11, 21, 1000})
      for (boolean st : new boolean[] {true, false}) {
        List<Case> cs =
            all.stream()
                .filter(
                    c ->
                        c.failures() <= f
                            && c.failures()
                                > (f == 0
                                    ? -1
                                    : f == 1
                                        ? 0
                                        : f == 3 ? 1 : f == 6 ? 3 : f == 11 ? 6 : f == 21 ? 11 : 21)
                            && st == (c.saving() > 0.1))
                .toList();
        if (cs.isEmpty()) continue;
        System.out.println("failures to " + f + " standard shape " + st);
        for (int m = 0; m < names.length; m++) System.out.println("    " + line(names[m], cs, m));
      }
    for (String b : List.of("apart")) {
      List<Case> cs = all.stream().filter(c -> c.basis().equals(b) && c.saving() > 0.1).toList();
      if (!cs.isEmpty()) {
        System.out.println(b + " wrongly");
        for (int m = 0; m < names.length; m++) System.out.println("    " + line(names[m], cs, m));
      }
    }
    if (Boolean.getBoolean("dump"))
      all.stream()
          .filter(c -> c.saving() > 0.1 && c.failures() < 4)
          .forEach(
              c ->
                  System.out.printf(
                      Locale.ROOT,
                      "%s f=%.0f %s own %.0f mid %.0f exp %.0f r %.3f %.3f%n",
                      c.service(),
                      c.failures(),
                      c.basis(),
                      c.at()[1],
                      c.at()[2],
                      c.at()[3],
                      c.regret()[2],
                      c.regret()[3]));
    by.forEach(
        (s, cs) -> {
          System.out.println(
              s
                  + " saving "
                  + cs.get(0).saving()
                  + " mean seal failures "
                  + cs.stream().mapToDouble(Case::failures).average().orElse(0)
                  + " "
                  + cs.stream()
                      .collect(
                          Collectors.groupingBy(Case::basis, TreeMap::new, Collectors.counting())));
          for (int m = 0; m < names.length; m++) System.out.println("    " + line(names[m], cs, m));
        });
    System.err.println(
        "ms per models "
            + mn / 1e6 / mc
            + " ms per drawn run "
            + nanos / 1e6 / Math.max(1, runs)
            + " runs "
            + runs);
  }
}
