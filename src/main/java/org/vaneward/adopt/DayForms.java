package org.vaneward.adopt;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.vaneward.ingest.DateForm;
import org.vaneward.io.Cell;

/** Finds the patterns by which the days of some columns are written. */
final class DayForms {
  /** Patterns tried, the narrower before the wider that reads the same. */
  private static final List<String> PATTERNS =
      List.of(
          "dd.MM.yyyy",
          "d.M.yyyy",
          "dd/MM/yyyy",
          "MM/dd/yyyy",
          "d/M/yyyy",
          "M/d/yyyy",
          "dd-MM-yyyy",
          "MM-dd-yyyy",
          "d-M-yyyy",
          "M-d-yyyy",
          "yyyy/MM/dd",
          "yyyy.MM.dd",
          "yyyyMMdd",
          "dd.MM.yy",
          "d.M.yy",
          "dd/MM/yy",
          "MM/dd/yy",
          "d/M/yy",
          "M/d/yy",
          "dd-MM-yy",
          "MM-dd-yy");

  private static final List<String> WITH_NAMES =
      List.of(
          "d-MMM-yyyy",
          "d MMM yyyy",
          "d. MMM yyyy",
          "d MMMM yyyy",
          "d. MMMM yyyy",
          "MMM d, yyyy",
          "MMMM d, yyyy",
          "d-MMM-yy",
          "d MMM yy");

  private static final List<String> TIMES =
      List.of("", " HH:mm", " H:mm", " HH:mm:ss", " H:mm:ss", "'T'HH:mm:ss", "'T'HH:mm");
  private static final int MOST_PATTERNS = 3;

  /** Texts on which a pattern must read one before it is tried on all. */
  private static final int TRIED_FIRST = 300;

  private final List<Candidate> candidates = new ArrayList<>();
  private final LocalDate asOf;

  /** A pattern with the language of its names of months. */
  private record Candidate(String pattern, String language, DateForm form) {
    Optional<LocalDate> day(String text) {
      return form.days(text).stream().findFirst();
    }
  }

  /**
   * How days are written.
   *
   * @param patterns patterns; none where they are as the record format has them
   * @param language of the names of months; empty where there are none
   * @param because what speaks for it; empty where there is nothing to say
   * @param doubts what speaks against it
   * @param form reads them
   * @param unread texts that are no day by any of them, with how often each stands
   */
  record Choice(
      List<String> patterns,
      Optional<String> language,
      String because,
      List<String> doubts,
      DateForm form,
      Map<String, Integer> unread) {}

  /**
   * A finder.
   *
   * @param asOf a year of two digits lies in the hundred years that end with this day
   */
  DayForms(Vocabulary vocabulary, LocalDate asOf) {
    this.asOf = asOf;
    for (String time : TIMES) {
      if (!time.isEmpty()) {
        add("yyyy-MM-dd" + time, "en");
      }
      PATTERNS.forEach(pattern -> add(pattern + time, "en"));
    }
    for (String language : vocabulary.languages()) {
      WITH_NAMES.forEach(pattern -> add(pattern, language));
    }
  }

  private void add(String pattern, String language) {
    candidates.add(
        new Candidate(
            pattern,
            language,
            DateForm.of(List.of(pattern), Locale.forLanguageTag(language), asOf)));
  }

  /** Whether a text is a day by the record format or by any pattern. */
  boolean isDay(String text) {
    return isLikeADay(text)
        && (!DateForm.ISO.days(text).isEmpty()
            || candidates.stream().anyMatch(candidate -> candidate.day(text).isPresent()));
  }

  /** Cheap look before the patterns are tried. */
  private static boolean isLikeADay(String text) {
    return text.length() >= 6
        && text.length() <= 40
        && text.chars().filter(Character::isDigit).count() >= 3;
  }

  /**
   * The patterns that read most of {@code texts}.
   *
   * @param texts with how often each stands
   * @param inOrder texts in the order of the file
   */
  Choice choose(Map<String, Integer> texts, List<List<String>> inOrder) {
    Map<String, Integer> left = new LinkedHashMap<>(texts);
    List<Candidate> chosen = new ArrayList<>();
    List<String> doubts = new ArrayList<>();
    StringBuilder because = new StringBuilder();
    boolean withIso = left.keySet().removeIf(text -> !DateForm.ISO.days(text).isEmpty());
    long all = ColumnProfile.sum(texts);
    while (!left.isEmpty() && chosen.size() < MOST_PATTERNS) {
      List<Candidate> best = best(left);
      if (best.isEmpty()) {
        break;
      }
      Candidate candidate = settle(best, left, inOrder, doubts, because);
      chosen.add(candidate);
      left.keySet().removeIf(text -> candidate.day(text).isPresent());
    }
    conflicts(chosen, texts, doubts);
    List<String> patterns = new ArrayList<>(chosen.stream().map(Candidate::pattern).toList());
    if (withIso && !chosen.isEmpty()) {
      patterns.add("yyyy-MM-dd");
    }
    Set<String> languages = new LinkedHashSet<>();
    chosen.stream()
        .filter(c -> c.pattern().contains("MMM"))
        .forEach(c -> languages.add(c.language()));
    String read = (all - ColumnProfile.sum(left)) + " of " + all + " cells are such days";
    Locale locale = Locale.forLanguageTag(languages.stream().findFirst().orElse("en"));
    DateForm form = patterns.isEmpty() ? DateForm.ISO : DateForm.of(patterns, locale, asOf);
    return new Choice(
        List.copyOf(patterns),
        languages.stream().findFirst(),
        read + because,
        List.copyOf(doubts),
        form,
        left);
  }

