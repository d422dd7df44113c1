/** Partial pooling of the life distributions of several groups. */
@NullMarked
package org.vaneward.stats.pooling;

import org.jspecify.annotations.NullMarked;
