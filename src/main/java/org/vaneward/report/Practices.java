package org.vaneward.report;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.life.OpeningMade;
import org.vaneward.life.PumpState;
import org.vaneward.policy.ShopPractice;

/** What the shop does with its pumps, by service and model, by service, or with all of them. */
final class Practices {
  private final List<PumpState> pumps;
  private final List<OpeningMade> openings;
  private final Map<String, String> models = new HashMap<>();

  private Practices(FleetAnalysis analysis) {
    pumps = analysis.fleet().lives().pumps();
    openings = analysis.fleet().lives().openings();
    analysis
        .fleet()
        .records()
        .fleet()
        .pumps()
        .forEach(h -> h.pump().model().ifPresent(model -> models.put(h.pump().pump(), model)));
  }

  static Practices of(FleetAnalysis analysis) {
    return new Practices(analysis);
  }

  /** A practice, and whose it is. */
  record Found(ShopPractice practice, String of) {}

  /** That of the service and model where their openings say enough, else of more pumps. */
  Found of(Service service, Optional<String> model) {
    List<PumpState> inService =
        pumps.stream().filter(p -> p.service().filter(service::equals).isPresent()).toList();
    ShopPractice own =
        ShopPractice.of(
            inService.stream()
                .filter(p -> Optional.ofNullable(models.get(p.pump())).equals(model))
                .toList(),
            openings);
    if (own.enough()) {
      return new Found(own, "these pumps");
    }
    ShopPractice alike = ShopPractice.of(inService, openings);
    return alike.enough()
        ? new Found(alike, "all pumps of the service")
        : new Found(ShopPractice.of(pumps, openings), "the whole fleet");
  }
}
