package org.vaneward.life;

import java.util.List;
import org.vaneward.fleet.RowNote;

/**
 * What the records of a fleet come to.
 *
 * @param lives every life with an age, by pump, position and date of fitting
 * @param startUps failures at zero hours, kept apart from wear-out
 * @param unknownAges parts whose fitting is not on record, set aside until their first renewal
 * @param notes what was assumed or refused on the way, row by row
 * @param parts what sits in each pump in service on the day of record, by pump and position
 * @param openings the openings used, by pump and date, since its records start
 * @param pumps each pump on the day of record, in the order of the fleet
 */
public record Lives(
    List<Life> lives,
    List<StartUpFailure> startUps,
    List<UnknownAge> unknownAges,
    List<RowNote> notes,
    List<InstalledPart> parts,
    List<OpeningMade> openings,
    List<PumpState> pumps) {
  public Lives {
    lives = List.copyOf(lives);
    startUps = List.copyOf(startUps);
    unknownAges = List.copyOf(unknownAges);
    notes = List.copyOf(notes);
    parts = List.copyOf(parts);
    openings = List.copyOf(openings);
    pumps = List.copyOf(pumps);
  }
}
