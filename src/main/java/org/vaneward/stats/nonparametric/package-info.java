/** Estimates that assume no distribution: product limit, ranks. */
@NullMarked
package org.vaneward.stats.nonparametric;

import org.jspecify.annotations.NullMarked;
