/** Do groups differ: log-rank tests, shrunken failure rates, false discovery rates. */
@NullMarked
package org.vaneward.stats.comparison;

import org.jspecify.annotations.NullMarked;
