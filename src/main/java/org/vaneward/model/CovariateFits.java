package org.vaneward.model;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.vaneward.io.BadInputException;
import org.vaneward.life.LivesTable;
import org.vaneward.stats.Observations;
import org.vaneward.stats.regression.Covariates;
import org.vaneward.stats.regression.RegressionFit;
import org.vaneward.stats.regression.RegressionSettings;
import org.vaneward.stats.regression.WeibullRegression;

/**
 * Weibull regressions of the groups of a lives table on some of its columns.
 *
 * @param fits one for each group, in order of the groups' texts
 */
public record CovariateFits(List<Fit> fits) {
  public CovariateFits {
    fits = List.copyOf(fits);
  }

  /**
   * One regression.
   *
   * @param group the columns that make the group with its values
   * @param lives number of lives fitted, spans of one life counted once
   * @param observations what was fitted
   * @param leftOut rows left out because a covariate that is a number is blank
   * @param fit the fit, or why there is none
   */
  public record Fit(
      Map<String, String> group,
      double lives,
      Observations observations,
      int leftOut,
      RegressionFit fit) {}

  /**
   * What to fit.
   *
   * @param by columns that make a group
   * @param covariates columns that enter: a number each when all that is there is a number,
   *     otherwise names
   * @param names columns that are names although they look like numbers
   * @param settings of the fits
   */
  public record Question(
      List<String> by, List<String> covariates, Set<String> names, RegressionSettings settings) {
    public Question {
      by = List.copyOf(by);
      covariates = List.copyOf(covariates);
      names = Set.copyOf(names);
    }
  }

  /**
   * Fits every group.
   *
   * @throws BadInputException when there is no such column, or one of them both makes groups and
   *     enters
   */
  public static CovariateFits of(LivesTable table, Question question) {
    for (String column : question.covariates()) {
      if (question.by().contains(column)) {
        throw new BadInputException(
            "column '" + column + "' makes the groups and cannot enter a fit within them as well");
      }
    }
    List<String> numeric =
        question.covariates().stream()
            .filter(c -> !question.names().contains(c) && table.isNumeric(c))
            .toList();
    List<Fit> fits = new ArrayList<>();
    table
        .groupBy(question.by())
        .forEach(
            (values, lives) ->
                fits.add(fit(GroupNames.of(question.by(), values), lives, numeric, question)));
    return new CovariateFits(fits);
  }

  private static Fit fit(
      Map<String, String> group, LivesTable lives, List<String> numeric, Question question) {
    LivesTable observed = lives.observed();
    LivesTable whole = observed.where(i -> known(observed, numeric, i));
    Covariates.Builder covariates = Covariates.builder(whole.rows());
    for (String column : question.covariates()) {
      if (numeric.contains(column)) {
        covariates.numeric(column, whole.numbers(column));
      } else {
        covariates.categorical(column, texts(whole, column));
      }
    }
    Observations observations = whole.observations();
    return new Fit(
        group,
        whole.lives(),
        observations,
        observed.rows() - whole.rows(),
        WeibullRegression.fit(observations, covariates.build(), question.settings()));
  }

  private static boolean known(LivesTable lives, List<String> numeric, int row) {
    return numeric.stream().noneMatch(column -> lives.text(column, row).isEmpty());
  }

  private static List<String> texts(LivesTable lives, String column) {
    String[] texts = new String[lives.rows()];
    for (int i = 0; i < texts.length; i++) {
      String text = lives.text(column, i);
      texts[i] = text.isEmpty() ? "(not on record)" : text;
    }
    return Arrays.asList(texts);
  }
}
