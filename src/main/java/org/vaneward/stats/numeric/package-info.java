/** Root finding, minimising and integrating: Commons Math behind guards against its traps. */
@NullMarked
package org.vaneward.stats.numeric;

import org.jspecify.annotations.NullMarked;
