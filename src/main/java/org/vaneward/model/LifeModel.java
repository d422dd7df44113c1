package org.vaneward.model;

import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.stats.distribution.Weibull;

/**
 * The life distribution a decision uses for one component in one service, and what it rests on.
 *
 * @param component such as {@code seal}
 * @param service the service; empty for pumps whose service is not on record
 * @param weibull the distribution
 * @param basis what it rests on
 * @param lives lives observed in this service
 * @param failures failures observed in this service
 */
public record LifeModel(
    String component,
    Optional<Service> service,
    Weibull weibull,
    Basis basis,
    double lives,
    double failures) {

  /** What a model rests on, from the firmest down. */
  public enum Basis {
    /** This service's own failures, enough for a shape and a scale. */
    OWN_FAILURES("its own failures"),
    /**
     * This service's own failures for the scale; the shape is common to all services of the
     * component.
     */
    COMMON_SHAPE("its own failures for the scale, the shape of all services"),
    /** No failure in this service: every service of the component together. */
    ALL_SERVICES("all services together, for want of failures here");

    private final String words;

    Basis(String words) {
      this.words = words;
    }

    /** The basis as a phrase for a planner. */
    public String words() {
      return words;
    }
  }
}
