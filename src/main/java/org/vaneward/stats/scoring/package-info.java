/** Forecasts held against what came: scores and calibration. */
@NullMarked
package org.vaneward.stats.scoring;

import org.jspecify.annotations.NullMarked;
