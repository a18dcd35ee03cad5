"""Reference values for tests/drain_test.rs: the same fit, by another road.

Makes drain_test.json beside this file:

    python drain_test.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1.

The mean water of a vessel is scipy's adaptive quadrature of the curve; the covariance of what was
weighed comes of perturbing each cause of error and reckoning anew; the fit is minimised without
derivatives (Nelder and Mead) and its covariance is the inverse of the full second derivative.
"""

import json
import pathlib

import numpy as np
from scipy import integrate, optimize

HERE = pathlib.Path(__file__).parent

CLASSES = {
    "peat": dict(tr=0.207, ts=0.93, w=0.0, coarse=(0.1479, 1.796), fine=(0.1479, 1.796)),
    "bark": dict(tr=0.08, ts=0.80, w=0.5, coarse=(0.6, 3.0), fine=(0.1336, 1.204)),
}
# Volume mL, height cm, then grams: filled, soaked, drained, dry.
TESTS = [
    ("peat", [(1000, 10.0, 395, 1010, 800, 95)]),
    ("peat", [(1000, 8.0, 395, 1005, 890, 95), (2000, 16.0, 780, 2020, 1580, 190)]),
    ("peat", [(700, 8.0, 300, 720, 600, 75), (700, 8.0, 300, 715, 612, 77), (1500, 20.0, 640, 1540, 880, 160)]),
    ("bark", [(1000, 9.0, 420, 1000, 680, 210)]),
    ("bark", [(1000, 8.0, 420, 1010, 800, 215), (2500, 24.0, 1050, 2480, 1560, 530)]),
]
STEP_G = 1.0


def curve(cls, q, h):
    ts, lnk, tr, shape = q
    tr = min(max(tr, 0.0), 0.95 * ts)
    h = np.asarray(h, dtype=float)

    def filled(alpha, n):
        n = 1 + (n - 1) * np.exp(shape)
        return (1 + (alpha * np.exp(lnk) * h) ** n) ** (1 / n - 1)

    s = cls["w"] * filled(*cls["coarse"]) + (1 - cls["w"]) * filled(*cls["fine"])
    return tr + (ts - tr) * s


def mean_water(cls, q, height):
    return integrate.quad(lambda z: curve(cls, q, z), 0, height, epsabs=1e-11, epsrel=1e-11, limit=200)[0] / height


def figures(fillings, moves):
    """Mean pore space and mean water by height, with every cause moved by so many deviations."""
    heights = sorted({f[1] for f in fillings})
    pores, waters = [], {h: [] for h in heights}
    for i, (volume, height, _filled, soaked, drained, dry) in enumerate(fillings):
        m = lambda cause: moves.get((cause, i), 0.0)
        shared = moves.get(("volume", height), 0.0)
        pore, water = (soaked - dry) / volume, (drained - dry) / volume
        size = 1 + 0.01 * shared + 0.2 / height * m("level")
        step = STEP_G / np.sqrt(12) / volume
        packed = 0.03 * m("packing")
        pores.append(pore / size - packed * max(1 - pore, 0) + 0.01 * m("soak") + step * (m("soaked") - m("dry")))
        waters[height].append(water / size + 0.5 * packed * water + 0.01 * m("drip") + step * (m("drained") - m("dry")))
    return np.array([np.mean(pores)] + [np.mean(waters[h]) for h in heights]), heights


def widened(fillings):
    """How much further repeats lie apart than the causes say; the causes weigh as much as six repeats."""
    most = 1.0
    own = ["level", "packing", "soak", "soaked", "drip", "drained", "dry"]
    for which in (0, 1):
        total = free = 0.0
        for f in fillings:
            here = [g for g in fillings if g[1] == f[1]]
            one = lambda g, moves: figures([g], moves)[0][which]
            taken = sum(((one(f, {(c, 0): 1e-4}) - one(f, {(c, 0): -1e-4})) / 2e-4) ** 2 for c in own)
            total += (one(f, {}) - np.mean([one(g, {}) for g in here])) ** 2 / taken
            free += 1 - 1 / len(here)
        most = max(most, np.sqrt((6 + total) / (6 + free)))
    return most


def covariance(fillings):
    own = ["level", "packing", "soak", "soaked", "drip", "drained", "dry"]
    wide = widened(fillings)
    causes = [((c, i), wide) for c in own for i in range(len(fillings))]
    causes += [(("volume", h), 1.0) for h in {f[1] for f in fillings}]
    moved = [w * (figures(fillings, {c: 1e-4})[0] - figures(fillings, {c: -1e-4})[0]) / 2e-4 for c, w in causes]
    return sum(np.outer(m, m) for m in moved)


def second_derivative(f, x, steps):
    n = len(x)
    out = np.empty((n, n))
    for i in range(n):
        for j in range(n):
            def at(a, b):
                y = np.array(x)
                y[i] += a * steps[i]
                y[j] += b * steps[j]
                return f(y)
            out[i, j] = (at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / (4 * steps[i] * steps[j])
    return out


out = []
for name, fillings in TESTS:
    cls = CLASSES[name]
    seen, heights = figures(fillings, {})
    cov = covariance(fillings)
    weight = np.linalg.inv(cov)

    def misfit(q):
        if not 0.2 < q[0] < 1 or abs(q[1]) > 3 or abs(q[3]) > 1:
            return 1e9
        apart = seen - np.array([q[0]] + [mean_water(cls, q, h) for h in heights])
        return apart @ weight @ apart + (q[1] / 0.7) ** 2 + ((q[2] - cls["tr"]) / 0.05) ** 2 + (q[3] / 0.15) ** 2

    start = np.array([seen[0], 0.0, cls["tr"], 0.0])
    found = optimize.minimize(misfit, start, method="Nelder-Mead",
                              options=dict(xatol=1e-9, fatol=1e-12, maxiter=8000, maxfev=8000))
    found = optimize.minimize(misfit, found.x, method="Nelder-Mead",
                              options=dict(xatol=1e-10, fatol=1e-13, maxiter=8000, maxfev=8000))
    q = found.x
    if len(heights) == 1:
        # One height: the curve goes through its water by the factor alone.
        lnk = optimize.brentq(lambda k: mean_water(cls, [seen[0], k, cls["tr"], 0], heights[0]) - seen[1], -2.3, 2.3,
                              xtol=1e-12)
        best = [seen[0], lnk, cls["tr"], 0.0]
    else:
        best = list(q)
    spread = np.linalg.inv(second_derivative(misfit, q, [1e-3] * 4) / 2)
    slope = np.array([(curve(cls, np.array(best) + d, 10.0) - curve(cls, np.array(best) - d, 10.0)) / 2e-4
                      for d in np.eye(4) * 1e-4])
    out.append(dict(
        material=name, fillings=[list(map(float, f)) for f in fillings],
        pore_space=float(seen[0]), water=[float(w) for w in seen[1:]],
        errors=[float(e) for e in np.sqrt(np.diag(cov))],
        factor=float(np.exp(best[1])),
        curve={str(h): float(curve(cls, best, h)) for h in (1, 5, 10, 50, 100)},
        error_at_10_cm=float(np.sqrt(slope @ spread @ slope)),
    ))
    print(out[-1])

(HERE / "drain_test.json").write_text(json.dumps(out, indent=1) + "\n")
