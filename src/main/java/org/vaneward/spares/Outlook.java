package org.vaneward.spares;

import java.time.Year;
import java.time.YearMonth;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.vaneward.fleet.FleetSettings.OpeningCost;

/**
 * What the futures of a fleet come to: openings, kits, parts and money by month, site and product,
 * each with its spread over the futures.
 *
 * <p>Counts and money are kept for every future, so that any sum has its own spread: the P80 of a
 * year is not the sum of the P80s of its months.
 */
public final class Outlook {
  private final FleetAhead fleet;
  private final int futures;
  private final Map<Sum, Figures> sums = new ConcurrentHashMap<>();
  private final int months;
  private final int lines;

  /** By month and line, by site and line, by product and line: one number for each future. */
  private final int[][] monthly;

  private final int[][] bySite;
  private final int[][] byProduct;

  /** By month and column of money, and by site. */
  private final double[][] money;

  private final double[][] siteMoney;
  private final StockTally stock;

  private Outlook(FleetAhead fleet, int futures) {
    this.fleet = fleet;
    this.futures = futures;
    this.months = fleet.months.all().size();
    this.lines = fleet.lines.size();
    boolean[] taken = fleet.taken();
    int[] nothing = new int[futures];
    this.monthly = rows(months, taken, nothing);
    this.bySite = rows(fleet.sites.size(), taken, nothing);
    this.byProduct = rows(fleet.products.size(), taken, nothing);
    this.money = new double[months * 2 * Cost.COUNT][futures];
    this.siteMoney = new double[fleet.sites.size()][futures];
    this.stock = new StockTally(fleet, futures);
  }

  /** Rows by place and line; lines that no opening takes share one, into which only 0 is put. */
  private int[][] rows(int places, boolean[] taken, int[] nothing) {
    int[][] rows = new int[places * taken.length][];
    for (int i = 0; i < rows.length; i++) {
      rows[i] = taken[i % taken.length] ? new int[futures] : nothing;
    }
    return rows;
  }

  /**
   * Lives a fleet forward.
   *
   * @param rule when pumps are opened and what is done then
   * @param progress is told, in a few words, how far it has come
   */
  public static Outlook of(
      FleetAhead fleet, Rule rule, DemandRequest request, Consumer<String> progress) {
    Outlook outlook = new Outlook(fleet, request.futures());
    Futures.live(fleet, rule, request, outlook::page, progress);
    return outlook;
  }

  private Futures.Page page() {
    return new Page();
  }

  private final class Page implements Futures.Page {
    private final int[] inMonth = new int[monthly.length];
    private final int[] atSite = new int[bySite.length];
    private final int[] ofProduct = new int[byProduct.length];
    private final double[] spent = new double[money.length];
    private final double[] spentAt = new double[siteMoney.length];
    private final StockTally.Page shelf = stock.page();
    private final double visitCost = fleet.settings.workshop().siteVisitCost();
    private int future;

    @Override
    public void start(int number) {
      future = number;
    }

    @Override
    public void open(
        PumpAhead pump,
        double day,
        boolean planned,
        Recipe recipe,
        OpeningCost cost,
        boolean visit) {
      int month = fleet.months.at(day);
      int inMonthAt = month * lines;
      int atSiteAt = pump.site * lines;
      int ofProductAt = pump.product * lines;
      int kind = planned ? 0 : 1;
      inMonth[inMonthAt + kind]++;
      atSite[atSiteAt + kind]++;
      ofProduct[ofProductAt + kind]++;
      for (int i = 0; i < recipe.line.length; i++) {
        int line = recipe.line[i];
        int number = recipe.number[i];
        inMonth[inMonthAt + line] += number;
        atSite[atSiteAt + line] += number;
        ofProduct[ofProductAt + line] += number;
      }
      shelf.take(pump.site, day, planned, recipe);
      int at = (month * 2 + (planned ? 0 : 1)) * Cost.COUNT;
      double visited = visit ? visitCost : 0;
      spent[at + Cost.PARTS.column] += recipe.partsCost;
      spent[at + Cost.LABOUR.column] += cost.labour();
      spent[at + Cost.DOWNTIME.column] += cost.downtime();
      spent[at + Cost.CLEAN_UP.column] += cost.cleanUp();
      spent[at + Cost.VISITS.column] += visited;
      spentAt[pump.site] += recipe.partsCost + cost.total() + visited;
    }

    @Override
    public void end() {
      put(inMonth, monthly);
      put(atSite, bySite);
      put(ofProduct, byProduct);
      put(spent, money);
      put(spentAt, siteMoney);
      shelf.end();
    }

    private void put(int[] from, int[][] into) {
      for (int i = 0; i < from.length; i++) {
        into[i][future] = from[i];
      }
      Arrays.fill(from, 0);
    }

    private void put(double[] from, double[][] into) {
      for (int i = 0; i < from.length; i++) {
        into[i][future] = from[i];
      }
      Arrays.fill(from, 0);
    }

    @Override
    public void close() {
      shelf.close();
    }
  }

  /** Number of futures. */
  public int futures() {
    return futures;
  }

  /** The months, the first and the last of which may be parts of months. */
  public List<YearMonth> months() {
    return fleet.months.all();
  }

  /** Whether only a part of a month is looked at. */
  public boolean isPart(int month) {
    return fleet.months.isPart(month);
  }

  /** The calendar years they lie in. */
  public List<Year> years() {
    return months().stream().map(m -> Year.of(m.getYear())).distinct().toList();
  }

  /** Whether a month lies in a year. */
  public IntPredicate in(Year year) {
    return m -> months().get(m).getYear() == year.getValue();
  }

