"""Reference values for tests/flow.rs, worked out by general-purpose libraries.

Makes flow.json beside this file, in some minutes:

    python flow.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1, mpmath 1.4.1.

Numbers with a fraction stand as text, with as many digits as make them out. Lengths are in cm and
times in s or as named, as in the papers.

Nothing here shares a method with what it checks: conductivities come from Mualem's integral by
quadrature and not from its closed forms, steady flow from adaptive quadrature, transient flow
from the method of lines (cells, not nodes; heads by scipy's BDF with its own error control; no
tables), and the linear case from its series.

The tables printed in the papers themselves were not at hand. Where a paper's problem is solved anew
here, it is its statement that is taken from the paper, and the numbers are these.
"""

import json
import math
import pathlib

import mpmath as mp
import numpy as np
from scipy import integrate, optimize, sparse
from scipy.sparse import linalg  # noqa: F401 (makes sparse.linalg known)

mp.mp.dps = 30
HERE = pathlib.Path(__file__).parent
DAY = 86400.0
# Water that full pores take in for each cm of head (1e-4 for each metre).
STORAGE = 1e-6

# theta_r, theta_s, alpha 1/cm, n, Ks cm/day.
MEDIA = {
    # Carsel & Parrish 1988, Water Resources Research 24:755, table 6, sand.
    "sand": (0.045, 0.43, 0.145, 2.68, 712.8),
    # Matrix-free gravel as fitted in a published table (alpha 111.6 1/m, n 2.70, Ks 1 mm/s).
    "gravel": (0.02, 0.36, 1.116, 2.70, 86400.0),
    # A coarse sand of the same table.
    "coarse_sand": (0.013, 0.337, 0.205, 2.92, 8448.0),
    # The shape of a mix of peat and perlite, here only something to wet.
    "mix": (0.10, 0.88, 0.12, 1.60, 1000.0),
}


# --- Conductivity ----------------------------------------------------------------------------


def mualem(systems, suction, tortuosity=0.5):
    """K/Ks by Mualem's integral of dS/h over the pores still full, systems as (w, alpha, n)."""

    def saturation(w, a, n, h):
        return w * (1 + (a * h) ** n) ** -(1 - 1 / mp.mpf(n))

    def rate(h):
        # -dS/dh / h
        total = mp.mpf(0)
        for w, a, n in systems:
            m = 1 - 1 / mp.mpf(n)
            x = (a * h) ** n
            total += w * m * n * x / h * (1 + x) ** (-m - 1)
        return total / h

    def over(low):
        # h = low + e^u, so that both ends are reached.
        points = [-80, -40, -20, -10, -5, 0, 5, 10, 20, 40, 80]
        return mp.quad(lambda u: rate(low + mp.exp(u)) * mp.exp(u), points)

    h = mp.mpf(suction)
    full = sum(saturation(w, a, n, h) for w, a, n in systems)
    return full ** tortuosity * (over(h) / over(mp.mpf(0))) ** 2


def conductivities():
    rows = []
    cases = {
        "one": [(1.0, 0.12, 1.6)],
        "steep": [(1.0, 1.116, 2.7)],
        # Two pore systems far apart, as in porous grains: 0.726 between, 0.274 within.
        "two": [(0.726, 0.8, 3.0), (0.274, 0.1223, 1.438)],
    }
    for name, systems in cases.items():
        for suction in (0.1, 1.0, 5.0, 20.0, 60.0, 300.0, 5000.0):
            rows.append(
                {
                    "case": name,
                    "systems": [list(system) for system in systems],
                    "suction_cm": suction,
                    "relative": float(mualem(systems, suction)),
                }
            )
    return rows


# --- Steady flow -----------------------------------------------------------------------------


def vg_k(medium, s):
    _, _, a, n, ks = MEDIA[medium]
    m = 1 - 1 / mp.mpf(n)
    x = (mp.mpf(a) * s) ** n
    se = (1 + x) ** -m
    return ks * mp.sqrt(se) * (1 - (x / (1 + x)) ** m) ** 2


