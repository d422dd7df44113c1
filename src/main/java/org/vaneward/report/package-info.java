/** Results to HTML, CSV and JSON. Templates escape by default. */
@NullMarked
package org.vaneward.report;

import org.jspecify.annotations.NullMarked;
