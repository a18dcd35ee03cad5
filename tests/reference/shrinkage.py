"""Reference values for tests/season.rs: a mean drawn towards what was known before, by quadrature.

Makes shrinkage.json beside this file:

    python shrinkage.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1. The mean of a group is normal about what was known, each value normal
about that mean with the scatter of values and its misreading together; the density of the mean given the values is put
together as a product and integrated, nothing is solved by hand.
"""

import json
import pathlib

import numpy as np
from scipy import stats

CASES = [
    # mean before, sd of groups, sd of values, [(value, misread)]
    (0.0, 0.144, 0.144, [(0.3, 0.1)]),
    (0.0, 0.144, 0.144, [(0.3, 0.1), (0.25, 0.05), (0.4, 0.2)]),
    (1.5, 2.0, 0.5, [(4.0, 0.0), (4.4, 0.3), (3.1, 0.0), (5.0, 0.6)]),
    (0.2, 0.05, 0.3, [(-0.8, 0.02), (-0.5, 0.02)]),
]
WORTH = 4.0


def posterior(mean, groups, values, seen):
    at = np.linspace(mean - 40 * groups, mean + 40 * groups, 2_000_001)
    log = stats.norm.logpdf(at, mean, groups)
    for value, misread in seen:
        log += stats.norm.logpdf(value, at, np.hypot(values, misread))
    density = np.exp(log - log.max())
    density /= np.trapezoid(density, at)
    first = np.trapezoid(at * density, at)
    second = np.trapezoid((at - first) ** 2 * density, at)
    return first, np.sqrt(second)


def scatter(values, seen):
    if len(seen) < 2:
        return values
    found = np.array([value for value, _ in seen])
    explained = np.mean([misread**2 for _, misread in seen]) * (len(seen) - 1)
    of_scatter = max(np.var(found, ddof=1) * (len(seen) - 1) - explained, 0.0)
    return np.sqrt((WORTH * values**2 + of_scatter) / (WORTH + len(seen) - 1))


rows = []
for mean, groups, values, seen in CASES:
    pooled = scatter(values, seen)
    first, deviation = posterior(mean, groups, pooled, seen)
    rows.append(
        {
            "mean": mean,
            "of_groups": groups,
            "of_values": values,
            "seen": seen,
            "found_mean": first,
            "found_of_mean": deviation,
            "found_of_next": float(np.hypot(deviation, pooled)),
        }
    )
HERE = pathlib.Path(__file__).parent
(HERE / "shrinkage.json").write_text(json.dumps({"worth": WORTH, "rows": rows}, indent=1) + "\n")
