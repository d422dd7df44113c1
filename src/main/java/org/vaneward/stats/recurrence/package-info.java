/**
 * Recurrent events: several in one unit's history. Mean cumulative functions, tests of trend, the
 * power-law process, and whether a mended unit is as good as new.
 */
@NullMarked
package org.vaneward.stats.recurrence;

import org.jspecify.annotations.NullMarked;
