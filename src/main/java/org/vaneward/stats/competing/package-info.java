/** Competing risks: which of several causes comes first, and when. */
@NullMarked
package org.vaneward.stats.competing;

import org.jspecify.annotations.NullMarked;
