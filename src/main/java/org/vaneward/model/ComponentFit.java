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

  private final String component;
  private final PoolingSettings settings;
  private final List<Group> groups = new ArrayList<>();

  /** The lives of one service; of pumps whose service is not on record when it is empty. */
  private record Group(Optional<Service> service, double lives, Observations observations) {}

  /** A service that stands apart, with the fit of its own lives. */
  private record Apart(Group group, Fitted fit) {}

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
    List<Apart> apart = apart();
    List<Group> sharing = new ArrayList<>(groups);
    apart.forEach(a -> sharing.remove(a.group()));
    PooledFit pooled = fit(sharing, component);
    List<LifeModel> models = new ArrayList<>();
    Optional<LifeModel> unseen = Optional.empty();
    if (pooled instanceof Fitted fitted) {
      unseen = Optional.of(unseen(fitted));
      for (int s = 0; s < sharing.size(); s++) {
        models.add(shared(sharing.get(s), fitted, s));
      }
    }
    apart.forEach(a -> models.add(alone(a)));
    // Pumps whose service is not on record are no service: each may be in another.
    models.removeIf(model -> model.service().isEmpty());
    return new ComponentModels(
        component, models, unseen, pooled, apart.stream().map(a -> a.group().service()).toList());
  }

  private List<Apart> apart() {
    List<Apart> apart = new ArrayList<>();
    for (int place : ShapesApart.of(groups.stream().map(Group::observations).toList())) {
      Group group = groups.get(place);
      if (fit(List.of(group), component + ", " + group.service()) instanceof Fitted fitted) {
        apart.add(new Apart(group, fitted));
      }
    }
    return apart;
  }

  /**
   * A pool of its own.
   *
   * @param name of the pool, which sets its random stream apart from those of others
   */
  private PooledFit fit(List<Group> some, String name) {
    long seed = 31 * settings.seed() + name.hashCode();
    return PartialPooling.fit(
        some.stream().map(Group::observations).toList(), settings.withSeed(seed));
  }

  private LifeModel shared(Group group, Fitted pool, int place) {
    PooledFit.Group result = pool.groups().get(place);
    // In a pool of one the share is that of the priors.
    double fromOthers = pool.groups().size() > 1 ? result.fleetShare() : 0;
    Basis basis =
        !(result.failures() > 0)
            ? Basis.OTHER_SERVICES
            : fromOthers < LEANS ? Basis.OWN_FAILURES : Basis.LEANS_ON_OTHERS;
    return model(group, pool, place, basis, fromOthers);
  }

  private LifeModel alone(Apart apart) {
    return model(apart.group(), apart.fit(), 0, Basis.APART, 0);
  }

  private LifeModel model(Group group, Fitted pool, int place, Basis basis, double fromOthers) {
    PooledFit.Group result = pool.groups().get(place);
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
        LifeDraws.of(pool.draws().shapes(), pool.draws().scales(place)));
  }

  private LifeModel unseen(Fitted pool) {
    return new LifeModel(
        component,
        Optional.empty(),
        middle(pool.shape(), pool.newGroupScale()),
        pool.shape(),
        pool.newGroupScale(),
        Basis.OTHER_SERVICES,
        1,
        0,
        0,
        LifeDraws.of(pool.draws().shapes(), pool.draws().newGroupScales()));
  }

  private static Weibull middle(Estimate shape, Estimate scale) {
    return new Weibull(shape.estimate(), scale.estimate());
  }
}