  /** The candidates that read most cells, in the order tried. */
  private List<Candidate> best(Map<String, Integer> texts) {
    List<String> few = texts.keySet().stream().limit(TRIED_FIRST).toList();
    List<Candidate> best = new ArrayList<>();
    long most = 0;
    for (Candidate candidate : candidates) {
      if (few.stream().noneMatch(text -> isLikeADay(text) && candidate.day(text).isPresent())) {
        continue;
      }
      long read = 0;
      for (Map.Entry<String, Integer> text : texts.entrySet()) {
        if (isLikeADay(text.getKey()) && candidate.day(text.getKey()).isPresent()) {
          read += text.getValue();
        }
      }
      if (read > most) {
        best.clear();
        most = read;
      }
      if (read == most && read > 0) {
        best.add(candidate);
      }
    }
    return best;
  }

  /** One of several candidates that read as many cells; a doubt where they read other days. */
  private static Candidate settle(
      List<Candidate> best,
      Map<String, Integer> texts,
      List<List<String>> inOrder,
      List<String> doubts,
      StringBuilder because) {
    Candidate first = best.get(0);
    for (Candidate other : best) {
      Optional<String> apart =
          texts.keySet().stream()
              .filter(text -> first.day(text).isPresent() && other.day(text).isPresent())
              .filter(text -> !first.day(text).equals(other.day(text)))
              .findFirst();
      if (apart.isPresent()) {
        double firstInOrder = inOrder(first, inOrder);
        double otherInOrder = inOrder(other, inOrder);
        Candidate taken = otherInOrder > firstInOrder ? other : first;
        Candidate left = taken.equals(first) ? other : first;
        if (firstInOrder != otherInOrder) {
          because.append(order(firstInOrder, otherInOrder, left));
        }
        doubts.add(
            taken.pattern()
                + " or "
                + left.pattern()
                + "? "
                + Cell.quoted(apart.get())
                + " is "
                + taken.day(apart.get()).orElseThrow()
                + " or "
                + left.day(apart.get()).orElseThrow()
                + ", and no cell tells which; "
                + taken.pattern()
                + " is proposed"
                + because);
        return taken;
      }
    }
    return first;
  }

  private static String order(double one, double other, Candidate left) {
    return "; by it "
        + Math.round(100 * Math.max(one, other))
        + "% of the rows follow in order of date, by "
        + left.pattern()
        + " "
        + Math.round(100 * Math.min(one, other))
        + "%";
  }

  /** Share of neighbouring rows whose second day is not before the first. */
  private static double inOrder(Candidate candidate, List<List<String>> columns) {
    long pairs = 0;
    long ordered = 0;
    for (List<String> cells : columns) {
      Optional<LocalDate> before = Optional.empty();
      for (String cell : cells) {
        Optional<LocalDate> day = candidate.day(cell);
        if (before.isPresent() && day.isPresent() && !before.equals(day)) {
          pairs++;
          ordered += day.get().isAfter(before.get()) ? 1 : 0;
        }
        before = day.isPresent() ? day : before;
      }
    }
    return pairs == 0 ? 0 : (double) ordered / pairs;
  }

  /** Two patterns of one table that read a cell as different days. */
  private static void conflicts(
      List<Candidate> chosen, Map<String, Integer> texts, List<String> doubts) {
    if (chosen.size() < 2) {
      return;
    }
    long torn = 0;
    String example = "";
    for (Map.Entry<String, Integer> text : texts.entrySet()) {
      Set<LocalDate> days = new HashSet<>();
      chosen.forEach(candidate -> candidate.day(text.getKey()).ifPresent(days::add));
      if (days.size() > 1) {
        torn += text.getValue();
        example = text.getKey();
      }
    }
    List<String> patterns = chosen.stream().map(Candidate::pattern).toList();
    if (torn > 0) {
      doubts.add(
          "days stand in more than one form ("
              + String.join(", ", patterns)
              + "); "
              + torn
              + (torn == 1 ? " cell is" : " cells are")
              + " another day by each, such as "
              + Cell.quoted(example)
              + ", and would be set aside; leave one form, or put the export right");
    }
  }
}
