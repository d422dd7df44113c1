/**
 * Looks at a folder of exports and proposes what their columns, words, days, numbers and units
 * mean, each guess with what speaks for it and what is in doubt. What is in doubt goes on a list
 * that a person has to settle before the proposal is used: nothing is guessed in silence.
 */
@NullMarked
package org.vaneward.adopt;

import org.jspecify.annotations.NullMarked;
