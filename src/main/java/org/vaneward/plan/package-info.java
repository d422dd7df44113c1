/** Per pump: when to rebuild next, why, and what waiting costs. */
@NullMarked
package org.vaneward.plan;

import org.jspecify.annotations.NullMarked;
