/** How often a part is renewed when each failure is mended: the renewal function. */
@NullMarked
package org.vaneward.stats.renewal;

import org.jspecify.annotations.NullMarked;
