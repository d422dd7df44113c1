package org.vaneward.adopt;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.vaneward.ingest.Unit;

/**
 * The header of a column.
 *
 * @param written as it stands
 * @param tokens all its words
 * @param name its words without what stands in brackets at its end
 * @param bracketed what stands in those brackets
 */
record Header(String written, List<String> tokens, List<String> name, Optional<String> bracketed) {
  private static final Pattern BRACKETS =
      Pattern.compile("^(.*?)\\s*[(\\[]\\s*([^()\\[\\]]{1,30})\\s*[)\\]]\\s*$");

  static Header of(String written) {
    Matcher brackets = BRACKETS.matcher(written);
    boolean has = brackets.matches() && !Tokens.of(brackets.group(1)).isEmpty();
    List<String> tokens = Tokens.of(written);
    return new Header(
        written,
        tokens,
        has ? Tokens.of(brackets.group(1)) : tokens,
        has ? Optional.of(brackets.group(2)) : Optional.empty());
  }

  /** The unit it names: in brackets, or as its last word. */
  Optional<Unit> unit(Unit.Quantity quantity, Vocabulary vocabulary) {
    Optional<Unit> stated = bracketed.flatMap(text -> vocabulary.unit(quantity, text));
    if (stated.isPresent() || tokens.isEmpty()) {
      return stated;
    }
    String last = tokens.get(tokens.size() - 1);
    boolean isAll = tokens.size() == 1;
    return isAll && last.length() < 2 ? stated : vocabulary.unit(quantity, last);
  }
}
