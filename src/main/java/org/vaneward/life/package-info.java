/** Records to lives: exact, right-censored, interval, delayed entry, spans of service. */
@NullMarked
package org.vaneward.life;

import org.jspecify.annotations.NullMarked;
