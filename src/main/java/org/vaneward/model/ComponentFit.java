package org.vaneward.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.model.LifeModel.Basis;
import org.vaneward.model.ServiceModels.ComponentModels;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.CommonShape;
import org.vaneward.stats.fit.CommonShapeFit;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.numeric.Quantiles;

/** The fits of one component over its services; {@link ServiceModels} says which one decides. */
final class ComponentFit {
  private final String component;
  private final FitSettings settings;
  private final Observations all;
  private final List<Group> groups = new ArrayList<>();

  /** The lives of one service, and their own fit. */
  private record Group(
      Optional<Service> service, double lives, Observations observations, WeibullFit own) {}

  ComponentFit(String component, LivesTable lives, FitSettings settings) {
    this.component = component;
    this.settings = settings;
    this.all = lives.observations();
    lives
        .groupBy(List.of("product", "duty"))
        .forEach((key, table) -> groups.add(group(key.get(0), key.get(1), table)));
  }

  private Group group(String product, String duty, LivesTable table) {
    Optional<Service> service =
        product.isEmpty() && duty.isEmpty()
            ? Optional.empty()
            : Optional.of(new Service(product, duty));
    Observations observations = table.observations();
    return new Group(
        service, table.lives(), observations, WeibullFitter.fit(observations, settings));
  }

  ComponentModels models() {
    List<Group> sharing = sharing(commonShape(groups));
    CommonShape common = commonShape(sharing);
    Optional<LifeModel> together = together(common);
    List<LifeModel> models = new ArrayList<>();
    List<Optional<Service>> apart = new ArrayList<>();
    for (Group group : groups) {
      int place = sharing.indexOf(group);
      if (place < 0) {
        apart.add(group.service());
      }
      model(group, place, common).or(() -> together(group, together)).ifPresent(models::add);
    }
    return new ComponentModels(component, models, together, common, apart);
  }

  private CommonShape commonShape(List<Group> some) {
    return CommonShapeFit.fit(some.stream().map(Group::observations).toList(), settings);
  }

  /** The groups whose failures do not rule the common shape out. */
  private List<Group> sharing(CommonShape common) {
    if (!(common instanceof CommonShape.Fitted fitted)) {
      return groups;
    }
    double shape = fitted.shape().estimate();
    List<Group> sharing = groups.stream().filter(group -> !rulesOut(group, shape)).toList();
    return sharing.isEmpty() ? groups : sharing;
  }

  private boolean rulesOut(Group group, double shape) {
    if (!(group.own() instanceof WeibullFit.Fitted own)
        || !(WeibullFitter.fit(group.observations(), settings.withFixedShape(shape))
            instanceof WeibullFit.Fitted atShape)) {
      return false;
    }
    double ratio = 2 * (own.logLikelihood() - atShape.logLikelihood());
    return Quantiles.chiSquareTail(ratio, 1) < ServiceModels.AGAINST;
  }

  /**
   * The model a group carries itself.
   *
   * @param place of the group among those that share the common shape, below 0 when it is apart
   */
  private Optional<LifeModel> model(Group group, int place, CommonShape common) {
    if (group.own() instanceof WeibullFit.Fitted own) {
      if (own.failures() >= ServiceModels.ENOUGH_FAILURES) {
        return Optional.of(own(group, own, Basis.OWN_FAILURES));
      }
      if (place < 0) {
        return Optional.of(own(group, own, Basis.OWN_SHAPE_APART));
      }
    }
    if (place >= 0 && common instanceof CommonShape.Fitted fitted) {
      CommonShape.Group shared = fitted.groups().get(place);
      return shared
          .weibull()
          .map(
              weibull ->
                  new LifeModel(
                      component,
                      group.service(),
                      weibull,
                      fitted.shape(),
                      shared.scale(),
                      Basis.COMMON_SHAPE,
                      group.lives(),
                      shared.failures(),
                      LifeDraws.certain(weibull)));
    }
    return Optional.empty();
  }

  private LifeModel own(Group group, WeibullFit.Fitted own, Basis basis) {
    return new LifeModel(
        component,
        group.service(),
        own.weibull(),
        own.shape(),
        own.scale(),
        basis,
        group.lives(),
        own.failures(),
        LifeDraws.certain(own.weibull()));
  }

  private static Optional<LifeModel> together(Group group, Optional<LifeModel> together) {
    return together.map(
        all ->
            new LifeModel(
                all.component(),
                group.service(),
                all.weibull(),
                all.shape(),
                all.scale(),
                Basis.ALL_SERVICES,
                group.lives(),
                group.observations().failures(),
                all.draws()));
  }

  /** All lives at the common shape; at their own where there is no common one. */
  private Optional<LifeModel> together(CommonShape common) {
    Optional<CommonShape.Fitted> shared =
        common instanceof CommonShape.Fitted fitted ? Optional.of(fitted) : Optional.empty();
    FitSettings atShape =
        shared.map(f -> settings.withFixedShape(f.shape().estimate())).orElse(settings);
    if (!(WeibullFitter.fit(all, atShape) instanceof WeibullFit.Fitted fit)) {
      return Optional.empty();
    }
    return Optional.of(
        new LifeModel(
            component,
            Optional.empty(),
            fit.weibull(),
            shared.map(CommonShape.Fitted::shape).orElse(fit.shape()),
            fit.scale(),
            Basis.ALL_SERVICES,
            fit.lives(),
            fit.failures(),
            LifeDraws.certain(fit.weibull())));
  }
}
