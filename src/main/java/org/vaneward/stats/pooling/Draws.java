package org.vaneward.stats.pooling;

/**
 * Draws from the posterior, as columns. Draw {@code i} of every column belongs together: what one
 * draw says of a shape goes with what it says of the scales.
 */
public final class Draws {
  private final double[] shape;
  private final double[] populationScale;
  private final double[] betweenSd;
  private final double[] newGroupScale;
  private final double[][] scale;

  Draws(
      double[] shape,
      double[] populationScale,
      double[] betweenSd,
      double[] newGroupScale,
      double[][] scale) {
    this.shape = shape;
    this.populationScale = populationScale;
    this.betweenSd = betweenSd;
    this.newGroupScale = newGroupScale;
    this.scale = scale;
  }

  /** Number of draws. */
  public int size() {
    return shape.length;
  }

  /** Number of groups. */
  public int groups() {
    return scale.length;
  }

  /** Common shape. */
  public double shape(int draw) {
    return shape[draw];
  }

  /** Scale of a group, by its place in the list fitted. */
  public double scale(int group, int draw) {
    return scale[group][draw];
  }

  /** Scale of the typical group. */
  public double populationScale(int draw) {
    return populationScale[draw];
  }

  /** Standard deviation of log scale between groups. */
  public double betweenSd(int draw) {
    return betweenSd[draw];
  }

  /** Scale of a group of which no life is known: drawn anew from those of all groups. */
  public double newGroupScale(int draw) {
    return newGroupScale[draw];
  }

  /** All shapes, a copy. */
  public double[] shapes() {
    return shape.clone();
  }

  /** All scales of a group, a copy. */
  public double[] scales(int group) {
    return scale[group].clone();
  }

  /** All scales of a group never seen, a copy. */
  public double[] newGroupScales() {
    return newGroupScale.clone();
  }
}
