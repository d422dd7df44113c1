package org.vaneward.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.model.PooledFits;
import org.vaneward.model.PooledFits.Member;
import org.vaneward.model.PooledFits.Pool;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.fit.WeibullFit.Quantile;
import org.vaneward.stats.pooling.PooledFit;
import org.vaneward.stats.pooling.PooledFit.Fitted;
import org.vaneward.stats.pooling.PooledFit.Group;
import org.vaneward.stats.pooling.PooledFit.NotEstimable;

/** Groups fitted together, for people and for programs. */
public final class PooledFitView implements View {
  private static final double TENTH = 0.10;

  private final PooledFits fits;
  private final List<String> by;
  private final double confidence;

  /**
   * A view of pooled fits.
   *
   * @param by the columns that made the groups
   */
  public PooledFitView(PooledFits fits, List<String> by, double confidence) {
    this.fits = fits;
    this.by = List.copyOf(by);
    this.confidence = confidence;
  }

  @Override
  public String text() {
    StringBuilder text =
        new StringBuilder(
            Words.wrapped(
                "Weibull, groups pooled: shapes and scales vary from group to group; posterior means"
                    + " and "
                    + Words.percent(confidence)
                    + " limits. A group with few failures leans on the others: the last column says"
                    + " how much of what is known of its scale comes from them.",
                0));
    fits.pools().forEach(pool -> text.append('\n').append(text(pool)));
    return text.toString();
  }

  private static String text(Pool pool) {
    String head = pool.component().isEmpty() ? "" : Words.capital(pool.component()) + "\n";
    if (pool.fit() instanceof NotEstimable none) {
      return head + "  Not estimable: " + none.reason() + ".\n";
    }
    Fitted fit = (Fitted) pool.fit();
    TextTable table =
        new TextTable(
            "group", "lives", "failures", "shape", "scale", "10% failed by", "from the others");
    for (int i = 0; i < pool.members().size(); i++) {
      Group group = fit.groups().get(i);
      table.row(
          label(pool, i),
          Words.whole(pool.members().get(i).lives()),
          Words.whole(group.failures()),
          Words.number(group.shape()),
          GroupWords.limits(group.scale()),
          tenth(group).map(GroupWords::limits).orElse(Words.NONE),
          Words.percent(group.fleetShare()));
    }
    return head
        + table
        + Words.wrapped(
            "Shape of the typical group "
                + Words.number(fit.populationShape())
                + ". A group's scale is typically a factor of "
                + Words.number(Math.exp(fit.betweenSd().estimate()))
                + " off the middle one (standard deviation of log scale between groups "
                + Words.number(fit.betweenSd())
                + "), its shape a factor of "
                + Words.number(Math.exp(fit.shapesBetweenSd().estimate()))
                + " ("
                + Words.number(fit.shapesBetweenSd())
                + ").",
            0);
  }

  /** The group's name, without the component that stands above the table. */
  private static String label(Pool pool, int i) {
    Map<String, String> group = new LinkedHashMap<>(pool.members().get(i).group());
    if (!pool.component().isEmpty() && group.size() > 1) {
      group.remove(PooledFits.COMPONENT);
    }
    return GroupWords.label(group);
  }

  private static Optional<Estimate> tenth(Group group) {
    return group.quantiles().stream().filter(q -> q.p() == TENTH).map(Quantile::age).findFirst();
  }

  @Override
  public String json() {
    List<JsonFields> entries = new ArrayList<>();
    fits.pools()
        .forEach(
            pool -> {
              for (int i = 0; i < pool.members().size(); i++) {
                entries.add(entry(pool, i));
              }
            });
    return Json.write(new JsonFields().with("fits", entries).with("pooling", pooling()));
  }

  private JsonFields entry(Pool pool, int i) {
    Member member = pool.members().get(i);
    JsonFields entry =
        new JsonFields().with("group", member.group()).with("distribution", "weibull");
    if (pool.fit() instanceof NotEstimable none) {
      entry.with("status", "not-estimable").with("reason", none.reason());
    } else {
      entry.with("status", "fitted");
    }
    entry.with("lives", member.lives()).with("failures", member.observations().failures());
    if (pool.fit() instanceof Fitted fit) {
      Group group = fit.groups().get(i);
      entry
          .with("shape", group.shape())
          .with("scale", group.scale())
          .with("quantiles", CurveFields.quantiles(group.quantiles()))
          .with("share_from_others", group.fleetShare());
    }
    return entry
        .with("limits", "posterior")
        .with("confidence", confidence)
        .withAll(CurveFields.of(member.observations(), confidence));
  }

  /** One object where groups are not told apart by component, else one for each component. */
  private Object pooling() {
    if (fits.pools().size() == 1 && fits.pools().get(0).component().isEmpty()) {
      return pooling(fits.pools().get(0).fit());
    }
    Map<String, JsonFields> byComponent = new LinkedHashMap<>();
    fits.pools().forEach(pool -> byComponent.put(pool.component(), pooling(pool.fit())));
    return byComponent;
  }

  private static JsonFields pooling(PooledFit fit) {
    if (fit instanceof Fitted fitted) {
      return new JsonFields()
          .with("between_sd", fitted.betweenSd().estimate())
          .with("lower", fitted.betweenSd().lower())
          .with("upper", fitted.betweenSd().upper())
          .with("shapes_between_sd", fitted.shapesBetweenSd())
          .with("typical_shape", fitted.populationShape())
          .with("new_group_shape", fitted.newGroupShape())
          .with("typical_scale", fitted.populationScale())
          .with("new_group_scale", fitted.newGroupScale());
    }
    return new JsonFields()
        .with("status", "not-estimable")
        .with("reason", ((NotEstimable) fit).reason());
  }

  /** One row for each group. */
  @Override
  public String csv() {
    List<String> header = new ArrayList<>(by);
    header.addAll(
        List.of(
            "status",
            "lives",
            "failures",
            "shape",
            "shape_lower",
            "shape_upper",
            "scale",
            "scale_lower",
            "scale_upper",
            "share_from_others",
            "reason"));
    CsvWriter table = CsvWriter.forSpreadsheets(header.toArray(String[]::new));
    for (Pool pool : fits.pools()) {
      for (int i = 0; i < pool.members().size(); i++) {
        row(table, pool, i);
      }
    }
    return table.text();
  }

  private static void row(CsvWriter table, Pool pool, int i) {
    Member member = pool.members().get(i);
    member.group().values().forEach(table::cell);
    if (pool.fit() instanceof Fitted fit) {
      Group group = fit.groups().get(i);
      table.cell("fitted").cell(member.lives()).cell(group.failures());
      for (Estimate e : List.of(group.shape(), group.scale())) {
        table.cell(e.estimate()).cell(e.lower()).cell(e.upper());
      }
      table.cell(group.fleetShare()).empty().endRow();
    } else {
      table.cell("not-estimable").cell(member.lives()).cell(member.observations().failures());
      table.empty().empty().empty().empty().empty().empty().empty();
      table.cell(((NotEstimable) pool.fit()).reason()).endRow();
    }
  }
}
