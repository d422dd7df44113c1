/** Weibull regression: life against covariates, with every kind of observation. */
@NullMarked
package org.vaneward.stats.regression;

import org.jspecify.annotations.NullMarked;
