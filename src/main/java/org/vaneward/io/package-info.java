/**
 * Files in and out, and the one exception for bad input. The only package that knows Jackson and
 * FastCSV.
 */
@NullMarked
package org.vaneward.io;

import org.jspecify.annotations.NullMarked;
