/** How well a fitted curve describes the lives it was fitted to, in numbers and in words. */
@NullMarked
package org.vaneward.stats.goodness;

import org.jspecify.annotations.NullMarked;
