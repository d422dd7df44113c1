package org.vaneward.stats.competing;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;

/**
 * A Weibull fit for each cause, failures by the others right-censored: the likelihood of lives with
 * known causes is the product of these, whether or not the causes are independent; what each fit
 * means when the other causes are taken away rests on their independence, which no data of this
 * kind can show (J. D. Kalbfleisch and R. L. Prentice, The Statistical Analysis of Failure Time
 * Data, 2nd ed. 2002, ch. 8; from memory).
 *
 * <p>An interval failure enters the fit of its own cause as an interval and those of the others as
 * in {@link CauseLives#forCause}.
 *
 * @param causes one for each cause, in order
 * @param lives the lives that were fitted
 */
public record CauseSpecificFits(List<Cause> causes, CauseLives lives) {
  /** Copies. */
  public CauseSpecificFits {
    causes = List.copyOf(causes);
  }

  /**
   * The fit of one cause.
   *
   * @param name of the cause
   * @param fit its fit
   */
  public record Cause(String name, WeibullFit fit) {}

  /** The fits. */
  public static CauseSpecificFits fit(CauseLives lives, FitSettings settings) {
    List<Cause> causes = new ArrayList<>();
    for (int k = 0; k < lives.causes(); k++) {
      WeibullFit fit = WeibullFitter.fit(lives.forCause(k), settings);
      causes.add(new Cause(lives.names().get(k), fit));
    }
    return new CauseSpecificFits(causes, lives);
  }

  /**
   * Names of the causes with failures but without a fit; while there are any, the causes do not add
   * up to a whole.
   */
  public List<String> missing() {
    return causes.stream()
        .filter(c -> c.fit() instanceof WeibullFit.NotEstimable && c.fit().failures() > 0)
        .map(Cause::name)
        .toList();
  }

  /** Places of the causes that are fitted: those {@link #incidence} has, in its order. */
  public List<Integer> fitted() {
    List<Integer> places = new ArrayList<>();
    for (int k = 0; k < causes.size(); k++) {
      if (causes.get(k).fit() instanceof WeibullFit.Fitted) {
        places.add(k);
      }
    }
    return places;
  }

  /**
   * The fitted cumulative incidences, of the causes in {@link #fitted}; a cause that ended nobody
   * is taken to have no hazard.
   *
   * @return empty when no cause is fitted or one with failures could not be
   */
  public Optional<FittedIncidence> incidence() {
    List<Weibull> hazards = new ArrayList<>();
    for (Cause cause : causes) {
      if (cause.fit() instanceof WeibullFit.Fitted fit) {
        hazards.add(fit.weibull());
      }
    }
    return hazards.isEmpty() || !missing().isEmpty()
        ? Optional.empty()
        : Optional.of(new FittedIncidence(hazards));
  }
}
