package org.vaneward.stats.pooling;

import java.util.Arrays;
import java.util.Optional;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;

/**
 * Independent draws from the posterior by rejection. A candidate is a lattice point, drawn by its
 * weight, moved by a triangular distance in each direction: its density is the lattice's weights
 * with straight lines between them. It is accepted with a chance proportional to the exact density,
 * the groups' effects integrated out, over the candidate's; so no draw repeats another and no
 * lattice shows. Each group's effect is then drawn from its conditional density.
 */
final class Sampler {
  /** Candidates of which fewer are as good as this share are no basis for draws. */
  private static final double LEAST_EFFECTIVE = 0.3;

  private static final int MOST_CANDIDATES_PER_DRAW = 20;

  private final Hyper hyper;
  private final Lattice lattice;
  private final UniformRandomProvider rng;
  private final ZigguratSampler.NormalizedGaussian normal;

  private int[] planeOf = new int[0];
  private int[] iOf = new int[0];
  private int[] jOf = new int[0];
  private double[] cumulative = new double[0];

  /** Candidates so far. */
  private int candidates;

  private double greatest = Double.NEGATIVE_INFINITY;

  Sampler(Hyper hyper, Lattice lattice, long seed) {
    this.hyper = hyper;
    this.lattice = lattice;
    rng = RandomSource.L64_X128_MIX.create(seed);
    normal = ZigguratSampler.NormalizedGaussian.of(rng);
    index();
  }

  /**
   * Draws with how good the candidates were.
   *
   * @param draws the draws
   * @param fleetShare for each group, the mean share of the other groups in its scale
   * @param effective share of the candidates that their weights are worth
   * @param acceptance share of the candidates accepted
   */
  @SuppressWarnings("ArrayRecordComponent")
  record Sample(Draws draws, double[] fleetShare, double effective, double acceptance) {}

  private void index() {
    int n = lattice.points();
    planeOf = new int[n];
    iOf = new int[n];
    jOf = new int[n];
    cumulative = new double[n];
    int[] at = {0};
    double[] sum = {0};
    for (int p = 0; p < lattice.planes.size(); p++) {
      int plane = p;
      lattice
          .planes
          .get(p)
          .forEach(
              (i, j, logWeight) -> {
                sum[0] +=
                    lattice.share(plane)
                        * Math.exp(lattice.logWeight(plane, i, j) - lattice.best());
                planeOf[at[0]] = plane;
                iOf[at[0]] = i;
                jOf[at[0]] = j;
                cumulative[at[0]++] = sum[0];
              });
    }
  }

  /** One candidate, with its log weight and the uniform number that decides on it. */
  @SuppressWarnings("ArrayRecordComponent")
  private record Candidate(
      double b,
      double m,
      double sd,
      double[] logScale,
      double[] share,
      double logWeight,
      double logUniform) {}

  /** The draws; empty when the candidates are too poor. */
  Optional<Sample> draw(int draws) {
    Candidate[] pool = new Candidate[draws + draws / 2];
    int kept = 0;
    while (kept < draws) {
      if (candidates > MOST_CANDIDATES_PER_DRAW * draws) {
        return Optional.empty();
      }
      int before = candidates;
      pool = Arrays.copyOf(pool, Math.max(pool.length, before + draws / 2));
      for (; candidates < pool.length; candidates++) {
        Candidate c = candidate();
        greatest = Math.max(greatest, c.logWeight());
        pool[candidates] = c;
      }
      kept = 0;
      for (Candidate c : pool) {
        kept += accepted(c) ? 1 : 0;
      }
    }
    double effective = effective(pool);
    return effective < LEAST_EFFECTIVE
        ? Optional.empty()
        : Optional.of(sample(pool, draws, effective, kept / (double) candidates));
  }

  /** A greater weight found later lowers every chance: the decision is taken when all are known. */
  private boolean accepted(Candidate c) {
    return c.logUniform() <= c.logWeight() - greatest;
  }

  private double effective(Candidate[] pool) {
    double sum = 0;
    double squares = 0;
    for (Candidate c : pool) {
      double w = Math.exp(c.logWeight() - greatest);
      sum += w;
      squares += w * w;
    }
    return sum * sum / squares / pool.length;
  }

