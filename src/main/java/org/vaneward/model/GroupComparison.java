package org.vaneward.model;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.life.LivesTable;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observations;
import org.vaneward.stats.comparison.LogRank;
import org.vaneward.stats.fit.CommonShape;
import org.vaneward.stats.fit.CommonShapeFit;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;

/**
 * Are groups of lives alike?
 *
 * @param logRank whether they fail alike, without a model
 * @param commonShape whether their Weibull shapes are one; empty when it cannot be tested
 */
public record GroupComparison(LogRank logRank, Optional<LikelihoodRatio> commonShape) {

  static GroupComparison of(
      Collection<LivesTable> groups, Optional<String> strata, FitSettings settings) {
    List<LivesTable> tables = groups.stream().map(LivesTable::observed).toList();
    List<Observations> lives = tables.stream().map(LivesTable::observations).toList();
    LogRank test =
        strata.isPresent() ? LogRank.of(lives, codes(tables, strata.get())) : LogRank.of(lives);
    return new GroupComparison(test, commonShape(lives, settings));
  }

  private static List<int[]> codes(List<LivesTable> tables, String column) {
    Map<String, Integer> known = new HashMap<>();
    List<int[]> codes = new ArrayList<>();
    for (LivesTable table : tables) {
      int[] code = new int[table.rows()];
      for (int i = 0; i < code.length; i++) {
        code[i] = known.computeIfAbsent(table.text(column, i), text -> known.size());
      }
      codes.add(code);
    }
    return codes;
  }

  private static Optional<LikelihoodRatio> commonShape(
      List<Observations> lives, FitSettings settings) {
    return CommonShapeFit.fit(lives, settings.withFreeShape().withLimits(LimitMethod.WALD))
            instanceof CommonShape.Fitted fitted
        ? fitted.equalShapes()
        : Optional.empty();
  }
}
