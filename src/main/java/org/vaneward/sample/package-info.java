/** Draws a fleet of known truth from a scenario and writes its records. */
@NullMarked
package org.vaneward.sample;

import org.jspecify.annotations.NullMarked;
