package org.vaneward.stats.goodness;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What the checks of a fit come to, in one plain sentence for a planner.
 *
 * <p>The sentence says no more than the numbers do: a large p is no proof of a fit, and with few
 * failures the checks see little, which is then said. Where they stop being few is common practice,
 * no source. The bounds:
 *
 * <ul>
 *   <li>fewer than {@value #FEWEST_TO_CHECK} failures: the shape of the curve is not judged; fewer
 *       than {@value #FEW}: nothing better than "nothing speaks against it";
 *   <li>p of the distance from {@value #GOOD} on: fits well; from {@value #DOUBTFUL}: fits fairly;
 *       from {@value #CLEAR}: doubtful; below: does not fit;
 *   <li>ageing: clear with p below {@value #CLEAR}, likely below {@value #DOUBTFUL}, else open;
 *   <li>another family: with a criterion lower by more than {@value #BETTER} it describes the lives
 *       better; within {@value #ALIKE} the two cannot be told apart.
 * </ul>
 *
 * <p>Built by {@link #on}, and {@code with…} for what is known besides; immutable.
 *
 * @param family name of the fitted family as it stands in a sentence, such as "Weibull"
 * @param failures lives that failed
 * @param goodnessP p of the distance between the fit and the product limit
 * @param ageing the shape and what tells it from 1
 * @param others other families and their distance in AICc
 * @param mixtureP p of a mixture of two curves against one
 * @param modes whether causes of failure share one curve
 */
public record Verdict(
    String family,
    double failures,
    OptionalDouble goodnessP,
    Optional<Ageing> ageing,
    List<Other> others,
    OptionalDouble mixtureP,
    Optional<Modes> modes) {
  /** Fewest failures for which the shape of the curve is judged. */
  public static final int FEWEST_TO_CHECK = 5;

  /** Failures below which a check sees only a gross misfit. */
  public static final int FEW = 10;

  private static final double GOOD = 0.1;
  private static final double DOUBTFUL = 0.05;
  private static final double CLEAR = 0.01;
  private static final double BETTER = 4;
  private static final double ALIKE = 2;

  /**
   * Copies and checks.
   *
   * @throws IllegalArgumentException when a number is out of its range
   */
  public Verdict {
    if (!(failures >= 0 && failures < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("failures are not negative and finite, not " + failures);
    }
    goodnessP.ifPresent(Verdict::check);
    mixtureP.ifPresent(Verdict::check);
    others = List.copyOf(others);
  }

  /**
   * A Weibull shape beside 1.
   *
   * @param shape above 1 the risk rises with age, below it falls
   * @param p of the likelihood-ratio test of shape 1
   */
  public record Ageing(double shape, double p) {
    public Ageing {
      if (!(shape > 0 && shape < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("a shape is positive and finite, not " + shape);
      }
      check(p);
    }
  }

  /**
   * Another family fitted to the same lives.
   *
   * @param family its name
   * @param aiccAbove its AICc less that of the family judged; negative when it does better
   */
  public record Other(String family, double aiccAbove) {
    public Other {
      if (Double.isNaN(aiccAbove)) {
        throw new IllegalArgumentException("a difference in AICc is a number, not " + aiccAbove);
      }
    }
  }

  /**
   * Causes of failure that are known apart.
   *
   * @param causes how many, at least 2
   * @param p of one curve for all of them against one for each
   */
  public record Modes(int causes, double p) {
    public Modes {
      if (causes < 2) {
        throw new IllegalArgumentException("causes to compare are at least 2, not " + causes);
      }
      check(p);
    }
  }

  /** A verdict on a fit of which only the number of failures is known so far. */
  public static Verdict on(String family, double failures) {
    return new Verdict(
        family,
        failures,
        OptionalDouble.empty(),
        Optional.empty(),
        List.of(),
        OptionalDouble.empty(),
        Optional.empty());
  }

  /** A copy with the p of a test of fit; unchanged when the test is not available. */
  public Verdict withGoodness(GoodnessOfFit test) {
    return test instanceof GoodnessOfFit.Tested tested
        ? withGoodnessP(tested.andersonDarling().p())
        : this;
  }

  /** A copy with the p of the distance between the fit and the product limit. */
  public Verdict withGoodnessP(double p) {
    return new Verdict(family, failures, OptionalDouble.of(p), ageing, others, mixtureP, modes);
  }

  /** A copy with the Weibull shape and the p of the likelihood-ratio test of shape 1. */
  public Verdict withAgeing(double shape, double p) {
    return new Verdict(
        family, failures, goodnessP, Optional.of(new Ageing(shape, p)), others, mixtureP, modes);
  }

  /** A copy with one more family and its AICc less that of the family judged. */
  public Verdict withOther(String otherFamily, double aiccAbove) {
    List<Other> more = new ArrayList<>(others);
    more.add(new Other(otherFamily, aiccAbove));
    return new Verdict(family, failures, goodnessP, ageing, more, mixtureP, modes);
  }

  /** A copy with the p of a mixture of two curves against one. */
  public Verdict withMixtureP(double p) {
    return new Verdict(family, failures, goodnessP, ageing, others, OptionalDouble.of(p), modes);
  }

  /** A copy with the p of one curve for all causes against one for each. */
  public Verdict withModes(int causes, double p) {
    return new Verdict(
        family, failures, goodnessP, ageing, others, mixtureP, Optional.of(new Modes(causes, p)));
  }

  /** The sentence for lives that have no fit. */
  public static String notEstimable(double failures, String reason) {
    return "No curve can be fitted to " + these(failures) + ": " + reason + ".";
  }

  /** The sentence. */
  public String sentence() {
    if (failures < FEWEST_TO_CHECK) {
      return failures == 0
          ? "No failures: the shape of the curve cannot be checked."
          : "Too few failures (" + count(failures) + ") to check the shape of the curve.";
    }
    List<String> clauses = new ArrayList<>();
    clauses.add(fit());
    modes.ifPresent(m -> add(clauses, modes(m)));
    if (modes.isEmpty() || !(modes.get().p() < DOUBTFUL)) {
      mixtureP.ifPresent(p -> add(clauses, mixture(p)));
    }
    others.stream()
        .min(Comparator.comparingDouble(Other::aiccAbove))
        .ifPresent(best -> add(clauses, other(best)));
    if (!rejected()) {
      ageing.ifPresent(a -> clauses.add(ageing(a)));
    }
    return String.join("; ", clauses) + ".";
  }

  private boolean rejected() {
    return goodnessP.isPresent() && goodnessP.getAsDouble() < CLEAR;
  }

  private String fit() {
    String subject = "the " + family;
    if (goodnessP.isEmpty()) {
      return capital(subject) + " was fitted to " + these(failures) + ", its shape not checked";
    }
    double p = goodnessP.getAsDouble();
    String inBrackets = " (" + p(p) + ")";
    if (p < CLEAR) {
      return capital(subject) + " does not fit " + these(failures) + inBrackets;
    }
    if (p < DOUBTFUL) {
      return "It is doubtful that " + subject + " fits " + these(failures) + inBrackets;
    }
    if (failures < FEW) {
      return "Nothing in "
          + these(failures)
          + " speaks against "
          + subject
          + inBrackets
          + ", though so few would show only a gross misfit";
    }
    String how = p < GOOD ? " fairly" : " well";
    return capital(subject) + " fits " + these(failures) + how + inBrackets;
  }

  private static String modes(Modes m) {
    return m.p() < DOUBTFUL
        ? "the "
            + m.causes()
            + " known causes follow more than one curve ("
            + p(m.p())
            + "), so plan by cause"
        : "";
  }

  private static String mixture(double p) {
    return p < DOUBTFUL
        ? "the ages look like two kinds of failure mixed (" + p(p) + "), so look for the causes"
        : "";
  }

  private static String other(Other best) {
    double d = best.aiccAbove();
    if (d > ALIKE) {
      return "";
    }
    if (d >= -ALIKE) {
      return "the " + best.family() + " does about as well, and these failures do not settle which";
    }
    String how = d < -BETTER ? " describes them better" : " describes them somewhat better";
    return "the " + best.family() + how + String.format(Locale.ROOT, " (AICc lower by %.1f)", -d);
  }

  private static String ageing(Ageing a) {
    String shape = String.format(Locale.ROOT, "shape %.2f", a.shape());
    if (!(a.p() < DOUBTFUL)) {
      return "whether the risk changes with age is open (" + shape + ", " + p(a.p()) + ")";
    }
    String sure = a.p() < CLEAR ? "clear" : "likely";
    String inBrackets = " (" + shape + ", " + p(a.p()) + ")";
    return a.shape() > 1
        ? "wear-out is " + sure + inBrackets
        : "a risk that falls with age is " + sure + inBrackets;
  }

  private static void add(List<String> clauses, String clause) {
    if (!clause.isEmpty()) {
      clauses.add(clause);
    }
  }

  private static String these(double failures) {
    return failures == 1 ? "this 1 failure" : "these " + count(failures) + " failures";
  }

  private static String count(double n) {
    return n == Math.rint(n)
        ? String.format(Locale.ROOT, "%.0f", n)
        : String.format(Locale.ROOT, "%.1f", n);
  }

  private static String p(double p) {
    if (p < 0.001) {
      return "p below 0.001";
    }
    return String.format(Locale.ROOT, p < 0.1 ? "p %.3f" : "p %.2f", p);
  }

  private static String capital(String text) {
    return Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }

  private static void check(double p) {
    if (!(p >= 0 && p <= 1)) {
      throw new IllegalArgumentException("a p is between 0 and 1, not " + p);
    }
  }
}
