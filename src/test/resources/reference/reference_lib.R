# Routines shared by make_references.R: a likelihood engine that is independent of survreg(),
# product-limit / Turnbull / recurrent-event / renewal code in plain R, a JSON writer and a case recorder.
# Every routine here is either the "second route" for a packaged R function, or (where no packaged
# function exists) is itself checked by a second routine.

suppressPackageStartupMessages(library(survival))
options(warn = 1, digits = 15, stringsAsFactors = FALSE)

# ----------------------------------------------------------------------------------------- JSON writer
json_num <- function(x) {
  if (is.na(x) || is.infinite(x)) return("null")
  if (is.integer(x) || (x == round(x) && abs(x) < 1e15)) return(sprintf("%.0f", x))
  sprintf("%.15g", x)
}
json_str <- function(x) {
  x <- gsub("\\", "\\\\", x, fixed = TRUE); x <- gsub("\"", "\\\"", x, fixed = TRUE)
  x <- gsub("\n", "\\n", x, fixed = TRUE); paste0("\"", x, "\"")
}
json <- function(x, ind = 0) {
  pad <- strrep("  ", ind); pad1 <- strrep("  ", ind + 1)
  if (is.null(x)) return("null")
  if (is.matrix(x)) x <- lapply(seq_len(nrow(x)), function(i) I(unname(x[i, ])))
  if (is.factor(x)) x <- as.character(x)
  if (is.list(x)) {
    if (length(x) == 0) return(if (is.null(names(x))) "[]" else "{}")
    if (is.null(names(x))) {
      parts <- vapply(x, json, "", ind = ind + 1)
      flat <- all(vapply(x, function(e) is.atomic(e), TRUE)) && sum(nchar(parts)) < 100
      if (flat) return(paste0("[", paste(parts, collapse = ", "), "]"))
      return(paste0("[\n", paste0(pad1, parts, collapse = ",\n"), "\n", pad, "]"))
    }
    parts <- mapply(function(k, v) paste0(json_str(k), ": ", json(v, ind + 1)), names(x), x)
    one <- paste0("{", paste(parts, collapse = ", "), "}")
    if (nchar(one) < 110 && !grepl("\n", one, fixed = TRUE)) return(one)
    return(paste0("{\n", paste0(pad1, parts, collapse = ",\n"), "\n", pad, "}"))
  }
  if (!is.null(names(x))) return(json(as.list(x), ind))
  el <- if (is.character(x)) vapply(x, function(e) if (is.na(e)) "null" else json_str(e), "")
        else if (is.logical(x)) ifelse(is.na(x), "null", ifelse(x, "true", "false"))
        else vapply(as.vector(x), json_num, "")
  if (length(x) == 1 && !inherits(x, "AsIs")) return(unname(el))
  paste0("[", paste(el, collapse = ", "), "]")
}

# ------------------------------------------------------------------------------------- case recorder
CASES <- new.env(); CASES$topics <- list(); CASES$conventions <- list()
topic <- function(name, title, conventions) {
  CASES$conventions[[name]] <- list(title = title, conventions = conventions)
  CASES$topics[[name]] <- list()
}
# disagreement between two routes, as a relative difference
rel_diff <- function(a, b) {
  a <- unlist(a); b <- unlist(b); stopifnot(length(a) == length(b))
  ok <- is.finite(a) & is.finite(b); stopifnot(all(is.finite(a) == is.finite(b)))
  if (!any(ok)) return(0)
  max(abs(a[ok] - b[ok]) / pmax(abs(a[ok]), abs(b[ok]), 1e-8))
}
# a bound, rounded up to a power of ten, so that the files do not depend on the last bit
bound10 <- function(x) if (x <= 1e-13) 1e-13 else 10^ceiling(log10(x))
DIFFS <- new.env(); DIFFS$rows <- list()
case <- function(topic, name, dataset, source, data, filter = NULL, r_call, method, second_route, diff,
                 n, n_events, expected, tolerance = 1e-6, absolute_tolerance = 1e-9, note = NULL, columns = NULL) {
  worst <- max(unlist(diff))
  DIFFS$rows[[length(DIFFS$rows) + 1]] <- data.frame(topic, name, worst)
  if (worst > 1e-6) message(sprintf("routes differ by %.2e: %s / %s", worst, topic, name))
  out <- list(name = name, dataset = dataset, source = source)
  if (!is.null(data)) out$data <- data
  if (!is.null(filter)) out$filter <- filter
  for (k in names(columns)) out[[k]] <- columns[[k]]
  out$r_call <- r_call; out$method <- method
  out$n <- n; out$n_events <- n_events
  out$expected <- expected
  out$tolerance <- tolerance; out$absolute_tolerance <- absolute_tolerance
  out$check <- list(second_route = second_route, max_relative_difference_at_most = bound10(worst))
  if (!is.null(note)) out$note <- note
  CASES$topics[[topic]][[length(CASES$topics[[topic]]) + 1]] <- out
  invisible(out)
}
write_topics <- function(dir) {
  dir.create(dir, showWarnings = FALSE, recursive = TRUE)
  for (t in names(CASES$topics)) {
    cv <- CASES$conventions[[t]]
    doc <- list(topic = t, title = cv$title, conventions = as.list(cv$conventions), cases = CASES$topics[[t]])
    writeLines(json(doc), file.path(dir, paste0(t, ".json")))
  }
}
write_data <- function(df, name, dir = "data") {
  dir.create(dir, showWarnings = FALSE, recursive = TRUE)
  out <- df
  for (j in seq_along(out)) if (is.numeric(out[[j]]))
    out[[j]] <- ifelse(is.na(out[[j]]), "", sprintf("%.15g", out[[j]]))
  write.table(out, file.path(dir, paste0(name, ".csv")), sep = ",", row.names = FALSE, quote = FALSE, na = "")
  paste0("data/", name, ".csv")
}
# a lives table: entry, lower, upper, count and any covariates; upper = NA is right-censored,
# lower == upper is exact, lower = 0 with a finite upper is left-censored
lives <- function(lower, upper, entry = 0, count = 1, ...) {
  d <- data.frame(entry = as.numeric(entry), lower = as.numeric(lower), upper = as.numeric(upper),
                  count = as.numeric(count), ...)
  d
}
right <- function(time, status, ...) lives(time, ifelse(status == 1, time, NA), ...)

# --------------------------------------------------------------------- location-scale likelihood engine
# log T = mu + sigma * W. Weibull: W smallest extreme value (scale = exp(mu), shape = 1/sigma);
# lognormal: W standard normal. theta = (coefficients of mu, log sigma).
STD <- list(
  weibull = list(
    logf = function(z) z - exp(z), dlogf = function(z) 1 - exp(z), logS = function(z) -exp(z),
    h = function(z) exp(z), q = function(p) log(-log1p(-p)),
    # for S(zl) - S(zu): log of it, and the two density terms divided by it
    int = function(zl, zu) {
      d <- exp(zu) - exp(zl); qq <- exp(-d); den <- -expm1(-d)
      list(logD = -exp(zl) + log(den), fl = exp(zl) / den, fu = exp(zu) * qq / den)
    }),
  lognormal = list(
    logf = function(z) dnorm(z, log = TRUE), dlogf = function(z) -z,
    logS = function(z) pnorm(z, lower.tail = FALSE, log.p = TRUE),
    h = function(z) exp(dnorm(z, log = TRUE) - pnorm(z, lower.tail = FALSE, log.p = TRUE)),
    q = function(p) qnorm(p),
    int = function(zl, zu) {
      flip <- (zl + zu) > 0 & is.finite(zl)         # work in the tail where the difference is accurate
      a <- ifelse(flip, -zu, zl); b <- ifelse(flip, -zl, zu)
      la <- pnorm(a, log.p = TRUE); lb <- pnorm(b, log.p = TRUE)
      logD <- lb + log(-expm1(la - lb))
      list(logD = logD, fl = exp(dnorm(zl, log = TRUE) - logD), fu = exp(dnorm(zu, log = TRUE) - logD))
    }))
zmul <- function(z, f) ifelse(f == 0, 0, z * f)

