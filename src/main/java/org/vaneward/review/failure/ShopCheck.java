package org.vaneward.review.failure;

import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Causes of early and repeated failures of a sliding-vane pump that a shop can look for, what
 * points at each and what to check. Common practice, no source.
 */
public enum ShopCheck {
  /** Too little liquid at the faces. */
  DRY_RUNNING(
      "dry running",
      "Faces heat-checked or blistered? Look at suction strainer, foot valve, low-level stops and"
          + " vapour at the inlet.",
      "dry|heat|check|blister|burn|flash|vapou?r|cavit",
      Set.of("seal", "vanes"),
      Set.of(Topic.PRODUCT, Topic.DUTY, Topic.SITE, Topic.PUMP)),
  /** Dirt or crystals between the faces. */
  FACE_CONTAMINATION(
      "face contamination",
      "Faces scored or crusted? Look at flushing, strainer mesh, crystals on standing, and how clean"
          + " the bench and the faces are at assembly.",
      "dirt|grit|face.*scor|scor.*face|contamin|crystal|deposit|coke|scratch",
      Set.of("seal", "bearing"),
      Set.of(Topic.PRODUCT, Topic.CREW, Topic.SITE, Topic.PUMP)),
  /** Shafts or seats out of line. */
  MISALIGNMENT(
      "misalignment",
      "Check coupling alignment hot and cold, pipe strain at the flanges, base and grout, and that"
          + " the stationary seat sits square with its pin engaged.",
      "align|cock|vibrat|strain|bent",
      Set.of("seal", "bearing"),
      Set.of(Topic.PUMP, Topic.TREND, Topic.REPEAT, Topic.SITE, Topic.CREW, Topic.POSITION)),
  /** Damage to the shaft under seal or bearing. */
  SHAFT_NICKS(
      "shaft nicks and wear",
      "Run a nail along the shaft where the O-ring slides: nicks, burrs at the keyway, a worn or"
          + " fretted seat? Dress, sleeve or replace before another seal goes on.",
      "nick|burr|shaft|fret|groov|cut",
      Set.of("seal", "bearing"),
      Set.of(Topic.PUMP, Topic.REPEAT, Topic.TREND, Topic.EARLIER_REBUILDS, Topic.CREW)),
  /** O-rings the product attacks. */
  SWOLLEN_ELASTOMER(
      "swollen or hardened elastomer",
      "Compare old O-rings with new ones: swollen, sticky or hard? Ask the maker for the compound"
          + " meant for this product; mind additives and blends.",
      "swoll|swell|harden|sticky|elastomer|o-?ring|permea",
      Set.of("seal"),
      Set.of(Topic.PRODUCT, Topic.KIT, Topic.LOT)),
  /** Vanes worn by grit or by thin liquids. */
  VANE_WEAR(
      "vane wear by grit or thin liquid",
      "Measure vanes, slots and liner; look for grit in the strainer; thin liquids want slower running"
          + " or another vane material.",
      "grit|abras|thin|worn|wear",
      Set.of("vanes"),
      Set.of(Topic.PRODUCT, Topic.DUTY, Topic.SITE)),
  /** Vanes put in the wrong way round. */
  VANES_BACKWARDS(
      "vanes put in backwards",
      "Rounded edge outwards, relief groove to the pressure side, all six alike?",
      "backward|wrong way|revers|upside",
      Set.of("vanes"),
      Set.of(Topic.CREW, Topic.KIT)),
  /** Bearings short of grease or packed dirty. */
  BEARING_GREASE(
      "bearing grease",
      "Packed by hand all round with the right grease, clean, old grease out? Washed out by a seal"
          + " that weeps?",
      "greas|lubric|wash|rust|corro",
      Set.of("bearing"),
      Set.of(Topic.CREW, Topic.SITE, Topic.PRODUCT, Topic.POSITION)),
  /** Assembly: seats, clearance, start-up. */
  FITTING_PRACTICE(
      "fitting practice",
      "Watch one rebuild: seats pressed square, faces clean and oiled, O-rings eased over the threads,"
          + " lock nuts set one tang back from each end.",
      "fitt|assembl|damaged in|pinch|install",
      Set.of("seal", "bearing", "vanes"),
      Set.of(
          Topic.CREW,
          Topic.END_CLEARANCE,
          Topic.RECONDITIONED,
          Topic.KIT,
          Topic.PERIOD,
          Topic.SHAPE,
          Topic.REPEAT,
          Topic.POSITION)),
  /** End clearance of the rotor. */
  END_CLEARANCE(
      "rotor end clearance",
      "Check with feelers at both heads after the lock nuts are bent over; one tang is 0.0254 mm, one"
          + " from each end.",
      "clearance|rub|seiz|head",
      Set.of("vanes", "bearing", "seal"),
      Set.of(Topic.END_CLEARANCE, Topic.TREND, Topic.POSITION)),
  /** Parts that were not what they should be. */
  PARTS_AS_BOUGHT(
      "parts as bought",
      "Put what is left of the lot aside, compare with another lot (face flatness, spring force,"
          + " O-ring hardness) and ask the supplier.",
      "crack|faulty|defect|batch|lot\\b",
      Set.of("seal", "bearing", "vanes"),
      Set.of(Topic.LOT, Topic.PERIOD, Topic.KIT, Topic.RECONDITIONED));

