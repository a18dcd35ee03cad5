"""Reference values for tests/tube_test.rs: the rise by another method, and the fit by another sampler.

Makes tube_test.json beside this file:

    python tube_test.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1.

`rises`: Richards' equation by the method of lines in the water content, flow by differences of the
matric flux potential, in time by LSODA, on 60 and on 120 cells, carried on to cells of no length. Heights
where the share full is 0.85 and 0.1.

`fits`: the 10 %, 50 % and 90 % points of the media that climb as read, from 180 000 draws of numpy's
generator, weighted by the same likelihood; the rise by flux concentration on a grid of its own (quadrature
over the share full instead of the suction).
"""

import json
import pathlib

import numpy as np
from scipy import integrate, special

HERE = pathlib.Path(__file__).parent


def suction(s, n):
    """Suction times alpha at a share full."""
    m = 1 - 1 / n
    return (s ** (-1 / m) - 1) ** (1 / n)


def conductivity(s, n):
    m = 1 - 1 / n
    return np.sqrt(s) * (-np.expm1(m * np.log1p(-np.minimum(s, 1 - 1e-15) ** (1 / m)))) ** 2


def full(x, n):
    return (1 + x**n) ** (1 / n - 1)


def rise_by_lines(n, time, top, cells):
    """Heights times alpha at T = t Ks alpha / fillable, from a foot at the water level."""
    x = np.geomspace(1e-6, 1e5, 6000)
    s_of_x = full(x, n)
    k = conductivity(s_of_x, n)
    potential = integrate.cumulative_trapezoid((k * x)[::-1], np.log(x)[::-1], initial=0)[::-1]
    potential = -potential + k[-1] * x[-1]
    at_water = potential[0] + x[0]
    s_grid, p_grid, k_grid = s_of_x[::-1], potential[::-1], k[::-1]
    dz = top / cells
    dry = full(1e4, n)

    def change(_, s):
        s = np.clip(s, s_grid[0], 1.0)
        p = np.interp(s, s_grid, p_grid)
        kk = np.interp(s, s_grid, k_grid)
        up = np.empty(cells + 1)
        up[0] = (at_water - p[0]) / (dz / 2) - (1 + kk[0]) / 2
        up[1:-1] = (p[:-1] - p[1:]) / dz - (kk[:-1] + kk[1:]) / 2
        up[-1] = 0.0
        return (up[:-1] - up[1:]) / dz

    out = integrate.solve_ivp(change, (0, time), np.full(cells, dry), method="LSODA",
                              lband=1, uband=1, rtol=1e-5, atol=1e-8)
    s = out.y[:, -1]
    z = (np.arange(cells) + 0.5) * dz
    z, s = np.r_[0.0, z], np.r_[1.0, s]
    heights = []
    for share in (0.85, 0.1):
        i = np.flatnonzero(s >= share)[-1]
        # Straight in the suction between two cells, as it is at rest.
        a, b = suction(np.minimum(s[i], 1 - 1e-12), n), suction(s[i + 1], n)
        heights.append(z[i] + (z[i + 1] - z[i]) * (suction(share, n) - a) / (b - a))
    return np.array(heights)


rises = []
for n in (2.0, 2.7, 4.0):
    for time, top in ((0.1, 1.6), (1.0, 3.0), (10.0, 4.5)):
        coarse, fine = (rise_by_lines(n, time, top, cells) for cells in (60, 120))
        heights = 2 * fine - coarse
        rises.append(dict(n=n, time=time, heights=[float(h) for h in heights],
                          unsure=float(np.abs(fine - coarse).max())))
        print(rises[-1])


# The fit.
WATER, GRAVITY, TENSION, VISCOSITY = 998.2, 9.80665, 0.07274, 1.002e-3


def stages(n):
    """ln E, T, T of depth, heights at shares full, all times alpha; flux concentration."""
    # From full to nearly dry, dense at both ends.
    x = np.r_[0.0, np.geomspace(1e-4, 1e3, 500)]
    s = full(x, n)
    k = np.r_[1.0, conductivity(s[1:], n)]
    ln_e = np.linspace(np.log(1e4), np.log(1e-9), 140)
    times, heights, waters = [], [], []
    for e in np.exp(ln_e):
        moved = integrate.cumulative_trapezoid(k / (k + e) ** 2, x, initial=0)
        part = integrate.cumulative_trapezoid(moved[::-1], s[::-1], initial=0)[::-1]
        share = part / part[0]
        carried = k / (k + e * share)
        heights.append(integrate.cumulative_trapezoid(carried, x, initial=0))
        waters.append(integrate.trapezoid(s * carried, x))
    e, w = np.exp(ln_e), np.array(waters)
    over = w / e
    p = np.log(w[1:] / w[:-1]) / -np.diff(ln_e)
    times = np.r_[over[0] / 2, over[0] / 2 + np.cumsum(p / (1 + p) * np.diff(over))]
    of_depth = np.log1p(1 / e) - 1 / (1 + e)
    small = e > 1e3
    of_depth[small] = 0.5 / e[small] ** 2 - 2 / 3 / e[small] ** 3
    return ln_e, times, of_depth, x, np.array(heights)