loglik_score <- function(theta, d, X, dist, fixed_sigma = NULL) {
  D <- STD[[dist]]; p <- ncol(X)
  ls <- if (is.null(fixed_sigma)) theta[p + 1] else log(fixed_sigma); sg <- exp(ls)
  mu <- drop(X %*% theta[1:p]); w <- d$count
  z <- function(t) (log(t) - mu) / sg
  n <- nrow(d); ll <- gm <- gs <- numeric(n)
  ex <- !is.na(d$upper) & d$upper == d$lower
  rc <- is.na(d$upper)
  ic <- !ex & !rc
  if (any(ex)) { zz <- z(d$lower)[ex]
    ll[ex] <- D$logf(zz) - ls - log(d$lower[ex]); gm[ex] <- -D$dlogf(zz) / sg; gs[ex] <- -zz * D$dlogf(zz) - 1 }
  if (any(rc)) { zz <- z(d$lower)[rc]; h <- ifelse(zz == -Inf, 0, D$h(zz))
    ll[rc] <- D$logS(zz); gm[rc] <- h / sg; gs[rc] <- zmul(zz, h) }
  if (any(ic)) { zl <- z(d$lower)[ic]; zu <- z(d$upper)[ic]; q <- D$int(zl, zu)
    ll[ic] <- q$logD; gm[ic] <- (q$fl - q$fu) / sg; gs[ic] <- zmul(zl, q$fl) - zmul(zu, q$fu) }
  tr <- d$entry > 0
  if (any(tr)) { zz <- z(d$entry)[tr]; h <- D$h(zz)
    ll[tr] <- ll[tr] - D$logS(zz); gm[tr] <- gm[tr] - h / sg; gs[tr] <- gs[tr] - zz * h }
  g <- drop(crossprod(X, w * gm))
  if (is.null(fixed_sigma)) g <- c(g, sum(w * gs))
  list(value = sum(w * ll), gradient = g)
}
richardson_jacobian <- function(f, x, h0 = 1e-3, levels = 5) {
  sapply(seq_along(x), function(j) {
    T <- list()
    for (k in seq_len(levels)) {
      h <- h0 * max(1, abs(x[j])) / 2^(k - 1); e <- replace(numeric(length(x)), j, h)
      T[[k]] <- (f(x + e) - f(x - e)) / (2 * h)
    }
    for (m in seq_len(levels - 1)) for (k in levels:(m + 1)) T[[k]] <- (4^m * T[[k]] - T[[k - 1]]) / (4^m - 1)
    T[[levels]]
  })
}
# Newton with step halving on the analytic score; the Hessian is a Richardson-extrapolated difference of it
fit_newton <- function(d, X = matrix(1, nrow(d), 1), dist = "weibull", start = NULL, fixed_sigma = NULL) {
  p <- ncol(X)
  if (is.null(start)) {
    m <- log(ifelse(is.na(d$upper), d$lower, ifelse(d$lower > 0, (d$lower + d$upper) / 2, d$upper / 2)))
    start <- qr.coef(qr(X), m); start[1] <- start[1] + 0.5
    if (is.null(fixed_sigma)) start <- c(start, log(max(sd(m), 0.2)))
    # a coarse search first
    f <- function(th) { v <- suppressWarnings(loglik_score(th, d, X, dist, fixed_sigma)$value); if (is.finite(v)) -v else 1e10 }
    start <- if (length(start) > 1) optim(start, f, method = "Nelder-Mead", control = list(maxit = 2000 * length(start)))$par else
      optimize(f, start + c(-6, 6))$minimum
  }
  th <- start
  for (it in 1:200) {
    ls <- loglik_score(th, d, X, dist, fixed_sigma)
    H <- matrix(richardson_jacobian(function(x) loglik_score(x, d, X, dist, fixed_sigma)$gradient, th), length(th))
    H <- (H + t(H)) / 2
    ev <- eigen(H, symmetric = TRUE)
    lam <- ifelse(ev$values < 0, ev$values, -abs(ev$values) - 1e-6)
    step <- -drop(ev$vectors %*% (crossprod(ev$vectors, ls$gradient) / lam))
    a <- 1
    repeat {
      v <- suppressWarnings(loglik_score(th + a * step, d, X, dist, fixed_sigma)$value)
      if (is.finite(v) && v >= ls$value - 1e-9 * abs(ls$value)) break
      a <- a / 2; if (a < 1e-12) break
    }
    th <- th + a * step
    if (max(abs(a * step)) < 1e-13 * max(1, max(abs(th)))) break
  }
  ls <- loglik_score(th, d, X, dist, fixed_sigma)
  H <- matrix(richardson_jacobian(function(x) loglik_score(x, d, X, dist, fixed_sigma)$gradient, th), length(th))
  V <- solve(-(H + t(H)) / 2)
  stopifnot(all(eigen(V, symmetric = TRUE)$values > 0))
  V[abs(V) < 1e-10 * sqrt(outer(diag(V), diag(V)))] <- 0   # an exact zero, up to rounding
  list(theta = unname(th), loglik = ls$value, gradient = ls$gradient, vcov = unname(V), iterations = it)
}
as_surv <- function(d) {
  if (all(is.na(d$upper) | d$upper == d$lower)) return(Surv(d$lower, as.integer(!is.na(d$upper))))
  Surv(ifelse(d$lower == 0, NA, d$lower), d$upper, type = "interval2")
}
TIGHT <- survreg.control(rel.tolerance = 1e-14, maxiter = 200, toler.chol = 1e-12)
fit_survreg <- function(d, X = NULL, dist = "weibull") {
  S <- as_surv(d); w <- d$count
  if (is.null(X)) m <- survreg(S ~ 1, weights = w, dist = dist, control = TIGHT) else
    m <- survreg(S ~ X - 1, weights = w, dist = dist, control = TIGHT)
  list(theta = unname(c(coef(m), if (dist != "exponential") log(m$scale))), loglik = m$loglik[2], vcov = unname(m$var), m = m)
}

# a maximum found from values of the log-likelihood alone: simplex, then Newton on Richardson differences
max_by_values <- function(ll, th, h0 = 1e-2) {
  f <- function(x) { v <- suppressWarnings(ll(x)); if (is.finite(v)) -v else 1e10 }
  for (k in 1:3) th <- optim(th, f, control = list(reltol = 1e-15, maxit = 5000))$par
  g <- function(x) as.numeric(richardson_jacobian(ll, x, h0 = h0, levels = 6))
  for (k in 1:20) {
    H <- matrix(richardson_jacobian(g, th, h0 = h0, levels = 5), length(th)); H <- (H + t(H)) / 2
    st <- solve(H, g(th)); th <- th - st; if (max(abs(st)) < 1e-12 * max(1, abs(th))) break
  }
  list(par = th, value = ll(th), vcov = solve(-H))
}
# --------------------------------------------------------------------------- profile-likelihood limits
profile_limit <- function(d, fit, dist, what, level, arg = NULL) {
  X <- matrix(1, nrow(d), 1); D <- STD[[dist]]
  ll <- function(th) loglik_score(th, d, X, dist)
  cut <- fit$loglik - qchisq(level, 1) / 2
  th0 <- fit$theta
  q <- if (what == "quantile") D$q(arg) else NA
  full <- switch(what,                                   # (psi, nuisance) -> theta, and d theta / d nuisance
    shape    = function(psi, nu) list(th = c(nu, -psi), dth = c(1, 0)),
    scale    = function(psi, nu) list(th = c(psi, nu), dth = c(0, 1)),
    quantile = function(psi, nu) list(th = c(psi - exp(nu) * q, nu), dth = c(-exp(nu) * q, 1)),
    survival = function(psi, nu) list(th = c(log(arg) - psi * exp(nu), nu), dth = c(-psi * exp(nu), 1)))
  psi0 <- switch(what, shape = -th0[2], scale = th0[1], quantile = th0[1] + exp(th0[2]) * q,
                 survival = (log(arg) - th0[1]) / exp(th0[2]))
  nu0 <- if (what == "shape") th0[1] else th0[2]
  inner <- function(psi, nu) {                           # maximise over the nuisance by bracketed search
    f <- function(n) { v <- suppressWarnings(ll(full(psi, n)$th)$value); if (is.finite(v)) v else -1e10 }
    w <- 1; repeat {
      o <- optimize(f, nu + c(-w, w), maximum = TRUE, tol = 1e-10)
      if (abs(o$maximum - nu) < 0.9 * w || w > 60) break
      w <- 2 * w
    }
    list(nu = o$maximum, value = o$objective)
  }
  J <- switch(what, shape = c(0, -1), scale = c(1, 0), quantile = c(1, exp(th0[2]) * q),
              survival = c(-1, -(log(arg) - th0[1])) / exp(th0[2]))
  se <- sqrt(drop(J %*% fit$vcov %*% J))
  lim <- sapply(c(-1, 1), function(sgn) {
    step <- se * qnorm((1 + level) / 2); a <- psi0; nu <- nu0; b <- psi0
    for (k in 1:60) { b <- b + sgn * step / 2; i <- inner(b, nu); nu <- i$nu; if (i$value < cut) break; a <- b
      if (k == 60) return(c(NA, NA)) }
    env <- nu
    r <- uniroot(function(x) { i <- inner(x, env); i$value - cut }, sort(c(a, b)), tol = 1e-10)$root
    coarse <- r; nu <- inner(r, env)$nu
    x <- c(r, nu)                                        # polish: loglik = cut and d loglik / d nuisance = 0
    F <- function(x) { f <- full(x[1], x[2]); l <- ll(f$th); c(l$value - cut, sum(l$gradient * f$dth)) }
    for (k in 1:50) { Jm <- matrix(richardson_jacobian(F, x, h0 = 1e-4, levels = 4), 2)
      st <- solve(Jm, F(x)); x <- x - st; if (max(abs(st)) < 1e-13 * max(1, abs(x))) break }
    c(x[1], coarse)
  })
  tr <- switch(what, shape = exp, scale = exp, quantile = exp, survival = function(z) exp(D$logS(z)))
  v <- tr(lim[1, ]); cv <- tr(lim[2, ])
  if (what == "survival") { v <- rev(v); cv <- rev(cv) }
  if (what == "scale" && dist == "lognormal") { v <- log(v); cv <- log(cv) }
  if (what == "shape" && dist == "lognormal") { v <- rev(1 / v); cv <- rev(1 / cv) }
  list(limits = v, coarse = cv)
}
wald <- function(est, se, level, log = TRUE) {
  z <- qnorm((1 + level) / 2); if (log) est * exp(c(-1, 1) * z * se) else est + c(-1, 1) * z * se
}
information <- function(loglik, k, n, events) list(
  aic = -2 * loglik + 2 * k,
  aicc = if (n > k + 1) -2 * loglik + 2 * k + 2 * k * (k + 1) / (n - k - 1) else NA,
  bic = -2 * loglik + k * log(n),
  bic_with_events = if (events > 0) -2 * loglik + k * log(events) else NA)

