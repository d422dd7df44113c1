/** Samples drawn like the lives at hand, and limits from refitting them. */
@NullMarked
package org.vaneward.stats.bootstrap;

import org.jspecify.annotations.NullMarked;
