package org.vaneward.notebook;

import java.util.ArrayList;
import java.util.List;

/**
 * What a cell asked to be shown: the function {@code display} that Java kernels give a notebook.
 */
public final class Shown {
  /** Something shown: its content, and what kind of content that is. */
  record Content(String kind, String text) {}

  private static final List<Content> CONTENTS = new ArrayList<>();

  private Shown() {}

  /** Shows {@code content} as the kind named, such as {@code image/svg+xml}. */
  public static void display(Object content, String kind) {
    CONTENTS.add(new Content(kind, content.toString()));
  }

  /** What was shown since this was last asked. */
  static List<Content> taken() {
    List<Content> taken = List.copyOf(CONTENTS);
    CONTENTS.clear();
    return taken;
  }
}
