package org.vaneward.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.model.LifeModel.Basis;
import org.vaneward.model.ServiceModels.ComponentModels;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.pooling.PartialPooling;
import org.vaneward.stats.pooling.PooledFit;
import org.vaneward.stats.pooling.PooledFit.Fitted;
import org.vaneward.stats.pooling.PoolingSettings;

/** The models of one component over its services; {@link ServiceModels} says how. */
final class ComponentFit {
  /** Share of the other services in a scale from which on a model is said to lean on them. */
  private static final double LEANS = 0.2;

  /** Share of the draws on one side of the typical shape from which on a shape is another. */
  private static final double CLEARLY = 0.95;

  private final String component;
  private final PoolingSettings settings;
  private final List<Group> groups = new ArrayList<>();

  /** The lives of one service; of pumps whose service is not on record when it is empty. */
  private record Group(Optional<Service> service, double lives, Observations observations) {}

  ComponentFit(String component, LivesTable lives, PoolingSettings settings) {
    this.component = component;
    this.settings = settings.withShares(List.of());
    lives
        .groupBy(List.of("product", "duty"))
        .forEach((key, table) -> groups.add(group(key.get(0), key.get(1), table)));
  }

  private static Group group(String product, String duty, LivesTable table) {
    Optional<Service> service =
        product.isEmpty() && duty.isEmpty()
            ? Optional.empty()
            : Optional.of(new Service(product, duty));
    return new Group(service, table.lives(), table.observations());
  }

  ComponentModels models() {
    PooledFit pooled =
        PartialPooling.fit(
            groups.stream().map(Group::observations).toList(),
            settings.withSeed(31 * settings.seed() + component.hashCode()));
    List<LifeModel> models = new ArrayList<>();
    Optional<LifeModel> unseen = Optional.empty();
    List<Service> below = new ArrayList<>();
    List<Service> above = new ArrayList<>();
    if (pooled instanceof Fitted fitted) {
      unseen = Optional.of(unseen(fitted));
      for (int s = 0; s < groups.size(); s++) {
        // Pumps whose service is not on record are no service: each may be in another.
        if (groups.get(s).service().isPresent()) {
          models.add(model(groups.get(s), fitted, s));
          double share = shareBelowTypical(fitted, s);
          if (share >= CLEARLY) {
            below.add(groups.get(s).service().get());
          } else if (share <= 1 - CLEARLY) {
            above.add(groups.get(s).service().get());
          }
        }
      }
    }
    return new ComponentModels(component, models, unseen, pooled, below, above);
  }

  /** Share of the draws in which the group's shape is below that of the typical group. */
  private static double shareBelowTypical(Fitted fit, int group) {
    int below = 0;
    for (int i = 0; i < fit.draws().size(); i++) {
      below += fit.draws().shape(group, i) < fit.draws().populationShape(i) ? 1 : 0;
    }
    return below / (double) fit.draws().size();
  }

  private LifeModel model(Group group, Fitted pool, int place) {
    PooledFit.Group result = pool.groups().get(place);
    // In a pool of one the share is that of the priors.
    double fromOthers = pool.groups().size() > 1 ? result.fleetShare() : 0;
    Basis basis =
        !(result.failures() > 0)
            ? Basis.OTHER_SERVICES
            : fromOthers < LEANS ? Basis.OWN_FAILURES : Basis.LEANS_ON_OTHERS;
    return new LifeModel(
        component,
        group.service(),
        middle(result.shape(), result.scale()),
        result.shape(),
        result.scale(),
        basis,
        fromOthers,
        group.lives(),
        result.failures(),
        LifeDraws.of(pool.draws().shapes(place), pool.draws().scales(place)));
  }

  private LifeModel unseen(Fitted pool) {
    return new LifeModel(
        component,
        Optional.empty(),
        middle(pool.newGroupShape(), pool.newGroupScale()),
        pool.newGroupShape(),
        pool.newGroupScale(),
        Basis.OTHER_SERVICES,
        1,
        0,
        0,
        LifeDraws.of(pool.draws().newGroupShapes(), pool.draws().newGroupScales()));
  }

  private static Weibull middle(Estimate shape, Estimate scale) {
    return new Weibull(shape.estimate(), scale.estimate());
  }
}
