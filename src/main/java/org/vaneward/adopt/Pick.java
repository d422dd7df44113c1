package org.vaneward.adopt;

import java.util.Optional;

/**
 * A column of the record format and the column of an export it is read from.
 *
 * @param column of the record format
 * @param from the column of the export
 * @param because what speaks for it
 * @param doubt what speaks against it
 */
record Pick(String column, ColumnProfile from, String because, Optional<String> doubt) {}
