package org.vaneward.policy;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.FleetSettings.LoosePart;

/**
 * Price of the parts of one opening, bought the cheapest way: so many kits, topped up with loose
 * parts. What a kit holds beyond the need is paid for and left over.
 *
 * <p>Parts without a loose price are never counted at 0 without a word: a way of buying that avoids
 * them is preferred, and where none does they are named in {@code unpriced}.
 *
 * @param cost price of kits and loose parts, the unpriced left out
 * @param kits number of each kit bought, in sorted order
 * @param looseParts number of each loose part bought, priced or not, in sorted order
 * @param leftOver number of each part paid for and not needed, in sorted order
 * @param unpriced parts that are needed loose and have no price, in sorted order
 */
public record PartsCost(
    double cost,
    Map<String, Integer> kits,
    Map<String, Integer> looseParts,
    Map<String, Integer> leftOver,
    List<String> unpriced) {

  public PartsCost {
    kits = Collections.unmodifiableMap(new TreeMap<>(kits));
    looseParts = Collections.unmodifiableMap(new TreeMap<>(looseParts));
    leftOver = Collections.unmodifiableMap(new TreeMap<>(leftOver));
    unpriced = List.copyOf(unpriced);
  }

  /**
   * Parts of a full rebuild of a pump of {@code model}.
   *
   * @param model the pump's model label; empty when not on record, and then only kits that fit
   *     every model are considered
   */
  public static PartsCost of(FleetSettings settings, Optional<String> model) {
    return new Search(settings, model, settings.needs()).cheapest();
  }

  /**
   * Parts of an opening at which only the part at one position of {@code component} is renewed: its
   * share of {@code needs}, and what every opening uses up, which is what {@code needs} lists
   * beside the parts of components (O-rings, gaskets).
   *
   * @param model the pump's model label; empty when not on record
   */
  public static PartsCost ofMending(
      FleetSettings settings, Optional<String> model, Component component) {
    return ofRenewing(settings, model, Map.of(component.component(), 1));
  }

  /**
   * The same where so many positions of several components are renewed.
   *
   * @param positions number of positions by component; a component that is not named keeps its
   *     parts
   */
  public static PartsCost ofRenewing(
      FleetSettings settings, Optional<String> model, Map<String, Integer> positions) {
    return new Search(settings, model, needsOf(settings, positions)).cheapest();
  }

  private static Map<String, Integer> needsOf(
      FleetSettings settings, Map<String, Integer> positions) {
    Map<String, Integer> needs = new HashMap<>(settings.needs());
    Set<String> names = settings.needs().keySet();
    settings.components().forEach(c -> c.partAmong(names).ifPresent(needs::remove));
    for (Component component : settings.components()) {
      int renewed = positions.getOrDefault(component.component(), 0);
      Optional<String> part = component.partAmong(names);
      if (renewed > 0 && part.isPresent()) {
        int all = settings.needs().getOrDefault(part.get(), 0);
        int of = component.positions().size();
        needs.merge(part.get(), (all * renewed + of - 1) / of, Integer::sum);
      }
    }
    return needs;
  }

  /**
   * Ways to buy the parts of a full rebuild: all loose, then with one kit, two, … of each kit that
   * fits, as long as one more still covers something. For the reader who wants to see what the
   * cheapest is cheaper than.
   */
  public static List<PartsCost> waysOf(FleetSettings settings, Optional<String> model) {
    return new Search(settings, model, settings.needs()).ways();
  }

  /** Every number of every kit that still covers something; few kits fit one pump. */
  private static final class Search {
    private final List<Kit> kits;
    private final Map<String, Double> prices = new HashMap<>();
    private final SortedMap<String, Integer> needs;
    private final SortedMap<String, Integer> bought = new TreeMap<>();
    private final List<PartsCost> best = new ArrayList<>(1);

    Search(FleetSettings settings, Optional<String> model, Map<String, Integer> wanted) {
      needs = new TreeMap<>(wanted);
      for (LoosePart part : settings.parts()) {
        prices.put(part.part(), part.price());
      }
      kits =
          settings.kits().stream()
              .filter(k -> k.models().isEmpty() || model.filter(k.models()::contains).isPresent())
              .sorted(Comparator.comparing(Kit::kit))
              .toList();
    }

    PartsCost cheapest() {
      choose(0, needs, 0);
      return best.get(0);
    }

    List<PartsCost> ways() {
      List<PartsCost> ways = new ArrayList<>();
      ways.add(complete(needs, 0));
      for (Kit kit : kits) {
        SortedMap<String, Integer> left = needs;
        for (int number = 1; covers(kit, left); number++) {
          left = less(left, kit);
          bought.put(kit.kit(), number);
          ways.add(complete(left, number * kit.price()));
        }
        bought.clear();
      }
      return ways;
    }

    private void choose(int kit, SortedMap<String, Integer> open, double paid) {
      if (!best.isEmpty() && best.get(0).unpriced().isEmpty() && paid >= best.get(0).cost()) {
        return;
      }
      if (kit == kits.size()) {
        keep(complete(open, paid));
        return;
      }
      choose(kit + 1, open, paid);
      Kit one = kits.get(kit);
      SortedMap<String, Integer> left = open;
      for (int number = 1; covers(one, left); number++) {
        left = less(left, one);
        bought.put(one.kit(), number);
        choose(kit + 1, left, paid + number * one.price());
      }
      bought.remove(one.kit());
    }

    private static boolean covers(Kit kit, Map<String, Integer> open) {
      return kit.contents().entrySet().stream()
          .anyMatch(e -> e.getValue() > 0 && open.getOrDefault(e.getKey(), 0) > 0);
    }

    /** What is open after one more kit; negative is left over. */
    private static SortedMap<String, Integer> less(SortedMap<String, Integer> open, Kit kit) {
      SortedMap<String, Integer> left = new TreeMap<>(open);
      kit.contents().forEach((part, n) -> left.merge(part, -n, Integer::sum));
      return left;
    }

    private PartsCost complete(SortedMap<String, Integer> open, double paid) {
      SortedMap<String, Integer> loose = new TreeMap<>();
      SortedMap<String, Integer> over = new TreeMap<>();
      List<String> unpriced = new ArrayList<>();
      double cost = paid;
      for (Map.Entry<String, Integer> part : open.entrySet()) {
        int number = part.getValue();
        if (number < 0) {
          over.put(part.getKey(), -number);
        }
        if (number > 0) {
          loose.put(part.getKey(), number);
          Double price = prices.get(part.getKey());
          if (price == null) {
            unpriced.add(part.getKey());
          } else {
            cost += number * price;
          }
        }
      }
      return new PartsCost(cost, bought, loose, over, unpriced);
    }

    private void keep(PartsCost candidate) {
      if (best.isEmpty() || better(candidate, best.get(0))) {
        best.clear();
        best.add(candidate);
      }
    }

    private static boolean better(PartsCost a, PartsCost b) {
      int unpriced = Integer.compare(a.unpriced().size(), b.unpriced().size());
      return unpriced != 0 ? unpriced < 0 : a.cost() < b.cost();
    }
  }
}
