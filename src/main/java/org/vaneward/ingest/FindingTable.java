package org.vaneward.ingest;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.PartAction;
import org.vaneward.io.Cell;

/** Gives the rows of {@code findings.csv} to their openings. */
final class FindingTable {
  private final RebuildTable rebuilds;
  private final UnitCheck units;
  private final Map<String, String> componentOf = new HashMap<>();
  private final Map<String, String> positions = new HashMap<>();
  private final Map<String, String> positionsByNormalised = new HashMap<>();
  private final Set<String> ambiguous = new HashSet<>();
  private final Nearest nearest;

  private FindingTable(RebuildTable rebuilds, List<Component> components, UnitCheck units) {
    this.rebuilds = rebuilds;
    this.units = units;
    List<String> names = new ArrayList<>();
    for (Component component : components) {
      names.addAll(component.positions());
      component.positions().forEach(p -> componentOf.put(p, component.component()));
    }
    for (String name : names) {
      positions.put(name, name);
      if (positionsByNormalised.put(Words.normalised(name), name) != null) {
        ambiguous.add(Words.normalised(name));
      }
    }
    this.nearest = new Nearest(names);
  }

  static FindingTable of(RebuildTable rebuilds, List<Component> components, UnitCheck units) {
    return new FindingTable(rebuilds, components, units);
  }

  /** Reads the rows of a table of their own, where there is one. */
  void read(RowReader rows) {
    if (rows.has(Table.FINDINGS)) {
      rows.forEach(Table.FINDINGS, this::add);
    }
  }

  /** Takes one finding, wherever it stands. */
  void add(Cells cells) {
    Optional<OpeningDraft> opening = rebuilds.named(cells);
    Optional<String> position = position(cells);
    Optional<AsFound> asFound = cells.requiredWord("as_found", Words.AS_FOUND);
    Optional<PartAction> action = cells.requiredWord("action", Words.ACTION);
    if (cells.refused()) {
      return;
    }
    Finding finding =
        new Finding(
            position.orElseThrow(),
            asFound.orElseThrow(),
            cells.word("primary", Words.PRIMARY).orElse(false),
            cells.text("mode"),
            cells.text("cause"),
            action.orElseThrow(),
            cells.number("measured_mm", Cells.Range.NOT_NEGATIVE),
            cells.text("lot"),
            cells.covariates(),
            cells.ref());
    String component = componentOf.getOrDefault(finding.position(), "");
    finding.measuredMm().ifPresent(mm -> units.add(cells, "measured_mm", component, mm));
    opening.orElseThrow().add(finding).ifPresent(before -> repeated(cells, before, finding));
  }

  /** The position a row names, letting capitals, blanks and underscores pass as for words. */
  private Optional<String> position(Cells cells) {
    Optional<String> written = cells.verbatim("position");
    if (written.isEmpty()) {
      cells.requiredText("position");
      return written;
    }
    String text = written.get();
    String normalised = Words.normalised(text);
    String position = positions.get(text);
    if (position == null && !ambiguous.contains(normalised)) {
      position = positionsByNormalised.get(normalised);
      if (position != null) {
        cells.readAs("position", "position " + Cell.quoted(text) + ": read as " + position);
      }
    }
    if (position == null) {
      cells.refuse(
          "position",
          "position " + Cell.quoted(text) + " is not in fleet.json" + nearest.offer(text.strip()));
    }
    return Optional.ofNullable(position);
  }

  private static void repeated(Cells cells, Finding before, Finding finding) {
    String line = Where.beside(before.row(), cells.ref());
    if (same(before, finding)) {
      cells.readAs("", "same finding as " + line + "; counted once");
    } else {
      cells.refuse(
          "position",
          "contradicts " + line + ", another finding at the same position of the same rebuild");
    }
  }

  private static boolean same(Finding a, Finding b) {
    return a.asFound() == b.asFound()
        && a.action() == b.action()
        && a.primary() == b.primary()
        && a.mode().equals(b.mode())
        && a.cause().equals(b.cause())
        && a.measuredMm().equals(b.measuredMm())
        && a.lot().equals(b.lot());
  }
}
