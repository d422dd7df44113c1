package org.vaneward.model;

import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.stats.fit.CommonShape;
import org.vaneward.stats.fit.FitSettings;

/**
 * The life model of every component in every service.
 *
 * <p>The shape of a Weibull fitted to few failures is too high on average, by about a sixth at ten
 * complete lives and a fourteenth at twenty (Thoman, Bain and Antle, Technometrics 11, 1969, their
 * table of unbiasing factors; quoted from memory), and too high a shape advises too firm an
 * interval. So a service decides on its own fit from {@value #ENOUGH_FAILURES} failures on. With
 * fewer it shares one shape with the other services of its component, fitted to all of them at
 * once, and keeps its own scale; unless its own failures rule that shape out (likelihood ratio
 * against its own fit, p below {@value #AGAINST}): then it stands apart on its own fit, and the
 * common shape is fitted again to the others. A service without failures takes the lives of all
 * services together at that shape.
 */
public final class ServiceModels {
  /** From so many failures on a service decides on its own fit. */
  public static final int ENOUGH_FAILURES = 20;

  /** Chance of so large a likelihood ratio below which a service's failures rule a shape out. */
  static final double AGAINST = 0.05;

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
   * @param commonShape the fit with one shape, for all services but those apart
   * @param apart services whose failures rule that shape out
   */
  public record ComponentModels(
      String component,
      List<LifeModel> services,
      Optional<LifeModel> allServices,
      CommonShape commonShape,
      List<Optional<Service>> apart) {
    public ComponentModels {
      services = List.copyOf(services);
      apart = List.copyOf(apart);
    }

    Optional<LifeModel> find(Optional<Service> service) {
      return services.stream()
          .filter(model -> model.service().equals(service))
          .findFirst()
          .or(() -> allServices);
    }
  }
}