def height(k, q, low, high):
    """The height over which flux q takes the suction from low to high."""
    ends = [mp.mpf(low)]
    edge = max(mp.mpf(low), mp.mpf(10) ** -6)
    while edge * 2 < high:
        edge *= 2
        ends.append(edge)
    ends.append(mp.mpf(high))
    return mp.quad(lambda s: 1 / (1 + q / k(s)) if s > 0 else 1 / (1 + q / k(mp.mpf(10) ** -30)), ends)


def steady():
    mp.mp.dps = 20
    rows = []
    for medium, q, low, high in [
        ("gravel", 10, 0, 1e4),
        ("gravel", 30, 0, 1e4),
        ("gravel", 100, 0, 1e4),
        ("coarse_sand", 30, 0, 1e4),
        ("sand", 10, 0, 1e4),
        ("sand", 30, 0, 5.41),
        ("sand", 100, 0, 6.82),
        ("mix", 3.29, 5, 60),
        ("mix", 6.72, 0, 60),
    ]:
        d = height(lambda s, medium=medium: vg_k(medium, s), q, low, high)
        rows.append(
            {"medium": medium, "flux_cm_per_day": float(q), "from_cm": float(low),
             "to_cm": float(high), "height_cm": float(d)}
        )
    mp.mp.dps = 30
    return rows


def gardner():
    """Flux to a height with no limit to suction, for K = a/(s^n + b), by quadrature and root."""
    rows = []
    # The first: Chino clay, Gardner & Fireman 1958, Soil Science 85:244, as recalled.
    for a, b, n in [(1100, 565, 2), (100, 10, 1.5), (400, 400, 2), (1e5, 5e3, 3), (1e7, 1e5, 4)]:
        for d in (5, 30, 90):

            def excess(ln_q):
                q = math.exp(ln_q)
                # 1/(1 + q/K) = a/(a + q b + q s^n): whole line, by x = s/scale.
                scale = ((a + q * b) / q) ** (1 / n)
                whole, _ = integrate.quad(lambda x: 1 / (1 + x ** n), 0, 1, epsabs=1e-13)
                tail, _ = integrate.quad(
                    lambda y: y ** (n - 2) / (y ** n + 1) if y > 0 else (1.0 if n == 2 else 0.0),
                    0, 1, epsabs=1e-12, limit=400,
                )
                return a / (a + q * b) * scale * (whole + tail) - d

            ln_q = optimize.brentq(excess, -30, 12, xtol=1e-12)
            rows.append({"a": float(a), "b": float(b), "n": float(n), "height_cm": float(d),
                         "flux_cm_per_day": math.exp(ln_q)})
    return rows


def brooks_corey():
    rows = []
    for hb, p, ks, d in [(10, 8, 100, 15), (10, 8, 100, 30), (20, 5, 50, 30), (3, 8, 2000, 5),
                         (3, 8, 2000, 15), (1, 8, 3628.8, 5), (13.1, 12.2, 700, 20)]:

        def excess(ln_q):
            e = mp.exp(ln_q) / ks
            beyond = mp.hyp2f1(1, 1 - 1 / mp.mpf(p), 2 - 1 / mp.mpf(p), -1 / e) / (e * (p - 1))
            return hb * (1 / (1 + e) + beyond) - d

        ln_q = mp.findroot(excess, (-25, 6), solver="anderson", tol=1e-15)
        rows.append({"air_entry_cm": float(hb), "exponent": float(p), "saturated": float(ks),
                     "height_cm": float(d), "flux": float(mp.exp(ln_q))})
    return rows


# --- Transient flow by the method of lines ---------------------------------------------------


class Curves:
    """theta, dtheta/dh and K of a van Genuchten medium, cm and cm/s."""

    def __init__(self, medium):
        self.r, self.s, self.a, self.n, ks = MEDIA[medium]
        self.m = 1 - 1 / self.n
        self.ks = ks / DAY

    def theta(self, h):
        x = (self.a * np.maximum(-h, 0.0)) ** self.n
        return self.r + (self.s - self.r) * (1 + x) ** -self.m

    def capacity(self, h):
        s = np.maximum(-h, 1e-300)
        x = (self.a * s) ** self.n
        wet = (self.s - self.r) * self.m * self.n * x / s * (1 + x) ** (-self.m - 1)
        return np.where(h < 0, wet, STORAGE)

    def k(self, h):
        x = (self.a * np.maximum(-h, 1e-12)) ** self.n
        se = (1 + x) ** -self.m
        return np.where(h < 0, self.ks * np.sqrt(se) * (1 - (x / (1 + x)) ** self.m) ** 2, self.ks)


