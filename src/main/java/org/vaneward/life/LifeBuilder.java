package org.vaneward.life;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.RowNote;

/**
 * Turns the records of a fleet into lives.
 *
 * <p>The openings of each pump are walked in order of date. What an opening says of the part in a
 * position:
 *
 * <ul>
 *   <li>Failed at a known age: found failed and {@code primary}; or the only failed part of a
 *       component that announces its failures, on a trigger that points at the component, whatever
 *       other component has a primary part. Several primary parts all count so: the pump was
 *       stopped for each of them at this age, and nothing tells which came first.
 *   <li>Failed in an interval: found failed otherwise, and so {@code primary} on a {@code planned}
 *       opening (a repair). The interval starts at the last age at which the part was seen not
 *       failed, its fitting to begin with.
 *   <li>A measurement at or over the component's wear limit counts as found failed. Where the
 *       finding says {@code good} or {@code not-seen} that is a repair.
 *   <li>Right-censored: renewed or reconditioned in any other state.
 *   <li>A look, and no end: reused, seen and not failed.
 * </ul>
 *
 * <p>A part failed and yet reused ends its life as failed; what runs on in its position has no
 * known age until the next renewal. A failure at less than one hour (one day where ages are in
 * days) is a start-up failure and no life. Parts that change places within zero hours make no life.
 *
 * <p>A position without a finding counts as renewed, not seen, where the kit fitted covers its
 * component ({@link KitCoverage}).
 *
 * <p>The first part of a position starts at age 0 on the day of commissioning when the records do.
 * Where the records start later its fitting is unknown, unless an opening before that day, on
 * record by luck, renewed the position: then it enters, at the start of the records, at the age it
 * then had. Whatever ended before that day is not counted.
 *
 * <p>Openings that contradict the dates of their pump or its meter are set aside with their
 * findings. One with contradicting or unknown hours did take place: a part it renewed is followed
 * to its last look only ({@link Life.LifeEnd.LostSight}), and the age of the next is unknown.
 */
public final class LifeBuilder {
  private LifeBuilder() {}

  /** The lives in the records of a fleet, with all that was assumed or set aside. */
  public static Lives build(Fleet fleet) {
    PositionIndex positions = new PositionIndex(fleet.settings());
    List<Life> lives = new ArrayList<>();
    List<StartUpFailure> startUps = new ArrayList<>();
    List<UnknownAge> unknownAges = new ArrayList<>();
    List<RowNote> notes = new ArrayList<>();
    List<InstalledPart> parts = new ArrayList<>();
    List<OpeningMade> openings = new ArrayList<>();
    List<PumpState> pumps = new ArrayList<>();
    for (PumpHistory history : fleet.pumps()) {
      PumpWalk walk = new PumpWalk(history, fleet.settings(), positions);
      walk.run();
      for (PositionTrack track : walk.tracks()) {
        lives.addAll(track.lives());
        startUps.addAll(track.startUps());
        unknownAges.addAll(track.unknownAges());
      }
      notes.addAll(walk.notes());
      parts.addAll(walk.parts());
      openings.addAll(walk.made());
      pumps.add(walk.state());
    }
    return new Lives(lives, startUps, unknownAges, notes, parts, openings, pumps);
  }
}
