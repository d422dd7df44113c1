package org.vaneward.report;

import java.util.List;
import java.util.Optional;
import org.vaneward.chart.Picture;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Point;

/**
 * One pump's page as the template sees it.
 *
 * @param fleet name of the fleet
 * @param asOf day of record, ISO
 * @param pump its tag
 * @param about site, service and model in a line
 * @param headline when to rebuild next
 * @param points what that rests on
 * @param cautions for opening a fuel pump
 * @param history its history and next rebuild; empty when it has no position to draw
 * @param parts the parts in it
 * @param openings the times it was opened
 * @param found what was seen and done at each
 * @param services what it handled
 * @param notKnown what was assumed or is not known, one sentence each
 * @param sheet its job sheet's place; empty when no rebuild is booked
 * @param footer where this came from
 */
public record PumpPage(
    String fleet,
    String asOf,
    String pump,
    String about,
    String headline,
    List<Point> points,
    List<String> cautions,
    Optional<Picture> history,
    Grid parts,
    Grid openings,
    Grid found,
    Grid services,
    List<String> notKnown,
    Optional<String> sheet,
    String footer) {
  public PumpPage {
    points = List.copyOf(points);
    cautions = List.copyOf(cautions);
    notKnown = List.copyOf(notKnown);
  }
}