class Functions:
    def __init__(self, theta, k):
        self.theta, self.k = theta, k

    def capacity(self, h):
        e = 1e-5 * np.maximum(1.0, np.abs(h))
        return np.maximum((self.theta(h + e) - self.theta(h - e)) / (2 * e), STORAGE)


HAVERKAMP = Functions(
    lambda h: 0.075 + 1.611e6 * (0.287 - 0.075) / (1.611e6 + np.abs(np.minimum(h, 0)) ** 3.96),
    lambda h: 0.00944 * 1.175e6 / (1.175e6 + np.abs(np.minimum(h, 0)) ** 4.74),
)
YOLO = Functions(
    lambda h: 0.124 + 739 * (0.495 - 0.124)
    / (739 + np.log(np.maximum(np.abs(np.minimum(h, 0)), 1.0)) ** 4),
    lambda h: 1.23e-5 * 124.6 / (124.6 + np.abs(np.minimum(h, 0)) ** 1.77),
)


def banded(n):
    return sparse.diags([np.ones(n - 1), np.ones(n), np.ones(n - 1)], [-1, 0, 1])


def infiltration(curves, faces, h0, bottom, top, times, rtol=1e-6):
    """Heads held at the bottom and top of a column (z up, faces in cm). Gives heads and gains."""
    z = (faces[:-1] + faces[1:]) / 2
    dz = np.diff(faces)
    gap = np.diff(z)
    n = len(z)

    def rate(_, h):
        k = curves.k(h)
        inner = -0.5 * (k[1:] + k[:-1]) * ((h[1:] - h[:-1]) / gap + 1)
        flux = np.empty(n + 1)
        flux[1:-1] = inner
        flux[0] = 0.0
        if bottom is not None:
            kb = 0.5 * (curves.k(np.array(bottom)) + k[0])
            flux[0] = -kb * ((h[0] - bottom) / (dz[0] / 2) + 1)
        kt = 0.5 * (curves.k(np.array(top)) + k[-1])
        flux[-1] = -kt * ((top - h[-1]) / (dz[-1] / 2) + 1)
        return (flux[:-1] - flux[1:]) / dz / curves.capacity(h)

    start = np.full(n, float(h0))
    solved = integrate.solve_ivp(rate, (0, times[-1]), start, method="BDF", t_eval=times, rtol=rtol,
                                 atol=1e-6, jac_sparsity=banded(n), first_step=1e-6)
    assert solved.success, solved.message
    first = np.sum(curves.theta(start) * dz)
    out = []
    for index, time in enumerate(times):
        h = solved.y[:, index]
        out.append((time, z, h, np.sum(curves.theta(h) * dz) - first))
    return out


def profiles(out, length, depths):
    rows = []
    for time, z, h, gain in out:
        rows.append({"time_s": float(time), "gain_cm": float(gain),
                     "depth_cm": [float(d) for d in depths],
                     "head_cm": [float(np.interp(length - d, z, h)) for d in depths]})
    return rows


def celia():
    """Celia, Bouloutas & Zarba 1990, Water Resources Research 26:1483, the field problem of New
    Mexico: L 100, initial and bottom head -1000, top -75 cm."""
    MEDIA["celia"] = (0.102, 0.368, 0.0335, 2.0, 0.00922 * DAY)
    out = infiltration(Curves("celia"), np.linspace(0, 100, 2001), -1000, -1000, -75,
                       [6 * 3600.0, 12 * 3600.0, DAY])
    del MEDIA["celia"]
    return profiles(out, 100, [5, 10, 20, 30, 40, 45, 50])


def haverkamp():
    """Haverkamp et al. 1977, Soil Science Society of America Journal 41:285, the sand, as posed in
    Celia et al. 1990, figure 1: L 40, initial and bottom head -61.5, top -20.7 cm."""
    out = infiltration(HAVERKAMP, np.linspace(0, 40, 1601), -61.5, -61.5, -20.7, [120.0, 360.0])
    return profiles(out, 40, [2, 4, 6, 8, 10, 12, 14, 16])