def lognormal(rng, low, best, high, size):
    d = rng.standard_normal(size)
    limit = np.where(d < 0, low, high)
    return best * (limit / best) ** (np.abs(d) / 1.2815515655446004)


def two_halves(rng, low, best, high, size):
    d = rng.standard_normal(size)
    limit = np.where(d < 0, low, high)
    return best + (limit - best) * np.abs(d) / 1.2815515655446004


def fit(read, rng, shapes=150, each=1200):
    keep = {name: [] for name in ("entry", "n", "k", "drying", "pores")}
    weights = []
    for shape in range(shapes):
        deviate = special.ndtri((shape + rng.random()) / shapes)
        limit = 1.0 if deviate < 0 else 6.0
        n = 1 + 2.5 * (limit / 2.5) ** (abs(deviate) / 1.2815515655446004)
        if not 1.5 <= n <= 15:
            continue
        ln_e, above, below, x, heights = stages(n)
        m = 1 - 1 / n
        wet = 0.70 + 0.25 * rng.random(each)
        damp = np.exp(np.log(0.03) + np.log(0.2 / 0.03) * rng.random(each))
        entry_number = lognormal(rng, 0.058, 0.15, 0.39, each)
        ratio = np.maximum(lognormal(rng, 1.4, 2.0, 2.9, each), 1.0)
        handful = 2 + 3 * rng.random(each)
        residual = 0.08 * rng.random(each)
        density = read["density"] * np.exp(read["density_off"] * rng.standard_normal(each))
        pores = 1 - density / two_halves(rng, 2.6, 2.65, 2.7, each)
        alpha = 1 / np.exp(rng.uniform(np.log(0.2), np.log(200.0), each))
        ks = 1e-2 * WATER * GRAVITY / VISCOSITY * pores * (
            entry_number * TENSION / (WATER * GRAVITY) * 1e4 * alpha) ** 2
        z = np.empty((each, 2))
        time = read["time"] * ks * alpha / (pores - residual)
        for i in range(each):
            e = np.exp(np.interp(np.log(time[i]), np.log(above + alpha[i] * read["depth"] * below), ln_e))
            row = np.interp(-np.log(e), -ln_e, np.arange(len(ln_e)))
            low = min(int(row), len(ln_e) - 2)
            for j, share in enumerate((wet[i], damp[i])):
                at = suction(share, n)
                one, other = np.interp(at, x, heights[low]), np.interp(at, x, heights[low + 1])
                z[i, j] = one + (row - low) * (other - one) - alpha[i] * read["depth"] * e / (1 + e)
        z = np.maximum(z / alpha[:, None], 0)
        off = np.hypot(read["reading"], 0.01 * z)
        ln = -0.5 * (((np.array([read["wet"], read["damp"]]) - z) / off) ** 2).sum(axis=1)
        # Normal errors of a height that grow with it: the Gaussian without its factor, as there.
        dry_alpha = alpha / ratio
        y = (np.arange(60) + 0.5) / 60
        there = residual + (pores - residual) * full(dry_alpha[:, None] * handful[:, None] * y, n).mean(axis=1)
        held = density * read["held"]
        ln += -0.5 * ((held - there) / np.hypot(0.02, density * read["held_error"])) ** 2
        weights.append(ln)
        factor = suction(0.9, n)
        keep["entry"].append(factor / alpha)
        keep["drying"].append(factor / dry_alpha)
        keep["n"].append(np.full(each, n))
        keep["k"].append(ks)
        keep["pores"].append(pores)
    ln = np.concatenate(weights)
    w = np.exp(ln - ln.max())
    out = {}
    for name, values in keep.items():
        v = np.concatenate(values)
        order = np.argsort(v)
        passed = np.cumsum(w[order]) / w.sum()
        out[name] = [float(v[order][np.searchsorted(passed, q)]) for q in (0.1, 0.5, 0.9)]
    out["worth"] = float(w.sum() ** 2 / (w**2).sum())
    return out


READINGS = [
    # Wet cm, damp cm, dry g/L, handful wet g of 200 g dry.
    dict(wet=7.9, damp=19.5, density=1.59, handful=252.0),
    dict(wet=2.0, damp=6.0, density=1.50, handful=240.0),
    dict(wet=22.0, damp=26.0, density=1.45, handful=254.0),
]
fits = []
for reading in READINGS:
    step = 1 / np.sqrt(12)
    read = dict(wet=reading["wet"], damp=reading["damp"], depth=2.0, time=3600.0, reading=0.5,
                density=reading["density"], density_off=float(np.hypot(0.03, step / (1000 * reading["density"]))),
                held=(reading["handful"] - 200) / 200, held_error=step * np.sqrt(2) / 200)
    found = fit(read, np.random.default_rng(20))
    fits.append(dict(reading=reading, found=found))
    print(fits[-1])

(HERE / "tube_test.json").write_text(json.dumps(dict(rises=rises, fits=fits), indent=1) + "\n")
