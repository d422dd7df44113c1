/** Timings of the statistics core, by itself (JMH) and beside general-purpose R. */
@NullMarked
package org.vaneward.bench;

import org.jspecify.annotations.NullMarked;
