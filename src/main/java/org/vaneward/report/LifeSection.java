package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.vaneward.chart.AgeUnit;
import org.vaneward.chart.LifeMap;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.Service;
import org.vaneward.model.GroupFit;
import org.vaneward.model.LifeModel;
import org.vaneward.model.ServiceModels.ComponentModels;
import org.vaneward.report.Page.ComponentPart;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.NotEstimable;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.pooling.PooledFit;

/** How long the parts of each component last. */
final class LifeSection {
  private static final double HALF = 0.5;

  /** A shape from fewer failures than this is hardly known. */
  private static final int FEW = 20;

  private final FleetAnalysis analysis;
  private final Clock clock;
  private final LifePictures drawn;

  LifeSection(FleetAnalysis analysis) {
    this.analysis = analysis;
    this.clock = analysis.fleetSettings().clock();
    this.drawn = new LifePictures(analysis.settings().confidence(), AgeUnit.valueOf(clock.name()));
  }

  List<ComponentPart> parts() {
    List<ComponentPart> parts = new ArrayList<>();
    for (Component component : analysis.fleetSettings().components()) {
      parts.add(part(component));
    }
    return parts;
  }

  /** How long parts of every component last in every service, so many services to a picture. */
  List<Picture> maps() {
    List<String> components =
        analysis.fleetSettings().components().stream()
            .map(Component::component)
            .filter(name -> !models(name).isEmpty())
            .limit(LifeMap.MOST_COMPONENTS)
            .toList();
    List<String> services =
        components.stream()
            .flatMap(name -> models(name).stream())
            .flatMap(m -> m.service().stream())
            .distinct()
            .sorted()
            .map(Service::toString)
            .toList();
    List<Picture> maps = new ArrayList<>();
    for (int from = 0; from < services.size(); from += LifeMap.MOST_PRODUCTS) {
      List<String> some =
          services.subList(from, Math.min(services.size(), from + LifeMap.MOST_PRODUCTS));
      maps.add(
          LifeMap.draw(
              "How long parts last, by service and component"
                  + (from == 0 ? "" : ", from " + some.get(0) + " on"),
              new LifeMap.Input(
                  "age by which half have failed",
                  some,
                  components,
                  cells(components, some),
                  analysis.settings().confidence(),
                  AgeUnit.valueOf(clock.name()))));
    }
    return maps;
  }

  private List<LifeModel> models(String component) {
    return analysis.models().components().stream()
        .filter(m -> m.component().equals(component))
        .flatMap(m -> m.services().stream())
        .toList();
  }

  private List<LifeMap.Cell> cells(List<String> components, List<String> services) {
    List<LifeMap.Cell> cells = new ArrayList<>();
    for (String component : components) {
      for (LifeModel model : models(component)) {
        String service = model.service().map(Service::toString).orElse("");
        if (services.contains(service)) {
          Estimate age = model.draws().age(HALF, analysis.settings().confidence());
          cells.add(
              new LifeMap.Cell(
                  service, component, age.estimate(), age.lower(), age.upper(), restsOn(model)));
        }
      }
    }
    return cells;
  }

  private static LifeMap.Basis restsOn(LifeModel model) {
    return switch (model.basis()) {
      case OWN_FAILURES -> LifeMap.Basis.OWN;
      case LEANS_ON_OTHERS -> LifeMap.Basis.FEW;
      case OTHER_SERVICES -> LifeMap.Basis.OTHERS;
    };
  }

  private ComponentPart part(Component component) {
    String name = component.component();
    List<GroupFit> fits =
        analysis.fits().stream().filter(f -> name.equals(f.group().get("component"))).toList();
    Optional<ComponentModels> models =
        analysis.models().components().stream().filter(m -> m.component().equals(name)).findFirst();
    return new ComponentPart(
        name,
        Words.capital(name),
        verdict(component, fits, models),
        fitGrid(name, fits),
        all(name),
        services(name, fits));
  }

  private String verdict(
      Component component, List<GroupFit> fits, Optional<ComponentModels> models) {
    double failures = fits.stream().mapToDouble(f -> f.fit().failures()).sum();
    StringBuilder text = new StringBuilder();
    text.append(Words.count(Math.round(failures), "failure", "failures"))
        .append(" in ")
        .append(Words.count(fits.size(), "service", "services"))
        .append(". ");
    if (!component.announces()) {
      text.append(
          "A failed one does not stop the pump: it is found at an opening, so most ages at failure are"
              + " known only to the stretch between two looks. ");
    }
    models.ifPresent(m -> text.append(pooledInWords(m)));
    return text.toString();
  }

  private static String pooledInWords(ComponentModels models) {
    if (models.pooled() instanceof PooledFit.NotEstimable none) {
      return "How long they last is not estimable: " + none.reason() + ".";
    }
    PooledFit.Fitted pooled = (PooledFit.Fitted) models.pooled();
    if (models.services().size() < 2) {
      return "Shape: " + shapeInWords(pooled.groups().get(0).shape()) + ".";
    }
    return "The shape in the typical service: "
        + shapeInWords(pooled.populationShape())
        + ". From service to service it differs by a factor of about "
        + Words.number(Math.exp(pooled.shapesBetweenSd().estimate()))
        + ", the scale by one of about "
        + Words.number(Math.exp(pooled.betweenSd().estimate()))
        + ". "
        + othersInWords(models);
  }

  private static String shapeInWords(Estimate shape) {
    return Words.number(shape)
        + "; "
        + (shape.lower() > 1
            ? "parts wear out: the older, the likelier to fail, so a planned interval can pay"
            : shape.upper() < 1
                ? "parts fail early more than late: look for the cause in fitting and start-up, an"
                    + " interval does not help"
                : "the records do not say whether parts fail more as they age");
  }

