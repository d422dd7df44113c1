package org.vaneward.report;

/** Column headings that name the currency, where the fleet states one. */
final class Headings {
  private Headings() {}

  /** {@code "Price each, EUR"}. */
  static String priced(String what, String currency) {
    return currency.isEmpty() ? what : what + ", " + currency;
  }

  /** {@code "EUR per 1,000 h"}, {@code "cost per 1,000 h"}. */
  static String per(String currency, String per) {
    return (currency.isEmpty() ? "cost" : currency) + " per " + per;
  }
}
