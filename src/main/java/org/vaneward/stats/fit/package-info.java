/** Maximum-likelihood fits of life distributions to censored lives, with limits. */
@NullMarked
package org.vaneward.stats.fit;

import org.jspecify.annotations.NullMarked;
