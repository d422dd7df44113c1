# How often the Anderson-Darling and Cramer-von Mises statistics of a fitted Weibull exceed the percentage points
# remembered from Stephens (Biometrika 64, 1977), scaled by their small-sample factor 1 + 0.2 / sqrt(n), in complete
# samples of n lives. R 4.2.2, seed 1977; the figures of 200000 samples of 50 stand in GoodnessChecks.
# Shares nothing with the Java code: maximum likelihood by the profile equation in the shape, the statistic by its
# formula for ordered samples. Rscript points.R [n] [samples]
arguments <- commandArgs(trailingOnly = TRUE)
n <- if (length(arguments) > 0) as.integer(arguments[1]) else 50L
samples <- if (length(arguments) > 1) as.integer(arguments[2]) else 200000L
set.seed(1977)

fit <- function(t) {
  y <- log(t) - max(log(t))
  score <- function(b) 1 / b + mean(y) - sum(y * exp(b * y)) / sum(exp(b * y))
  b <- uniroot(score, c(0.01, 200), tol = 1e-12)$root
  c(shape = b, scale = max(t) * mean(exp(b * y))^(1 / b))
}

statistics <- function(t) {
  at <- fit(t)
  h <- (sort(t) / at["scale"])^at["shape"]
  z <- -expm1(-h)
  m <- length(h)
  i <- seq_along(h)
  c(A2 = -m - mean((2 * i - 1) * (log(z) - rev(h))), W2 = 1 / (12 * m) + sum((z - (2 * i - 1) / (2 * m))^2))
}

seen <- replicate(samples, statistics(rweibull(n, 1.5, 1)))
points <- rbind(A2 = c(0.637, 0.757, 1.038), W2 = c(0.102, 0.124, 0.175)) / (1 + 0.2 / sqrt(n))
for (name in rownames(points)) {
  shares <- sapply(points[name, ], function(p) mean(seen[name, ] > p))
  cat(sprintf("%s,%d,%d,%s\n", name, n, samples, paste(sprintf("%.4f", shares), collapse = ",")))
}
