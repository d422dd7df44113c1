/**
 * Recurring failures of a fleet and what lies behind them.
 *
 * <p>{@link org.vaneward.review.failure.FailureReview} starts from the lives and the models
 * decisions rest on. Every part has failures and, by the fleet's model for its age and service,
 * failures to be expected; every question is whether some parts fail more than that. All questions
 * of a review are judged together, so that a long list of questions does not turn chance into
 * findings.
 */
@NullMarked
package org.vaneward.review.failure;

import org.jspecify.annotations.NullMarked;
