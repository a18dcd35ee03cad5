"""Reference values for tests/crops.rs, worked out by general-purpose libraries.

Makes counting.json beside this file:

    python counting.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1, mpmath 1.4.1.

Numbers with a fraction stand as text, with as many digits as make them out.
"""

import json
import pathlib

import mpmath as mp
from scipy import special, stats

mp.mp.dps = 40
HERE = pathlib.Path(__file__).parent


def text(value):
    return repr(float(value))


def binomial_tail(k, n, p):
    exact = sum(mp.binomial(n, i) * mp.mpf(p) ** i * (1 - mp.mpf(p)) ** (n - i) for i in range(k, n + 1))
    assert abs(exact - mp.mpf(float(stats.binom.sf(k - 1, n, p)))) < mp.mpf("1e-11"), (k, n, p)
    return exact


def beta_binomial_tail(k, n, a, b):
    a, b = mp.mpf(a), mp.mpf(b)
    exact = sum(mp.binomial(n, i) * mp.beta(i + a, n - i + b) / mp.beta(a, b) for i in range(k, n + 1))
    assert abs(exact - mp.mpf(float(stats.betabinom.sf(k - 1, n, float(a), float(b))))) < mp.mpf("1e-9")
    return exact


def beta_binomial_tail_far(k, n, a, b):
    """Many trials, very even or very uneven shares, or chances near nought: successive terms in 60 digits."""
    with mp.workdps(60):
        a, b = mp.mpf(a), mp.mpf(b)
        term = mp.beta(a, n + b) / mp.beta(a, b)
        total = tail = mp.mpf(0)
        for i in range(n + 1):
            total += term
            tail += term if i >= k else 0
            if i < n:
                term *= (n - i) * (i + a) / ((i + 1) * (n - i - 1 + b))
        assert abs(total - 1) < mp.mpf("1e-45"), (k, n, a, b)
        # scipy sums by differences of logarithms, and loses digits with n, a and b.
        assert abs(tail - mp.mpf(float(stats.betabinom.sf(k - 1, n, float(a), float(b))))) < mp.mpf("1e-6"), (k, n, a, b)
        return tail


def fewest(k, certainty, tail):
    n = k
    while tail(n) < certainty:
        n += 1
    return n


BINOMIAL = [(1, 1, 0.3), (24, 31, 0.855), (24, 32, 0.855), (24, 33, 0.855), (5, 40, 0.01), (39, 40, 0.99),
            (100, 135, 0.8), (200, 434, 0.5), (3, 1000, 0.002), (900, 1000, 0.93)]
SHARES_DIFFER = [(24, 32, 16.245, 2.755), (24, 36, 16.245, 2.755), (100, 231, 6.3, 2.7), (24, 34, 19.0, 3.0),
                 (1, 5, 0.5, 0.5), (40, 45, 45.5, 5.5), (3, 200, 1.0, 60.0)]
SHARES_DIFFER_FAR = [
    (20_000, 29_945, 36.7, 12.3), (20_000, 25_132, 1e6, 2.5e5), (20_000, 25_000, 1e9, 2.5e8), (20_000, 20_000, 36.7, 12.3),
    (20_000, 100_000, 1e-6, 1e-6), (20_000, 40_000, 0.01, 30.0), (20_000, 40_000, 30.0, 0.01), (20_000, 20_001, 0.5, 0.5),
    (20_000, 100_000, 2.0, 400.0), (20_000, 39_000, 1e6, 1e6), (6_000, 20_000, 40.0, 400.0), (1, 100_000, 1e-3, 5.0),
    (1, 100_000, 400.0, 2.0), (240, 362, 36.7, 12.3), (3, 7, 1e-9, 1e9)]
FEWEST = [(k, p, 0.95) for k in (1, 5, 10, 24, 50, 100, 200) for p in (0.5, 0.7, 0.855, 0.95)]
FEWEST += [(24, 0.855, 0.5), (24, 0.855, 0.999), (240, 0.75, 0.9)]
FEWEST_DIFFER = [(24, 10.0, 2.0, 0.95), (24, 19.0, 3.0, 0.95), (24, 46.0, 6.0, 0.95), (100, 19.0, 3.0, 0.95),
                 (100, 91.0, 11.0, 0.95), (24, 18.5, 2.5, 0.95), (24, 20.5, 0.5, 0.95), (100, 6.3, 2.7, 0.95)]
TESTS = [(0, 20), (8, 10), (9, 10), (17, 20), (18, 20), (20, 20), (45, 50), (90, 100), (380, 400)]

reference = {
    "binomial_tail": [[k, n, text(p), text(binomial_tail(k, n, p))] for k, n, p in BINOMIAL],
    "beta_binomial_tail": [[k, n, text(a), text(b), text(beta_binomial_tail(k, n, a, b))]
                           for k, n, a, b in SHARES_DIFFER],
    "beta_binomial_tail_far": [[k, n, text(a), text(b), text(beta_binomial_tail_far(k, n, a, b))]
                               for k, n, a, b in SHARES_DIFFER_FAR],
    "fewest": [[k, text(p), text(c), fewest(k, c, lambda n: stats.binom.sf(k - 1, n, p))] for k, p, c in FEWEST],
    "fewest_when_shares_differ": [
        [k, text(a), text(b), text(c), fewest(k, c, lambda n: stats.betabinom.sf(k - 1, n, a, b))]
        for k, a, b, c in FEWEST_DIFFER],
    "limits": [],
    "ln_gamma": [[text(x), text(mp.loggamma(mp.mpf(x)))] for x in (0.5, 1.0, 1.5, 2.0, 3.7, 10.0, 123.4, 1e5)],
    "incomplete_beta": [[text(a), text(b), text(x), text(special.betainc(a, b, x))]
                        for a, b, x in ((0.5, 0.5, 0.3), (2, 5, 0.1), (20, 3, 0.85), (3, 20, 0.15),
                                        (500, 500, 0.52), (1e4, 2e4, 0.334))],
    "normal_share": [[text(z), text(mp.ncdf(mp.mpf(z)))] for z in (-8, -3.1, -3, -2.9, -1, -0.1, 0, 0.5, 1.96, 3, 5)],
}
for x, m in TESTS:
    for confidence in (0.8, 0.95):
        tail = (1 - confidence) / 2
        cp = stats.binomtest(x, m).proportion_ci(confidence, "exact")
        a, b = x + 0.5, m - x + 0.5
        low = stats.beta.ppf(tail, a, b) if x > 0 else 0.0
        high = stats.beta.ppf(1 - tail, a, b) if x < m else 1.0
        reference["limits"].append([x, m, text(confidence), text(cp.low), text(cp.high), text(low), text(high)])

rows = ",\n".join(
    f'  "{name}": [\n' + ",\n".join(f"    {json.dumps(row)}" for row in values) + "\n  ]"
    for name, values in reference.items())
(HERE / "counting.json").write_text("{\n" + rows + "\n}\n")
