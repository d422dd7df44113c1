package org.vaneward.review.failure;

import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;

/**
 * A question that was put to the records.
 *
 * @param topic what it is about
 * @param outcome which failures it counts
 * @param component the component; empty for all
 * @param subject who or what is under suspicion
 * @param pump the pump it is about; empty when it is not about one
 * @param p one-sided p-value: chance of as much or more if nothing were behind it
 * @param evidence worked out when it becomes a finding
 * @param lives the parts it is about, by the number of their life
 * @param without its p-value with some lives left out; empty when too little is left to ask
 */
record Asked(
    Topic topic,
    Outcome outcome,
    String component,
    String subject,
    String pump,
    double p,
    Supplier<Evidence> evidence,
    Supplier<Set<String>> lives,
    Function<Set<String>, OptionalDouble> without) {}
