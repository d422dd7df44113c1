# Answers of package survival on a lives table, to compare with ours and with those on record: one line for each,
# job,n,answers. Tolerance 1e-12, since survreg's own 1e-9 stops short of the digits compared.
suppressPackageStartupMessages(library(survival))
file <- commandArgs(TRUE)[1]
x <- read.csv(file, colClasses = c(group = "character"))
d <- data.frame(age = x$lower, status = as.integer(!is.na(x$upper)), group = factor(x$group))
tight <- survreg.control(rel.tolerance = 1e-12, maxiter = 60)
for (n in c(1e4, 1e5, 1e6)) {
  if (n > nrow(d)) next
  y <- d[seq_len(n), ]
  one <- survreg(Surv(age, status) ~ 1, data = y, control = tight)
  cat(sprintf("weibull_fit,%d,%.9f,%.6f,%.6f\n", n, 1 / one$scale, exp(coef(one)[[1]]), one$loglik[2]))
  groups <- survreg(Surv(age, status) ~ group, data = y, control = tight)
  cat(sprintf("weibull_regression_12_levels,%d,%.9f,%.6f\n", n, 1 / groups$scale, groups$loglik[2]))
  curve <- survfit(Surv(age, status) ~ 1, data = y)
  cat(sprintf("kaplan_meier,%d,%.9f\n", n, summary(curve, times = 5000)$surv))
}
