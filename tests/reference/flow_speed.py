"""How long a general-purpose solver takes over the day of `equal_error` in tests/flow_speed.rs, at equal error.

    FLOW_SPEED=day.json cargo test --profile native --test flow_speed -- --ignored
    python flow_speed.py day.json

The method of lines: cells, arithmetic means of conductivity within a medium and harmonic ones between two,
heads and level by LSODA with its banded Jacobian, or BDF with a sparse one, at several cuts and tolerances. The
reference is its own finest solution, drawn out to no spacing (Richardson), and how far the finest of ours lies
from it is told as well: two methods that agree. Error is the root of the mean square of what is off over
all heights and hours, cm. Told, never asserted. What is compared is a compiled program against one in Python
whose sums are numpy's: what a grower's page would cost with such a library, and no judgement of the method.

Needs numpy and scipy.
"""

import json
import math
import sys
import time

import numpy as np
from scipy import integrate, sparse

DAY = 86400.0
HOURS = (8, 11, 14, 17, 22)
HEIGHTS = np.array([1.0, 3.0, 4.5, 6.0, 9.0, 12.0])
BASE, TOP, FILL, BED, GROUND = 7.0, 9.7, 8.0, 5.0, 238.5
LITRES = 0.2
STORAGE = 1e-6


class System:
    """theta_r + (theta_s - theta_r) S of one pore system; K after Mualem 1976."""

    def __init__(self, span, alpha, n, ks):
        self.span, self.a, self.n, self.m, self.ks = span, alpha, n, 1 - 1 / n, ks / DAY

    def both(self, s):
        """Capacity and conductivity at suctions above nought."""
        x = (self.a * s) ** self.n
        full = (1 + x) ** -self.m
        capacity = self.span * self.m * self.n * x / s * full / (1 + x)
        k = self.ks * np.sqrt(full) * (1 - (x / (1 + x)) ** self.m) ** 2
        return capacity, k


SPAN = 0.80 - 0.129
PERLITE = [System(SPAN * 0.685, 0.8, 3.0, 1e5), System(SPAN * (1 - 0.685), 0.4204, 1.404, 5.0)]
MIX = [System(0.78, 0.12, 1.6, 1000.0)]


def both(systems, h):
    s = np.maximum(-h, 1e-12)
    capacity, k = np.zeros_like(h), np.zeros_like(h)
    for system in systems:
        c, more = system.both(s)
        capacity += c
        k += more
    full = sum(system.ks for system in systems)
    return np.where(h < 0, np.maximum(capacity, STORAGE), STORAGE), np.where(h < 0, k, full)


def day(n_bed, n_mix, rtol, method):
    """Levels and heads at the hours, and the milliseconds it took; none where it gave up."""
    faces = np.concatenate([np.linspace(0, BED, n_bed + 1),
                            BED + np.linspace(0, FILL, n_mix + 1)[1:]])
    n = n_bed + n_mix
    z = (faces[1:] + faces[:-1]) / 2
    breadth = np.where(faces < BED, BASE, BASE + (faces - BED) / FILL * (TOP - BASE))
    face_area = math.pi / 4 * breadth ** 2
    low, high = breadth[:-1], breadth[1:]
    volume = math.pi / 12 * (low ** 2 + low * high + high ** 2) * np.diff(faces)
    share = np.where(z > BED, volume, 0.0)
    share /= share.sum()
    open_cm2 = GROUND - face_area[0]
    gap = np.diff(z)
    inner = face_area[1:-1]
    half = np.diff(faces) / 2
    full_bed = sum(system.ks for system in PERLITE)
    mean_demand = 1000 * LITRES / DAY

    # The level comes first, so that the Jacobian is banded.
    def rate(t, y):
        level, h = y[0], y[1:]
        c1, k1 = both(PERLITE, h[:n_bed])
        c2, k2 = both(MIX, h[n_bed:])
        capacity, k = np.concatenate([c1, c2]), np.concatenate([k1, k2])
        face = 0.5 * (k[1:] + k[:-1])
        j = n_bed - 1
        face[j] = gap[j] / (half[j] / k[j] + half[j + 1] / k[j + 1])
        up = np.zeros(n + 1)
        up[1:-1] = -face * (np.diff(h) / gap + 1) * inner
        up[0] = -0.5 * (k[0] + full_bed) * ((h[0] - level) / half[0] + 1) * face_area[0]
        sun = math.sin(math.pi * (t / 3600 - 5) / 15) if 5 < t / 3600 < 20 else 0.0
        taken = mean_demand * math.pi / 2 * 24 / 15 * sun * share
        taken = taken * np.clip((300 + h) / 270, 0.0, 1.0)
        return np.concatenate([[-up[0] / open_cm2], (up[:-1] - up[1:] - taken) / volume / capacity])

    start = np.concatenate([[2.0], 2.0 - z])
    options = {"lband": 1, "uband": 1} if method == "LSODA" else {
        "jac_sparsity": sparse.diags([np.ones(n)] * 2 + [np.ones(n + 1)], [-1, 1, 0])}
    begun = time.perf_counter()
    found, now, y = [], 0.0, start
    # The sun's corners are met.
    for until in (5, 8, 11, 14, 17, 20, 22):
        solved = integrate.solve_ivp(rate, (now, 3600.0 * until), y, method=method, rtol=rtol,
                                     atol=rtol, t_eval=[3600.0 * until], **options)
        if not solved.success:
            return None, math.inf
        now, y = 3600.0 * until, solved.y[:, -1]
        if until in HOURS:
            found.append(y[0])
            found.extend(np.interp(HEIGHTS, z, y[1:]))
    return np.array(found), 1e3 * (time.perf_counter() - begun)


def main():
    ours = json.load(open(sys.argv[1])) if len(sys.argv) > 1 else []
    coarse, _ = day(100, 160, 1e-7, "BDF")
    fine, _ = day(200, 320, 1e-7, "BDF")
    reference = fine + (fine - coarse) / 3
    error = lambda heads: float(np.sqrt(np.mean((np.array(heads) - reference) ** 2)))
    print(f"reference: 260 and 520 cells drawn out to none, {error(fine):.1e} cm from its 520")
    theirs = []
    for method in ("LSODA", "BDF"):
        for n_bed, n_mix, rtol in [(10, 12, 1e-3), (20, 24, 1e-4), (40, 48, 1e-5), (80, 96, 1e-6)]:
            heads, ms = min((day(n_bed, n_mix, rtol, method) for _ in range(3)), key=lambda x: x[1])
            if heads is None:
                print(f"{method}, {n_bed + n_mix} cells, tolerance {rtol:g}: gives up")
                continue
            theirs.append((error(heads), ms))
            print(f"{method}, {n_bed + n_mix} cells, tolerance {rtol:g}: {ms:.1f} ms, off {theirs[-1][0]:.4f} cm")
    # The quickest way to each error or a smaller one.
    for row in ours:
        mine = error(row["heads_cm"])
        line = f"ours, {row['heights']} heights, tolerance {row['tolerance']:g}: {row['ms']:.2f} ms, off {mine:.4f} cm"
        as_good = [ms for off, ms in theirs if off <= mine]
        if as_good:
            line += f"; at no more error the library takes {min(as_good) / row['ms']:.0f} times as long"
        elif theirs:
            off, ms = min(theirs)
            line += f"; the library came no nearer than {off:.4f} cm, in {ms / row['ms']:.0f} times as long"
        print(line)


if __name__ == "__main__":
    main()
