/** History replayed: what would have been forecast and advised, and what came. */
@NullMarked
package org.vaneward.backtest;

import org.jspecify.annotations.NullMarked;
