package org.vaneward.report;

import java.util.List;
import org.vaneward.report.Page.Grid;

/**
 * A sheet to print for a rebuild that is booked: what to bring, what was found last time, and a
 * form with the fields of the records.
 *
 * @param anchor name of the sheet within its document
 * @param pump asset tag
 * @param about site, service and model in a line
 * @param week ISO week and day booked
 * @param record number proposed for the record
 * @param why why it is due
 * @param draw kits and loose parts to draw
 * @param last what was found last time, one row for each position
 * @param lastHeading when that was
 * @param positions positions to fill in
 */
public record JobSheet(
    String anchor,
    String pump,
    String about,
    String week,
    String record,
    String why,
    Grid draw,
    Grid last,
    String lastHeading,
    List<String> positions) {
  public JobSheet {
    positions = List.copyOf(positions);
  }
}
