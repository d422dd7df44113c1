package org.vaneward.model;

import java.util.Map;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.WeibullFit;

/**
 * The fit of one group of lives.
 *
 * @param group the columns that make the group, in the order asked for, with its values
 * @param lives number of lives, spans of one life counted once
 * @param observations what was fitted
 * @param fit the fit, or why there is none
 */
public record GroupFit(
    Map<String, String> group, double lives, Observations observations, WeibullFit fit) {}
