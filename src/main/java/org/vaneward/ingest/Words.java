package org.vaneward.ingest;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.Trigger;

/**
 * The words a column may hold.
 *
 * @param byWord what each word stands for, in the order messages list them
 */
public record Words<T>(Map<String, T> byWord) {
  private static final Pattern BLANKS = Pattern.compile("[\\s\\u00A0]+");

  static final Words<Trigger> TRIGGER = of(Trigger.values(), Trigger::word);
  static final Words<AsFound> AS_FOUND = of(AsFound.values(), AsFound::word);
  static final Words<PartAction> ACTION = of(PartAction.values(), PartAction::word);
  static final Words<Boolean> PRIMARY =
      of(new Boolean[] {true, false}, primary -> primary ? "yes" : "no");
  static final Words<String> EVENT = of(new String[] {"meter-replaced"}, word -> word);

  /** The words of a column that only holds some. */
  static Optional<Words<?>> of(String column) {
    return switch (column) {
      case "trigger" -> Optional.of(TRIGGER);
      case "as_found" -> Optional.of(AS_FOUND);
      case "action" -> Optional.of(ACTION);
      case "primary" -> Optional.of(PRIMARY);
      case "event" -> Optional.of(EVENT);
      default -> Optional.empty();
    };
  }

  /** The words that a column may hold, in the order messages list them; none where any may. */
  public static Set<String> known(String column) {
    return of(column).<Set<String>>map(Words::words).orElse(Set.of());
  }

  /** The words themselves, in the order messages list them. */
  Set<String> words() {
    return byWord.keySet();
  }

  private static <T> Words<T> of(T[] values, Function<T, String> word) {
    Map<String, T> byWord = new LinkedHashMap<>();
    Stream.of(values).forEach(value -> byWord.put(word.apply(value), value));
    return new Words<>(byWord);
  }

  /** What {@code word} stands for, written exactly as the contract has it. */
  Optional<T> exactly(String word) {
    return Optional.ofNullable(byWord.get(word));
  }

  /** A word without regard to capitals and the number of blanks. */
  public static String folded(String word) {
    return BLANKS.matcher(word).replaceAll(" ").strip().toLowerCase(Locale.ROOT);
  }

  /** {@code text} in the contract's manner: small letters, hyphens for blanks and underscores. */
  static String normalised(String text) {
    return text.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s_]+", "-");
  }

  /** The words, for messages. */
  String listed() {
    return byWord.keySet().stream().collect(Collectors.joining(", "));
  }
}
