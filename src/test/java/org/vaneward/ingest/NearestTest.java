package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class NearestTest {
  @Test
  void distanceCountsEdits() {
    assertEquals(0, Nearest.distance("", ""));
    assertEquals(3, Nearest.distance("", "abc"));
    assertEquals(1, Nearest.distance("seal", "seall"));
    assertEquals(1, Nearest.distance("vane", "vano"));
    assertEquals(2, Nearest.distance("p-1", "p12"));
  }

  @Test
  void whatIsFarIsNotOffered() {
    Nearest nearest = new Nearest(List.of("P-12", "seal-inboard"));
    assertEquals("; nearest is 'P-12'", nearest.offer("p12"));
    assertEquals("; nearest is 'seal-inboard'", nearest.offer("seal-inbord"));
    assertEquals("", nearest.offer("compressor"));
  }

  @Test
  void lookingStopsWhenItIsNoLongerCheap() {
    List<String> many = IntStream.range(0, 20_001).mapToObj(i -> "P" + i).toList();
    assertEquals("", new Nearest(many).offer("P1x"));
    assertEquals("", new Nearest(List.of("x".repeat(61))).offer("x".repeat(62)));
    Nearest busy = new Nearest(List.of("P1"));
    for (int i = 0; i < 200; i++) {
      busy.offer("unlike " + i);
    }
    assertEquals("", busy.offer("P2"));
    assertEquals("", busy.offer("unlike 7"));
  }
}