def yolo():
    """Yolo light clay by the functions of Haverkamp et al. 1977: sorptivity from the similarity
    equation by shooting, and what has soaked in by the method of lines. Initial head -600, top -1 cm
    (at nought the curve has a corner)."""
    top = -1.0
    faces = 40 - np.concatenate([np.geomspace(1e-3, 40, 900)[::-1], [0.0]])
    out = infiltration(YOLO, faces, -600, None, top, [1e3, 1e4, 1e5], rtol=1e-7)
    soaked = [{"time_s": t, "gain_cm": float(gain)} for t, _, _, gain in out]

    # d/dx (K dh/dx) = -x/2 C dh/dx; y = (h, K dh/dx), from x = 0 outwards.
    def end(slope):
        def rate(x, y):
            h = min(max(y[0], -700.0), top)
            k = float(YOLO.k(np.array(h)))
            gradient = y[1] / k
            return [gradient, -x / 2 * float(YOLO.capacity(np.array(h))) * gradient]

        def too_dry(_, y):
            return y[0] + 650.0

        too_dry.terminal = True
        solved = integrate.solve_ivp(rate, (0, 0.2), [top, slope], rtol=1e-9, atol=1e-12,
                                     events=too_dry, method="LSODA")
        return solved.y[0, -1] + 600.0

    slope = optimize.brentq(end, -5e-2, -1e-4, xtol=1e-14)
    return {"soaked": soaked, "sorptivity_cm_per_s05": float(-2 * slope), "top_cm": top}


def layered_wetting():
    """5 cm of sand below 10 cm of mix, at h = -60 - z, stood in 2 cm of water at time nought;
    the top is closed. Cells of 0.5 mm."""
    dz, lower, n = 0.05, 100, 300
    z = (np.arange(n) + 0.5) * dz
    parts = [(slice(0, lower), Curves("sand")), (slice(lower, n), Curves("mix"))]

    def over(name, h):
        return np.concatenate([getattr(c, name)(h[part]) for part, c in parts])

    def rate(_, y):
        h = y[:n]
        k = over("k", h)
        face = 0.5 * (k[1:] + k[:-1])
        face[lower - 1] = 2 * k[lower - 1] * k[lower] / (k[lower - 1] + k[lower])
        flux = np.zeros(n + 1)
        flux[1:-1] = -face * (np.diff(h) / dz + 1)
        flux[0] = -0.5 * (k[0] + parts[0][1].ks) * ((h[0] - 2.0) / (dz / 2) + 1)
        return np.append((flux[:-1] - flux[1:]) / dz / over("capacity", h), flux[0])

    times = [60.0, 300.0, 900.0, 3600.0, 14400.0]
    pattern = sparse.lil_matrix((n + 1, n + 1))
    pattern[:n, :n] = banded(n)
    pattern[n, 0] = 1
    solved = integrate.solve_ivp(rate, (0, times[-1]), np.append(-60 - z, 0.0), method="BDF",
                                 t_eval=times, rtol=1e-7, atol=1e-7, jac_sparsity=pattern)
    assert solved.success
    heights = [2.0, 4.0, 6.0, 8.0, 10.0, 12.0]
    return [{"time_s": t, "inflow_cm": float(solved.y[n, i]), "height_cm": heights,
             "head_cm": [float(np.interp(x, z, solved.y[:n, i])) for x in heights]}
            for i, t in enumerate(times)]


def stress(s, a, b, c, d):
    return np.clip(np.minimum((s - a) / (b - a), (d - s) / (d - c)), 0.0, 1.0)


