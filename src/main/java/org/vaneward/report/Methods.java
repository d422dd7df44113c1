package org.vaneward.report;

import java.util.List;
import org.vaneward.model.ServiceModels;
import org.vaneward.report.Page.Method;

/** How the numbers were made, in words, with the source of each method. */
final class Methods {
  private Methods() {}

  static List<Method> all(double confidence) {
    String limits = Words.percent(confidence);
    return List.of(
        new Method(
            "Lives",
            "A life is one part in one position from its fitting until it fails, is taken out or the"
                + " records end. A part found failed when the pump was opened for another reason is"
                + " known to have failed between two looks; a part that was already running when the"
                + " records begin counts from that age on; a change of service splits a life. Failures"
                + " on the start-up test are counted apart and never enter a fit.",
            "Vocabulary: ISO 14224. Delayed entry and interval censoring: Klein and Moeschberger,"
                + " Survival Analysis, 1997, chapters 3 and 4."),
        new Method(
            "Fits",
            "Weibull by maximum likelihood; limits at "
                + limits
                + " by profile likelihood. A maximum is accepted only with a vanishing gradient and a"
                + " definite curvature; otherwise the fit is \"not estimable\" and says why. Limits are"
                + " wide where failures are few: that is what the records can tell, not a fault.",
            "Meeker and Escobar, Statistical Methods for Reliability Data, 1998, chapters 8 and 11."),
        new Method(
            "Product limit",
            "The points on the probability paper are the Kaplan-Meier estimate, each part at risk only"
                + " from its entry age on. Where failures are known only to the stretch between two looks,"
                + " the points are Turnbull's estimate, set at the end of each stretch.",
            "Kaplan and Meier 1958; Greenwood's variance, limits on the log(-log) scale. Turnbull 1976."),
        new Method(
            "Which fit decides",
            "The services of a component are fitted together: each has a shape and a scale of its own,"
                + " and both lean on the other services as far as its own records leave room. With many"
                + " failures it keeps to them; with few, the figure beside \"leaning on the other services\""
                + " says how much of what is known of the scale comes from elsewhere; with none it rests on"
                + " the others, within wide limits. How much services differ is worked out from the records"
                + " too. Decisions use "
                + Words.whole(ServiceModels.DRAWS)
                + " lives drawn from what the records leave possible, not one best guess.",
            "Hierarchical model: Gelman and others, Bayesian Data Analysis, 3rd edition 2013, chapter 5."
                + " Priors: docs/methods/pooling.md."),
        new Method(
            "Planned interval",
            "Rebuild everything at the interval or at the first failure that stops the pump, whichever"
                + " comes first: the long-run cost per running hour is the mean cost of a cycle over its"
                + " mean length, over all positions, each cause at its own cost, with hours run on an"
                + " unseen failure priced. The interval is where that is least, always compared with"
                + " running to failure; the window is where it stays within 2% of the least.",
            "Barlow and Proschan, Mathematical Theory of Reliability, 1965, chapter 4."),
        new Method(
            "The interval when lives are uncertain",
            "The fits give many possible lives, each as likely as another. The interval is where the mean"
                + " cost over all of them is least. What it saves has limits because the lives have; the"
                + " chance that it pays is the share of possible lives with which it does. What more"
                + " records could save is the most that knowing the lives exactly would be worth. Where a"
                + " part probably does not fail more as it ages, no interval prevents its failures: look"
                + " for the reason.",
            "Expected cost and expected value of perfect information: Berger, Statistical Decision"
                + " Theory and Bayesian Analysis, 1985, chapter 1."),
        new Method(
            "Next rebuild of a pump",
            "Its parts have their own ages. It runs on until another hour costs more, in expected extra"
                + " cost of a stop, than the long-run cost per hour of the best interval. Limits come"
                + " first: a mandated maximum or a ceiling on the chance of failure caps every date."
                + " Where the day could lie otherwise comes from what else the records allow and from how"
                + " unevenly the pump has been run.",
            "Marginal-cost rule for age replacement, Barlow and Proschan, chapter 4."),
        new Method(
            "Calendar",
            "Next rebuilds are booked into the weeks the workshop is open, so many a week, at the least"
                + " expected extra cost, visits to a site shared. Limits come before cost; what cannot be"
                + " kept is listed with the reason.",
            "Assignment with shared visits; how near the calendar is to the best possible is stated."),
        new Method(
            "Kits, parts and money ahead",
            "The plan is lived forward thousands of times: each time with one of the possible lives of"
                + " every part, with as much running as each pump may see, and with failures drawn given"
                + " the age each part has reached. What is enough in 80 of 100 such futures is the P80."
                + " Stock levels come from what the futures ask for within a lead time.",
            "Simulation, held against renewal theory (Cox, Renewal Theory, 1962, from memory). Stock:"
                + " Silver, Pyke and Thomas, Inventory and Production Management in Supply Chains, chapter 6"
                + " (from memory)."),
        new Method(
            "What fails again",
            "Every part has failures and, by the models above, failures to be expected at its age in its"
                + " service. A group's share of the failures is held against the rest of the same"
                + " service, exactly; pumps that differ from each other widen the limits. Trends, runs of"
                + " early failures and periods are asked about too. All questions are judged together, so"
                + " that on average no more than the stated share of the list is chance; a finding that"
                + " goes away with another one's parts is listed under that one.",
            "Conditional tests of Poisson rates: Przyborowski and Wilenski 1940 (from memory)."
                + " False-discovery rate with weights: Genovese, Roeder and Wasserman 2006 (from memory)."
                + " Details: docs/methods/review.md."),
        new Method(
            "How well past advice did",
            "For each past half-year the files are read as they stood at its beginning, lives fitted,"
                + " rebuilds advised and the half-year lived forward as the shop would have carried on;"
                + " what came is held against that. Scores are proper: saying what one believes does"
                + " best. What the advice would have cost follows each pump's record up to the first"
                + " rebuild the advice changes; later failures that are not on record are drawn from the"
                + " lives, so it is an estimate.",
            "Gneiting and Raftery 2007; Czado, Gneiting and Held 2009; Clopper and Pearson 1934 (from"
                + " memory). Details: docs/methods/backtest.md, docs/evidence.md, docs/known-truth.md."),
        new Method(
            "What is not in it yet",
            "Only each pump's next rebuild is booked; later ones are foreseen but not levelled."
                + " Seasons, operators and weather are not modelled.",
            "A statement about this program."));
  }
}
