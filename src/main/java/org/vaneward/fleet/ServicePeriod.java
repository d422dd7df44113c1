package org.vaneward.fleet;

import java.time.LocalDate;
import java.util.Map;

/**
 * What a pump handles from a day on, until its next period begins.
 *
 * @param pump asset tag
 * @param from first day
 * @param service product and duty
 * @param conditions numeric conditions by column name, such as {@code pressure_bar}
 * @param covariates columns the contract does not name, by header
 * @param row where it stands in the records
 */
public record ServicePeriod(
    String pump,
    LocalDate from,
    Service service,
    Map<String, Double> conditions,
    Map<String, String> covariates,
    RowRef row) {
  public ServicePeriod {
    conditions = Map.copyOf(conditions);
    covariates = Map.copyOf(covariates);
  }
}
