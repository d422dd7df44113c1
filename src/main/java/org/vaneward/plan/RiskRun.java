package org.vaneward.plan;

/**
 * What an overdue pump has risked since the day it was due.
 *
 * @param chance chance that a pump like it would have been stopped by a failure since
 * @param cost expected cost of waiting since, against rebuilding on that day
 */
public record RiskRun(double chance, double cost) {}
