package org.vaneward.policy;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.vaneward.model.LifeDraws;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Weibull;

/** Random pumps for properties. */
final class Models {
  private Models() {}

  /** One to five announcing positions, sometimes a hidden one. */
  static CostModel random(SplittableRandom random) {
    double planned = 500 + 3000 * random.nextDouble();
    List<PositionRisk> positions = new ArrayList<>();
    int announcing = 1 + random.nextInt(5);
    for (int i = 0; i < announcing; i++) {
      Weibull life = life(random);
      double cost = planned * (1 + 10 * random.nextDouble());
      positions.add(PositionRisk.announcing("p" + i, "c" + i / 2, life, cost));
    }
    if (random.nextBoolean()) {
      double perHour = planned / 5000 * random.nextDouble();
      positions.add(PositionRisk.hidden("v", "v", life(random), perHour));
    }
    return new CostModel(planned, positions);
  }

  static List<Double> ages(CostModel model, SplittableRandom random) {
    return model.positions().stream().map(p -> 4000 * random.nextDouble()).toList();
  }

  /** Shapes from 0.6 to 6, scales from 2,000 to 40,000 hours. */
  private static Weibull life(SplittableRandom random) {
    return new Weibull(
        0.6 * Math.pow(10, random.nextDouble()), 2000 * Math.pow(20, random.nextDouble()));
  }

  /** The same model with its lives known. */
  static DrawnCostModel known(CostModel model) {
    Map<LifeDistribution, LifeDraws> lives = new HashMap<>();
    return new DrawnCostModel(
        model.plannedCost(),
        model.positions().stream()
            .map(
                r ->
                    new DrawnRisk(
                        r.position(),
                        r.component(),
                        lives.computeIfAbsent(r.life(), life -> LifeDraws.certain((Weibull) life)),
                        r.unplannedCost(),
                        r.mendCost(),
                        r.announces(),
                        r.hiddenCostPerHour()))
            .toList());
  }

  static DrawnRun run(CostModel model, List<Double> ages) {
    return DrawnRun.fromAges(
        known(model), ages.stream().mapToDouble(Double::doubleValue).toArray());
  }
}