  /** Length of the time looked at, years. */
  public double length() {
    return fleet.months.days() / 365.25;
  }

  /** What is counted, in the order to show it; what no opening takes is left out. */
  public List<Line> lines() {
    return fleet.lines.stream()
        .filter(line -> Arrays.stream(countsByFuture(line)).sum() != 0)
        .toList();
  }

  /** The sites, in order. */
  public List<String> sites() {
    return fleet.sites;
  }

  /** The products, in order. */
  public List<String> products() {
    return fleet.products;
  }

  /** How often a line comes. */
  public Figures counts(Line line) {
    return Figures.sorting(countsByFuture(line));
  }

  /** Over all months, which is over all products. */
  private double[] countsByFuture(Line line) {
    double[] total = new double[futures];
    int row = row(line);
    for (int p = 0; p < fleet.products.size(); p++) {
      add(byProduct[p * lines + row], total);
    }
    return total;
  }

  /** How many of all lines of a kind come. */
  public Figures countsOf(Line.Kind kind) {
    double[] total = new double[futures];
    for (Line line : fleet.lines) {
      if (line.kind() == kind) {
        double[] one = countsByFuture(line);
        for (int f = 0; f < futures; f++) {
          total[f] += one[f];
        }
      }
    }
    return Figures.sorting(total);
  }

  /** How often a line comes, in the months asked for. */
  public Figures counts(Line line, IntPredicate asked) {
    return Figures.sorting(countsByFuture(line, asked));
  }

  /** How many pumps are opened, planned or not, in the months asked for. */
  public Figures openings(IntPredicate asked) {
    double[] all = countsByFuture(Line.PLANNED, asked);
    double[] unplanned = countsByFuture(Line.UNPLANNED, asked);
    for (int f = 0; f < all.length; f++) {
      all[f] += unplanned[f];
    }
    return Figures.sorting(all);
  }

  /** The same, one number for each future. */
  public double[] countsByFuture(Line line, IntPredicate asked) {
    double[] total = new double[futures];
    int row = row(line);
    for (int m = 0; m < months; m++) {
      if (asked.test(m)) {
        add(monthly[m * lines + row], total);
      }
    }
    return total;
  }

  /** How often it comes at a site. */
  public Figures atSite(Line line, String site) {
    return place(bySite, fleet.sites.indexOf(site), line);
  }

  /** How often it comes in pumps of a product. */
  public Figures ofProduct(Line line, String product) {
    return place(byProduct, fleet.products.indexOf(product), line);
  }

  private Figures place(int[][] from, int at, Line line) {
    if (at < 0) {
      throw new IllegalArgumentException("no such site or product in this fleet");
    }
    double[] total = new double[futures];
    add(from[at * lines + row(line)], total);
    return Figures.sorting(total);
  }

  private int row(Line line) {
    int row = fleet.lines.indexOf(line);
    if (row < 0) {
      throw new IllegalArgumentException("nothing is counted under " + line);
    }
    return row;
  }

  private static void add(int[] from, double[] total) {
    for (int f = 0; f < total.length; f++) {
      total[f] += from[f];
    }
  }

  /** Money over all months. */
  public Figures money(Spending of) {
    return money(of, m -> true);
  }

  /** Money in the months asked for. */
  public Figures money(Spending of, IntPredicate asked) {
    BitSet these = new BitSet(months);
    IntStream.range(0, months).filter(asked).forEach(these::set);
    return sums.computeIfAbsent(
        new Sum(of, these), sum -> Figures.sorting(moneyByFuture(sum.of(), sum.months()::get)));
  }

  /** Money asked for, worked out once: report, tables and workbook ask for the same. */
  private record Sum(Spending of, BitSet months) {}

  /** The same, one sum for each future. */
  public double[] moneyByFuture(Spending of, IntPredicate asked) {
    double[] total = new double[futures];
    for (int m = 0; m < months; m++) {
      for (int column = 0; asked.test(m) && column < 2 * Cost.COUNT; column++) {
        if (of.holds(column)) {
          double[] from = money[m * 2 * Cost.COUNT + column];
          for (int f = 0; f < futures; f++) {
            total[f] += from[f];
          }
        }
      }
    }
    return total;
  }

  /** All money spent on a site's pumps. */
  public Figures moneyAtSite(String site) {
    return Figures.sorting(siteMoney[fleet.sites.indexOf(site)].clone());
  }

  /** What to keep on the shelf. */
  public StockTally stock() {
    return stock;
  }

  /**
   * Some of the money.
   *
   * @param planned whether that of planned openings counts
   * @param unplanned whether that of unplanned ones does
   * @param costs what on
   */
  public record Spending(boolean planned, boolean unplanned, Set<Cost> costs) {
    /** All of it. */
    public static final Spending ALL = new Spending(true, true, EnumSet.allOf(Cost.class));

    public Spending {
      costs = Set.copyOf(costs);
    }

    /** Money of planned openings. */
    public static Spending ofPlanned() {
      return new Spending(true, false, EnumSet.allOf(Cost.class));
    }

    /** Money of unplanned openings. */
    public static Spending ofUnplanned() {
      return new Spending(false, true, EnumSet.allOf(Cost.class));
    }

    /** The part of it that goes on one thing. */
    public Spending on(Cost cost) {
      return new Spending(planned, unplanned, EnumSet.of(cost));
    }

    boolean holds(int column) {
      return (column < Cost.COUNT ? planned : unplanned)
          && costs.stream().anyMatch(c -> c.column == column % Cost.COUNT);
    }
  }
}
