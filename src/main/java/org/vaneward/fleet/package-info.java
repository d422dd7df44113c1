/** The fleet's records as plain data: pumps, services, readings, openings, findings, settings. */
@NullMarked
package org.vaneward.fleet;

import org.jspecify.annotations.NullMarked;
