package org.vaneward.report;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.vaneward.chart.Picture;

/**
 * The fleet report as the template sees it: sentences, tables and pictures, every number already in
 * words. The template decides where things stand, this decides what is said.
 *
 * @param fleet name of the fleet
 * @param asOf day of record, ISO
 * @param answer the decisions, first on the page
 * @param plan every pump
 * @param money the planned interval by service
 * @param spares kits, parts and money ahead
 * @param lifeMaps lives of all components by service
 * @param components lives by component
 * @param failures what fails again
 * @param past how well past advice did
 * @param records how good the records are
 * @param methods how the numbers were made, with sources
 * @param links where each pump's page is, by tag, and each site's, by name
 * @param whatIf what the page needs to answer questions by itself
 * @param footer version, confidence, seed
 */
public record Page(
    String fleet,
    String asOf,
    Answer answer,
    PlanPart plan,
    MoneyPart money,
    SparesPart spares,
    List<Picture> lifeMaps,
    List<ComponentPart> components,
    FailurePart failures,
    PastPart past,
    RecordsPart records,
    List<Method> methods,
    Links links,
    WhatIfPart whatIf,
    String footer) {

  /**
   * The first screen.
   *
   * @param headline one sentence: how many pumps to open, how many of them late
   * @param points what waiting costs, what it takes, how sure it is
   * @param cautions for opening a fuel pump
   * @param due the pumps to open in the next 90 days
   * @param draw kits and loose parts they take
   * @param drawTotal what those cost, in a sentence
   * @param lookInto what to look into in the shop
   * @param notKnown what the records are not good enough to say
   */
  public record Answer(
      String headline,
      List<Point> points,
      List<String> cautions,
      Grid due,
      Grid draw,
      String drawTotal,
      List<String> lookInto,
      List<String> notKnown) {}

  /** A statement with its heading. */
  public record Point(String label, String value, String note) {}

  /** Every pump: pictures and the full table. */
  public record PlanPart(
      String summary,
      List<Picture> strips,
      Grid pumps,
      List<Picture> calendar,
      List<Week> weeks,
      List<String> remarks) {}

  /** The pumps booked for one week. */
  public record Week(String week, String monday, String pumps) {}

  /** Interval by service. */
  public record MoneyPart(
      String summary, Grid intervals, Grid rules, List<String> explained, List<Picture> curves) {}

  /** Kits, parts and money ahead. */
  public record SparesPart(
      String summary,
      String explained,
      List<Picture> pictures,
      Grid demand,
      Grid months,
      Grid sites,
      Grid products,
      Grid budget,
      Grid rules,
      String rulesExplained,
      Grid orders,
      String ordersExplained,
      Grid kitFit,
      Grid coverage,
      Grid ways,
      String stockHeading,
      String stockExplained,
      Grid stock,
      Grid stockBySite,
      List<String> notKnown) {}

  /**
   * Lives of one component.
   *
   * @param name such as {@code seal}
   * @param heading such as {@code Seals}
   * @param verdict in a sentence
   * @param fits table of fits
   * @param all pictures of all services together
   * @param services pictures by service
   */
  public record ComponentPart(
      String name,
      String heading,
      String verdict,
      Grid fits,
      List<Picture> all,
      List<Picture> services) {}

  /**
   * What fails again, and what lies behind it.
   *
   * @param summary how much was looked at and what came of it
   * @param findings what chance does not account for
   * @param components each component by product
   * @param pumps pumps beside their like
   * @param pumpsExplained what its columns mean
   * @param chains early failures one after the other
   * @param chainsExplained how many of them luck accounts for
   * @param early failures early in life and at start-up
   * @param earlyExplained what counts as early
   * @param restored earlier rebuilds, position, reconditioning and kits
   * @param restoredExplained what its columns mean
   * @param shopChecks causes a shop can look for
   */
  public record FailurePart(
      String summary,
      List<FindingPart> findings,
      List<FailingComponent> components,
      Grid pumps,
      String pumpsExplained,
      Grid chains,
      String chainsExplained,
      Grid early,
      String earlyExplained,
      Grid restored,
      String restoredExplained,
      Grid shopChecks) {}

  /**
   * A finding.
   *
   * @param sentence what was found
   * @param evidence what speaks for it
   * @param views what is likely the same
   * @param checks what to check in the shop
   * @param cannotTell what the records cannot tell
   * @param recordNumbers the first of the records behind it, and how many more
   * @param records the failures behind it
   */
  public record FindingPart(
      String sentence,
      String evidence,
      List<String> views,
      List<String> checks,
      String cannotTell,
      String recordNumbers,
      Grid records) {}

  /**
   * A component's failures by product.
   *
   * @param heading such as {@code Seals}
   * @param pictures rates and mean numbers
   * @param products rates and ratios
   * @param explained what its columns mean
   * @param means failures per pump beside the other products
   * @param modes modes and causes as written
   */
  public record FailingComponent(
      String heading,
      List<Picture> pictures,
      Grid products,
      String explained,
      Grid means,
      Grid modes) {}

  /**
   * How well past advice did.
   *
   * @param summary how often what came lay within the limits foretold
   * @param moneySummary what the advice would have saved; empty where nothing was replayed
   * @param pictures foretold and come
   * @param halfYears the same as a table
   * @param remarks what was foretold, and which half-years were not
   * @param scores beside simple rules
   * @param scoresExplained in words
   * @param calibration chances of a stop and how often it came
   * @param money what happened beside the advice
   * @param moneyExplained what that cannot know
   * @param knownTruth what fleets of known truth say of the methods
   * @param knownTruthTable the same by size
   */
  public record PastPart(
      String summary,
      String moneySummary,
      List<Picture> pictures,
      Grid halfYears,
      List<String> remarks,
      Grid scores,
      String scoresExplained,
      Grid calibration,
      Grid money,
      List<String> moneyExplained,
      String knownTruth,
      Grid knownTruthTable) {}

  /**
   * Where the other pages are.
   *
   * @param pumps files by tag
   * @param sites files by site, in sorted order
   */
  public record Links(Map<String, String> pumps, Map<String, String> sites) {
    public Links {
      pumps = Map.copyOf(pumps);
      sites = Collections.unmodifiableMap(new TreeMap<>(sites));
    }
  }

  /**
   * What can be asked of the page, with what holds now.
   *
   * @param currency ISO 4217 code; empty when not stated
   * @param planned cost of a planned rebuild beside its parts
   * @param stops each component that stops a pump, with what that costs beside the parts
   * @param months mandated months; empty when none are
   * @param usage whether usage matters: not where ages are in days
   * @param packet what dates and intervals rest on, as text
   * @param code the program that answers
   */
  public record WhatIfPart(
      String currency,
      String planned,
      List<Stop> stops,
      String months,
      boolean usage,
      String packet,
      String code) {}

  /** A component and what a stop by it costs. */
  public record Stop(String component, String cost) {}

  /**
   * How good the records are, and which files the report was made from.
   *
   * @param summary how many rows could be used
   * @param files rows by file
   * @param notes rows set aside
   * @param notesRemark how many more there are
   * @param unknownAges parts whose fitting is not on record
   * @param madeFrom each file with its digest
   */
  public record RecordsPart(
      String summary,
      Grid files,
      Grid notes,
      String notesRemark,
      Grid unknownAges,
      Grid madeFrom) {}

  /** One method and where it comes from. */
  public record Method(String name, String text, String source) {}

  /**
   * A table.
   *
   * @param headers column headings, units included
   * @param kinds how each column is set
   * @param rows cells as text
   * @param empty what to say when there are no rows
   */
  public record Grid(
      List<String> headers, List<Kind> kinds, List<List<String>> rows, String empty) {
    public Grid {
      headers = List.copyOf(headers);
      kinds = List.copyOf(kinds);
      rows = rows.stream().map(List::copyOf).toList();
      if (headers.size() != kinds.size()) {
        throw new IllegalArgumentException(
            headers.size() + " headings and " + kinds.size() + " kinds of column");
      }
    }

    /** A table whose first column is text and whose others are numbers. */
    static Grid ofNumbers(List<String> headers, List<List<String>> rows, String empty) {
      List<Kind> kinds = new ArrayList<>(Collections.nCopies(headers.size(), Kind.NUMBER));
      kinds.set(0, Kind.TEXT);
      return new Grid(headers, kinds, rows, empty);
    }

    /** The table without its last column where that has nothing to say. */
    Grid withoutEmptyLast() {
      int last = headers.size() - 1;
      if (!rows.stream().allMatch(row -> row.get(last).isEmpty())) {
        return this;
      }
      return new Grid(
          headers.subList(0, last),
          kinds.subList(0, last),
          rows.stream().map(row -> row.subList(0, last)).toList(),
          empty);
    }

    /** Whether there is anything to show. */
    public boolean isEmpty() {
      return rows.isEmpty();
    }
  }

  /** How a column is set. */
  public enum Kind {
    TEXT("text"),
    NUMBER("number"),
    DATE("date"),
    SENTENCE("sentence"),
    CODE("code"),
    TAG("tag");

    private final String style;

    Kind(String style) {
      this.style = style;
    }

    /** The style class of its cells. */
    public String style() {
      return style;
    }
  }
}
