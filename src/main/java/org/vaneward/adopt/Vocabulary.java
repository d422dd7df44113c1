package org.vaneward.adopt;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.vaneward.ingest.Unit;
import org.vaneward.io.Json;

/**
 * Words that shops use for columns, for what was found and done, for places in the pump and for
 * units, in English, German, French and Spanish (common practice, no source). They stand in {@code
 * vocabulary.json}; a shop's own are added there.
 */
final class Vocabulary {
  private static final String RESOURCE = "vocabulary.json";

  private static final Vocabulary OURS = read();

  private final Map<String, List<List<String>>> tables = new LinkedHashMap<>();
  private final Map<String, List<List<String>>> columns = new LinkedHashMap<>();
  private final Map<String, Map<String, List<List<String>>>> words = new LinkedHashMap<>();
  private final Map<String, List<List<String>>> places = new LinkedHashMap<>();
  private final Map<String, List<String>> units;
  private final Set<String> unknown;
  private final Set<String> negations;
  private final Set<String> fillers;
  private final List<String> languages;

  /** The document as it stands. */
  private record Document(
      Map<String, List<String>> tables,
      Map<String, List<String>> columns,
      Map<String, Map<String, List<String>>> words,
      Map<String, List<String>> places,
      Map<String, List<String>> units,
      List<String> unknown,
      List<String> negations,
      List<String> fillers,
      List<String> months) {}

  private Vocabulary(Document document) {
    document.tables().forEach((key, phrases) -> tables.put(key, phrases(phrases)));
    document.columns().forEach((key, phrases) -> columns.put(key, phrases(phrases)));
    document
        .words()
        .forEach(
            (column, meanings) -> {
              Map<String, List<List<String>>> own = new LinkedHashMap<>();
              meanings.forEach((meaning, phrases) -> own.put(meaning, phrases(phrases)));
              words.put(column, own);
            });
    document.places().forEach((key, phrases) -> places.put(key, phrases(phrases)));
    units = document.units();
    unknown = new HashSet<>(document.unknown());
    negations = new HashSet<>(document.negations());
    fillers = new HashSet<>(document.fillers());
    languages = List.copyOf(document.months());
  }

  private static List<List<String>> phrases(List<String> written) {
    return written.stream().map(Tokens::of).toList();
  }

  /** The words that come with the program. */
  static Vocabulary ours() {
    return OURS;
  }

  private static Vocabulary read() {
    try (InputStream in = Vocabulary.class.getResourceAsStream(RESOURCE)) {
      if (in == null) {
        throw new IllegalStateException(RESOURCE + " is not where the program has its words");
      }
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return new Vocabulary(Json.read(RESOURCE, text, Document.class));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Languages whose names of months are tried. */
  List<String> languages() {
    return languages;
  }

  /** Whether a cell stands for unknown. */
  boolean isUnknown(String text) {
    return unknown.contains(text.strip().toLowerCase(Locale.ROOT));
  }

  /** How well a header names a column of the record format. */
  NameMatch nameOf(String column, Header header) {
    if (header.written().equals(column)) {
      return NameMatch.OWN;
    }
    List<String> own = Tokens.of(column);
    if (header.tokens().equals(own) || header.name().equals(own)) {
      return NameMatch.WORDS;
    }
    List<String> core = core(header.name());
    NameMatch best = NameMatch.NONE;
    for (List<String> phrase : columns.getOrDefault(column, List.of())) {
      if (core.equals(core(phrase)) || header.tokens().equals(phrase)) {
        return NameMatch.WORDS;
      }
      if (Tokens.find(header.name(), phrase) >= 0) {
        best = NameMatch.WITHIN;
      }
    }
    return best;
  }

  /** A name without words such as number and no., unless there are no others. */
  private List<String> core(List<String> name) {
    List<String> core = name.stream().filter(token -> !fillers.contains(token)).toList();
    return core.isEmpty() ? name : core;
  }

  /** Whether a file's or a sheet's name is one that the table often has. */
  boolean names(String table, String name) {
    List<String> tokens = Tokens.of(name);
    return tables.getOrDefault(table, List.of()).stream()
        .anyMatch(phrase -> Tokens.find(tokens, phrase) >= 0);
  }

  /**
   * What a word of a column means. A longer phrase counts before a shorter one that stands in it;
   * two meanings in one word, or a no or not before it, leave it open.
   *
   * @param column one that holds some words only
   */
  Optional<String> meaning(String column, String word) {
    List<String> tokens = Tokens.of(word);
    Set<String> found = new LinkedHashSet<>();
    int longest = 0;
    Map<String, List<List<String>>> meanings = words.getOrDefault(column, Map.of());
    for (Map.Entry<String, List<List<String>>> meaning : meanings.entrySet()) {
      for (List<String> phrase : meaning.getValue()) {
        if (tokens.equals(phrase)) {
          return Optional.of(meaning.getKey());
        }
        int at = Tokens.find(tokens, phrase);
        if (at >= 0 && phrase.size() >= longest && !isNegated(tokens, at)) {
          if (phrase.size() > longest) {
            found.clear();
          }
          longest = phrase.size();
          found.add(meaning.getKey());
        }
      }
    }
    return found.size() == 1 ? found.stream().findFirst() : Optional.empty();
  }

  private boolean isNegated(List<String> tokens, int at) {
    return at > 0 && negations.contains(tokens.get(at - 1));
  }

  /** The unit of {@code quantity} that {@code text} is a symbol or a name of. */
  Optional<Unit> unit(Unit.Quantity quantity, String text) {
    String small = text.strip().toLowerCase(Locale.ROOT);
    return Unit.ofSymbol(quantity, small)
        .or(
            () ->
                units.entrySet().stream()
                    .filter(unit -> unit.getValue().contains(small))
                    .flatMap(unit -> Unit.named(unit.getKey()).stream())
                    .filter(unit -> unit.quantity() == quantity)
                    .findFirst());
  }

  /**
   * Text in terms of places of the pump: for each stretch of it the places it may name, and what is
   * left.
   */
  Placed placed(List<String> tokens) {
    List<Set<String>> found = new ArrayList<>();
    List<String> left = new ArrayList<>();
    int at = 0;
    while (at < tokens.size()) {
      int length = 0;
      Set<String> names = new LinkedHashSet<>();
      for (Map.Entry<String, List<List<String>>> place : places.entrySet()) {
        for (List<String> phrase : place.getValue()) {
          if (phrase.size() >= Math.max(1, length)
              && Tokens.find(tokens.subList(at, tokens.size()), phrase) == 0) {
            if (phrase.size() > length) {
              names.clear();
            }
            length = phrase.size();
            names.add(place.getKey());
          }
        }
      }
      if (length == 0) {
        left.add(tokens.get(at));
        at++;
      } else {
        found.add(names);
        at += length;
      }
    }
    return new Placed(found, left);
  }

  /**
   * Places named in a text.
   *
   * @param places for each stretch that names one: what it may name
   * @param left the words that name none
   */
  record Placed(List<Set<String>> places, List<String> left) {}

  /** How well a header names a column. */
  enum NameMatch {
    /** It is the record format's own name. */
    OWN(1.0, "the record format's own name"),
    /** It is one of the words known for it. */
    WORDS(0.9, "a usual word for it"),
    /** One of the words known for it stands in the header. */
    WITHIN(0.6, "a usual word for it stands in the header"),
    /** Nothing in the header speaks for it. */
    NONE(0, "");

    private final double weight;
    private final String because;

    NameMatch(double weight, String because) {
      this.weight = weight;
      this.because = because;
    }

    double weight() {
      return weight;
    }

    String because() {
      return because;
    }
  }
}
