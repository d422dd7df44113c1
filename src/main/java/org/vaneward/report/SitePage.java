package org.vaneward.report;

import java.util.List;
import org.vaneward.chart.Picture;
import org.vaneward.report.Page.Grid;

/**
 * One site's page, for its foreman.
 *
 * @param fleet name of the fleet
 * @param asOf day of record, ISO
 * @param site its name
 * @param headline how many of its pumps to open soon
 * @param cautions for opening a fuel pump
 * @param booked rebuilds booked at the site, in order
 * @param draw kits and parts for those of the next 90 days
 * @param strips when to rebuild each pump
 * @param pumps links to its pumps' pages
 * @param footer where this came from
 */
public record SitePage(
    String fleet,
    String asOf,
    String site,
    String headline,
    List<String> cautions,
    Grid booked,
    Grid draw,
    List<Picture> strips,
    List<Link> pumps,
    String footer) {
  public SitePage {
    cautions = List.copyOf(cautions);
    strips = List.copyOf(strips);
    pumps = List.copyOf(pumps);
  }

  /**
   * A link to another page.
   *
   * @param name what it is called
   * @param file where it is, from the report's folder
   * @param note what to know of it, short
   */
  public record Link(String name, String file, String note) {}
}
