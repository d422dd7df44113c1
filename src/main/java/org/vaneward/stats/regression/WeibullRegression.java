package org.vaneward.stats.regression;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.vaneward.stats.Holm;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.WeibullFit.Proof;
import org.vaneward.stats.numeric.SpdMatrix;
import org.vaneward.stats.regression.Climb.Found;
import org.vaneward.stats.regression.Covariates.Categorical;
import org.vaneward.stats.regression.Design.Term;
import org.vaneward.stats.regression.RegressionFit.Fitted;
import org.vaneward.stats.regression.RegressionFit.NotEstimable;
import org.vaneward.stats.regression.RegressionFit.TermTest;

/**
 * Weibull regression by maximum likelihood: log scale = intercept + sum of coefficients times
 * covariates, one shape. It is the model of accelerated life and of proportional hazards at once: a
 * covariate multiplies every quantile of life by exp(coefficient), and the failure rate at any age
 * by exp(-shape coefficient) (W. Q. Meeker and L. A. Escobar, Statistical Methods for Reliability
 * Data, 1998, ch. 17).
 *
 * <p>All kinds of observation are taken: exact, right-censored and interval lives, delayed entry,
 * counts. A covariate that changes during life is handled by cutting the life into spans: each but
 * the last is right-censored at its end, each but the first enters at its start, and each has its
 * own covariates. A span adds its log-likelihood less the log-survival to its start, so cutting a
 * life without a change of covariates changes nothing but the number of lives.
 *
 * <p>Newton's method climbs from the fit of the intercept alone. Before it, what would keep the
 * likelihood from having a finite maximum is looked for and named: covariates without variation,
 * combinations of others, levels without failures, covariates that part failures from survivors.
 * After it, the optimum is accepted only with its proof in scaled parameters: gradient of at most
 * {@value #STEEPEST} per failure and an information that is positive definite by a clear margin.
 *
 * <p>Limits are by the covariance (Wald) unless profile limits are asked for. Results are the same
 * on any number of threads.
 */
public final class WeibullRegression {
  /** Largest gradient component per failure that counts as none. */
  static final double STEEPEST = 1e-8;

  /** Least eigenvalue of the information scaled to unit diagonal that counts as none. */
  static final double FLATTEST = 1e-10;

  /** Information on a scaled parameter, in failures, below which the likelihood is flat. */
  private static final double NO_INFORMATION = 1e-7;

  private static final String NO_PROOF = "no maximum of the likelihood could be proved";

  private final LifeCells data;
  private final Design design;
  private final RegressionSettings settings;

  private WeibullRegression(Observations lives, Design design, RegressionSettings settings) {
    this.design = design;
    this.settings = settings;
    data = new LifeCells(lives, design.cellOfRows(), design.cells());
  }

  /**
   * Fits a regression.
   *
   * @param lives the lives, or spans of lives
   * @param covariates one row for each of them, in the same order
   * @return the checked maximum, or why there is none and which terms are at fault
   * @throws IllegalArgumentException when the numbers of rows differ
   */
  public static RegressionFit fit(
      Observations lives, Covariates covariates, RegressionSettings settings) {
    if (lives.size() != covariates.size()) {
      throw new IllegalArgumentException(
          "covariates have " + covariates.size() + " rows, lives " + lives.size());
    }
    double failures = lives.failures();
    if (!(failures > 0)) {
      return new NotEstimable(lives.lives(), failures, "no failures", List.of());
    }
    List<String> constant = Design.constant(covariates);
    if (!constant.isEmpty()) {
      String reason = Fault.listed(constant) + " the same in all lives: leave out";
      return new NotEstimable(lives.lives(), failures, reason, constant);
    }
    return new WeibullRegression(lives, Design.of(covariates), settings).run();
  }

  private RegressionFit run() {
    if (data.exposure.isEmpty()) {
      return none("no life was seen to run: every failure lies in its first interval", List.of());
    }
    Optional<Fault> fault = Collinearity.of(design).or(() -> Divergence.inScales(design, data));
    if (fault.isPresent()) {
      return none(fault.get().reason(), fault.get().terms());
    }
    if (Divergence.inShape(design, data)) {
      return none(
          design.columns() == 1
              ? "all failures may have come at one age and nothing ran longer"
              : "the covariates explain every age at failure: too few failures for the terms",
          List.of());
    }
    return climbed();
  }

  private NotEstimable none(String reason, List<String> terms) {
    return new NotEstimable(data.lives, data.failures, reason, terms);
  }

  private RegressionFit climbed() {
    Found alone = part(new int[] {0}, firstStart());
    boolean aloneProved = proof(alone).isPresent();
    Found best = design.columns() == 1 ? alone : full(alone, aloneProved);
    Optional<Proof> proof = proof(best);
    if (proof.isEmpty()) {
      return none(reason(best), List.of());
    }
    Optional<SpdMatrix> information = SpdMatrix.of(best.top().information());
    Report report = new Report(design, data, settings, best, information.orElseThrow().inverse());
    return report.isFinite()
        ? fitted(report, best, aloneProved ? OptionalDouble.of(alone.value()) : none(), proof.get())
        : none("a coefficient is beyond what a number can hold", List.of());
  }