# the whole single-group block: Weibull, exponential, lognormal with limits
single_group <- function(d, age0, dists = c("weibull", "exponential", "lognormal"), profile = TRUE) {
  n <- sum(d$count); ev <- sum(d$count[!is.na(d$upper)]); X <- matrix(1, nrow(d), 1)
  truncated <- any(d$entry > 0); diffs <- c(); out <- list(); fits <- list()
  for (dist in intersect(c("weibull", "lognormal"), dists)) {
    f <- fit_newton(d, X, dist); D <- STD[[dist]]
    stopifnot(max(abs(f$gradient)) < 1e-6)
    if (!truncated) {
      s <- fit_survreg(d, dist = dist)
      diffs[paste0(dist, " estimates, loglik")] <- rel_diff(c(exp(f$theta), f$loglik), c(exp(s$theta), s$loglik))
      diffs[paste0(dist, " covariance")] <- max(rel_diff(diag(f$vcov), diag(s$vcov)), abs(cov2cor(f$vcov) - cov2cor(s$vcov)))
    } else {
      o <- max_by_values(function(th) loglik_score(th, d, X, dist)$value, f$theta + c(0.01, -0.05))
      diffs[paste0(dist, " estimates, loglik")] <- rel_diff(c(exp(f$theta), f$loglik), c(exp(o$par), o$value))
      diffs[paste0(dist, " covariance")] <- max(rel_diff(diag(f$vcov), diag(o$vcov)), abs(cov2cor(f$vcov) - cov2cor(o$vcov)))
      if (dist == "weibull") {                          # one-dimensional profile in the shape
        prof <- function(k) { e <- sum(d$count * (ifelse(is.na(d$upper), d$lower, d$upper)^k - d$entry^k)); (e / ev)^(1 / k) }
        if (all(is.na(d$upper) | d$upper == d$lower)) {
          sc <- function(k) loglik_score(c(log(prof(k)), -log(k)), d, X, dist)$gradient[2]
          k0 <- exp(-f$theta[2])
          k <- uniroot(sc, k0 * c(0.7, 1.4), tol = 1e-14)$root
          diffs["weibull by one-dimensional profile"] <- rel_diff(c(exp(f$theta[1]), k0), c(prof(k), k))
        }
      }
    }
    mu <- f$theta[1]; sg <- exp(f$theta[2]); V <- f$vcov; q10 <- D$q(0.1)
    lt10 <- mu + sg * q10; J <- c(1, sg * q10); se10 <- sqrt(drop(J %*% V %*% J))
    z0 <- (log(age0) - mu) / sg; Jz <- c(-1 / sg, -z0); sez <- sqrt(drop(Jz %*% V %*% Jz))
    if (dist == "weibull") {
      A <- diag(c(1, -1)); Vl <- A %*% V %*% A
      b <- list(shape = 1 / sg, scale = exp(mu), log_likelihood = f$loglik, covariance_log_scale_log_shape = Vl)
    } else b <- list(location = mu, spread = sg, log_likelihood = f$loglik, covariance_location_log_spread = V)
    b$quantile_10 <- exp(lt10)
    b$survival <- list(age = age0, estimate = exp(D$logS(z0)))
    nm <- if (dist == "weibull") c("shape", "scale") else c("spread", "location")
    for (lev in c(0.90, 0.95)) {
      w <- list()
      w[[nm[1]]] <- wald(if (dist == "weibull") 1 / sg else sg, sqrt(V[2, 2]), lev)
      w[[nm[2]]] <- if (dist == "weibull") wald(exp(mu), sqrt(V[1, 1]), lev) else wald(mu, sqrt(V[1, 1]), lev, FALSE)
      w$quantile_10 <- wald(exp(lt10), se10, lev)
      w$survival <- rev(exp(D$logS(z0 + c(-1, 1) * qnorm((1 + lev) / 2) * sez)))
      b[[sprintf("wald_%.0f", 100 * lev)]] <- w
    }
    if (profile) for (lev in c(0.90, 0.95)) {
      p1 <- profile_limit(d, f, dist, "shape", lev); p2 <- profile_limit(d, f, dist, "scale", lev)
      p3 <- profile_limit(d, f, dist, "quantile", lev, 0.1); p4 <- profile_limit(d, f, dist, "survival", lev, age0)
      w <- list(); w[[nm[1]]] <- p1$limits; w[[nm[2]]] <- p2$limits
      w$quantile_10 <- p3$limits; w$survival <- p4$limits
      b[[sprintf("profile_%.0f", 100 * lev)]] <- w
      diffs[paste0(dist, " profile ", lev)] <- rel_diff(list(p1$limits, p2$limits, p3$limits, p4$limits),
                                                        list(p1$coarse, p2$coarse, p3$coarse, p4$coarse))
    }
    out[[dist]] <- c(b, information(f$loglik, 2, n, ev)); fits[[dist]] <- f
  }
  if ("exponential" %in% dists) {
    f <- fit_newton(d, X, "weibull", fixed_sigma = 1)
    if (all(is.na(d$upper) | d$upper == d$lower)) {
      e <- sum(d$count * (d$lower - d$entry)) / ev
      diffs["exponential closed form"] <- rel_diff(c(exp(f$theta), f$loglik, f$vcov), c(e, -ev * log(e) - ev, 1 / ev))
    } else {                                             # one parameter: bracketed search on the value alone
      v <- function(m) loglik_score(m, d, X, "weibull", 1)$value
      o <- optimize(v, f$theta + c(-2, 2), maximum = TRUE, tol = 1e-12)
      h2 <- -1 / as.numeric(richardson_jacobian(function(x) as.numeric(richardson_jacobian(v, x, h0 = 1e-2)), f$theta, h0 = 1e-2))
      diffs["exponential"] <- rel_diff(c(exp(f$theta), f$loglik, f$vcov), c(exp(o$maximum), o$objective, h2))
    }
    se <- sqrt(drop(f$vcov)); sc <- exp(f$theta)
    out$exponential <- c(list(scale = sc, log_likelihood = f$loglik, variance_log_scale = drop(f$vcov),
      quantile_10 = -log(0.9) * sc, wald_90 = list(scale = wald(sc, se, 0.90)), wald_95 = list(scale = wald(sc, se, 0.95))),
      information(f$loglik, 1, n, ev))
    if (!is.null(out$weibull)) {
      lr <- 2 * (out$weibull$log_likelihood - f$loglik)
      out$exponential_inside_weibull <- list(statistic = lr, df = 1, p = pchisq(lr, 1, lower.tail = FALSE))
    }
    out <- out[intersect(c("weibull", "exponential", "lognormal", "exponential_inside_weibull"), names(out))]
  }
  list(expected = out, diff = diffs, n = n, events = ev, fits = fits)
}

# --------------------------------------------------------------------------------- non-parametric
product_limit_own <- function(entry, time, status) {
  tt <- sort(unique(time[status == 1]))
  r <- sapply(tt, function(t) sum(entry < t & time >= t)); e <- sapply(tt, function(t) sum(time == t & status == 1))
  S <- cumprod(1 - e / r); g <- cumsum(e / (r * (r - e))); H <- cumsum(e / r)
  list(time = tt, at_risk = r, events = e, survival = S, std_error = S * sqrt(g), H = H, Hse = sqrt(cumsum(e / r^2)), g = g)
}
product_limit <- function(entry, time, status) {
  o <- product_limit_own(entry, time, status)
  S <- if (any(entry > 0)) Surv(entry, time, status) else Surv(time, status)
  f95 <- survfit(S ~ 1, conf.type = "log-log", conf.int = 0.95); f90 <- survfit(S ~ 1, conf.type = "log-log", conf.int = 0.90)
  k <- f95$n.event > 0; sm <- summary(f95, censored = TRUE)
  se <- f95$surv[k] * f95$std.err[k]
  pos <- f95$surv[k] > 1e-12
  clean <- function(x) ifelse(pos & f95$surv[k] < 1 & is.finite(x), x, NA)
  ok <- o$survival > 1e-12
  dif <- max(rel_diff(o$time, f95$time[k]), rel_diff(o$at_risk, f95$n.risk[k]), rel_diff(o$events, f95$n.event[k]),
             rel_diff(o$survival[ok], f95$surv[k][ok]), rel_diff(o$std_error[ok], se[ok]),
             rel_diff(o$H, f95$cumhaz[k]), rel_diff(o$Hse, f95$std.chaz[k]),
             rel_diff(o$survival[ok]^exp(qnorm(0.975) * sqrt(o$g[ok]) / abs(log(o$survival[ok]))), f95$lower[k][ok]))
  list(expected = list(age = f95$time[k], at_risk = f95$n.risk[k], events = f95$n.event[k],
      survival = ifelse(pos, f95$surv[k], 0), std_error = clean(se),
      lower_90 = clean(f90$lower[k]), upper_90 = clean(f90$upper[k]),
      lower_95 = clean(f95$lower[k]), upper_95 = clean(f95$upper[k]),
      cumulative_hazard = f95$cumhaz[k], cumulative_hazard_std_error = f95$std.chaz[k]), diff = dif)
}
# Turnbull: masses on the maximal intersections of the sets {t} and (l, u]; EM to convergence, then Newton
# on the positive masses; the Kuhn-Tucker conditions are verified
turnbull <- function(d) {
  w <- d$count; ex <- !is.na(d$upper) & d$lower == d$upper
  l <- d$lower; u <- ifelse(is.na(d$upper), Inf, d$upper)
  ends <- rbind(data.frame(v = l, o = ifelse(ex, 0, 2), left = TRUE), data.frame(v = u, o = 1, left = FALSE))
  ends <- ends[order(ends$v, ends$o), ]
  k <- which(ends$left[-nrow(ends)] & !ends$left[-1])
  from <- ends$v[k]; to <- ends$v[k + 1]; point <- ends$o[k] == 0
  dup <- duplicated(cbind(from, to)); from <- from[!dup]; to <- to[!dup]; point <- point[!dup]
  A <- outer(seq_along(l), seq_along(from), Vectorize(function(i, j)
    if (ex[i]) point[j] && from[j] == l[i] else if (point[j]) from[j] > l[i] && from[j] <= u[i] else from[j] >= l[i] && to[j] <= u[i])) * 1
  N <- sum(w); p <- rep(1 / length(from), length(from))
  for (it in 1:200000) { m <- drop(A %*% p); g <- drop(crossprod(A, w / m)) / N; pn <- p * g
    if (max(abs(pn - p)) < 1e-13) { p <- pn; break }; p <- pn }
  em <- p
  act <- p > 1e-7
  for (rep in 1:50) {                                    # Newton on the active masses, sum fixed at one
    Aa <- A[, act, drop = FALSE]; pa <- p[act] / sum(p[act])
    for (it in 1:100) { m <- drop(Aa %*% pa); g <- drop(crossprod(Aa, w / m)); H <- -crossprod(Aa * sqrt(w) / m)
      ka <- length(pa); K <- rbind(cbind(H, 1), c(rep(1, ka), 0))
      if (rcond(K) < 1e-14) break
      st <- solve(K, c(-g, 0))[1:ka]; a <- 1; while (any(pa + a * st < 0)) a <- a / 2
      pa <- pa + a * st; if (max(abs(st)) < 1e-15) break }
    p <- numeric(length(act)); p[act] <- pa; p[p < 1e-12] <- 0
    g <- drop(crossprod(A, w / drop(A %*% p))) / N
    if (all(g <= 1 + 1e-8)) break
    act <- p > 0 | g > 1 + 1e-8
    p <- (p + 1e-6 * act) / sum(p + 1e-6 * act)
  }
  keep <- p > 1e-10
  ll <- sum(w * log(drop(A %*% p)))
  uniq <- qr(unique(A[, keep, drop = FALSE]))$rank == sum(keep)
  list(from = from[keep], to = to[keep], point = point[keep], mass = p[keep], loglik = ll, kkt = max(g) - 1, em = em[keep],
       unique = uniq, surv = function(t) sum(p[to > t]))
}

# -------------------------------------------------------------------------------------- ranks
median_rank <- function(i, n) qbeta(0.5, i, n - i + 1)
benard <- function(i, n) (i - 0.3) / (n + 0.4)
johnson_ranks <- function(time, status) {
  o <- order(time, -status); time <- time[o]; status <- status[o]; n <- length(time); prev <- 0; out <- NULL
  for (k in seq_len(n)) if (status[k] == 1) {
    inc <- (n + 1 - prev) / (1 + (n - k + 1)); prev <- prev + inc
    out <- rbind(out, data.frame(age = time[k], order = k, increment = inc, adjusted_rank = prev))
  }
  out$median_rank_exact <- median_rank(out$adjusted_rank, n); out$median_rank_benard <- benard(out$adjusted_rank, n)
  out
}

