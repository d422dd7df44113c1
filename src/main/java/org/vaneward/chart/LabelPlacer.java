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
  private static final double LATER_CHOICE = 0.4;

  private final Note.Box plot;
  private final List<double[]> drawn = new ArrayList<>();
  private final List<Note.Box> taken = new ArrayList<>();

  LabelPlacer(Note.Box plot) {
    this.plot = plot;
  }

  /** Something is drawn at a pixel. */
  void avoid(double px, double py) {
    if (plot.holds(px, py)) {
      drawn.add(new double[] {px, py});
    }
  }

  /** A line is drawn between two pixels. */
  void avoid(double fromX, double fromY, double toX, double toY) {
    double length = Math.hypot(toX - fromX, toY - fromY);
    // a segment that leaves the picture far behind needs no finer samples than the picture is wide
    int pieces = (int) Math.max(1, Math.min(2000, Math.ceil(length / SAMPLE)));
    for (int i = 0; i <= pieces; i++) {
      double along = (double) i / pieces;
      avoid(fromX + along * (toX - fromX), fromY + along * (toY - fromY));
    }
  }

  /** The best of the places, made pale behind where it still covers something. */
  Note place(List<Note> places) {
    Note best = places.get(0);
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < places.size(); i++) {
      double cost = cost(places.get(i)) + LATER_CHOICE * i;
      if (cost < least) {
        least = cost;
        best = places.get(i);
      }
    }
    taken.add(best.box());
    return covered(best.box()) > 0 ? best.veiled() : best;
  }

  private double cost(Note note) {
    Note.Box box = note.box();
    double cost = covered(box.grown(2));
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

  private int covered(Note.Box box) {
    int count = 0;
    for (double[] pixel : drawn) {
      if (box.holds(pixel[0], pixel[1])) {
        count++;
      }
    }
    return count;
  }
}
