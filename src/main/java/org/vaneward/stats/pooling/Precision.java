package org.vaneward.stats.pooling;

/** How closely a posterior is integrated. */
public enum Precision {
  /**
   * What limits and decisions need: the log marginal likelihood to about 1e-4, far within the Monte
   * Carlo error of any number of draws.
   */
  USUAL(14, 1e-6, 1e-4, 0.4, 0.9, 0.75, 0.5, 4.5, 6, 3),
  /** To hold the method against other integrals: the log marginal likelihood to about 1e-6. */
  FINE(20, 1e-10, 1e-8, 0.35, 0.6, 0.5, 0.25, 6, 6.75, 4);

  /** Points this much below the best of all, on the log scale, are left out. */
  final double nothing;

  /** Difference of a group's log integrals by a rule and by its double that counts as none. */
  final double settled;

  /** Greatest change of the log marginal likelihood when all rules are doubled. */
  final double mostNodesChange;

  /** First step along the logarithm of a standard deviation between groups. */
  final double firstStep;

  /** Greatest step, in standard deviations of what it is a step of. */
  final double coarsest;

  /** The step taken when one was too coarse. */
  final double finer;

  /** Spacing of a group's log shapes, in their standard deviations. */
  final double shapeSpacing;

  /** A prior's scale times this is a standard deviation that the prior rules out. */
  final double endless;

  /** Standard deviations from the middle to the last value along the typical log shape. */
  final double reach;

  /** Distance in log shape from the best common one within which a group's own is looked for. */
  final double likely;

  Precision(
      double nothing,
      double settled,
      double mostNodesChange,
      double firstStep,
      double coarsest,
      double finer,
      double shapeSpacing,
      double endless,
      double reach,
      double likely) {
    this.nothing = nothing;
    this.settled = settled;
    this.mostNodesChange = mostNodesChange;
    this.firstStep = firstStep;
    this.coarsest = coarsest;
    this.finer = finer;
    this.shapeSpacing = shapeSpacing;
    this.endless = endless;
    this.reach = reach;
    this.likely = likely;
  }
}