  private static String othersInWords(ComponentModels models) {
    if (models.below().isEmpty() && models.above().isEmpty()) {
      return "In no service do the failures say that it is another.";
    }
    List<String> words = new ArrayList<>();
    if (!models.below().isEmpty()) {
      words.add("below it in " + named(models.below()) + ": parts there fail less by age");
    }
    if (!models.above().isEmpty()) {
      words.add("above it in " + named(models.above()) + ": parts there fail more by age");
    }
    return "The failures say that it lies "
        + String.join("; ", words)
        + " (chance at least 95% each).";
  }

  private static String named(List<Service> services) {
    return services.stream().map(Service::toString).collect(Collectors.joining(", "));
  }

  private Grid fitGrid(String component, List<GroupFit> fits) {
    List<List<String>> rows = new ArrayList<>();
    for (GroupFit fit : fits) {
      Optional<Service> service = service(fit);
      Optional<LifeModel> model = analysis.models().find(component, service);
      Optional<Fitted> own =
          fit.fit() instanceof Fitted fitted ? Optional.of(fitted) : Optional.empty();
      rows.add(
          List.of(
              service.map(Service::toString).orElse("not on record"),
              Words.whole(fit.lives()),
              Words.whole(fit.fit().failures()),
              own.map(f -> Words.number(f.shape())).orElse(Words.NONE),
              own.map(f -> Words.age(f.scale(), Words.unit(clock))).orElse(Words.NONE),
              model
                  .map(m -> m.draws().age(HALF, analysis.settings().confidence()))
                  .map(age -> Words.age(age, Words.unit(clock)))
                  .orElse(Words.NONE),
              model.map(LifeSection::basis).orElse("nothing: no failure anywhere")
                  + notEstimable(fit)));
    }
    return new Grid(
        List.of(
            "Service",
            "Lives",
            "Failures",
            "Own shape (limits)",
            "Own scale (limits)",
            "Half fail by, as decided on (limits)",
            "Decisions rest on"),
        List.of(
            Kind.TEXT, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.TEXT),
        rows,
        "No life of this component is on record.");
  }

  private static String basis(LifeModel model) {
    return model.basis().words()
        + (model.basis() == LifeModel.Basis.LEANS_ON_OTHERS
            ? ": " + Words.percent(model.fromOthers())
            : "");
  }

  private static String notEstimable(GroupFit fit) {
    return fit.fit() instanceof NotEstimable none && none.failures() > 0
        ? "; alone not estimable: " + none.reason()
        : "";
  }

  private static Optional<Service> service(GroupFit fit) {
    Map<String, String> group = fit.group();
    String product = group.getOrDefault("product", "");
    String duty = group.getOrDefault("duty", "");
    return product.isEmpty() && duty.isEmpty()
        ? Optional.empty()
        : Optional.of(new Service(product, duty));
  }

  private List<Picture> all(String component) {
    Observations lives =
        analysis
            .table()
            .groupBy(List.of("component"))
            .getOrDefault(List.of(component), analysis.table().where(i -> false))
            .observations();
    List<Picture> pictures = new ArrayList<>();
    String label = "all services";
    Optional<Fitted> fit = fitted(lives);
    drawn
        .paper(Words.capital(component) + ", all services together", label, lives, fit)
        .ifPresent(pictures::add);
    drawn
        .survival(Words.capital(component) + ", share still running", label, lives, fit)
        .ifPresent(pictures::add);
    return pictures;
  }

  private Optional<Fitted> fitted(Observations lives) {
    return WeibullFitter.fit(lives, analysis.settings()) instanceof Fitted fitted
        ? Optional.of(fitted)
        : Optional.empty();
  }

  private List<Picture> services(String component, List<GroupFit> fits) {
    List<Picture> pictures = new ArrayList<>();
    for (GroupFit fit : fits) {
      String label = service(fit).map(Service::toString).orElse("service not on record");
      Optional<Fitted> own =
          fit.fit() instanceof Fitted fitted ? Optional.of(fitted) : Optional.empty();
      drawn
          .paper(Words.capital(component) + ", " + label, label, fit.observations(), own)
          .ifPresent(pictures::add);
    }
    return pictures;
  }

  /** What the models cannot say, one sentence for each component. */
  List<String> notKnown() {
    List<String> sentences = new ArrayList<>();
    for (ComponentModels models : analysis.models().components()) {
      if (models.services().size() == 1) {
        if (models.services().get(0).failures() < FEW) {
          sentences.add(
              Words.capital(models.component())
                  + ": fewer than "
                  + FEW
                  + " failures in all. What is planned on them can be far off.");
        }
      } else {
        leaning(models).ifPresent(sentences::add);
      }
    }
    return sentences;
  }

  private static Optional<String> leaning(ComponentModels models) {
    long few = count(models, LifeModel.Basis.LEANS_ON_OTHERS);
    long none = count(models, LifeModel.Basis.OTHER_SERVICES);
    List<String> clauses = new ArrayList<>();
    if (few > 0) {
      clauses.add(
          few
              + (few == 1 ? " has few failures and leans" : " have few failures and lean")
              + " on the others");
    }
    if (none > 0) {
      clauses.add(
          none + (none == 1 ? " has none and rests" : " have none and rest") + " on the others");
    }
    return clauses.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Words.capital(models.component())
                + ": of "
                + Words.count(models.services().size(), "service", "services")
                + ", "
                + String.join(", ", clauses)
                + ". Where parts last otherwise there than in the other services, what is planned"
                + " for them is off.");
  }

  private static long count(ComponentModels models, LifeModel.Basis basis) {
    return models.services().stream().filter(m -> m.basis() == basis).count();
  }
}