# -------------------------------------------------------------------------------------- log-rank
logrank_own <- function(time, status, g, stratum = rep(1, length(time))) {
  g <- factor(g); K <- nlevels(g); O <- E <- numeric(K); V <- matrix(0, K, K)
  for (s in unique(stratum)) { k <- stratum == s
    for (t in sort(unique(time[k & status == 1]))) {
      r <- sapply(levels(g), function(l) sum(k & g == l & time >= t)); dd <- sapply(levels(g), function(l) sum(k & g == l & time == t & status == 1))
      n <- sum(r); e <- sum(dd); O <- O + dd; E <- E + e * r / n
      if (n > 1) V <- V + e * (n - e) / (n - 1) * (diag(r / n, K) - outer(r, r) / n^2)
    } }
  u <- (O - E)[-1]; st <- drop(u %*% solve(V[-1, -1, drop = FALSE], u))
  list(observed = unname(O), expected = unname(E), variance = unname(V), statistic = st, df = K - 1, p = pchisq(st, K - 1, lower.tail = FALSE))
}

# ----------------------------------------------------------------------------- recurrent events
# events: unit, age, event (1 = event, 0 = end of observation, one such row for each unit)
mcf_own <- function(ev) {
  units <- unique(ev$unit); end <- sapply(units, function(u) ev$age[ev$unit == u & ev$event == 0])
  tt <- sort(unique(ev$age[ev$event == 1]))
  N <- sapply(tt, function(t) sapply(units, function(u) sum(ev$unit == u & ev$event == 1 & ev$age == t)))
  Y <- outer(end, tt, ">=") * 1; N <- matrix(N, length(units))
  Yt <- colSums(Y); dM <- colSums(N) / Yt; M <- cumsum(dM)
  infl <- t(apply(Y * sweep(N, 2, dM, "-"), 1, function(r) cumsum(r / Yt)))
  list(age = tt, at_risk = Yt, events = colSums(N), mcf = M, robust_var = colSums(infl^2), poisson_var = cumsum(colSums(N) / Yt^2))
}
trend_tests <- function(age, end, trunc) {
  # one system; age = event ages in order
  n <- length(age)
  if (trunc == "failure") { T <- age[n]; a <- age[-n] } else { T <- end; a <- age }
  m <- length(a)
  U <- (mean(a) - T / 2) / (T * sqrt(1 / (12 * m)))
  X <- 2 * sum(log(T / a)); df <- 2 * m
  beta <- n / sum(log(T / a)); lam <- n / T^beta
  ll <- n * log(lam) + n * log(beta) + (beta - 1) * sum(log(age)) - lam * T^beta
  cl <- function(level) beta * qchisq((1 + c(-1, 1) * level) / 2, df) / (2 * n)
  list(laplace = list(statistic = U, p = 2 * pnorm(-abs(U))),
       mil_hdbk_189 = list(statistic = X, df = df, p = 2 * min(pchisq(X, df), pchisq(X, df, lower.tail = FALSE))),
       power_law = list(truncation = trunc, total_time = T, events = n, shape = beta, intensity_coefficient = lam,
         scale = lam^(-1 / beta), log_likelihood = ll, shape_bias_corrected = if (trunc == "time") (n - 1) / n * beta else (n - 2) / n * beta,
         intensity_at_end = lam * beta * T^(beta - 1), shape_chisq_90 = cl(0.90), shape_chisq_95 = cl(0.95)))
}
power_law_ll <- function(th, age, ends) {                # k systems observed over (0, end]; th = log shape, log scale
  b <- exp(th[1]); n <- length(age)
  n * log(b) - n * b * th[2] + (b - 1) * sum(log(age)) - sum(exp(b * (log(ends) - th[2])))
}
power_law_max <- function(th, age, ends) max_by_values(function(x) power_law_ll(x, age, ends), th)
trend_tests_multi <- function(ev) {                      # time-truncated systems, each with its own end
  end <- tapply(ev$age[ev$event == 0], ev$unit[ev$event == 0], function(x) x); e <- ev[ev$event == 1, ]
  Te <- end[as.character(e$unit)]; n <- nrow(e)
  U <- (sum(e$age) - sum(Te) / 2) / sqrt(sum(Te^2) / 12)
  X <- 2 * sum(log(Te / e$age)); df <- 2 * n
  sc <- function(b) n / b + sum(log(e$age)) - n * sum(end^b * log(end)) / sum(end^b)
  b <- uniroot(sc, c(0.05, 20), tol = 1e-14)$root; l <- n / sum(end^b)
  th <- c(log(b), log(l))
  H <- matrix(richardson_jacobian(function(x) { b <- exp(x[1]); l <- exp(x[2])
    c(n + b * sum(log(e$age)) - l * b * sum(end^b * log(end)), n - l * sum(end^b)) }, th), 2)
  V <- solve(-(H + t(H)) / 2)
  A <- rbind(c(log(l) / b, -1 / b), c(1, 0))             # log scale = -log(lambda)/beta, log shape
  Vs <- A %*% V %*% t(A)
  ll <- power_law_ll(c(log(b), -log(l) / b), e$age, end)
  o <- power_law_max(c(log(b), -log(l) / b) + c(0.1, -0.1), e$age, end)
  lr <- 2 * (ll - (n * log(n / sum(end)) - n))
  list(expected = list(units = length(end), events = n, total_time = sum(end),
      laplace = list(statistic = U, p = 2 * pnorm(-abs(U))),
      mil_hdbk_189 = list(statistic = X, df = df, p = 2 * min(pchisq(X, df), pchisq(X, df, lower.tail = FALSE))),
      power_law = list(truncation = "time", shape = b, intensity_coefficient = l, scale = exp(-log(l) / b), log_likelihood = ll,
        covariance_log_scale_log_shape = Vs, shape_wald_90 = wald(b, sqrt(Vs[2, 2]), 0.90), shape_wald_95 = wald(b, sqrt(Vs[2, 2]), 0.95)),
      constant_rate_inside_power_law = list(statistic = lr, df = 1, p = pchisq(lr, 1, lower.tail = FALSE))),
    diff = rel_diff(c(b, exp(-log(l) / b), ll), c(exp(o$par), o$value)))
}

# ------------------------------------------------------------- renewal function of a Weibull (scale 1)
# Smith & Leadbetter (1963) power series in x = t^shape. Coefficients a_k = A_k / Gamma(1 + k shape) by
# a recursion in which only ratios of gamma functions occur.
renewal_series <- function(t, shape, K = 120) {
  lg <- lgamma(1 + shape * (1:K)); a <- numeric(K); a[1] <- 1
  for (k in 2:K) { j <- 1:(k - 1)
    a[k] <- exp(-lfactorial(k)) - sum(exp(lg[j] + lg[k - j] - lg[k] - lfactorial(j)) * a[k - j]) }
  k <- 1:K
  sapply(t, function(tt) sum((-1)^(k - 1) * sign(a) * exp(log(abs(a)) + shape * k * log(tt))))
}
# Volterra equation M = F + M * dF on an equal grid, product trapezoid, second order; n steps to t
renewal_grid <- function(t, shape, n) {
  F <- pweibull(t * (0:n) / n, shape); dF <- diff(F); M <- numeric(n + 1)
  for (i in 1:n) {
    jj <- seq_len(i)                                     # the term j = 1 contains M[i] itself
    a <- M[i - jj + 1]; b <- M[i - jj + 2]; b[1] <- 0
    M[i + 1] <- (F[i + 1] + sum((a + b) / 2 * dF[jj])) / (1 - dF[1] / 2)
  }
  M
}
renewal_richardson <- function(t, shape, n = 1000, levels = 3) {
  v <- sapply(0:(levels - 1), function(k) tail(renewal_grid(t, shape, n * 2^k), 1))
  # even powers of the step; the last column is the extrapolated value
  T <- v; for (m in 1:(levels - 1)) T <- (4^m * T[-1] - T[-length(T)]) / (4^m - 1)
  list(value = T, raw = v)
}
# P(N(t) >= k) by repeated convolution on an equal grid (second order; the check on the spectral values)
renewal_tail_grid <- function(t, shape, n, kmax) {
  F <- pweibull(t * (0:n) / n, shape); dF <- diff(F); G <- F; out <- G[n + 1]
  for (k in seq_len(kmax - 1)) {
    mid <- (G[-1] + G[-(n + 1)]) / 2
    G <- c(0, sapply(1:n, function(i) sum(mid[i:1] * dF[1:i]))); out <- c(out, G[n + 1])
  }
  out
}
# Spectral solution. In x = t^shape, the renewal function and every k-fold distribution are entire
# functions, so interpolation at Chebyshev points in x converges geometrically; the convolution
# integrals have algebraic end points and are done by the tanh-sinh rule.
renewal_spectral <- function(tmax, shape, N = 60) {
  xm <- tmax^shape
  x <- xm * (1 - cos(pi * (0:N) / N)) / 2
  bw <- (-1)^(0:N) * c(0.5, rep(1, N - 1), 0.5)
  lag <- function(xq) {                                  # rows: query points; columns: Lagrange basis
    D <- outer(xq, x, "-"); hit <- which(abs(D) < 1e-300, arr.ind = TRUE)
    W <- sweep(1 / D, 2, bw, "*"); L <- W / rowSums(W)
    if (nrow(hit)) for (r in seq_len(nrow(hit))) { L[hit[r, 1], ] <- 0; L[hit[r, 1], hit[r, 2]] <- 1 }
    L
  }
  s <- seq(-4.2, 4.2, length.out = 701); ds <- s[2] - s[1]
  v <- 1 / (1 + exp(-pi * sinh(s))); v1 <- 1 / (1 + exp(pi * sinh(s))); wt <- ds * pi * cosh(s) * v * v1
  K <- matrix(0, N + 1, N + 1)
  for (m in 2:(N + 1)) { t <- x[m]^(1 / shape)
    K[m, ] <- colSums(t * wt * dweibull(t * v, shape) * lag((t * v1)^shape)) }
  F <- pweibull(x^(1 / shape), shape)
  M <- solve(diag(N + 1) - K, F)
  list(at = function(t) drop(lag(t^shape) %*% M), K = K, F = F, lag = lag, shape = shape,
       tail_at = function(t, kmax) { G <- F; out <- numeric(kmax); L <- lag(t^shape)
         for (k in 1:kmax) { out[k] <- drop(L %*% G); G <- drop(K %*% G) }; out })
}

# ================================================================================== case builders
NEWTON <- "Newton's method on the analytic score of the log-likelihood, with a Richardson-extrapolated Hessian, in plain R"
counts_of <- function(d) list(n = sum(d$count), ev = sum(d$count[!is.na(d$upper)]))