  private Candidate candidate() {
    double u = rng.nextDouble() * cumulative[cumulative.length - 1];
    int at = Arrays.binarySearch(cumulative, u);
    at = Math.min(at < 0 ? -at - 1 : at + 1, cumulative.length - 1);
    // even in x: what falls below 0 is the mirror image of what lies above
    double place = Math.abs(lattice.x(planeOf[at]) / lattice.step + triangular());
    double i = iOf[at] + triangular();
    double j = jOf[at] + triangular();
    return exact(place, i, j);
  }

  /** Between -1 and 1. */
  private double triangular() {
    double u = rng.nextDouble();
    return u - rng.nextDouble();
  }

  private Candidate exact(double place, double i, double j) {
    double inPlanes = place - lattice.first;
    int last = lattice.planes.size() - 1;
    int below = (int) Math.floor(inPlanes);
    double f = inPlanes - below;
    Plane low = lattice.planes.get(Math.max(0, Math.min(last, below)));
    Plane high = lattice.planes.get(Math.max(0, Math.min(last, below + 1)));
    int left = (int) Math.floor(i);
    double g = i - left;
    double sdB = mix(f, low.sdB, high.sdB);
    double b = mix(f, low.modeB, high.modeB) + sdB * i * hyper.step;
    Column[] near = {
      low.column(left), low.column(left + 1), high.column(left), high.column(left + 1)
    };
    double width = mix(f, mix(g, near[0].sd(), near[1].sd()), mix(g, near[2].sd(), near[3].sd()));
    double middle =
        mix(
            f,
            mix(g, near[0].middle(), near[1].middle()),
            mix(g, near[2].middle(), near[3].middle()));
    double m = middle + width * j * hyper.step;
    double x = place * lattice.step;
    double sd = lattice.unit * Math.sinh(x);
    int[] rules = low.rules.clone();
    for (int s = 0; s < rules.length; s++) {
      rules[s] = Math.max(rules[s], high.rules[s]);
    }
    double logDensity = hyper.at(hyper.slices(b), m, sd, rules);
    double exact = logDensity + Math.log(sdB * width) + lattice.logStretch(x);
    double proposed = Math.log(between(below, f, i, j));
    return withEffects(b, m, sd, exact - lattice.best() - proposed);
  }

  private Candidate withEffects(double b, double m, double sd, double logWeight) {
    double[] logScale = new double[hyper.groups.length];
    double[] share = new double[logScale.length];
    for (int s = 0; s < logScale.length; s++) {
      GroupIntegral group = hyper.last(s);
      logScale[s] = m + sd * group.draw(rng);
      share[s] = 1 / (1 + group.information);
    }
    return new Candidate(b, m, sd, logScale, share, logWeight, Math.log(rng.nextDouble()));
  }

  private static double mix(double f, double low, double high) {
    return low + f * (high - low);
  }

  /** The candidates' density: the lattice's weights with straight lines between them. */
  private double between(int plane, double f, double i, double j) {
    int i0 = (int) Math.floor(i);
    int j0 = (int) Math.floor(j);
    double sum = 0;
    for (int corner = 0; corner < 8; corner++) {
      int dp = corner & 1;
      int di = corner >> 1 & 1;
      int dj = corner >> 2;
      double logWeight = lattice.logWeight(plane + dp, i0 + di, j0 + dj);
      sum +=
          side(f, dp) * side(i - i0, di) * side(j - j0, dj) * Math.exp(logWeight - lattice.best());
    }
    return sum;
  }

  private static double side(double f, int above) {
    return above == 1 ? f : 1 - f;
  }

  private Sample sample(Candidate[] pool, int draws, double effective, double acceptance) {
    int groups = hyper.groups.length;
    double[] shape = new double[draws];
    double[] population = new double[draws];
    double[] between = new double[draws];
    double[] newGroup = new double[draws];
    double[][] scale = new double[groups][draws];
    double[] share = new double[groups];
    int n = 0;
    for (int c = 0; n < draws; c++) {
      if (accepted(pool[c])) {
        Candidate kept = pool[c];
        shape[n] = Math.exp(kept.b());
        population[n] = Math.exp(kept.m());
        between[n] = kept.sd();
        newGroup[n] = Math.exp(kept.m() + kept.sd() * normal.sample());
        for (int s = 0; s < groups; s++) {
          scale[s][n] = Math.exp(kept.logScale()[s]);
          share[s] += kept.share()[s] / draws;
        }
        n++;
      }
    }
    return new Sample(
        new Draws(shape, population, between, newGroup, scale), share, effective, acceptance);
  }
}
