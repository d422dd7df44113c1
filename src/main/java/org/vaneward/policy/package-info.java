/** Cost models and the planned interval that minimises them. */
@NullMarked
package org.vaneward.policy;

import org.jspecify.annotations.NullMarked;
