package org.vaneward.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds room for labels: of the places offered for each, the one that covers least of what is drawn
 * and no other label. Greedy, in the order the labels are given.
 */
final class LabelPlacer {
  private static final double SAMPLE = 3;
  private static final double OUTSIDE = 1e4;
  private static final double ON_A_LABEL = 1e3;
  private static final double LATER_CHOICE = 0.1;
  private static final double LINE_WEIGHT = 2;
  private static final double POINT_WEIGHT = 12;
  private static final double STRANGER_WEIGHT = 0.7;
  private static final double STRANGER_DISTANCE = 12;

  private final Note.Box plot;

  /** Something drawn at a pixel, of the series {@code owner}. */
  private record Ink(double px, double py, double weight, String owner) {}

  /** Places for a label of the series {@code owner}. */
  record Wish(String owner, List<Note> places) {
    Wish {
      places = List.copyOf(places);
      Guard.notEmpty("places of a label", places);
    }
  }

  private final List<Ink> drawn = new ArrayList<>();
  private final List<Note.Box> taken = new ArrayList<>();

  LabelPlacer(Note.Box plot) {
    this.plot = plot;
  }

  /** A marker is drawn at a pixel; text must not hide data. */
  void avoidPoint(String owner, double px, double py) {
    avoid(new Ink(px, py, POINT_WEIGHT, owner));
  }

  /** A line is drawn between two pixels. */
  void avoidLine(String owner, double fromX, double fromY, double toX, double toY) {
    double length = Math.hypot(toX - fromX, toY - fromY);
    // a segment that leaves the picture far behind needs no finer samples than the picture is wide
    int pieces = (int) Math.max(1, Math.min(2000, Math.ceil(length / SAMPLE)));
    for (int i = 0; i <= pieces; i++) {
      double along = (double) i / pieces;
      double px = fromX + along * (toX - fromX);
      double py = fromY + along * (toY - fromY);
      avoid(new Ink(px, py, LINE_WEIGHT, owner));
    }
  }

  private void avoid(Ink ink) {
    if (plot.holds(ink.px(), ink.py())) {
      drawn.add(ink);
    }
  }

  /** The best of the places, made pale behind where it still covers something. */
  Note place(Wish wish) {
    List<Note> places = wish.places();
    Note best = places.get(0);
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < places.size(); i++) {
      double cost = cost(places.get(i), wish.owner()) + LATER_CHOICE * i;
      if (cost < least) {
        least = cost;
        best = places.get(i);
      }
    }
    taken.add(best.box());
    return covered(best.box()) > 0 ? best.veiled() : best;
  }

  private double cost(Note note, String owner) {
    Note.Box box = note.box();
    double cost = covered(box.grown(2)) + strangers(box.grown(STRANGER_DISTANCE), owner);
    if (!box.inside(plot)) {
      cost += OUTSIDE;
    }
    for (Note.Box other : taken) {
      if (box.grown(3).touches(other)) {
        cost += ON_A_LABEL;
      }
    }
    return cost;
  }

  /** How much is drawn in a box. */
  double covered(Note.Box box) {
    double weight = 0;
    for (Ink ink : drawn) {
      weight += box.holds(ink.px(), ink.py()) ? ink.weight() : 0;
    }
    return weight;
  }

  /** A label beside another's line would be taken for that line's. */
  private double strangers(Note.Box box, String owner) {
    double weight = 0;
    for (Ink ink : drawn) {
      boolean near = !ink.owner().equals(owner) && box.holds(ink.px(), ink.py());
      weight += near ? STRANGER_WEIGHT : 0;
    }
    return weight;
  }
}
