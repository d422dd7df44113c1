package org.vaneward.backtest;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.vaneward.fleet.Fleet;
import org.vaneward.life.Lives;
import org.vaneward.life.OpeningMade;
import org.vaneward.life.OpeningMade.Reason;

/**
 * The openings of a fleet as a forecast sees them. A pump opened again because it leaked on the
 * start-up test is no stop here: such failures are kept apart from wear-out, as everywhere.
 */
final class Openings {
  private final List<OpeningMade> all;
  private final Set<Key> startUps = new HashSet<>();
  private final Map<Key, Boolean> kits = new HashMap<>();

  /** A pump and a day. */
  private record Key(String pump, LocalDate date) {}

  Openings(Fleet fleet, Lives lives) {
    all = lives.openings();
    lives.startUps().forEach(s -> startUps.add(new Key(s.pump(), s.date())));
    fleet
        .pumps()
        .forEach(
            history ->
                history
                    .openings()
                    .forEach(
                        o ->
                            kits.merge(
                                new Key(o.pump(), o.date()),
                                o.kit().isPresent(),
                                Boolean::logicalOr)));
  }

  List<OpeningMade> all() {
    return all;
  }

  /** Whether nobody planned it and it was not the start-up test. */
  boolean isStop(OpeningMade opening) {
    return opening.reason() == Reason.STOP && !isStartUp(opening);
  }

  /** Whether a part failed on the start-up test. */
  boolean isStartUp(OpeningMade opening) {
    return startUps.contains(new Key(opening.pump(), opening.date()));
  }

  /** Whether a kit was fitted. */
  boolean usedKit(OpeningMade opening) {
    return Optional.ofNullable(kits.get(new Key(opening.pump(), opening.date()))).orElse(false);
  }
}
