"""Check values for the comparison of failure rates, by SciPy: python3 make_rate_ratio.py > expected.json

Source of the numbers: SciPy (scipy.stats, scipy.optimize); the version is in the output. The counts
are made up, except "two rates": those of the help page of R's poisson.test (from memory).

A ratio with limits: the conditional distribution of the group's failures is the convolution of one
scipy.stats.binom for each stratum; limits and estimate by brentq on it. With one stratum the limits are
those of scipy.stats.binomtest (Clopper-Pearson), asserted here.

A slope: an ordinary Poisson regression with an intercept for each stratum and an offset, fitted by
BFGS on all of its parameters; its likelihood ratio is that of the conditional likelihood.
"""

import json

import numpy as np
import scipy
from scipy import optimize, stats

CONFIDENCE = 0.90

CASES = {
    "two rates": [(11, 800.0, 21, 3011.0)],
    "one stratum, none in the group": [(0, 2.5, 9, 7.5)],
    "three strata": [(5, 2.0, 3, 6.0), (4, 1.5, 10, 12.0), (1, 0.2, 0, 0.9)],
    "a stratum of the group alone": [(7, 3.0, 4, 5.0), (6, 2.0, 0, 0.0)],
    "many failures": [(120, 90.0, 400, 430.0), (60, 55.0, 150, 155.0)],
}


def pmf(strata, ratio):
    """Distribution of the group's failures."""
    total = np.array([1.0])
    for inside, g, outside, h in strata:
        n = inside + outside
        if n > 0 and g > 0 and h > 0:
            total = np.convolve(total, stats.binom.pmf(range(n + 1), n, ratio * g / (ratio * g + h)))
    return total


def compare(strata):
    used = [s for s in strata if s[0] + s[2] > 0 and s[1] > 0 and s[3] > 0]
    x = sum(s[0] for s in used)
    n = sum(s[0] + s[2] for s in used)
    tail = (1 - CONFIDENCE) / 2
    more = lambda r: pmf(used, r)[x:].sum()
    fewer = lambda r: pmf(used, r)[: x + 1].sum()
    mean = lambda r: (np.arange(n + 1) * pmf(used, r)).sum()
    root = lambda f: float(np.exp(optimize.brentq(lambda b: f(np.exp(b)), -12, 12, xtol=1e-13)))
    out = {
        "strata": strata,
        "expected": float(sum((a + c) * b / (b + d) for a, b, c, d in used)),
        "p_more": float(more(1.0)),
        "p_fewer": float(fewer(1.0)),
        "ratio": root(lambda r: mean(r) - x) if x else 0.0,
        "lower": root(lambda r: more(r) - tail) if x else 0.0,
        "upper": root(lambda r: fewer(r) - tail),
    }
    if len(used) == 1:
        a, g, c, h = used[0]
        interval = stats.binomtest(a, a + c).proportion_ci(CONFIDENCE, method="exact")
        odds = lambda p: p / (1 - p) * h / g
        assert abs(odds(interval.high) - out["upper"]) < 1e-9 * out["upper"]
        assert abs(odds(interval.low) - out["lower"]) < 1e-9
    return out


def slope():
    rng = np.random.default_rng(20261128)
    n = 60
    stratum = rng.integers(0, 3, n)
    x = np.round(rng.uniform(0, 8, n), 2)
    expected = np.round(rng.uniform(0.05, 0.6, n), 3)
    failures = rng.poisson(expected * np.exp(0.15 * (x - 4)))

    def negative(theta, slopes):
        b = theta[0] if slopes else 0.0
        a = theta[1:] if slopes else theta
        log_mean = np.log(expected) + a[stratum] + b * x
        return np.exp(log_mean).sum() - (failures * log_mean).sum()

    full = optimize.minimize(negative, np.zeros(4), (True,), "BFGS", options={"gtol": 1e-10})
    null = optimize.minimize(negative, np.zeros(3), (False,), "BFGS", options={"gtol": 1e-10})
    statistic = 2 * (null.fun - full.fun)

    def profile(b):
        rest = optimize.minimize(
            lambda a: negative(np.concatenate([[b], a]), True), full.x[1:], method="BFGS", options={"gtol": 1e-10}
        )
        return 2 * (rest.fun - full.fun) - stats.chi2.ppf(CONFIDENCE, 1)

    b = full.x[0]
    return {
        "failures": failures.tolist(),
        "expected": expected.tolist(),
        "stratum": stratum.tolist(),
        "x": x.tolist(),
        "ratio": float(np.exp(b)),
        "statistic": float(statistic),
        "p": float(stats.chi2.sf(statistic, 1)),
        "lower": float(np.exp(optimize.brentq(profile, b - 1, b, xtol=1e-12))),
        "upper": float(np.exp(optimize.brentq(profile, b, b + 1, xtol=1e-12))),
    }


print(
    json.dumps(
        {
            "source": "SciPy " + scipy.__version__ + " by make_rate_ratio.py",
            "confidence": CONFIDENCE,
            "ratios": {name: compare(strata) for name, strata in CASES.items()},
            "slope": slope(),
        },
        indent=1,
    )
)
