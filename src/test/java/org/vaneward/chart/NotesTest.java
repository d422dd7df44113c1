package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Whether texts of a picture are whole and apart, and that a check of it would tell. */
class NotesTest {
  /** Nothing is cut off at the edges of the sheet. */
  static void assertInside(List<Note> notes, int width, int height) {
    Note.Box sheet = new Note.Box(0, 0, width, height);
    for (Note note : notes) {
      assertTrue(note.box().inside(sheet), () -> note + " in " + width + " by " + height);
    }
  }

  /** Nothing is cut off at the edges of the sheet. */
  static void assertInside(Paper paper) {
    assertInside(paper.notes(), paper.width(), paper.height());
  }

  /** No text lies on another. */
  static void assertApart(List<Note> notes) {
    for (int i = 0; i < notes.size(); i++) {
      for (int j = 0; j < i; j++) {
        Note one = notes.get(i);
        Note other = notes.get(j);
        assertFalse(one.box().touches(other.box()), () -> one + " on " + other);
      }
    }
  }

  @Test
  void theChecksTell() {
    Note note = Note.at(10, 20, Note.Anchor.START, "one", House.INK, 11);
    Note other = Note.at(20, 24, Note.Anchor.START, "other", House.INK, 11);
    assertThrows(AssertionError.class, () -> assertApart(List.of(note, other)));
    assertThrows(AssertionError.class, () -> assertInside(List.of(note), 30, 100));
    assertApart(List.of(note));
    assertInside(List.of(note, other), 100, 100);
  }
}
