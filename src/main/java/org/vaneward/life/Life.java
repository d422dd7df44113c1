package org.vaneward.life;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.RowRef;
import org.vaneward.fleet.Service;

/**
 * One part in one position from the moment it is fitted until it fails, is taken out or the records
 * end. Ages are in the fleet's clock, running hours unless it says otherwise, counted from the
 * fitting.
 *
 * @param number number of the life among those of its position, from 1
 * @param pump asset tag
 * @param site where the pump stands
 * @param component component of the position
 * @param position where the part sat
 * @param fittedOn day it was fitted
 * @param fittedAtCount the pump's count on that day in the fleet's clock, of which only differences
 *     mean anything
 * @param endedOn day of the opening that ended it, or of the end of observation
 * @param entryAge age at which it came under observation, 0 unless the records start later
 * @param end how it ended
 * @param seenGood age at which it was last seen in working order, or came under observation;
 *     present where the component does not announce its failures and the life ended without one.
 *     Past it the part may have failed unseen, so a fit counts it as good up to there only
 * @param spans the services it lived through, contiguous from {@code entryAge} on
 * @param reconditioned whether the part was a reconditioned one
 * @param marks what was assumed on the way
 * @param covariates what describes the life, by column: of its fitting {@code crew}, {@code kit},
 *     {@code lot}, {@code end_clearance_mm}, {@code fitted_at} (number of the rebuild) and {@code
 *     earlier_rebuilds} (openings of the pump up to and including the fitting, 0 for a part that
 *     came with the pump); of its end {@code ended_at}, {@code trigger}, {@code mode}, {@code
 *     cause} and {@code measured_mm}; {@code model} and further columns of the pump and of the
 *     fitting under their own names, further columns of the end under {@code end_} and the name
 * @param sources the rows of its fitting and of its end
 */
public record Life(
    int number,
    String pump,
    String site,
    String component,
    String position,
    LocalDate fittedOn,
    double fittedAtCount,
    LocalDate endedOn,
    double entryAge,
    LifeEnd end,
    OptionalDouble seenGood,
    List<LifeSpan> spans,
    boolean reconditioned,
    List<Mark> marks,
    Map<String, String> covariates,
    List<RowRef> sources) {
  public Life {
    spans = List.copyOf(spans);
    marks = List.copyOf(marks);
    covariates = Covariates.frozen(covariates);
    sources = List.copyOf(sources);
  }

  /** {@code pump/position/number}. */
  public String id() {
    return pump + "/" + position + "/" + number;
  }

  /** Whether it ended in a failure, at a known age or found. */
  public boolean hasFailed() {
    return end instanceof LifeEnd.Failed || end instanceof LifeEnd.FoundFailed;
  }

  /** The service the life ended in; empty when the pump's service is unknown. */
  public Optional<Service> lastService() {
    return spans.isEmpty() ? Optional.empty() : spans.get(spans.size() - 1).service();
  }

  /** How a life ended. */
  public sealed interface LifeEnd {
    /** Age at which observation ended. */
    double age();

    /** Failed at a known age. */
    record Failed(double age) implements LifeEnd {}

    /** Found failed at {@code age}; last known good at {@code lastGoodAge}. */
    record FoundFailed(double lastGoodAge, double age) implements LifeEnd {}

    /** Taken out in working order. */
    record RemovedWorking(double age) implements LifeEnd {}

    /** Still running when the records end. */
    record StillRunning(double age) implements LifeEnd {}

    /** Running, as far as known, when its pump left service. */
    record Retired(double age) implements LifeEnd {}

    /** Last seen in working order; what became of it is on no usable record. */
    record LostSight(double age) implements LifeEnd {}
  }

  /**
   * A stretch of a life in one service under the same conditions.
   *
   * @param service what the pump did; empty when the records do not say
   * @param conditions numeric conditions by column name, such as {@code pressure_bar}
   * @param fromAge age at its start
   * @param toAge age at its end
   */
  public record LifeSpan(
      Optional<Service> service, Map<String, Double> conditions, double fromAge, double toAge) {
    public LifeSpan {
      conditions = Map.copyOf(conditions);
    }

    /** A stretch whose conditions are not on record. */
    public LifeSpan(Optional<Service> service, double fromAge, double toAge) {
      this(service, Map.of(), fromAge, toAge);
    }
  }

  /** What was assumed in building a life. */
  public enum Mark {
    /** An age rests on hours interpolated between readings. */
    HOURS_INTERPOLATED,
    /** An age rests on hours carried from the nearest reading at the pump's usage rate. */
    HOURS_CARRIED_FORWARD,
    /** The fitting is implied by a kit, not recorded at the position. */
    KIT_IMPLIED,
    /**
     * A failure whose interval crosses a change of service or of its conditions is given to the
     * stretch in which the longest part of the interval was run.
     */
    INTERVAL_ACROSS_SERVICES
  }
}
