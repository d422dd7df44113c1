/** The command line: parses arguments, prints, sets exit codes; computes nothing. */
@NullMarked
package org.vaneward.cli;

import org.jspecify.annotations.NullMarked;
