package org.vaneward.spares;

/**
 * Something counted.
 *
 * @param kind what sort of thing
 * @param name kit number, part name, or which openings
 */
public record Line(Kind kind, String name) {
  /** What sort of thing is counted. */
  public enum Kind {
    /** Openings of a pump. */
    OPENING("opening"),
    /** Kits bought. */
    KIT("kit"),
    /** Parts bought loose. */
    LOOSE("loose part"),
    /** Parts fitted, from kits or loose. */
    FITTED("fitted"),
    /** Parts that came in kits and were not needed. */
    LEFT_OVER("left over");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    /** The kind in words. */
    public String words() {
      return words;
    }

    /** The word in machine-readable output. */
    public String key() {
      return words.replace(' ', '-');
    }
  }

  /** Openings that were planned. */
  public static final Line PLANNED = new Line(Kind.OPENING, "planned");

  /** Openings that a failure forced. */
  public static final Line UNPLANNED = new Line(Kind.OPENING, "unplanned");
}
