/**
 * The front for programs and notebooks: read records, look at lives, fit, decide, draw. {@link
 * org.vaneward.api.Vaneward} is where to begin:
 *
 * <pre>{@code
 * FleetRecords records = Vaneward.read(Path.of("sample-fleet"));
 * PartLives seals = records.lives().where("component", "seal");
 * PartFit fit = seals.fit();
 * Decisions decisions = records.decide();
 * Chart chart = decisions.costCurves("petrol", "loading").get(0);
 * }</pre>
 *
 * <p>The examples of the other classes go on from these five lines.
 *
 * <p>This package is the public part of the program, with {@link
 * org.vaneward.io.BadInputException}; every other package may change from one version to the next.
 * Its methods take and return types of its own, of the JDK and of Tablesaw. Everything here is
 * immutable, and the same records give the same numbers. Ages and intervals are in the fleet's
 * clock, running hours unless {@code fleet.json} says days; money is in its currency.
 */
@NullMarked
package org.vaneward.api;

import org.jspecify.annotations.NullMarked;
