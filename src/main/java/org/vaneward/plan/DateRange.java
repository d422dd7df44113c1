package org.vaneward.plan;

import java.time.LocalDate;
import java.util.Optional;

/**
 * Between which days a date may lie, at the confidence of the plan.
 *
 * @param earliest lower limit
 * @param latest upper limit; empty when there is none within a hundred years
 */
public record DateRange(LocalDate earliest, Optional<LocalDate> latest) {}
