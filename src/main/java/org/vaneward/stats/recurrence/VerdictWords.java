package org.vaneward.stats.recurrence;

import java.util.Locale;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.recurrence.RenewalOrTrend.GapEffect;

/** The verdict on renewal or trend in plain words. */
final class VerdictWords {
  /** A change from one gap to the next that a planner would feel. */
  private static final double MODERATE = 1.25;

  private VerdictWords() {}

  static String sentence(RenewalOrTrend result, String subject) {
    if (result.effect().isEmpty()) {
      return subject
          + " have too few complete gaps between events to tell whether they come back as good as"
          + " new.";
    }
    GapEffect effect = result.effect().get();
    String gaps = effect.gaps() + " gaps";
    return switch (result.verdict()) {
      case TOO_FEW ->
          format(
              "%s have too few gaps between events (%d) to tell whether they come back as good as"
                  + " new.",
              subject, effect.gaps());
      case NO_TREND -> noTrend(subject, effect);
      case SHORTER ->
          format(
              "%s do not come back as good as new: gaps between events get shorter (%s, %s; from"
                  + " one gap to the next, %s).",
              subject, p(effect.p()), gaps, range(effect.factor()));
      case LONGER ->
          format(
              "%s run longer after each event than before it (%s, %s; from one gap to the next,"
                  + " %s).",
              subject, p(effect.p()), gaps, range(effect.factor()));
      case UNCLEAR ->
          format(
              "%s leave it open whether they come back as good as new: the order of %s shows no"
                  + " trend (%s), but age describes the events better than time since the last.",
              subject, gaps, p(effect.p()));
    };
  }

  private static String noTrend(String subject, GapEffect effect) {
    Estimate factor = effect.factor();
    boolean narrow = factor.lower() >= 1 / MODERATE && factor.upper() <= MODERATE;
    return narrow
        ? format(
            "%s come back as good as new as far as %d gaps can tell: no sign that gaps get shorter"
                + " or longer (%s; from one gap to the next, %s).",
            subject, effect.gaps(), p(effect.p()), range(factor))
        : format(
            "%s show no sign that gaps get shorter or longer (%s), but %d gaps leave room for much:"
                + " from one gap to the next, %s.",
            subject, p(effect.p()), effect.gaps(), range(factor));
  }

  private static String p(double p) {
    return p < 0.01 ? "p below 0.01" : format("p %.2f", p);
  }

  private static String range(Estimate factor) {
    return "between " + change(factor.lower()) + " and " + change(factor.upper());
  }

  private static String change(double factor) {
    if (factor >= 2) {
      return format("%.1f times as long", factor);
    }
    long percent = Math.round(100 * (factor - 1));
    return percent == 0
        ? "no change"
        : format("%d%% %s", Math.abs(percent), percent < 0 ? "shorter" : "longer");
  }

  private static String format(String pattern, Object... values) {
    return String.format(Locale.ROOT, pattern, values);
  }
}
