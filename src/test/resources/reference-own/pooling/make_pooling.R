# Posterior of the partially pooled Weibull model by brute force, written from the model's formula alone: equally spaced
# nodes in log shape, log scale of the typical group, standard deviation between groups and standardised group effect.
# No draws, no mode, no adaptive rule. Run in this folder: Rscript make_pooling.R > expected.csv
lives <- read.csv("lives.csv")
lives$upper[is.na(lives$upper)] <- Inf
shape_median <- 1.5; shape_sd <- 0.7; scale_sd <- 3; between <- 0.7

term <- function(row, shape, logscale) {
  hazard <- function(age) exp(shape * (log(age) - logscale))
  if (row$lower == row$upper)
    ll <- log(shape) + (shape - 1) * log(row$lower) - shape * logscale - hazard(row$lower)
  else if (is.infinite(row$upper)) ll <- -hazard(row$lower)
  else {
    gap <- shape * (log(row$upper) - logscale) + log1p(-(row$lower / row$upper)^shape)
    ll <- -hazard(row$lower) + ifelse(gap < -20, gap - exp(gap) / 2, log(-expm1(-exp(gap))))
  }
  row$count * (ll + hazard(row$entry))
}
loglik <- function(rows, shape, logscale) {
  sum <- 0 * logscale
  for (i in seq_len(nrow(rows))) sum <- sum + term(rows[i, ], shape, logscale)
  sum
}
solve_case <- function(name, db, dm, dt) {
  data <- lives[lives$case == name, ]
  groups <- split(data, data$group)
  ran <- data$lower > data$entry
  run <- sum((data$count * (data$lower^shape_median - data$entry^shape_median))[ran])
  centre <- log(run / sum(data$count[is.finite(data$upper)])) / shape_median
  b <- seq(log(1.5) - 4.2, log(1.5) + 4.2, db); m <- centre + seq(-9, 12, dm); tau <- seq(0, 4.2, dt)
  v <- seq(-7.5, 7.5, 0.1); phi <- dnorm(v) * 0.1
  wt <- rep(1, length(tau)); wt[1] <- 0.5
  probes <- centre + c(-0.5, 0, 1)
  G <- length(groups)
  total <- 0; sums <- c(b = 0, bb = 0, m = 0, mm = 0, t = 0, tt = 0)
  # the mean of tau is no even function: the trapezoidal rule gets its end correction at 0
  th <- matrix(0, G, 2); cdf <- matrix(0, G, length(probes))
  prior_m <- dnorm(m, centre, scale_sd)
  for (ib in seq_along(b)) {
    shape <- exp(b[ib]); pb <- dnorm(b[ib], log(shape_median), shape_sd)
    # a table of each group's log-likelihood in log scale, read by a spline; far below the ages it is nothing
    like <- lapply(groups, function(g) {
      low <- log(max(g$lower)) - 8 / shape
      grid <- seq(low, max(centre + 12 + 4.2 * 7.5, low + 1), min(0.02, 0.05 / shape))
      f <- splinefun(grid, loglik(g, shape, grid))
      function(x) { y <- f(x); y[x < low] <- -Inf; y }
    })
    for (it in seq_along(tau)) {
      theta <- outer(m, tau[it] * v, "+")
      L <- lapply(like, function(f) matrix(exp(f(theta)), nrow(theta)))
      I <- sapply(L, function(x) as.vector(x %*% phi))
      prior <- pb * prior_m * 2 * dnorm(tau[it], 0, between) * wt[it] * db * dm * dt
      w <- prior * apply(I, 1, prod)
      total <- total + sum(w)
      sums <- sums + c(sum(w) * b[ib], sum(w) * b[ib]^2, sum(w * m), sum(w * m^2), sum(w) * tau[it] + (it == 1) * 2 * sum(w) * dt / 12, sum(w) * tau[it]^2)
      for (s in seq_len(G)) {
        p <- w / I[, s]; p[!is.finite(p)] <- 0
        joint <- L[[s]] * rep(phi, each = length(m)) * p
        th[s, ] <- th[s, ] + c(sum(joint * theta), sum(joint * theta^2))
        for (q in seq_along(probes)) {
          cdf[s, q] <- cdf[s, q] + sum(joint * pmin(1, pmax(0, (probes[q] - theta) / dm + 0.5)))
        }
      }
    }
  }
  mean_sd <- function(x, xx) c(x / total, sqrt(xx / total - (x / total)^2))
  out <- function(what, value, trusted) cat(sprintf("%s,%s,%.10g,%g\n", name, what, value, trusted))
  out("log_marginal", log(total), 1e-6)
  r <- mean_sd(sums["b"], sums["bb"]); out("mean_log_shape", r[1], 1e-5); out("sd_log_shape", r[2], 1e-5)
  r <- mean_sd(sums["m"], sums["mm"]); out("mean_log_population", r[1], 1e-5); out("sd_log_population", r[2], 1e-5)
  r <- mean_sd(sums["t"], sums["tt"]); out("mean_between", r[1], 1e-5); out("sd_between", r[2], 1e-5)
  for (s in seq_len(G)) {
    r <- mean_sd(th[s, 1], th[s, 2])
    out(paste0("mean_log_scale:", names(groups)[s]), r[1], 1e-5); out(paste0("sd_log_scale:", names(groups)[s]), r[2], 1e-5)
    for (q in seq_along(probes))
      out(sprintf("below:%s:%.10f", names(groups)[s], probes[q]), cdf[s, q] / total, 1e-3)
  }
}
fine <- as.numeric(commandArgs(TRUE)[1]); if (is.na(fine)) fine <- 1.15
cat("# Source: make_pooling.R beside this file, by brute force on equally spaced nodes; ", R.version.string, ".\n", sep = "")
cat("# No random numbers, so no seed and no Monte Carlo error. Column trusted: absolute error, found with steps 1.2 times as wide.\n")
cat("# below:GROUP:X is the posterior chance that the group's log scale is at most X.\n")
cat("case,quantity,value,trusted\n")
only <- commandArgs(TRUE)[2]
if (is.na(only) || only == "few") solve_case("few", 0.07 * fine, 0.07 * fine, 0.07 * fine)
if (is.na(only) || only == "two") solve_case("two", 0.07 * fine, 0.07 * fine, 0.07 * fine)
if (is.na(only) || only == "one") solve_case("one", 0.07 * fine, 0.07 * fine, 0.07 * fine)
