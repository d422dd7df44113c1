/**
 * What runs inside the report's page: compiled to JavaScript when the program is built, so that the
 * page answers with the very code the command line runs.
 */
@NullMarked
package org.vaneward.page;

import org.jspecify.annotations.NullMarked;
