/** Recurring failures: histories of events and counts, read from tables and reviewed. */
@NullMarked
package org.vaneward.review;

import org.jspecify.annotations.NullMarked;
