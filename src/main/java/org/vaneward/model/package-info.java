/** Life models by component and service: which fit a decision rests on, and why. */
@NullMarked
package org.vaneward.model;

import org.jspecify.annotations.NullMarked;
