/**
 * Observations of lives and what the statistics core returns. Knows nothing of pumps, files or
 * money.
 */
@NullMarked
package org.vaneward.stats;

import org.jspecify.annotations.NullMarked;
