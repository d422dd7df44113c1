package org.vaneward.model;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.model.LifeModel.Basis;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.CommonShape;
import org.vaneward.stats.fit.CommonShapeFit;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;

/**
 * The life model of every component in every service.
 *
 * <p>The shape of a Weibull fitted to few failures is too high on average, by about a sixth at ten
 * complete lives and a fourteenth at twenty (Thoman, Bain and Antle, Technometrics 11, 1969, their
 * table of unbiasing factors; quoted from memory), and too high a shape advises too firm an
 * interval. So a service decides on its own fit from {@value #ENOUGH_FAILURES} failures on. With
 * fewer it shares one shape with the other services of its component, fitted to all of them at
 * once, and keeps its own scale. A service without failures takes the lives of all services
 * together at that shape.
 */
public final class ServiceModels {
  /** From so many failures on a service decides on its own fit. */
  public static final int ENOUGH_FAILURES = 20;

  private final Map<String, ComponentModels> components;

  private ServiceModels(Map<String, ComponentModels> components) {
    this.components = components;
  }

  /** Models from a lives table with the columns component, product and duty. */
  public static ServiceModels of(LivesTable table, FitSettings settings) {
    Map<String, ComponentModels> components = new LinkedHashMap<>();
    table
        .groupBy(List.of("component"))
        .forEach(
            (key, lives) ->
                components.put(key.get(0), new ComponentFit(key.get(0), lives, settings).models()));
    return new ServiceModels(components);
  }

  /** Models by component, in alphabetical order. */
  public Collection<ComponentModels> components() {
    return Collections.unmodifiableCollection(components.values());
  }

  /**
   * The model of a component in a service; that of all services together where the service is not
   * on record or has no lives of the component; empty when the component has no failure anywhere.
   */
  public Optional<LifeModel> find(String component, Optional<Service> service) {
    return Optional.ofNullable(components.get(component)).flatMap(m -> m.find(service));
  }

  /**
   * One component.
   *
   * @param component its name
   * @param services one model for each service seen; none when nothing is estimable
   * @param allServices the model where a service has nothing of its own; empty without a failure
   * @param commonShape the fit with one shape for all services
   */
  public record ComponentModels(
      String component,
      List<LifeModel> services,
      Optional<LifeModel> allServices,
      CommonShape commonShape) {
    public ComponentModels {
      services = List.copyOf(services);
    }

    Optional<LifeModel> find(Optional<Service> service) {
      return services.stream()
          .filter(model -> model.service().equals(service))
          .findFirst()
          .or(() -> allServices);
    }
  }

  /** The fits of one component. */
  private static final class ComponentFit {
    private final String component;
    private final FitSettings settings;
    private final Observations all;
    private final List<Optional<Service>> services = new ArrayList<>();
    private final List<LivesTable> tables = new ArrayList<>();
    private final List<Observations> groups = new ArrayList<>();

    ComponentFit(String component, LivesTable lives, FitSettings settings) {
      this.component = component;
      this.settings = settings;
      this.all = lives.observations();
      lives
          .groupBy(List.of("product", "duty"))
          .forEach(
              (key, table) -> {
                services.add(service(key.get(0), key.get(1)));
                tables.add(table);
                groups.add(table.observations());
              });
    }

    private static Optional<Service> service(String product, String duty) {
      return product.isEmpty() && duty.isEmpty()
          ? Optional.empty()
          : Optional.of(new Service(product, duty));
    }

    ComponentModels models() {
      CommonShape common = CommonShapeFit.fit(groups, settings);
      Optional<LifeModel> together = together(common);
      List<LifeModel> models = new ArrayList<>();
      for (int i = 0; i < groups.size(); i++) {
        model(i, common, together).ifPresent(models::add);
      }
      return new ComponentModels(component, models, together, common);
    }

    private Optional<LifeModel> model(int i, CommonShape common, Optional<LifeModel> together) {
      if (groups.get(i).failures() >= ENOUGH_FAILURES
          && WeibullFitter.fit(groups.get(i), settings) instanceof WeibullFit.Fitted own) {
        return Optional.of(
            new LifeModel(
                component,
                services.get(i),
                own.weibull(),
                own.shape(),
                own.scale(),
                Basis.OWN_FAILURES,
                tables.get(i).lives(),
                own.failures()));
      }
      if (common instanceof CommonShape.Fitted fitted
          && fitted.groups().get(i).weibull().isPresent()) {
        CommonShape.Group group = fitted.groups().get(i);
        return Optional.of(
            new LifeModel(
                component,
                services.get(i),
                group.weibull().get(),
                fitted.shape(),
                group.scale(),
                Basis.COMMON_SHAPE,
                tables.get(i).lives(),
                group.failures()));
      }
      return together.map(
          model ->
              new LifeModel(
                  component,
                  services.get(i),
                  model.weibull(),
                  model.shape(),
                  model.scale(),
                  Basis.ALL_SERVICES,
                  tables.get(i).lives(),
                  groups.get(i).failures()));
    }

    /** All lives at the common shape; at their own where there is no common one. */
    private Optional<LifeModel> together(CommonShape common) {
      FitSettings atShape =
          common instanceof CommonShape.Fitted fitted
              ? settings.withFixedShape(fitted.shape().estimate())
              : settings;
      if (!(WeibullFitter.fit(all, atShape) instanceof WeibullFit.Fitted fit)) {
        return Optional.empty();
      }
      return Optional.of(
          new LifeModel(
              component,
              Optional.empty(),
              fit.weibull(),
              common instanceof CommonShape.Fitted fitted ? fitted.shape() : fit.shape(),
              fit.scale(),
              Basis.ALL_SERVICES,
              fit.lives(),
              fit.failures()));
    }
  }
}
