"""Reference values for tests/moving_on.rs: where harm begins, by whether it was seen, by quadrature.

Makes harm_limit.json beside this file:

    python harm_limit.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1. The limit is normal about what was known before, each trial harms with
the chance that a normal value about the limit lies above the temperature reached; the density of the limit given the
trials is put together as a product and integrated over two million points.
"""

import json
import pathlib

import numpy as np
from scipy import stats

CASES = [
    # mean before, sd before, sd from trial to trial, [(reached, harmed)]
    (12.0, 1.2, 1.5, [(9.0, False)]),
    (12.0, 1.2, 1.5, [(9.0, True)]),
    (12.0, 1.2, 1.5, [(8.0, False), (8.5, False), (7.5, False), (10.0, False)]),
    (10.0, 2.0, 1.0, [(9.0, True), (11.0, False), (8.0, True), (10.5, True), (12.0, False), (9.5, False)]),
    (2.0, 0.6, 0.3, [(5.0, True)]),
    (5.0, 1.0, 1.0, [(-20.0, False)]),
]


def posterior(mean, spread, scatter, trials):
    at = np.linspace(mean - 40 * spread, mean + 40 * spread, 2_000_001)
    log = stats.norm.logpdf(at, mean, spread)
    for reached, harmed in trials:
        z = (at - reached) / scatter
        log += stats.norm.logcdf(z if harmed else -z)
    density = np.exp(log - log.max())
    density /= np.trapezoid(density, at)
    first = np.trapezoid(at * density, at)
    second = np.trapezoid((at - first) ** 2 * density, at)
    return first, np.sqrt(second)


made = []
for mean, spread, scatter, trials in CASES:
    first, second = posterior(mean, spread, scatter, trials)
    made.append(
        {
            "mean": mean,
            "spread": spread,
            "scatter": scatter,
            "trials": trials,
            "limit": first,
            "doubt": second,
        }
    )
pathlib.Path(__file__).with_name("harm_limit.json").write_text(json.dumps(made, indent=1) + "\n")
