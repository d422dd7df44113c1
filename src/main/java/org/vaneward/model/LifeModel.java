package org.vaneward.model;

import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;

/**
 * What decisions believe of the life of one component in one service, and what that rests on.
 *
 * @param component such as {@code seal}
 * @param service the service; empty for pumps whose service is not on record
 * @param weibull the middle of what is believed: posterior means of log shape and log scale
 * @param shape its shape with posterior limits
 * @param scale its scale with posterior limits, in the fleet's clock
 * @param basis what it rests on
 * @param fromOthers share of what is known of the scale that comes from the other services, from 0
 *     to 1, which it is for a service never seen
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
    double fromOthers,
    double lives,
    double failures,
    LifeDraws draws) {

  /** What a model rests on, from the firmest down. */
  public enum Basis {
    /**
     * Its scale rests on this service's own failures; the shape leans on others where they are few.
     */
    OWN_FAILURES("own-failures", "mainly its own failures"),
    /** Failures here, but the other services say a good part of how long parts last. */
    LEANS_ON_OTHERS("leans-on-others", "its own failures, leaning on the other services"),
    /** No failure in this service, or no life at all: the other services. */
    OTHER_SERVICES("other-services", "the other services: no failure here");

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
