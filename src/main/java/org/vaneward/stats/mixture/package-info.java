/** Mixtures of two Weibull distributions: two populations in one plot, told apart or refused. */
@NullMarked
package org.vaneward.stats.mixture;

import org.jspecify.annotations.NullMarked;
