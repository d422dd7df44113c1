package org.vaneward.stats.pooling;

import java.util.Arrays;
import java.util.Optional;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;

/**
 * Independent draws from the posterior by rejection. A candidate is a lattice point, drawn by its
 * weight, moved by a triangular distance in each direction: its density is the lattice's weights
 * with straight lines between them. It is accepted with a chance proportional to the density over
 * that, the logarithm of the density being smooth and interpolated by polynomials of third degree
 * in each direction; so no draw repeats another and no lattice shows. Each group's shape is then
 * drawn from its conditional density, and its scale's effect given the shape.
 */
final class Sampler {
  /** Candidates of which fewer are as good as this share are no basis for draws. */
  private static final double LEAST_EFFECTIVE = 0.3;

  private static final int MOST_CANDIDATES_PER_DRAW = 20;

  private final Hyper hyper;
  private final Lattice lattice;
  private final UniformRandomProvider rng;
  private final ZigguratSampler.NormalizedGaussian normal;

  private int[][] places = new int[0][];
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
    places = new int[n][];
    cumulative = new double[n];
    int side = hyper.side;
    int at = 0;
    double sum = 0;
    for (int i = lattice.first; i < lattice.first + lattice.planes.size(); i++) {
      Plane plane = lattice.plane(i);
      for (int k = plane.first(); k <= plane.last(); k++) {
        for (int l = 0; l < plane.sheet(k).size(); l++) {
          double share = lattice.scales.share(i) * lattice.shapes.share(l);
          for (int j = -side; j <= side; j++) {
            sum += share * Math.exp(lattice.logWeight(i, k, l, j) - lattice.best());
            places[at] = new int[] {i, k, l, j};
            cumulative[at++] = sum;
          }
        }
      }
    }
  }

  /**
   * One candidate, with its log weight and the uniform number that decides on it.
   *
   * @param place of the plane
   * @param k place of the sheet
   * @param shapesPlace place of the column
   * @param j place along the column
   */
  private record Candidate(
      double place, double k, double shapesPlace, double j, double logWeight, double logUniform) {}

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
    int[] from = places[at];
    // even about 0: what falls below is the mirror image of what lies above
    double place = Math.abs(from[0] + triangular());
    double k = from[1] + triangular();
    double shapesPlace = lattice.shapes.isNone() ? 0 : Math.abs(from[2] + triangular());
    double j = from[3] + triangular();
    double straight = lattice.straight(place, k, shapesPlace, j);
    double logWeight =
        straight > 0
            ? lattice.logDensity(place, k, shapesPlace, j) - lattice.best() - Math.log(straight)
            : Double.NEGATIVE_INFINITY;
    return new Candidate(place, k, shapesPlace, j, logWeight, Math.log(rng.nextDouble()));
  }

  /** Between -1 and 1. */
  private double triangular() {
    double u = rng.nextDouble();
    return u - rng.nextDouble();
  }

  private Sample sample(Candidate[] pool, int draws, double effective, double acceptance) {
    Draws.Columns columns = new Draws.Columns(hyper.groups.length, draws);
    double[] share = new double[hyper.groups.length];
    int n = 0;
    for (int c = 0; n < draws; c++) {
      if (accepted(pool[c])) {
        draw(pool[c], n++, columns, share);
      }
    }
    for (int s = 0; s < share.length; s++) {
      share[s] /= draws;
    }
    return new Sample(new Draws(columns), share, effective, acceptance);
  }

  /** Draw {@code n} from a candidate, the groups' shapes and scales with it. */
  private void draw(Candidate c, int n, Draws.Columns columns, double[] share) {
    double between = lattice.scales.at(c.place());
    double betweenShapes = lattice.shapes.at(c.shapesPlace());
    double m = lattice.m(c.place(), c.k());
    double b = lattice.b(c.place(), c.k(), c.shapesPlace(), c.j());
    columns.populationShape[n] = Math.exp(b);
    columns.populationScale[n] = Math.exp(m);
    columns.betweenSd[n] = between;
    columns.shapesBetweenSd[n] = betweenShapes;
    columns.newGroupShape[n] = Math.exp(b + betweenShapes * normal.sample());
    columns.newGroupScale[n] = Math.exp(m + between * normal.sample());
    int[] rules = lattice.plane((int) Math.round(c.place())).rules;
    for (int s = 0; s < hyper.groups.length; s++) {
      double own =
          betweenShapes > 0
              ? OwnShape.draw(lattice.nearby(c.place(), c.k(), s), b, betweenShapes, rng)
              : b;
      ShapeNodes nodes = hyper.nodes[s];
      nodes.integral.compute(nodes.slice(own), m, between, rules[s]);
      columns.shape[s][n] = Math.exp(own);
      columns.scale[s][n] = Math.exp(m + between * nodes.integral.draw(rng));
      share[s] += 1 / (1 + nodes.integral.information);
    }
  }
}
