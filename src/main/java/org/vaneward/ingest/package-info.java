/** Files to records, with every row accounted for. */
@NullMarked
package org.vaneward.ingest;

import org.jspecify.annotations.NullMarked;
