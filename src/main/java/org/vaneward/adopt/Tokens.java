package org.vaneward.adopt;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/** Words of a header or a cell, as they are compared: small letters without marks. */
final class Tokens {
  private static final Pattern BORDER = Pattern.compile("(?<=[\\p{Ll}\\d])(?=\\p{Lu})");
  private static final Pattern MARKS = Pattern.compile("\\p{M}+");
  private static final Pattern OTHER = Pattern.compile("[^\\p{L}\\p{N}]+");

  private Tokens() {}

  /** {@code "PumpNo."} is pump and no; {@code "Maßnahme"} is massnahme. */
  static List<String> of(String text) {
    String apart = BORDER.matcher(text.strip()).replaceAll(" ").toLowerCase(Locale.ROOT);
    String german =
        apart.replace("ä", "ae").replace("ö", "oe").replace("ü", "ue").replace("ß", "ss");
    String plain = MARKS.matcher(Normalizer.normalize(german, Normalizer.Form.NFKD)).replaceAll("");
    List<String> tokens = new ArrayList<>(List.of(OTHER.split(plain, -1)));
    tokens.removeIf(String::isEmpty);
    return tokens;
  }

  /** Where {@code phrase} begins in {@code text}; -1 when it is not in it. */
  static int find(List<String> text, List<String> phrase) {
    return phrase.isEmpty() ? -1 : Collections.indexOfSubList(text, phrase);
  }
}
