package org.vaneward.life;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.Trigger;
import org.vaneward.life.Ending.Verdict;

/** One opening, position by position: what was found, what a kit implies, and the verdict on it. */
final class OpeningView {
  private final Opening opening;
  private final Optional<Opening> wrapped;
  private final PositionIndex positions;
  private final @Nullable Finding[] findings;
  private final Map<String, Integer> failedParts = new HashMap<>(4);
  private final List<RowNote> notes;

  /**
   * Sorts the findings of an opening.
   *
   * @param notes where findings that cannot be used and contradictions are reported. Modified.
   */
  OpeningView(Opening opening, PositionIndex positions, List<RowNote> notes) {
    this.opening = opening;
    this.wrapped = Optional.of(opening);
    this.positions = positions;
    this.notes = notes;
    this.findings = new Finding[positions.size()];
    opening.findings().forEach(this::place);
  }

  private void place(Finding finding) {
    int position = positions.numberOf(finding.position());
    if (position < 0) {
      refuse(finding, "position '" + finding.position() + "' is not one of the fleet's");
    } else if (findings[position] != null) {
      refuse(finding, "a second finding at " + finding.position() + "; the first is used");
    } else {
      findings[position] = finding;
      Component component = positions.component(position);
      if (isFailed(finding, component)) {
        failedParts.merge(component.component(), 1, Integer::sum);
      }
    }
  }

  private void refuse(Finding finding, String reason) {
    notes.add(RowNote.setAside(finding.row(), "position", reason, Effect.FINDING_LOST));
  }

  /** The opening, in one wrapping for all the parts fitted at it. */
  Optional<Opening> opening() {
    return wrapped;
  }

  Optional<Finding> finding(int position) {
    return Optional.ofNullable(findings[position]);
  }

  /** Whether a new or reconditioned part was fitted, by a finding or as the kit implies. */
  boolean renews(int position) {
    Finding finding = findings[position];
    return finding == null ? kitImplies(position) : finding.action() != PartAction.REUSED;
  }

  boolean reconditions(int position) {
    Finding finding = findings[position];
    return finding != null && finding.action() == PartAction.RECONDITIONED;
  }

  /** Whether nothing was found at a position but the kit fitted renews its part. */
  boolean kitImplies(int position) {
    return findings[position] == null
        && opening.kit().isPresent()
        && positions.kits().covers(opening.kit().get(), positions.component(position));
  }

  /** Whether every position got a new or reconditioned part. */
  boolean renewsAll() {
    for (int position = 0; position < findings.length; position++) {
      if (!renews(position)) {
        return false;
      }
    }
    return findings.length > 0;
  }

  /** Whether the part was seen and had not failed. */
  boolean seenGood(int position) {
    Finding finding = findings[position];
    return finding != null
        && finding.asFound() != AsFound.NOT_SEEN
        && !isFailed(finding, positions.component(position));
  }

  /** What the opening says of the part that was in a position. */
  Verdict verdict(int position) {
    Finding finding = findings[position];
    if (finding == null) {
      return Verdict.WORKING;
    }
    Component component = positions.component(position);
    if (!isFailed(finding, component)) {
      return Verdict.WORKING;
    }
    return isWhyStopped(finding, component) ? Verdict.FAILED_NOW : Verdict.FOUND_FAILED;
  }

  private boolean isWhyStopped(Finding finding, Component component) {
    if (finding.primary()) {
      return opening.trigger() != Trigger.PLANNED;
    }
    return component.announces()
        && positions.matches(opening.trigger(), component)
        && failedParts.getOrDefault(component.component(), 0) == 1;
  }

  private static boolean isFailed(Finding finding, Component component) {
    return finding.asFound() == AsFound.FAILED || isWornOut(finding, component);
  }

  private static boolean isWornOut(Finding finding, Component component) {
    return component.wearLimitMm().isPresent()
        && finding.measuredMm().isPresent()
        && finding.measuredMm().getAsDouble() >= component.wearLimitMm().getAsDouble();
  }

  /** Reports what a finding or a kit leaves to be assumed. */
  void report() {
    for (int position = 0; position < findings.length; position++) {
      Finding finding = findings[position];
      if (finding != null) {
        reportFinding(finding, positions.component(position));
      }
    }
    reportKit();
  }

  private void reportFinding(Finding finding, Component component) {
    boolean failed = isFailed(finding, component);
    if (finding.primary() && !failed) {
      repair(
          finding,
          "primary",
          "primary but not failed: taken as found, not as why it stopped",
          Effect.COUNTS_AS_WORKING);
    } else if (finding.primary() && opening.trigger() == Trigger.PLANNED) {
      repair(
          finding,
          "primary",
          "primary on a planned opening: taken as found failed",
          Effect.FAILURE_BETWEEN_LOOKS);
    }
    boolean saysWorking =
        finding.asFound() == AsFound.GOOD || finding.asFound() == AsFound.NOT_SEEN;
    if (failed && saysWorking) {
      repair(
          finding,
          "as_found",
          finding.asFound().word() + " but measured at or over the wear limit: taken as failed",
          Effect.COUNTS_AS_FAILED);
    }
    if (failed && finding.action() == PartAction.REUSED) {
      repair(
          finding,
          "action",
          "failed and reused: its life ends here, the age of what runs on is unknown",
          Effect.AGE_LOST);
    }
  }

  private void repair(Finding finding, String column, String assumption, Effect effect) {
    notes.add(RowNote.repaired(finding.row(), column, assumption, effect));
  }

  private void reportKit() {
    String[] implied =
        IntStream.range(0, findings.length)
            .filter(this::kitImplies)
            .mapToObj(positions::name)
            .toArray(String[]::new);
    if (implied.length > 0) {
      String kit = opening.kit().orElse("");
      String listed =
          positions.kits().lists(kit) ? "" : " (not in fleet.json, taken to cover every component)";
      notes.add(
          RowNote.repaired(
              opening.row(),
              "kit",
              String.join(", ", Arrays.asList(implied))
                  + ": no finding, taken as renewed with kit "
                  + kit
                  + listed
                  + ", not seen",
              Effect.COUNTS_AS_WORKING));
    }
  }
}
