/** Jobs into weeks: least cost with shared visits, so many places a week, and last days to keep. */
@NullMarked
package org.vaneward.schedule;

import org.jspecify.annotations.NullMarked;
