package org.vaneward.fleet;

import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What was seen and done at one position while a pump was open.
 *
 * @param position position of the part
 * @param asFound state it was found in
 * @param primary whether this part's failure is why the pump was stopped
 * @param mode failure mode, coded or in the shop's words
 * @param cause cause, coded or in the shop's words
 * @param action what was done with it
 * @param measuredMm wear or clearance measured, millimetres
 * @param lot batch of the part fitted
 * @param covariates columns the contract does not name, by header
 * @param row where it stands in the records
 */
public record Finding(
    String position,
    AsFound asFound,
    boolean primary,
    Optional<String> mode,
    Optional<String> cause,
    PartAction action,
    OptionalDouble measuredMm,
    Optional<String> lot,
    Map<String, String> covariates,
    RowRef row) {
  public Finding {
    covariates = Map.copyOf(covariates);
  }
}
