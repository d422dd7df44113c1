package org.vaneward.fleet;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One opening of a pump, with what was found at each position looked at.
 *
 * @param rebuild record number, unique in the fleet
 * @param pump asset tag
 * @param date day it was opened
 * @param meterHours hour meter when stopped; empty when it was not read
 * @param trigger why it was opened
 * @param crew who rebuilt it
 * @param kit kit fitted; empty when loose parts only
 * @param downtimeHours hours out of service
 * @param cost cost booked, in the fleet's currency
 * @param endClearanceMm as-left rotor end clearance, total of both ends, millimetres
 * @param note free text
 * @param covariates columns the contract does not name, by header
 * @param findings one for each position looked at
 * @param row where it stands in the records
 */
public record Opening(
    String rebuild,
    String pump,
    LocalDate date,
    OptionalDouble meterHours,
    Trigger trigger,
    Optional<String> crew,
    Optional<String> kit,
    OptionalDouble downtimeHours,
    OptionalDouble cost,
    OptionalDouble endClearanceMm,
    Optional<String> note,
    Map<String, String> covariates,
    List<Finding> findings,
    RowRef row) {
  public Opening {
    covariates = Map.copyOf(covariates);
    findings = List.copyOf(findings);
  }
}