  private static final int MOST = 3;
  private static final Set<String> USUAL = Set.of("seal", "bearing", "vanes");

  private final String cause;
  private final String check;
  private final Pattern words;

  @SuppressWarnings("ImmutableEnumChecker") // made by Set.of
  private final Set<String> components;

  @SuppressWarnings("ImmutableEnumChecker") // made by Set.of
  private final Set<Topic> topics;

  ShopCheck(String cause, String check, String words, Set<String> components, Set<Topic> topics) {
    this.cause = cause;
    this.check = check;
    this.words = Pattern.compile(words);
    this.components = components;
    this.topics = topics;
  }

  /** The cause in a few words. */
  public String cause() {
    return cause;
  }

  /** What to check in the shop. */
  public String check() {
    return check;
  }

  /** Components that suffer by it, by their usual names. */
  public Set<String> components() {
    return components;
  }

  /** What kinds of finding point at it. */
  public Set<Topic> topics() {
    return topics;
  }

  /**
   * What to check for a finding: what goes with its kind before what does not, and what the shop's
   * own words for the causes point at in at least a fifth of the failures before what they do not.
   * Three at most, one of them always of the kind.
   *
   * @param topic what the finding is about
   * @param component the component; empty for all
   * @param failures the failures behind it
   */
  public static List<ShopCheck> of(Topic topic, String component, List<FailureRecord> failures) {
    Map<ShopCheck, Integer> named = named(failures);
    return Arrays.stream(values())
        .filter(check -> check.concerns(component))
        .filter(check -> check.topics.contains(topic) || named.containsKey(check))
        .sorted(
            Comparator.comparing((ShopCheck check) -> check.topics.contains(topic) ? 0 : 1)
                .thenComparing(check -> -named.getOrDefault(check, 0)))
        .limit(MOST)
        .toList();
  }

  /** How often the causes as written point at each check, where that is often enough. */
  private static Map<ShopCheck, Integer> named(List<FailureRecord> failures) {
    Map<ShopCheck, Integer> named = new EnumMap<>(ShopCheck.class);
    for (FailureRecord failure : failures) {
      String cause = failure.cause().toLowerCase(Locale.ROOT);
      for (ShopCheck check : values()) {
        if (check.concerns(failure.component()) && check.words.matcher(cause).find()) {
          named.merge(check, 1, Integer::sum);
        }
      }
    }
    named.values().removeIf(n -> 5 * n < failures.size());
    return named;
  }

  /** A component by another name than the usual ones may suffer by anything. */
  private boolean concerns(String component) {
    boolean usual = USUAL.contains(component);
    return !usual || components.contains(component);
  }
}
