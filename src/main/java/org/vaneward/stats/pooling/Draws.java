package org.vaneward.stats.pooling;

/**
 * Draws from the posterior, as columns. Draw {@code i} of every column belongs together: what one
 * draw says of a group's shape goes with what it says of its scale and of the other groups.
 */
public final class Draws {
  private final Columns columns;

  /** The columns while they are filled. */
  static final class Columns {
    final double[] populationShape;
    final double[] populationScale;
    final double[] betweenSd;
    final double[] shapesBetweenSd;
    final double[] newGroupShape;
    final double[] newGroupScale;

    /** By group. */
    final double[][] shape;

    /** By group. */
    final double[][] scale;

    Columns(int groups, int draws) {
      populationShape = new double[draws];
      populationScale = new double[draws];
      betweenSd = new double[draws];
      shapesBetweenSd = new double[draws];
      newGroupShape = new double[draws];
      newGroupScale = new double[draws];
      shape = new double[groups][draws];
      scale = new double[groups][draws];
    }
  }

  Draws(Columns columns) {
    this.columns = columns;
  }

  /** Number of draws. */
  public int size() {
    return columns.populationShape.length;
  }

  /** Shape of a group, by its place in the list fitted. */
  public double shape(int group, int draw) {
    return columns.shape[group][draw];
  }

  /** Scale of a group, by its place in the list fitted. */
  public double scale(int group, int draw) {
    return columns.scale[group][draw];
  }

  /** Shape of the typical group. */
  public double populationShape(int draw) {
    return columns.populationShape[draw];
  }

  /** Scale of the typical group. */
  public double populationScale(int draw) {
    return columns.populationScale[draw];
  }

  /** Standard deviation of log scale between groups. */
  public double betweenSd(int draw) {
    return columns.betweenSd[draw];
  }

  /** Standard deviation of log shape between groups. */
  public double shapesBetweenSd(int draw) {
    return columns.shapesBetweenSd[draw];
  }

  /** Shape of a group of which no life is known: drawn anew from those of all groups. */
  public double newGroupShape(int draw) {
    return columns.newGroupShape[draw];
  }

  /** Scale of a group of which no life is known: drawn anew from those of all groups. */
  public double newGroupScale(int draw) {
    return columns.newGroupScale[draw];
  }

  /** All shapes of a group, a copy. */
  public double[] shapes(int group) {
    return columns.shape[group].clone();
  }

  /** All scales of a group, a copy. */
  public double[] scales(int group) {
    return columns.scale[group].clone();
  }

  /** All shapes of the typical group, a copy. */
  public double[] populationShapes() {
    return columns.populationShape.clone();
  }

  /** All scales of the typical group, a copy. */
  public double[] populationScales() {
    return columns.populationScale.clone();
  }

  /** All standard deviations of log scale between groups, a copy. */
  public double[] betweenSds() {
    return columns.betweenSd.clone();
  }

  /** All standard deviations of log shape between groups, a copy. */
  public double[] shapesBetweenSds() {
    return columns.shapesBetweenSd.clone();
  }

  /** All shapes of a group never seen, a copy. */
  public double[] newGroupShapes() {
    return columns.newGroupShape.clone();
  }

  /** All scales of a group never seen, a copy. */
  public double[] newGroupScales() {
    return columns.newGroupScale.clone();
  }
}
