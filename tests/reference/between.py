"""Reference values for tests/season_published.rs: the scatter between sources, by scipy.

Makes between.json beside this file, from the findings that the test prints:

    cargo test --test season_published between::the_scatter -- --nocapture | python between.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1. What is printed in parts of this program's best is log-normal about 1. Each source has
its covariance matrix put together whole, and the likelihood is that of scipy's multivariate normal, maximised by
Nelder and Mead. Bounds are those of the profile likelihood of the two scatters together (9 times in 10).
"""

import json
import pathlib
import sys

import numpy as np
from scipy import optimize, stats


def negative(logs, rows):
    sources, alone = np.exp(logs)
    total = 0.0
    for study in {row[0] for row in rows}:
        of = [row for row in rows if row[0] == study]
        reached = np.array([row[1] for row in of])
        besides = np.array([row[3] for row in of])
        matrix = np.diag(besides**2 + (reached * alone) ** 2)
        matrix = matrix + sources**2 * np.outer(reached, reached)
        total -= stats.multivariate_normal.logpdf([row[2] for row in of], np.zeros(len(of)), matrix)
    return total


def most_likely(rows):
    found = [
        optimize.minimize(
            negative, start, (rows,), "Nelder-Mead", options={"xatol": 1e-8, "fatol": 1e-12, "maxiter": 4000}
        )
        for start in [(-1.5, -1.5), (-1.2, -4.0), (-4.0, -1.2)]
    ]
    best = min(found, key=lambda one: one.fun)
    return float(np.hypot(*np.exp(best.x))), best.fun


def bounds(rows, found, least):
    def profile(both):
        def at(angle):
            parts = np.maximum([both * np.cos(angle), both * np.sin(angle)], 1e-6)
            return negative(np.log(parts), rows)

        angles = np.linspace(0, np.pi / 2, 61)
        return min(at(angle) for angle in angles)

    over = stats.chi2.ppf(0.9, 1) / 2
    away = lambda both: profile(both) - least - over
    return [optimize.brentq(away, 1e-3, found), optimize.brentq(away, found, 3.0)]


line = next(line for line in sys.stdin if line.startswith("findings "))
rows = json.loads(line.removeprefix("findings "))
up = [(study, 1.0, off, within) for study, share, off, within in rows if share == 1.0]
comes_up, least_up = most_likely(up)
grown = [
    (study, 1.0 - share, off, float(np.hypot(within, share * comes_up)))
    for study, share, off, within in rows
    if share != 1.0
]
grows, least_grown = most_likely(grown)
HERE = pathlib.Path(__file__).parent
made = {
    "findings": [len(up), len(grown)],
    "sources": [len({row[0] for row in up}), len({row[0] for row in grown})],
    "comes_up": comes_up,
    "comes_up_bounds": bounds(up, comes_up, least_up),
    "grows": grows,
    "grows_bounds": bounds(grown, grows, least_grown),
}
(HERE / "between.json").write_text(json.dumps(made, indent=1) + "\n")