def potted():
    """A tapered pot of 9 cm of mix, 8 cm wide at its base and 11 at its top, bedded on 3 cm of sand
    as wide as its base, in a tray with 100 cm2 of open water beside it that starts at 2 cm and is not
    refilled. At rest at first; demand 0.3 L a day over a half sine from 5 to 20 h, roots even in the
    pot, Feddes 0, 3, 30, 200 cm. Hours 5 to 15. Cells of 0.5 mm."""
    dz, lower, n = 0.05, 60, 240
    bed, mix = Curves("sand"), Curves("mix")
    faces = np.arange(n + 1) * dz
    z = (np.arange(n) + 0.5) * dz

    def area(x):
        breadth = np.where(x < 3.0, 8.0, 8.0 + (x - 3.0) / 9.0 * 3.0)
        return math.pi / 4 * breadth ** 2

    face_area = area(faces)
    volume = np.array([integrate.fixed_quad(area, faces[i], faces[i + 1])[0] for i in range(n)])
    share = np.where(z > 3.0, volume, 0.0)
    share /= share.sum()
    open_cm2 = 100.0
    daily = 300.0 / DAY

    def rate(t, y):
        h, level = y[:n], y[n]
        k = np.concatenate([bed.k(h[:lower]), mix.k(h[lower:])])
        capacity = np.concatenate([bed.capacity(h[:lower]), mix.capacity(h[lower:])])
        face = 0.5 * (k[1:] + k[:-1])
        face[lower - 1] = 2 * k[lower - 1] * k[lower] / (k[lower - 1] + k[lower])
        flow = np.zeros(n + 1)
        flow[1:-1] = -face * (np.diff(h) / dz + 1) * face_area[1:-1]
        flow[0] = -0.5 * (k[0] + bed.ks) * ((h[0] - level) / (dz / 2) + 1) * face_area[0]
        demand = daily * math.pi / 2 * 24 / 15 * math.sin(math.pi * t / (15 * 3600))
        taken = demand * share * stress(-h, 0.0, 3.0, 30.0, 200.0)
        return np.concatenate([(flow[:-1] - flow[1:] - taken) / volume / capacity,
                               [-flow[0] / open_cm2, taken.sum()]])

    pattern = sparse.lil_matrix((n + 2, n + 2))
    pattern[:n, :n] = banded(n)
    pattern[0, n] = pattern[n, 0] = pattern[n, n] = 1
    pattern[n + 1, :n] = 1
    times = [i * 3600.0 for i in (2, 4, 6, 8, 10)]
    solved = integrate.solve_ivp(rate, (0, times[-1]), np.concatenate([2.0 - z, [2.0, 0.0]]),
                                 method="BDF", t_eval=times, rtol=1e-7, atol=1e-8,
                                 jac_sparsity=pattern)
    assert solved.success
    heights = [1.0, 2.5, 4.0, 6.0, 8.0, 10.0, 11.5]
    return [{"time_s": t, "level_cm": float(solved.y[n, i]), "drunk_ml": float(solved.y[n + 1, i]),
             "height_cm": heights,
             "head_cm": [float(np.interp(x, z, solved.y[:n, i])) for x in heights]}
            for i, t in enumerate(times)]


# --- The linear case -------------------------------------------------------------------------


def srivastava_yeh():
    """Srivastava & Yeh 1991, Water Resources Research 27:753, one layer: K = Ks e^(alpha h) and
    theta - theta_r in proportion, water table at the foot, flux at the top changed at time nought.
    The series of their equation for one layer, 400 roots."""
    alpha, ks, length, span = 0.1, 1.0, 100.0, 0.34
    lam = alpha * length
    roots = [float(mp.findroot(lambda l: mp.tan(l * lam) + 2 * l,
                               ((k - 0.5) * mp.pi / lam + 1e-9, k * mp.pi / lam),
                               solver="anderson", tol=1e-20, verify=False)) for k in range(1, 401)]
    for root in roots:
        assert abs(math.sin(root * lam) + 2 * root * math.cos(root * lam)) < 1e-8
    roots = np.array(roots)
    rows = []
    for before, after in [(0.1, 0.9), (0.9, 0.1)]:
        for t in (1.0, 3.0, 5.0, 10.0, 20.0, 50.0):
            time = alpha * ks * t / span
            heads = []
            for height_cm in (10.0, 20.0, 40.0, 60.0, 80.0, 90.0, 100.0):
                x = alpha * height_cm
                terms = (np.sin(roots * x) * np.sin(roots * lam) * np.exp(-roots ** 2 * time)
                         / (1 + lam / 2 + 2 * roots ** 2 * lam))
                k = (after - (after - 1) * math.exp(-x)
                     - 4 * (after - before) * math.exp((lam - x) / 2) * math.exp(-time / 4)
                     * terms.sum())
                heads.append(math.log(k) / alpha)
            rows.append({"before_cm_per_h": before, "after_cm_per_h": after, "time_h": t,
                         "height_cm": [10.0, 20.0, 40.0, 60.0, 80.0, 90.0, 100.0],
                         "head_cm": heads})
    return rows


