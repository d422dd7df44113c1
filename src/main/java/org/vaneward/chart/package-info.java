/** Results to pictures. Knows XChart; nothing else does. */
@NullMarked
package org.vaneward.chart;

import org.jspecify.annotations.NullMarked;
