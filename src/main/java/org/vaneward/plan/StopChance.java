package org.vaneward.plan;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.model.LifeDraws;

/** The chance that one of the positions that stop a pump fails within some further running. */
final class StopChance {
  private final List<Stopper> stoppers = new ArrayList<>();

  /** Positions that share a life and an age. */
  private static final class Stopper {
    private final LifeDraws life;
    private final double age;
    private int count = 1;

    Stopper(LifeDraws life, double age) {
      this.life = life;
      this.age = age;
    }
  }

  /** Adds a position by the life and the age of its part. */
  void add(LifeDraws life, double age) {
    for (Stopper s : stoppers) {
      if (s.life.equals(life) && s.age == age) {
        s.count++;
        return;
      }
    }
    stoppers.add(new Stopper(life, age));
  }

  boolean isEmpty() {
    return stoppers.isEmpty();
  }

  /** The chance over all that is believed of the lives. */
  double within(double hours) {
    int draws = stoppers.stream().mapToInt(s -> s.life.size()).max().orElseThrow();
    double[] hazard = new double[draws];
    for (Stopper s : stoppers) {
      s.life.addCumulativeHazard(s.age + hours, s.count, hazard);
      s.life.addCumulativeHazard(s.age, -s.count, hazard);
    }
    return LifeDraws.meanFailed(hazard);
  }
}
