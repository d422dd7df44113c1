package org.vaneward.review.failure;

/** Among which parts a comparison is made: only like is held against like. */
public enum Strata {
  /** Parts of one component in one service. */
  SERVICE("product and duty"),
  /** Parts of one component on one product. */
  PRODUCT("product"),
  /** Parts of one component in one duty. */
  DUTY("duty"),
  /** All parts of one component. */
  COMPONENT("nothing but age");

  private final String words;

  Strata(String words) {
    this.words = words;
  }

  /** What the comparison is adjusted for, as a phrase. */
  public String words() {
    return words;
  }
}
