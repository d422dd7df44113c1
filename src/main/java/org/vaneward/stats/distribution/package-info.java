/** Life distributions: both tails, log forms, quantiles. */
@NullMarked
package org.vaneward.stats.distribution;

import org.jspecify.annotations.NullMarked;
