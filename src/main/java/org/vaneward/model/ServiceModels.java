package org.vaneward.model;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.stats.pooling.PooledFit;
import org.vaneward.stats.pooling.PoolingSettings;

/**
 * What decisions believe of the life of every component in every service.
 *
 * <p>The services of a component are pooled ({@link org.vaneward.stats.pooling.PartialPooling}):
 * shapes and scales that lean on one another as far as the records of each leave room. A service
 * never seen, and a pump whose service is not on record, takes a service drawn anew from all of
 * them.
 */
public final class ServiceModels {
  /** Posterior draws of each model: a limit is then uncertain by a fifteenth of its spread. */
  public static final int DRAWS = 1000;

  private final List<ComponentModels> components;

  private ServiceModels(List<ComponentModels> components) {
    this.components = List.copyOf(components);
  }

  /**
   * Models from a lives table with the columns component, product and duty. Draws of different
   * components are independent of one another.
   *
   * @param settings confidence of the limits, number of draws, seed and priors
   */
  public static ServiceModels of(LivesTable table, PoolingSettings settings) {
    List<Map.Entry<List<String>, LivesTable>> byComponent =
        List.copyOf(table.groupBy(List.of("component")).entrySet());
    return new ServiceModels(
        byComponent.parallelStream()
            .map(e -> new ComponentFit(e.getKey().get(0), e.getValue(), settings).models())
            .toList());
  }

  /** Models by component, in alphabetical order. */
  public List<ComponentModels> components() {
    return components;
  }

  /**
   * The model of a component in a service; that of a service never seen where the service is not on
   * record or has no lives of the component; empty when the component has no model at all, as when
   * it has no failure anywhere.
   */
  public Optional<LifeModel> find(String component, Optional<Service> service) {
    return components.stream()
        .filter(models -> models.component().equals(component))
        .findFirst()
        .flatMap(models -> models.find(service));
  }

  /**
   * One component.
   *
   * @param component its name
   * @param services one model for each service seen; none when nothing is estimable
   * @param unseen the model of a service never seen; empty when nothing is estimable
   * @param pooled the fit of all services
   * @param below services whose shape is below the typical one with a chance of 0.95 or more
   * @param above those whose shape is above it
   */
  public record ComponentModels(
      String component,
      List<LifeModel> services,
      Optional<LifeModel> unseen,
      PooledFit pooled,
      List<Service> below,
      List<Service> above) {
    public ComponentModels {
      services = List.copyOf(services);
      below = List.copyOf(below);
      above = List.copyOf(above);
    }

    Optional<LifeModel> find(Optional<Service> service) {
      return services.stream()
          .filter(model -> model.service().equals(service))
          .findFirst()
          .or(() -> unseen);
    }
  }
}