add_fit <- function(topic, name, d, dataset, source, data, filter, r_call, age0, note = NULL, tolerance = 1e-6,
                    dists = c("weibull", "exponential", "lognormal"), profile = TRUE, extra = NULL, drop_covariance = FALSE) {
  g <- single_group(d, age0, dists, profile)
  if (drop_covariance) {                                 # covariances and what follows from them
    g$expected$weibull[c("covariance_log_scale_log_shape", "wald_90", "wald_95")] <- NULL
    g$expected$lognormal[c("covariance_location_log_spread", "wald_90", "wald_95")] <- NULL
    g$diff <- g$diff[!grepl("covariance", names(g$diff))]
  }
  for (k in names(extra)) g$expected$weibull[[k]] <- extra[[k]]
  truncated <- any(d$entry > 0)
  case(topic, name, dataset, source, data, filter, r_call,
    method = if (truncated) "maximum likelihood with delayed entry: each log-likelihood term minus log S(entry)" else
      "maximum likelihood; covariance = inverse observed information; profile limits where twice the drop in log-likelihood is the chi-square(1) quantile",
    second_route = if (truncated) paste0("primary: ", NEWTON, "; second: simplex and then Newton on differences of the log-likelihood values alone (covariance too), and for exact and right-censored data a one-dimensional root of the profile score in the shape; profile limits: Newton on two equations against nested optimize() and uniroot()") else
      paste0("survreg (rel.tolerance 1e-14) against ", NEWTON, "; profile limits: Newton on two equations against nested optimize() and uniroot()"),
    diff = g$diff, n = g$n, n_events = g$events, expected = g$expected, tolerance = tolerance, note = note)
  invisible(g)
}
add_km <- function(topic, name, entry, time, status, dataset, source, data, filter, r_call, note = NULL) {
  k <- product_limit(entry, time, status)
  case(topic, name, dataset, source, data, filter, r_call,
    method = "Kaplan-Meier at the event ages; std_error is Greenwood's, of the survival itself; limits on the log(-log S) scale; cumulative hazard is Nelson-Aalen (sum d/n) with variance sum d/n^2",
    second_route = "the textbook sums written out in plain R", diff = k$diff, n = length(time), n_events = sum(status),
    expected = k$expected, tolerance = 1e-9, absolute_tolerance = 1e-12, note = note)
}
add_turnbull <- function(topic, name, d, dataset, source, data, filter, r_call, extra = NULL, note = NULL) {
  t <- turnbull(d); cc <- counts_of(d)
  stopifnot(abs(t$kkt) < 1e-7)
  sf <- survfit(as_surv(d) ~ 1, weights = d$count)
  # survfit's curve at the ends of the intervals (it stops at a change of 5e-5)
  fin <- is.finite(t$to)
  sv <- sapply(t$to[fin], function(x) { k <- which(sf$time <= x + 1e-9); if (length(k)) sf$surv[max(k)] else 1 })
  d_sf <- max(abs(sv - sapply(t$to[fin], t$surv)))
  ex <- list(intervals = lapply(seq_along(t$from), function(i) list(from = t$from[i], to = t$to[i], mass = t$mass[i])),
    survival_after = I(sapply(t$to[fin], t$surv)), log_likelihood = t$loglik, masses_unique = t$unique)
  dd <- c(kkt = abs(t$kkt), em = max(abs(t$em - t$mass)))
  if (!is.null(extra)) dd <- c(dd, extra = extra(t))
  case(topic, name, dataset, source, data, filter, r_call,
    method = "non-parametric maximum likelihood (Turnbull) on the maximal intersections of the sets (lower, upper] and {t}: EM to a change below 1e-13, then Newton on the positive masses; the Kuhn-Tucker conditions hold to 1e-7; 'to' null is infinity, 'from' = 'to' is a point mass",
    second_route = paste0("EM against Newton, Kuhn-Tucker conditions", if (!is.null(extra)) ", and a closed form or pool-adjacent-violators",
      "; survfit(type = \"interval2\") agrees to its own stopping rule only (largest difference in survival here below ", format(bound10(d_sf)), "), so its figures are not the reference"),
    diff = dd, n = cc$n, n_events = cc$ev, expected = ex, tolerance = 1e-6, absolute_tolerance = 1e-7, note = note)
}
add_johnson <- function(topic, name, time, status, dataset, source, data, filter, note = NULL) {
  j <- johnson_ranks(time, status); n <- length(time)
  # second route: the product form. 1 - rank/(n+1) falls by the factor (n-k+1)/(n-k+2) at the k-th ordered unit if it failed
  o <- order(time, -status); st <- status[o]; k <- which(st == 1)
  r2 <- (n + 1) * (1 - cumprod(ifelse(st == 1, (n - seq_len(n) + 1) / (n - seq_len(n) + 2), 1)))[k]
  m2 <- sapply(j$adjusted_rank, function(i) uniroot(function(p) pbeta(p, i, n - i + 1) - 0.5, c(1e-12, 1 - 1e-12), tol = 1e-15)$root)
  case(topic, name, dataset, source, data, filter,
    "o <- order(time, -status); increment = (n + 1 - previous_rank) / (1 + number at or after this unit in that order); median rank = qbeta(0.5, rank, n - rank + 1)",
    method = "Johnson's adjusted ranks (textbook formula in plain R); at equal ages failures come before suspensions; one row for each failure, ties kept as separate consecutive failures",
    second_route = "the product form rank = (n + 1) (1 - prod (n - k + 1)/(n - k + 2)), and the beta quantile by root finding on pbeta",
    diff = c(rel_diff(j$adjusted_rank, r2), rel_diff(j$median_rank_exact, m2)), n = n, n_events = sum(status),
    expected = as.list(j), tolerance = 1e-9, note = note)
}
rename_terms <- function(mm, df, f) {
  nm <- colnames(mm); nm[nm == "(Intercept)"] <- "intercept"
  for (v in all.vars(f)) if (is.factor(df[[v]]) || is.character(df[[v]])) nm <- sub(paste0("^", v, "(?=[^=])"), paste0(v, "="), nm, perl = TRUE)
  nm
}
glm_profile <- function(d, X, k_range) {                 # Weibull with delayed entry as a Poisson model at fixed shape
  y <- as.integer(!is.na(d$upper))
  at <- function(k) { off <- log(d$lower^k - d$entry^k)
    m <- glm.fit(X, y, offset = off, family = poisson(), control = glm.control(epsilon = 1e-15, maxit = 100))
    mu <- m$fitted.values
    list(ll = sum(d$count * (y * log(mu) - mu)) - sum(y * off) + sum(y * (log(k) + (k - 1) * log(d$lower))), g = m$coefficients) }
  d1 <- function(k) richardson_jacobian(function(x) at(x)$ll, k, h0 = 1e-2, levels = 5)
  k <- uniroot(function(k) as.numeric(d1(k)), k_range, tol = 1e-13)$root
  a <- at(k); list(shape = k, loglik = a$ll, aft = -a$g / k)
}
add_regression <- function(topic, name, d, f, dataset, source, data, filter, r_call, note = NULL, tolerance = 1e-6, units = NULL) {
  mm <- model.matrix(f, d); asg <- attr(mm, "assign"); labs <- attr(terms(f), "term.labels"); nm <- rename_terms(mm, d, f)
  X <- matrix(mm, nrow(mm)); p <- ncol(X); truncated <- any(d$entry > 0); cc <- counts_of(d)
  sc <- apply(X, 2, function(x) max(abs(x)))              # columns to unit size while fitting
  Xs <- sweep(X, 2, sc, "/"); back <- diag(c(1 / sc, 1))
  fit1 <- function(cols) { ff <- fit_newton(d, Xs[, cols, drop = FALSE], "weibull"); B <- diag(c(1 / sc[cols], 1)); ff$theta <- drop(B %*% ff$theta); ff$vcov <- B %*% ff$vcov %*% B; ff }
  full <- fit1(1:p); null <- fit1(1)
  stopifnot(max(abs(full$gradient)) < 1e-6)
  dif <- c()
  if (!truncated) {
    s <- fit_survreg(d, X); s0 <- fit_survreg(d, X[, 1, drop = FALSE])
    dif <- c(est = rel_diff(full$theta, s$theta), ll = rel_diff(c(full$loglik, null$loglik), c(s$loglik, s0$loglik)),
             se = rel_diff(sqrt(diag(full$vcov)), sqrt(diag(s$vcov))),
             cov = max(abs(cov2cor(full$vcov) - cov2cor(s$vcov))))
  } else {
    k0 <- exp(-full$theta[p + 1]); gp <- glm_profile(d, X, k0 * c(0.8, 1.25))
    dif <- c(est = rel_diff(c(full$theta[1:p], k0), c(gp$aft, gp$shape)), ll = rel_diff(full$loglik, gp$loglik))
  }
  se <- sqrt(diag(full$vcov)); shape <- exp(-full$theta[p + 1]); z <- full$theta[1:p] / se[1:p]
  zz <- qnorm(c(0.95, 0.975))
  coefs <- lapply(1:p, function(i) list(term = nm[i], estimate = full$theta[i], std_error = se[i],
    lower_90 = full$theta[i] - zz[1] * se[i], upper_90 = full$theta[i] + zz[1] * se[i],
    lower_95 = full$theta[i] - zz[2] * se[i], upper_95 = full$theta[i] + zz[2] * se[i],
    z = z[i], p = 2 * pnorm(-abs(z[i])), life_ratio = if (i > 1) exp(full$theta[i]) else NA, hazard_ratio = if (i > 1) exp(-shape * full$theta[i]) else NA))
  tests <- lapply(seq_along(labs), function(k) { cols <- which(asg != k); r <- fit1(cols); st <- 2 * (full$loglik - r$loglik); df <- p - length(cols)
    list(term = labs[k], statistic = st, df = df, p = pchisq(st, df, lower.tail = FALSE)) })
  hp <- p.adjust(sapply(tests, function(t) t$p), "holm"); for (k in seq_along(tests)) tests[[k]]$p_holm <- hp[k]
  lr <- 2 * (full$loglik - null$loglik)
  S <- diag(c(rep(1, p), -1)); V <- S %*% full$vcov %*% S
  ex <- list(coefficients = coefs, shape = shape, shape_wald_90 = wald(shape, se[p + 1], 0.90), shape_wald_95 = wald(shape, se[p + 1], 0.95),
    log_likelihood = full$loglik, null_log_likelihood = null$loglik,
    likelihood_ratio = list(statistic = lr, df = p - 1, p = pchisq(lr, p - 1, lower.tail = FALSE)), term_tests = tests,
    covariance_order = c(nm, "log_shape"), covariance = V)
  ex <- c(ex, information(full$loglik, p + 1, cc$n, cc$ev)[c("aic", "aicc", "bic")])
  if (!is.null(units)) ex <- c(list(units = units, spans = nrow(d)), ex)
  case(topic, name, dataset, source, data, filter, r_call,
    method = if (truncated) "Weibull regression, log scale = x'gamma, one shape; every span adds its log-likelihood minus log S(start of the span)" else
      "Weibull regression (accelerated failure time): log scale = x'gamma, one shape; treatment contrasts against the first level in sorted order",
    second_route = if (truncated) paste0("primary: ", NEWTON, "; second: at a fixed shape the model is a Poisson regression with offset log(stop^shape - start^shape) (glm), maximised over the shape") else paste("survreg against", NEWTON),
    diff = dif, n = cc$n, n_events = cc$ev, expected = ex, tolerance = tolerance, note = note, columns = list(covariates = I(labs)))
}
add_common_shape <- function(topic, name, d, group, dataset, source, data, filter, r_call, note = NULL) {
  g <- factor(d[[group]]); sep <- lapply(levels(g), function(l) fit_newton(d[g == l, ]))
  X <- matrix(model.matrix(~ g), nrow(d)); red <- fit_newton(d, X)
  lls <- sum(sapply(sep, function(s) s$loglik)); st <- 2 * (lls - red$loglik); df <- nlevels(g) - 1
  S <- as_surv(d); w <- d$count
  m1 <- survreg(S ~ g + strata(g), weights = w, control = TIGHT); m0 <- survreg(S ~ g, weights = w, control = TIGHT)
  cc <- counts_of(d)
  case(topic, name, dataset, source, data, filter, r_call,
    method = "likelihood-ratio test of one common Weibull shape against a shape for each group (scales free in both)",
    second_route = "sum of separate Newton fits, and a Newton fit with group scales, against survreg with and without strata()",
    diff = rel_diff(c(lls, red$loglik, st), c(m1$loglik[2], m0$loglik[2], 2 * (m1$loglik[2] - m0$loglik[2]))), n = cc$n, n_events = cc$ev,
    expected = list(groups = levels(g), separate_shapes = sapply(sep, function(s) exp(-s$theta[2])), common_shape = exp(-red$theta[length(red$theta)]),
      log_likelihood_separate = lls, log_likelihood_common = red$loglik, statistic = st, df = df, p = pchisq(st, df, lower.tail = FALSE)), note = note, columns = list(group_column = group))
}
add_logrank <- function(topic, name, time, status, group, stratum = NULL, dataset, source, data, filter, r_call, note = NULL, columns) {
  group <- factor(group)
  s <- if (is.null(stratum)) survdiff(Surv(time, status) ~ group) else survdiff(Surv(time, status) ~ group + strata(stratum))
  o <- logrank_own(time, status, group, if (is.null(stratum)) rep(1, length(time)) else stratum)
  O <- if (is.matrix(s$obs)) rowSums(s$obs) else s$obs; E <- if (is.matrix(s$exp)) rowSums(s$exp) else s$exp
  df <- length(O) - 1
  cx <- coxph(if (is.null(stratum)) Surv(time, status) ~ group else Surv(time, status) ~ group + strata(stratum), ties = "exact", control = coxph.control(iter.max = 0, timefix = FALSE), init = rep(0, df))
  case(topic, name, dataset, source, data, filter, r_call,
    method = "log-rank test with the hypergeometric variance; strata summed before the quadratic form; order of groups as in 'groups'",
    second_route = "observed, expected and variance summed in plain R; statistic also equal to the score test of coxph(ties = \"exact\") at zero",
    diff = c(rel_diff(o$observed, unname(O)), rel_diff(o$expected, unname(E)), rel_diff(o$statistic, s$chisq), max(abs(o$variance - s$var)), rel_diff(s$chisq, cx$score)),
    n = length(time), n_events = sum(status), expected = list(groups = levels(group), observed = unname(O), expected = unname(E),
      variance = unname(s$var), statistic = unname(s$chisq), df = df, p = pchisq(unname(s$chisq), df, lower.tail = FALSE)), tolerance = 1e-8, absolute_tolerance = 1e-10, note = note,
    columns = setNames(as.list(columns), c("group_column", "strata_column")[seq_along(columns)]))
}
counting_rows <- function(ev, jitter = 1e-4) {           # start, stop, status rows; equal event ages in one unit a hair apart
  do.call(rbind, lapply(unique(ev$unit), function(u) {
    a <- sort(ev$age[ev$unit == u & ev$event == 1]); end <- ev$age[ev$unit == u & ev$event == 0]
    if (length(a)) for (k in length(a):1) { later <- sum(a[-seq_len(k)] == a[k]); if (later) a[k] <- a[k] - jitter * later }
    st <- c(a, if (!length(a) || end > a[length(a)]) end); s <- c(rep(1, length(a)), if (!length(a) || end > a[length(a)]) 0)
    data.frame(id = u, start = c(0, st[-length(st)]), stop = st, status = s) }))
}
mcf_block <- function(ev) {
  m <- mcf_own(ev); se <- sqrt(m$robust_var); z <- qnorm(c(0.95, 0.975)); r <- counting_rows(ev)
  sf <- survfit(Surv(start, stop, status) ~ 1, data = r, id = id, cluster = id, robust = TRUE, timefix = FALSE)
  k <- sapply(m$age, function(t) max(which(sf$time <= t + 1e-9)))
  list(expected = list(age = m$age, at_risk = m$at_risk, events = m$events, mean = m$mcf, std_error = se,
      lower_90 = m$mcf * exp(-z[1] * se / m$mcf), upper_90 = m$mcf * exp(z[1] * se / m$mcf),
      lower_95 = m$mcf * exp(-z[2] * se / m$mcf), upper_95 = m$mcf * exp(z[2] * se / m$mcf),
      lower_95_plain = m$mcf - z[2] * se, upper_95_plain = m$mcf + z[2] * se, poisson_std_error = sqrt(m$poisson_var)),
    diff = c(rel_diff(m$mcf, sf$cumhaz[k]), rel_diff(se, sf$std.chaz[k])), raw = m)
}
MCF_METHOD <- "mean cumulative function: sum over event ages of (events)/(units at risk); a unit is at risk up to and including its own last age. std_error is the robust (Lawless-Nadeau) one: variance = sum over units of [sum over ages (own events - increment)/(units at risk)]^2, which is the infinitesimal-jackknife variance survfit gives with id and cluster, and the counterpart of Nelson's (1995) variance with divisor n^2 in place of n(n-1). lower/upper use the log scale, lower_95_plain/upper_95_plain do not. poisson_std_error (sum of d/n^2) assumes independent increments: it is given only so that the two can be told apart"
add_mcf <- function(topic, name, ev, dataset, source, data, filter, r_call, note = NULL) {
  b <- mcf_block(ev)
  case(topic, name, dataset, source, data, filter, r_call, MCF_METHOD, "the sums in plain R against survfit(id =, cluster =) (equal ages in one unit set 1e-4 apart for survfit)",
    diff = b$diff, n = length(unique(ev$unit)), n_events = sum(ev$event), expected = b$expected, tolerance = 1e-8, absolute_tolerance = 1e-10, note = note)
}
add_mcf_difference <- function(topic, name, ev, group, ages, dataset, source, data, r_call, note = NULL) {
  lv <- sort(unique(as.character(group))); A <- mcf_block(ev[group == lv[1], ]); B <- mcf_block(ev[group == lv[2], ])
  at <- function(b, t) { k <- which(b$raw$age <= t); if (!length(k)) c(0, 0) else c(b$raw$mcf[max(k)], b$raw$robust_var[max(k)]) }
  a <- sapply(ages, function(t) at(A, t)); b <- sapply(ages, function(t) at(B, t)); se <- sqrt(a[2, ] + b[2, ]); d <- a[1, ] - b[1, ]
  case(topic, name, dataset, source, data, NULL, r_call, "difference of two mean cumulative functions at chosen ages; robust variances add (units of the two groups are distinct); plain normal limits",
    "as for the two functions", diff = c(A$diff, B$diff), n = length(unique(ev$unit)), n_events = sum(ev$event),
    expected = list(first = lv[1], second = lv[2], age = ages, first_mean = a[1, ], second_mean = b[1, ], difference = d, std_error = se,
      lower_95 = d - qnorm(0.975) * se, upper_95 = d + qnorm(0.975) * se), tolerance = 1e-8, absolute_tolerance = 1e-10, note = note, columns = list(group_column = setdiff(names(ev), c("unit", "age", "event"))))
}
add_trend <- function(topic, name, age, end, trunc, dataset, source, data, filter, r_call, note = NULL) {
  x <- trend_tests(age, end, trunc); T <- x$power_law$total_time
  o <- power_law_max(c(log(x$power_law$shape), log(x$power_law$scale)) + c(0.1, -0.1), age, T)
  case(topic, name, dataset, source, data, filter, r_call,
    method = "one system. Laplace U = (mean(t) - T/2) / (T sqrt(1/(12 m))) and MIL-HDBK-189 X = 2 sum log(T/t), chi-square with 2m degrees of freedom, over m events: m = n and T = end of observation when time-truncated, m = n - 1 and T = last event when failure-truncated. Power law, mean count lambda t^shape = (t/scale)^shape: shape = n / sum log(T/t), lambda = n / T^shape. shape_chisq limits: shape chi2(2m; alpha)/(2n). p values are two-sided; for MIL-HDBK-189 twice the smaller tail",
    second_route = "closed forms against direct maximisation of the log-likelihood (simplex, then Newton on differences)", diff = rel_diff(c(exp(o$par), o$value), c(x$power_law$shape, x$power_law$scale, x$power_law$log_likelihood)),
    n = 1, n_events = length(age), expected = x, tolerance = 1e-8, note = note)
}
add_trend_multi <- function(topic, name, ev, dataset, source, data, filter, r_call, note = NULL) {
  x <- trend_tests_multi(ev)
  case(topic, name, dataset, source, data, filter, r_call,
    method = "several systems, each observed over (0, end] with its own end (units without events count). Laplace U = (sum t - sum T/2) / sqrt(sum T^2/12), MIL-HDBK-189 X = 2 sum log(T/t) with chi-square(2n), T being the end of the event's own unit; power law by maximum likelihood: n/b + sum log t = n sum(T^b log T)/sum(T^b), lambda = n/sum(T^b); scale = lambda^(-1/shape)",
    second_route = "score equation by uniroot against direct maximisation of the log-likelihood (simplex, then Newton on differences)", diff = x$diff, n = x$expected$units, n_events = x$expected$events,
    expected = x$expected, note = note)
}
aj_own <- function(time, cause, K, w = rep(1, length(time))) {
  tt <- sort(unique(time[cause > 0])); S <- 1; P <- matrix(0 + 0i * Im(w[1]), length(tt), K); S1 <- NULL
  cur <- rep(0, K)
  for (i in seq_along(tt)) { r <- sum(w[time >= tt[i]]); dk <- sapply(1:K, function(k) sum(w[time == tt[i] & cause == k]))
    cur <- cur + S * dk / r; S <- S * (1 - sum(dk) / r); P[i, ] <- cur; S1 <- c(S1, S) }
  list(time = tt, P = P, S = S1)
}
add_competing <- function(topic, name, time, cause, causes, ages, dataset, source, data, filter, r_call, note = NULL, tolerance = 1e-6) {
  K <- length(causes); n <- length(time)
  f <- survfit(Surv(time, factor(cause, 0:K)) ~ 1, id = seq_len(n)); s <- summary(f, times = ages)
  o <- aj_own(time, cause, K); io <- sapply(ages, function(a) max(which(o$time <= a)))
  cif <- unname(s$pstate[, -1, drop = FALSE]); se <- unname(s$std.err[, -1, drop = FALSE])
  # infinitesimal jackknife by complex steps in the case weights
  infl <- array(0, c(n, length(ages), K))
  u <- unique(data.frame(time, cause)); key <- match(paste(time, cause), paste(u$time, u$cause))
  for (j in seq_len(nrow(u))) { i <- match(j, key); w <- rep(1 + 0i, n); w[i] <- 1 + 1e-20i
    P <- aj_own(time, cause, K, w)$P[io, , drop = FALSE]; infl[which(key == j), , ] <- rep(Im(P) / 1e-20, each = sum(key == j)) }
  se2 <- sqrt(apply(infl^2, c(2, 3), sum))
  w <- lapply(1:K, function(k) { d <- right(time, as.integer(cause == k)); g <- fit_newton(d); r <- fit_survreg(d)
    A <- diag(c(1, -1)); list(shape = exp(-g$theta[2]), scale = exp(g$theta[1]), ll = g$loglik, V = A %*% g$vcov %*% A, ev = sum(cause == k), diff = rel_diff(c(exp(g$theta), g$loglik), c(exp(r$theta), r$loglik))) })
  H <- function(t) Reduce(`+`, lapply(w, function(x) (t / x$scale)^x$shape))
  fit <- sapply(w, function(x) sapply(ages, function(a) integrate(function(u) x$shape / x$scale * (u / x$scale)^(x$shape - 1) * exp(-H(u)), 0, a, rel.tol = 1e-12, subdivisions = 2000)$value))
  fit <- matrix(fit, length(ages))
  # by substitution v = u^(smallest shape) as the second route
  b0 <- min(sapply(w, function(x) x$shape))
  fit2 <- matrix(sapply(w, function(x) sapply(ages, function(a) integrate(function(v) { u <- v^(1 / b0); x$shape / x$scale * (u / x$scale)^(x$shape - 1) * exp(-H(u)) * u / (b0 * v) }, 0, a^b0, rel.tol = 1e-12, subdivisions = 2000)$value)), length(ages))
  names(w) <- causes
  ex <- list(causes = causes, weibull = lapply(w, function(x) list(events = x$ev, shape = x$shape, scale = x$scale, log_likelihood = x$ll, covariance_log_scale_log_shape = x$V)),
    age = ages, aalen_johansen = setNames(lapply(1:K, function(k) list(incidence = cif[, k], std_error = se[, k])), causes),
    event_free = unname(s$pstate[, 1]), fitted_incidence = setNames(lapply(1:K, function(k) fit[, k]), causes),
    naive_one_minus_kaplan_meier = setNames(lapply(1:K, function(k) { km <- survfit(Surv(time, cause == k) ~ 1); 1 - summary(km, times = ages)$surv }), causes))
  case(topic, name, dataset, source, data, filter, r_call,
    method = "cause-specific Weibull by maximum likelihood, other causes right-censored; Aalen-Johansen cumulative incidence at chosen ages with survfit's infinitesimal-jackknife standard error; fitted incidence = integral of h_k(u) exp(-sum of cumulative hazards). naive_one_minus_kaplan_meier is what must NOT come out as the incidence",
    second_route = "Aalen-Johansen and its jackknife in plain R (complex-step derivative in the case weights); Weibull by Newton and survreg; integral under two substitutions",
    diff = c(rel_diff(Re(o$P[io, , drop = FALSE]), cif), rel_diff(se2, se), rel_diff(fit, fit2), sapply(w, function(x) x$diff)), n = n, n_events = sum(cause > 0), expected = ex, tolerance = tolerance, note = note)
}
# ------------------------------------------------------------------------- gamma-Poisson
add_gamma_poisson <- function(topic, name, y, t, id, dataset, source, data, filter, r_call, note = NULL) {
  n <- length(y)
  ll <- function(th) { a <- exp(th[1]); b <- exp(th[2]); sum(lgamma(a + y) - lgamma(a) - lgamma(y + 1) + a * log(b / (b + t)) + y * log(t / (b + t))) }
  gr <- function(th) { a <- exp(th[1]); b <- exp(th[2]); c(a * sum(digamma(a + y) - digamma(a) + log(b / (b + t))), b * sum(a / b - (a + y) / (b + t))) }
  rate <- sum(y) / sum(t); pl <- sum(dpois(y, rate * t, log = TRUE))
  # does the likelihood rise towards infinite a (no spread between units)? compare with the Poisson limit
  o <- optim(c(0, -log(rate)), function(x) -ll(x), function(x) -gr(x), method = "BFGS", control = list(maxit = 5000, reltol = 1e-15))
  excess <- sum((y - rate * t)^2 - y)                    # the score for spread at the Poisson limit
  base <- list(units = n, events = sum(y), exposure = sum(t), pooled_rate = rate, poisson_log_likelihood = pl)
  if (excess <= 0 || o$par[1] > 12) {
    ex <- c(base, list(finite_maximum = FALSE, shape = NA, rate_parameter = NA, between_unit_cv = 0, spread_score = excess))
    case(topic, name, dataset, source, data, filter, r_call, "gamma-Poisson model for counts with exposure; here the likelihood rises to the Poisson limit: no spread between units beyond Poisson, so every unit's rate shrinks fully to the pooled rate",
      "spread_score = sum((y - mu)^2 - y) is not positive; the search runs to the limit", diff = 0, n = n, n_events = sum(y), expected = ex, note = note)
    return(invisible())
  }
  th <- o$par
  for (it in 1:100) { H <- matrix(richardson_jacobian(gr, th), 2); st <- solve((H + t(H)) / 2, gr(th)); th <- th - st; if (max(abs(st)) < 1e-14 * max(1, abs(th))) break }
  V <- solve(-(H + t(H)) / 2); a <- exp(th[1]); b <- exp(th[2])
  nb <- suppressWarnings(MASS::glm.nb(y ~ 1 + offset(log(t)), control = glm.control(epsilon = 1e-14, maxit = 500)))
  th_nb <- nb$theta; mu_nb <- exp(coef(nb)[[1]])
  dif_nb <- rel_diff(c(a, a / b, ll(th)), c(th_nb, mu_nb, as.numeric(logLik(nb))))
  lr <- 2 * (ll(th) - pl)
  ex <- c(base, list(finite_maximum = TRUE, shape = a, rate_parameter = b, mean_rate = a / b, between_unit_cv = 1 / sqrt(a), log_likelihood = ll(th),
    covariance_log_shape_log_rate_parameter = V, likelihood_ratio_against_poisson = list(statistic = lr, p_boundary = pchisq(lr, 1, lower.tail = FALSE) / 2),
    unit = as.character(id), count = y, exposure_of_unit = t, raw_rate = y / t, posterior_mean_rate = (a + y) / (b + t),
    posterior_05 = qgamma(0.05, a + y, b + t), posterior_95 = qgamma(0.95, a + y, b + t), probability_above_mean_rate = pgamma(a / b, a + y, b + t, lower.tail = FALSE)))
  case(topic, name, dataset, source, data, filter, r_call,
    method = "empirical Bayes: count ~ Poisson(rate x exposure), rate ~ gamma(shape, rate_parameter), both by maximum likelihood of the negative-binomial marginal; unit's rate given the data ~ gamma(shape + count, rate_parameter + exposure). p_boundary is half the chi-square(1) tail",
    second_route = "Newton on the analytic score against MASS::glm.nb (epsilon 1e-14)",
    diff = dif_nb, n = n, n_events = sum(y), expected = ex, note = note)
}
# ------------------------------------------------------------------------- decision anchors
position <- function(shape, scale, unplanned) list(shape = shape, scale = scale, unplanned = unplanned)
age_policy <- function(parts, planned) {
  H <- function(t) Reduce(`+`, lapply(parts, function(p) (t / p$scale)^p$shape)); S <- function(t) exp(-H(t))
  h <- function(p, t) p$shape / p$scale * (t / p$scale)^(p$shape - 1)
  end <- uniroot(function(t) H(t) - 60, c(1e-6, 1e9))$root
  int <- function(f, T) integrate(f, 0, T, rel.tol = 1e-13, subdivisions = 5000)$value
  A <- function(T) int(S, T); P <- function(p, T) int(function(u) h(p, u) * S(u), T)
  extra <- function(T) sum(sapply(parts, function(p) (p$unplanned - planned) * P(p, T)))
  g <- function(T) (planned + extra(T)) / A(T)            # = (planned S + sum c P)/A
  ginf <- g(end)
  eq <- function(T) sum(sapply(parts, function(p) h(p, T) * (p$unplanned - planned))) * A(T) - extra(T) - planned
  grid <- end * exp(seq(log(1e-4), 0, length.out = 400)); e <- sapply(grid, eq); k <- which(e[-1] > 0 & e[-length(e)] <= 0)
  if (!length(k)) return(list(interval = NA, cost_rate = ginf, run_to_failure_cost_rate = ginf, window = list(from = NA, to = NA), planned_share = 0, diff = 0))
  T <- uniroot(eq, grid[k[1] + 0:1], tol = 1e-13 * grid[k[1]])$root; gs <- g(T)
  o <- optimize(g, c(T / 3, min(3 * T, end)), tol = 1e-9 * T)
  w <- function(T) g(T) - 1.02 * gs
  from <- uniroot(w, c(T * 1e-3, T), tol = 1e-12 * T)$root
  if (ginf - gs < 1e-9 * ginf)                           # an optimum in form only
    return(list(interval = NA, formal_interval = T, cost_rate = ginf, run_to_failure_cost_rate = ginf, window = list(from = from, to = NA), planned_share = 0, diff = 0))
  to <- if (ginf > 1.02 * gs) uniroot(w, c(T, end), tol = 1e-12 * T)$root else NA
  list(interval = T, cost_rate = gs, run_to_failure_cost_rate = ginf, window = list(from = from, to = to), planned_share = S(T),
       mean_time_between_rebuilds = A(T), unplanned_probability_by_position = sapply(parts, P, T), diff = c(abs(o$minimum / T - 1), rel_diff(o$objective, gs)), g = g, h = h)
}
add_age <- function(topic, name, parts, planned, positions_text, note = NULL) {
  r <- age_policy(parts, planned); p1 <- parts[[1]]; d <- r$diff; ex <- r[setdiff(names(r), c("diff", "g", "h"))]
  if (length(parts) == 1 && is.finite(r$interval)) {      # closed form of the integral as a further route
    A <- function(T) p1$scale / p1$shape * gamma(1 / p1$shape) * pgamma((T / p1$scale)^p1$shape, 1 / p1$shape)
    F <- -expm1(-(r$interval / p1$scale)^p1$shape); d <- c(d, rel_diff(r$cost_rate, (planned * (1 - F) + p1$unplanned * F) / A(r$interval)),
      rel_diff(r$run_to_failure_cost_rate, p1$unplanned / (p1$scale * gamma(1 + 1 / p1$shape))))
  }
  case(topic, name, "none (numbers follow from the stated parameters)", "computed with integrate, uniroot and optimize", NULL, NULL,
    "optimize(g, ...), g(T) = (planned S(T) + sum_i unplanned_i P(i first, before T)) / integrate(S, 0, T); S = product of exp(-(t/scale)^shape)",
    method = "age policy: full rebuild at T or at the first failure, whichever comes first. interval null: no finite minimum, or one that saves less than 1e-9 of the cost (then formal_interval has it): run to failure. window: T with cost within 2% of the least; 'to' null: unbounded. planned_share = S(T)",
    second_route = "root of sum_i h_i(T)(unplanned_i - planned) = g(T) against optimize(), and the incomplete gamma function for a single position",
    diff = d, n = length(parts), n_events = 0, expected = c(list(planned = planned, positions = lapply(parts, function(p) p)), ex), tolerance = 1e-7, note = note)
  invisible(r)
}
add_block <- function(topic, name, shape, scale, planned, unplanned, positions = 1, note = NULL) {
  mu <- gamma(1 + 1 / shape); cv2 <- gamma(1 + 2 / shape) / mu^2 - 1; tmax <- 3
  sp <- renewal_spectral(tmax, shape, 90); cf <- unplanned * positions
  g <- function(x) (planned + cf * sp$at(x)) / x; ginf <- cf / mu
  x <- seq(0.02, tmax, by = 0.005); v <- g(x); k <- which.min(v); d <- 0
  # beyond tmax the cost is close to ginf + (planned + cf (cv2 - 1)/2)/x
  late <- planned + cf * (cv2 - 1) / 2
  if (v[k] >= ginf * (1 - 1e-9) && late >= 0) {
    ex <- list(interval = NA, cost_rate = ginf / scale, window = list(from = NA, to = NA))
  } else {
    stopifnot(k > 1, k < length(x))
    dM <- function(t) (sp$at(t + 1e-3) - sp$at(t - 1e-3)) / 2e-3
    dM4 <- function(t) { f <- function(h) (sp$at(t + h) - sp$at(t - h)) / (2 * h); (64 * f(0.0025) - 20 * f(0.005) + f(0.01)) / 45 }
    T <- uniroot(function(t) cf * (t * dM4(t) - sp$at(t)) - planned, x[k + c(-1, 1)], tol = 1e-14)$root
    o <- optimize(g, x[k + c(-1, 1)], tol = 1e-10); gs <- g(T)
    d <- c(abs(o$minimum / T - 1), rel_diff(o$objective, gs), rel_diff(gs, (planned + cf * renewal_series(T, shape)) / T))
    w <- function(t) g(t) - 1.02 * gs
    up <- which(x > T & v > 1.02 * gs)
    to <- if (length(up)) uniroot(w, c(x[up[1] - 1], x[up[1]]), tol = 1e-13)$root else NA
    lo <- max(which(x < T & v > 1.02 * gs)); from <- uniroot(w, c(x[lo], x[lo + 1]), tol = 1e-13)$root
    if (is.na(to)) stopifnot(ginf <= 1.02 * gs)
    ex <- list(interval = T * scale, cost_rate = gs / scale, window = list(from = from * scale, to = if (is.na(to)) NA else to * scale), expected_failures_per_interval = positions * sp$at(T))
  }
  case(topic, name, "none (numbers follow from the stated parameters)", "computed with the renewal function below, uniroot and optimize", NULL, NULL,
    "optimize(function(T) (planned + positions * unplanned * M(T)) / T, ...)",
    method = "block policy: rebuild at T, 2T, ...; a part that fails before is renewed alone. M = renewal function. interval null: the cost only falls towards run to failure. window: the unbroken stretch round the interval with cost within 2% of the least; 'to' null: unbounded",
    second_route = "stationarity condition against optimize(); M by spectral solution against its power series",
    diff = d, n = positions, n_events = 0, expected = c(list(planned = planned, positions = rep(list(position(shape, scale, unplanned)), positions)), ex[1:2], list(run_to_failure_cost_rate = ginf / scale), ex[-(1:2)]),
    tolerance = 1e-6, note = note)
}
add_renewal <- function(topic, name, shape, t = c(0.25, 0.5, 1, 1.5, 2)) {
  sp <- renewal_spectral(2.2, shape, 60); sp2 <- renewal_spectral(2.2, shape, 90); v <- sp$at(t); s <- renewal_series(t, shape)
  rr <- sapply(t, function(u) renewal_richardson(u, shape, 1000, 3)$value)
  case(topic, name, "none (numbers follow from the stated parameters)", "computed: renewal equation M = F + M * F", NULL, NULL,
    "solve(diag(N + 1) - K, F) at Chebyshev points in t^shape, K by the tanh-sinh rule",
    method = "renewal function of a Weibull with scale 1: expected renewals in (0, t], the first part new at 0",
    second_route = paste0("61 against 91 points, and the Smith-Leadbetter power series, within 1e-8; equal-grid Volterra solution with 1000, 2000, 4000 steps, Richardson-extrapolated: within ", format(bound10(max(abs(rr / v - 1))))),
    diff = c(rel_diff(v, s), rel_diff(v, sp2$at(t))), n = length(t), n_events = 0, expected = list(shape = shape, t_over_scale = t, renewal_function = v), tolerance = 1e-7)
}
add_spares <- function(topic, name, shape, scale, positions, horizon, levels = c(0.80, 0.90, 0.95, 0.99)) {
  x <- horizon / scale; sp <- renewal_spectral(x * 1.05, shape, 80); kmax <- 40
  tl <- sp$tail_at(x, kmax); tl[tl < 1e-15] <- 0
  gr <- function(n) renewal_tail_grid(x, shape, n, 6); r <- (4 * gr(2000) - gr(1000)) / 3
  pm <- c(1, tl) - c(tl, 0); tot <- pm
  for (i in seq_len(positions - 1)) tot <- sapply(0:(length(tot) + kmax - 1), function(k) { j <- max(0, k - kmax):min(k, length(tot) - 1); sum(tot[j + 1] * pm[k - j + 1]) })
  k <- 0:(length(tot) - 1); m <- sum(k * tot); v <- sum(k^2 * tot) - m^2; cdf <- cumsum(tot); q <- function(p) k[which(cdf >= p)[1]]
  last <- max(which(tot > 1e-12))
  case(topic, name, "none (numbers follow from the stated parameters)", "computed: k-fold convolutions of the Weibull", NULL, NULL,
    "P(N >= k) = F convolved k times, at the horizon; positions added by discrete convolution",
    method = "parts used in (0, horizon] by independent positions, each new at 0 and renewed only when it fails. quantile = least k with P(N <= k) >= p; stock to hold for a service level is that quantile",
    second_route = "spectral convolution against equal-grid convolution with a Richardson step; mean against positions x renewal function",
    diff = c(max(abs(r - tl[1:6])) / 10, rel_diff(m, positions * renewal_series(x, shape))), n = positions, n_events = 0,
    expected = list(shape = shape, scale = scale, positions = positions, horizon = horizon, mean = m, sd = sqrt(v), p50 = q(0.5), p80 = q(0.8), p95 = q(0.95),
      stock = lapply(levels, function(p) list(service_level = p, units = q(p))), probability = tot[1:last]), tolerance = 1e-6, absolute_tolerance = 1e-9)
}
add_next_stop <- function(topic, name, parts, planned, ages, horizons, note = NULL) {
  r <- age_policy(parts, planned)
  f <- function(s) sum(mapply(function(p, a) r$h(p, a + s) * (p$unplanned - planned), parts, ages)) - r$cost_rate
  s <- if (f(0) >= 0) 0 else uniroot(f, c(0, 1e6), tol = 1e-9)$root
  pr <- sapply(horizons, function(d) 1 - exp(-sum(mapply(function(p, a) ((a + d) / p$scale)^p$shape - (a / p$scale)^p$shape, parts, ages))))
  s2 <- if (s > 0) { lo <- 0; hi <- 1e6; for (i in 1:200) { m <- (lo + hi) / 2; if (f(m) < 0) lo <- m else hi <- m }; (lo + hi) / 2 } else 0
  case(topic, name, "none (numbers follow from the stated parameters)", "computed", NULL, NULL, "uniroot(function(s) sum(h_i(age_i + s) * (unplanned_i - planned)) - g_star, ...)",
    method = "parts of different ages: run on for s more, until sum_i h_i(age_i + s)(unplanned_i - planned) reaches the least long-run cost g* of the age policy; and the probability of a failure of any part within the given further running",
    second_route = "uniroot against bisection", diff = c(rel_diff(s, s2), r$diff), n = length(parts), n_events = 0,
    expected = list(planned = planned, positions = parts, ages = ages, long_run_cost_rate = r$cost_rate, run_on = s, further_running = horizons, failure_probability = pr), tolerance = 1e-7, note = note)
}
# ------------------------------------------------------------------------- README
case_table <- function() {
  out <- c()
  for (t in names(CASES$topics)) {
    cv <- CASES$conventions[[t]]
    out <- c(out, "", paste0("### ", cv$title, " — `expected/", t, ".json`"), "", cv$conventions, "",
      "| case | dataset | source | data | R call |", "| --- | --- | --- | --- | --- |")
    for (c in CASES$topics[[t]]) out <- c(out, sprintf("| `%s` | %s | %s | %s | `%s` |", c$name, c$dataset, c$source,
      if (is.null(c$data)) "" else paste0("`", c$data, "`", if (!is.null(c$filter)) paste0(" where ", paste(names(c$filter), c$filter, sep = " = ", collapse = ", ")) else ""),
      gsub("|", "\\|", c$r_call, fixed = TRUE)))
    m <- unique(vapply(CASES$topics[[t]], function(c) c$method, "")); r <- unique(vapply(CASES$topics[[t]], function(c) c$check$second_route, ""))
    out <- c(out, "", "Method:", "", paste0("- ", m), "", "Second route:", "", paste0("- ", r))
    nt <- unlist(lapply(CASES$topics[[t]], function(c) if (!is.null(c$note)) paste0("- `", c$name, "`: ", c$note)))
    if (length(nt)) out <- c(out, "", "Notes:", "", nt)
  }
  out
}
