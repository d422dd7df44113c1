package org.vaneward.schedule;

import com.google.ortools.Loader;
import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import com.google.ortools.sat.Literal;
import com.google.ortools.sat.SatParameters;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The constraint solver CP-SAT of OR-Tools on what is left to decide: starts at the best
 * arrangement known and looks for a cheaper one.
 *
 * <p>Its work is limited in its own deterministic units and its threads take turns, so the same
 * input gives the same arrangement however fast the machine is. Costs are rounded to whole numbers,
 * a billion of them to the best arrangement known.
 */
final class CpSat {
  private static final double UNITS = 1e9;

  /**
   * Up to so many terms its eight ways of searching take turns, for two seconds; beyond, where a
   * turn of each takes long, one alone has five.
   */
  private static final int SMALL = 10_000;

  private static final int SEED = 1;

  private final Core core;
  private final double scale;
  private final CpModel model = new CpModel();
  private final BoolVar[][] takes;
  private int terms;

  private CpSat(Core core, double upper) {
    this.core = core;
    this.scale = UNITS / Math.max(1, Math.abs(upper));
    this.takes = new BoolVar[core.jobs][core.weeks + 1];
  }

  /**
   * Whether the solver runs on this machine; its native code is unpacked on the first call.
   *
   * @return why not, or empty
   */
  static Optional<String> missing() {
    return Native.MISSING;
  }

  private static final class Native {
    static final Optional<String> MISSING = load();

    private static Optional<String> load() {
      try {
        Loader.loadNativeLibraries();
        return Optional.empty();
      } catch (RuntimeException | LinkageError e) {
        return Optional.of(String.valueOf(e.getMessage()));
      }
    }
  }

  /**
   * Searches.
   *
   * @param core weeks that no cheaper arrangement can use struck out
   * @param at the arrangement to start at
   * @param upper what it costs
   * @return the cheapest arrangement known now, and the solver's own bound
   * @throws IllegalStateException when the solver is {@link #missing}
   */
  static BranchAndBound.Result search(Core core, int[] at, double upper) {
    missing()
        .ifPresent(
            why -> {
              throw new IllegalStateException(why);
            });
    CpSat search = new CpSat(core, upper);
    search.state(at);
    return search.solve(at, upper);
  }

  private void state(int[] at) {
    LinearExprBuilder cost = LinearExpr.newBuilder();
    for (int j = 0; j < core.jobs; j++) {
      List<Literal> weeks = new ArrayList<>();
      for (int w = 0; w <= core.weeks; w++) {
        if (core.allowed(j, w)) {
          takes[j][w] = model.newBoolVar("");
          model.addHint(takes[j][w], at[j] == w);
          weeks.add(takes[j][w]);
          add(cost, takes[j][w], core.cost[j][w]);
        }
      }
      model.addExactlyOne(weeks);
    }
    places();
    visits(cost, at);
    model.minimize(cost);
  }

  private void add(LinearExprBuilder cost, BoolVar taken, double price) {
    cost.addTerm(taken, Math.round(price * scale));
    terms++;
  }

  private void places() {
    for (int pool = 0; pool < core.places.length; pool++) {
      for (int w = 0; w < core.weeks; w++) {
        List<BoolVar> here = new ArrayList<>();
        for (int j = 0; j < core.jobs; j++) {
          if (core.pool[j] == pool && core.allowed(j, w)) {
            here.add(takes[j][w]);
          }
        }
        if (here.size() > core.places[pool][w]) {
          model.addLessOrEqual(LinearExpr.sum(here.toArray(BoolVar[]::new)), core.places[pool][w]);
        }
      }
    }
  }

  private void visits(LinearExprBuilder cost, int[] at) {
    for (int s = 0; s < core.sites; s++) {
      for (int w = 0; w < core.weeks; w++) {
        if (core.visit[s][w] == 0) {
          continue;
        }
        BoolVar visit = model.newBoolVar("");
        boolean used = false;
        boolean any = false;
        for (int j : core.jobsOf(s)) {
          if (core.allowed(j, w)) {
            model.addImplication(takes[j][w], visit);
            used |= at[j] == w;
            any = true;
          }
        }
        model.addHint(visit, used);
        if (any) {
          add(cost, visit, core.visit[s][w]);
        }
      }
    }
  }

  private BranchAndBound.Result solve(int[] at, double upper) {
    CpSolver solver = new CpSolver();
    boolean small = terms <= SMALL;
    SatParameters.Builder how = solver.getParameters();
    how.setRandomSeed(SEED).setLinearizationLevel(2).setInterleaveSearch(true);
    how.setNumWorkers(small ? 8 : 1).setMaxDeterministicTime(small ? 2 : 5);
    CpSolverStatus status = solver.solve(model);
    boolean found = status == CpSolverStatus.OPTIMAL || status == CpSolverStatus.FEASIBLE;
    int[] other = found ? read(solver) : at;
    int[] best = core.total(other) < upper ? other : at;
    // Each term may have been rounded by half a unit.
    double bound = found ? (solver.bestObjectiveBound() - 0.5 * terms) / scale : -Core.NEVER;
    return new BranchAndBound.Result(Arrangement.of(core, best), bound);
  }

  private int[] read(CpSolver solver) {
    int[] at = new int[core.jobs];
    for (int j = 0; j < core.jobs; j++) {
      for (int w = 0; w <= core.weeks; w++) {
        if (core.allowed(j, w) && solver.booleanValue(takes[j][w])) {
          at[j] = w;
        }
      }
    }
    return at;
  }
}
