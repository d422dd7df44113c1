package org.vaneward.life;

import java.time.LocalDate;
import java.util.Map;
import org.vaneward.fleet.RowRef;

/**
 * A part that failed at zero hours, such as a seal that leaks on the start-up test.
 *
 * @param pump asset tag
 * @param site where the pump stands
 * @param component component of the position
 * @param position where the part sat
 * @param date day it failed
 * @param covariates crew, lot, kit of the fitting and whatever else describes it
 * @param row the finding
 */
public record StartUpFailure(
    String pump,
    String site,
    String component,
    String position,
    LocalDate date,
    Map<String, String> covariates,
    RowRef row) {
  public StartUpFailure {
    covariates = Covariates.frozen(covariates);
  }
}
