package org.vaneward.policy;

import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.model.LifeModel;

/** Where decisions get the life of a component in a service. */
@FunctionalInterface
public interface LifeLookup {
  /**
   * The life model of {@code component} in {@code service}; empty when the component has no failure
   * on record anywhere.
   *
   * @param service empty for a pump whose service is not on record
   */
  Optional<LifeModel> find(String component, Optional<Service> service);
}
