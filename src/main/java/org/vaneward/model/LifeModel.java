package org.vaneward.model;

import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;

/**
 * The life distribution a decision uses for one component in one service, and what it rests on.
 *
 * @param component such as {@code seal}
 * @param service the service; empty for pumps whose service is not on record
 * @param weibull the distribution
 * @param shape its shape with limits
 * @param scale its scale with limits, in the fleet's clock
 * @param basis what it rests on
 * @param lives lives observed in this service, a life that changed service counted in each
 * @param failures failures observed in this service
 * @param draws what is believed of the life, to decide on
 */
public record LifeModel(
    String component,
    Optional<Service> service,
    Weibull weibull,
    Estimate shape,
    Estimate scale,
    Basis basis,
    double lives,
    double failures,
    LifeDraws draws) {

  /** What a model rests on, from the firmest down. */
  public enum Basis {
    /** This service's own failures, enough for a shape and a scale. */
    OWN_FAILURES("own-failures", "its own failures"),
    /** This service's own failures, few, but enough to rule out the shape the others share. */
    OWN_SHAPE_APART("own-shape-apart", "its own failures: few, but they rule out the common shape"),
    /** Its own failures for the scale; the shape is common to all services of the component. */
    COMMON_SHAPE("common-shape", "its own failures for the scale, the common shape"),
    /** No failure in this service: every service of the component together. */
    ALL_SERVICES("all-services", "all services together, for want of failures here");

    private final String key;
    private final String words;

    Basis(String key, String words) {
      this.key = key;
      this.words = words;
    }

    /** The word in machine-readable output. */
    public String key() {
      return key;
    }

    /** The basis as a phrase for a planner. */
    public String words() {
      return words;
    }
  }
}