def srivastava_yeh_layered():
    """The same in two layers of 100 cm, Ks 10 below and 1 cm/h above, 0.1 to 0.9 cm/h. Linear in
    K/Ks of each layer: finite volumes, 2000 cells, Crank-Nicolson."""
    alpha, span, dz = 0.1, 0.34, 0.1
    ks = np.where(np.arange(2000) < 1000, 10.0, 1.0)
    n = len(ks)
    storage = span * dz

    def operator(q):
        # The flux up between centres is exact for steady flow in each half cell; unknown u = K/Ks.
        a = alpha * dz
        main, low, high, source = np.zeros(n), np.zeros(n), np.zeros(n), np.zeros(n)
        for i in range(n - 1):
            if ks[i] == ks[i + 1]:
                c_low, c_high = ks[i] / math.expm1(a), ks[i] / -math.expm1(-a)
            else:
                # u is shared at the interface, each half as above.
                b = a / 2
                l1, l2 = ks[i] / math.expm1(b), ks[i] / -math.expm1(-b)
                u1, u2 = ks[i + 1] / math.expm1(b), ks[i + 1] / -math.expm1(-b)
                # l1 u_i - l2 u = u1 u - u2 u_next
                c_low = u1 * l1 / (u1 + l2)
                c_high = l2 * u2 / (u1 + l2)
            main[i] -= c_low
            high[i] += c_high
            low[i + 1] += c_low
            main[i + 1] -= c_high
        b = a / 2
        main[0] -= ks[0] / -math.expm1(-b)
        source[0] += ks[0] / math.expm1(b)
        source[-1] += q
        return sparse.diags([low[1:], main, high[:-1]], [-1, 0, 1], format="csc"), source

    matrix, old = operator(0.1)
    u = sparse.linalg.spsolve(matrix, -old)
    _, source = operator(0.9)
    step = 0.01
    eye = sparse.identity(n, format="csc") * storage
    left = sparse.linalg.splu((eye - 0.5 * step * matrix).tocsc())
    implicit = sparse.linalg.splu((eye - 0.25 * step * matrix).tocsc())
    z = (np.arange(n) + 0.5) * dz
    heights = [20.0, 50.0, 80.0, 95.0, 105.0, 120.0, 150.0, 180.0]
    rows, done = [], 0
    for t in (5.0, 10.0, 20.0, 50.0):
        while done * step < t - 1e-9:
            if done < 2:
                # Four short implicit steps take the jump.
                for _ in range(4):
                    u = implicit.solve(storage * u + 0.25 * step * source)
            else:
                u = left.solve(eye @ u + 0.5 * step * (matrix @ u) + step * source)
            done += 1
        rows.append({"time_h": t, "height_cm": heights,
                     "head_cm": [float(np.interp(x, z, np.log(u) / alpha)) for x in heights]})
    return rows


def as_text(value):
    """The same with every float as the shortest text that reads back to it."""
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, list):
        return [as_text(item) for item in value]
    if isinstance(value, dict):
        return {key: as_text(item) for key, item in value.items()}
    return value


def main():
    found = {}
    for make in (conductivities, steady, gardner, brooks_corey, celia, haverkamp, yolo,
                 layered_wetting, potted, srivastava_yeh, srivastava_yeh_layered):
        found[make.__name__] = make()
        print(make.__name__, json.dumps(found[make.__name__])[:400], flush=True)
    lines = []
    for name, value in as_text(found).items():
        if isinstance(value, list):
            rows = ",\n".join("    " + json.dumps(row) for row in value)
            lines.append(f'  "{name}": [\n{rows}\n  ]')
        else:
            rows = ",\n".join(f'    "{key}": {json.dumps(row)}' for key, row in value.items())
            lines.append(f'  "{name}": {{\n{rows}\n  }}')
    (HERE / "flow.json").write_text("{\n" + ",\n".join(lines) + "\n}\n")


if __name__ == "__main__":
    main()