  private static OptionalDouble none() {
    return OptionalDouble.empty();
  }

  private double[] firstStart() {
    double deviation = data.exposure.deviationWithinCells();
    // The standard deviation of log life is pi / sqrt(6) over the shape; of failures that end
    // within an observed stretch it is less, so this is a start and no more.
    double spread = data.spread > 0 ? data.spread : 1;
    double shape = deviation > 0 ? Math.PI / Math.sqrt(6) / deviation : 4 / spread;
    double least = 0.1 / spread;
    return Climb.start(data, Math.max(least, Math.min(shape, 1e4 * least)), 1);
  }

  private Found full(Found alone, boolean aloneProved) {
    double[] from = aloneProved ? alone.at() : firstStart();
    double[] start = new double[design.columns() + 1];
    start[0] = from[0];
    start[design.columns()] = from[1];
    RegressionLikelihood f =
        new RegressionLikelihood(data, design.matrix(), design.columns(), new double[0]);
    return Climb.maximum(f, start);
  }

  /** The fit of some columns alone. */
  private Found part(int[] keep, double[] start) {
    double[] z = keep.length == design.columns() ? design.matrix() : design.matrix(keep);
    return Climb.maximum(new RegressionLikelihood(data, z, keep.length, new double[0]), start);
  }

  /** The proof of an optimum, if it is one. */
  private Optional<Proof> proof(Found found) {
    if (found.outcome() != Climb.Outcome.PEAK) {
      return Optional.empty();
    }
    double gradient = 0;
    for (double g : found.top().gradient()) {
      gradient = Math.max(gradient, Math.abs(g) / data.failures);
    }
    double[][] information = found.top().information();
    double enough = NO_INFORMATION * Math.min(1, data.failures);
    for (int i = 0; i < information.length; i++) {
      if (!(information[i][i] > enough)) {
        return Optional.empty();
      }
    }
    double least = SpdMatrix.of(information).map(SpdMatrix::smallestEigenvalue).orElse(0.0);
    return gradient <= STEEPEST && least >= FLATTEST
        ? Optional.of(new Proof(found.steps(), gradient, least))
        : Optional.empty();
  }

  private static String reason(Found found) {
    return switch (found.outcome()) {
      case RISES_TO_ZERO -> "the likelihood keeps rising as the shape falls to zero";
      case RISES_WITH_SHAPE -> "the likelihood keeps rising as the shape grows";
      case PEAK -> "the likelihood is flat: too few distinct ages for the terms";
      case LOST -> NO_PROOF;
    };
  }

  private Fitted fitted(Report report, Found best, OptionalDouble alone, Proof proof) {
    List<TermTest> tests = new ArrayList<>();
    List<String> untested = new ArrayList<>();
    test(best, alone, tests, untested);
    int terms = design.columns() - 1;
    Optional<LikelihoodRatio> overall =
        terms > 0 && alone.isPresent()
            ? Optional.of(LikelihoodRatio.of(best.value(), alone.getAsDouble(), terms))
            : Optional.empty();
    List<String> order = new ArrayList<>(design.names());
    order.add("log_shape");
    return new Fitted(
        report.coefficients(),
        references(),
        report.shape(),
        data.lives,
        data.failures,
        best.value(),
        alone,
        overall,
        tests,
        untested,
        report.covariance(),
        order,
        settings.limits(),
        settings.confidence(),
        proof);
  }

  private List<String> references() {
    List<String> references = new ArrayList<>();
    for (Term term : design.terms()) {
      if (term.column() instanceof Categorical categorical) {
        references.add(categorical.name() + "=" + categorical.levels().get(0));
      }
    }
    return references;
  }

  private void test(Found best, OptionalDouble alone, List<TermTest> tests, List<String> untested) {
    List<Term> terms = new ArrayList<>();
    List<LikelihoodRatio> ratios = new ArrayList<>();
    for (Term term : design.terms()) {
      OptionalDouble without = settings.termTests() ? without(term, best, alone) : none();
      if (without.isPresent()) {
        terms.add(term);
        ratios.add(LikelihoodRatio.of(best.value(), without.getAsDouble(), term.columns()));
      } else {
        untested.add(term.name());
      }
    }
    double[] adjusted = Holm.adjust(ratios.stream().mapToDouble(LikelihoodRatio::p).toArray());
    IntStream.range(0, adjusted.length)
        .forEach(
            i ->
                tests.add(
                    new TermTest(
                        terms.get(i).name(),
                        ratios.get(i).statistic(),
                        ratios.get(i).degreesOfFreedom(),
                        ratios.get(i).p(),
                        adjusted[i])));
  }

  /** Log-likelihood without a term, if its maximum is proved. */
  private OptionalDouble without(Term term, Found best, OptionalDouble alone) {
    if (design.terms().size() == 1) {
      return alone;
    }
    int[] keep = design.without(term.first(), term.columns());
    double[] start = new double[keep.length + 1];
    for (int j = 0; j < keep.length; j++) {
      start[j] = best.at()[keep[j]];
    }
    start[keep.length] = best.at()[design.columns()];
    Found found = part(keep, start);
    return proof(found).isPresent() ? OptionalDouble.of(found.value()) : OptionalDouble.empty();
  }
}
