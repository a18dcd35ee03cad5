"""Reference values for tests/heat, worked out by general-purpose libraries.

Makes heat.json beside this file, in a minute or two:

    python heat.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1, mpmath 1.4.1, ht 1.2.0, fluids 1.3.1, pvlib 0.16.1.

Nothing here shares a method with what it checks: the error function is scipy's, steps through a film come
from a numerical inverse of the Laplace transform, layers from a boundary value problem, free convection from
a library of correlations, standings from cells of their own and LSODA or BDF with its own error control.

The hours of real days are those that pvlib carries as examples: two typical years of the National Solar
Radiation Database (TMY3, public domain).
"""

import json
import math
import pathlib

import mpmath as mp
import numpy as np
from scipy import integrate, special

HERE = pathlib.Path(__file__).parent
DAY = 86400.0


def rounded(x, digits=9):
    return [rounded(y, digits) for y in x] if isinstance(x, (list, tuple, np.ndarray)) else float(f"{x:.{digits}g}")


# --- Functions and the ground ------------------------------------------------------------------


def error_functions():
    xs = [-3.0, -1.0, -0.1, 0.0, 1e-3, 0.1, 0.5, 1.0, 1.5, 1.9, 1.99, 2.0, 2.01, 2.5, 3.0, 4.0, 6.0, 10.0, 25.0]
    return [
        [x, rounded(special.erf(x), 17), rounded(special.erfc(x), 17), rounded(special.erfcx(x), 17)]
        for x in xs
    ]


def steps_through_film():
    """T(z, t) after the air jumps by 1: the transform is h e^(-q z)/(s (h + k q)), q = sqrt(s/a)."""
    rows = []
    mp.mp.dps = 30
    for k, c in [(1.35, 2.0e6), (0.45, 1.5e6), (0.27, 2.3e6)]:
        for h in [2.0, 10.0, 25.0]:
            for z in [0.0, 0.05, 0.2]:
                for hours in [0.5, 6.0, 48.0]:
                    q = lambda s: mp.sqrt(s * mp.mpf(c) / k)
                    image = lambda s: h * mp.exp(-q(s) * z) / (s * (h + k * q(s)))
                    value = mp.invertlaplace(image, hours * 3600, method="talbot")
                    rows.append([k, c, h, z, hours, rounded(float(value), 12)])
    return rows


def film_waves():
    """Ratio and lag of a surface under a film, from complex admittances."""
    rows = []
    for k, c in [(1.35, 2.0e6), (0.4, 1.5e6), (2.0, 2.4e6)]:
        for h in [5.0, 10.0, 24.0]:
            for period in [DAY, 365.25 * DAY]:
                w = 2 * math.pi / period
                y = np.sqrt(1j * w * k * c)
                x = h / (h + y)
                rows.append([k, c, h, period, rounded(abs(x)), rounded(-np.angle(x) / w)])
    return rows


def bvp(layers, w, left, right):
    """Complex temperature through layers (k, C, L) at one frequency, by a boundary value problem in which
    all layers run side by side in their own coordinate. left(T, q) and right(T, q) vanish at the ends."""
    n = len(layers)

    def rhs(x, y):
        out = []
        for i, (k, c, length) in enumerate(layers):
            tr, ti, qr, qi = y[4 * i : 4 * i + 4]
            # q = -k dT/dz; dq/dz = -i w C T
            out += [-qr / k * length, -qi / k * length, w * c * ti * length, -w * c * tr * length]
        return np.array(out)

    def bc(a, b):
        def at(y, i):
            return complex(y[4 * i], y[4 * i + 1]), complex(y[4 * i + 2], y[4 * i + 3])

        out = []
        first, last = left(*at(a, 0)), right(*at(b, n - 1))
        out += [first.real, first.imag]
        for i in range(n - 1):
            for u, v in zip(at(b, i), at(a, i + 1)):
                out += [(u - v).real, (u - v).imag]
        out += [last.real, last.imag]
        return np.array(out)

    x = np.linspace(0, 1, 101)
    found = integrate.solve_bvp(rhs, bc, x, np.zeros((4 * n, x.size)), tol=1e-9, max_nodes=200000)
    assert found.success
    y0, y1 = found.sol(0.0), found.sol(1.0)
    m = 4 * (n - 1)
    return (
        complex(y0[0], y0[1]),
        complex(y0[2], y0[3]),
        complex(y1[m], y1[m + 1]),
        complex(y1[m + 2], y1[m + 3]),
    )


def layer_conductances():
    """Heat into the top of a layer over a fixed temperature, for a swing of 1 at the top."""
    rows = []
    for k, c, length in [(1.5, 2.2e6, 1.0), (1.5, 2.2e6, 0.1), (0.45, 1.5e6, 0.15)]:
        for n in [1, 2, 5]:
            w = 2 * math.pi * n / DAY
            _, q, _, _ = bvp([(k, c, length)], w, lambda t, q: t - 1, lambda t, q: t)
            rows.append([k, c, length, n, rounded(q.real), rounded(q.imag)])
    return rows


def walls():
    """Two layers between films: admittance from the near side, and heat that arrives on it for a swing of 1
    on the far side."""
    rows = []
    for layers, rsi, rse in [
        ([(1.8, 2.4e6, 0.2)], 0.13, 0.04),
        ([(0.036, 3e4, 0.05), (1.35, 2.0e6, 0.1)], 0.17, 0.04),
        ([(1.35, 2.0e6, 0.1), (0.036, 3e4, 0.05)], 0.17, 0.04),
    ]:
        w = 2 * math.pi / DAY
        # A film: q = (T_air - T)/R at the near side, q = (T - T_air)/R at the far one.
        _, near, _, _ = bvp(layers, w, lambda t, q: q * rsi - (1 - t), lambda t, q: q * rse - t)
        _, arrives, _, _ = bvp(layers, w, lambda t, q: q * rsi + t, lambda t, q: q * rse - (t - 1))
        rows.append(
            {
                "layers": [list(layer) for layer in layers],
                "films": [rsi, rse],
                "admittance": [rounded(near.real), rounded(near.imag)],
                "arrives": [rounded(arrives.real), rounded(arrives.imag)],
            }
        )
    return rows


def cylinders():
    """Mean over the section of a long cylinder in a wave of air: ratio and lag, h."""
    rows = []
    k, c, h = 0.35, 2.5e6, 8.0
    w = 2 * math.pi / DAY
    for radius in [0.045, 0.095, 0.15]:
        q = np.sqrt(1j * w * c / k)
        x = q * radius
        # T = A I0(q r), -k T' = h (T - 1): the mean is 2 A I1(x)/x.
        a = h / (h * special.iv(0, x) + k * q * special.iv(1, x))
        mean = 2 * a * special.iv(1, x) / x
        rows.append([radius, rounded(abs(mean)), rounded(-np.angle(mean) / w / 3600)])
    return rows


# --- Free convection ---------------------------------------------------------------------------


def free_convection():
    from ht import conv_free_immersed as free

    rows = []
    for ra in [1e5, 5.669e5, 5e6, 3.061e7, 1e9]:
        pr = 0.711
        up = free.Nu_horizontal_plate_McAdams(Pr=pr, Gr=ra / pr, buoyancy=True)
        down = free.Nu_horizontal_plate_McAdams(Pr=pr, Gr=ra / pr, buoyancy=False)
        side = free.Nu_vertical_plate_Churchill(Pr=pr, Gr=ra / pr)
        rows.append([ra, pr, rounded(up), rounded(down), rounded(side)])
    return rows


# --- Hours of real days ------------------------------------------------------------------------


def days():
    """Three days of each month of two typical years, by solar time: place, day length, hours."""
    import pvlib

    rows = []
    for name in ["703165TY.csv", "723170TYA.CSV"]:
        path = pathlib.Path(pvlib.__file__).parent / "data" / name
        frame, place = pvlib.iotools.read_tmy3(path, coerce_year=1990, map_variables=True)
        air = frame["temp_air"].to_numpy()
        latitude, longitude, zone = place["latitude"], place["longitude"], place["TZ"]
        for month in range(12):
            for middle in [10, 15, 20]:
                day = int([0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334][month]) + middle
                b = 2 * math.pi * (day - 81) / 364
                equation = 9.87 * math.sin(2 * b) - 7.53 * math.cos(b) - 1.5 * math.sin(b)
                # The first row of the file stands for 1 o'clock of zone time.
                shift = equation / 60 + longitude / 15 - zone
                zone_hours = np.arange(1, len(air) + 1)
                solar = zone_hours + shift
                wanted = 24 * (day - 1) + np.arange(-24, 48)
                hours = np.interp(wanted, solar, air)
                declination = 0.409 * math.sin(2 * math.pi / 365 * day - 1.39)
                cosine = -math.tan(math.radians(latitude)) * math.tan(declination)
                length = 24 / math.pi * math.acos(max(-1.0, min(1.0, cosine)))
                rows.append([name[:6], rounded(length, 5), [round(float(x), 2) for x in hours]])
    return rows


# --- Standings ---------------------------------------------------------------------------------

SIGMA = 5.670374419e-8
PSYCHROMETRIC = 0.0674
LEWIS = 1.08
# What draughts carry along surfaces in free convection, W/m2K.
DRAUGHT = 1.5


def saturation(t):
    return 0.6108 * np.exp(17.27 * t / (t + 237.3))


def weather(t):
    """Smooth weather of an April day, so that nothing hangs on how hours are joined: floor air, bench air,
    the house's cover, vapour pressure, sun."""
    w = 2 * math.pi / DAY
    wave = math.cos(w * (t - 14.5 * 3600))
    second = math.cos(2 * w * (t - 3 * 3600))
    bench = 13.0 + 8.0 * wave + 0.8 * second
    floor = bench - 0.5 + 0.6 * wave
    cover = bench - 2.5 + 1.5 * wave
    vapour = 1.05 + 0.25 * math.cos(w * (t - 13 * 3600))
    sun = 150.0 * (1 + math.cos(w * (t - 12 * 3600)))
    return floor, bench, cover, vapour, sun


def air(t_film):
    k = t_film + 273.15
    mu = 1.716e-5 * (k / 273.15) ** 1.5 * (273.15 + 111) / (k + 111)
    cond = 0.0241 * (k / 273.15) ** 1.5 * (273.15 + 194) / (k + 194)
    rho = 101325 / (287.05 * k)
    return cond, mu / rho, mu * 1006 / cond, k


def film(kind, surface, around):
    name, x = kind
    if name == "steady":
        return x
    cond, nu, pr, kelvin = air((surface + around) / 2)
    ra = 9.80665 / kelvin * abs(surface - around) * x**3 * pr / nu**2
    if name == "upright":
        n = (0.825 + 0.387 * ra ** (1 / 6) / (1 + (0.492 / pr) ** (9 / 16)) ** (8 / 27)) ** 2
    else:
        free = (surface >= around) == (name == "up")
        if free:
            n = 0.15 * ra ** (1 / 3) if ra > 1e7 else 0.54 * ra**0.25
        else:
            n = 0.27 * ra**0.25
    return ((max(n, 1.0) * cond / x) ** 3 + DRAUGHT**3) ** (1 / 3)


def radiated(emissivity, a, b):
    return emissivity * SIGMA * ((a + 273.15) ** 4 - (b + 273.15) ** 4)


class Standing:
    """One square metre. Cells of the ground of its own (growing by 6 %), surfaces by Newton's method."""

    def __init__(self, **given):
        self.__dict__.update(given)
        # Ground: (k, C, thickness) downwards.
        k, c, dz, first = [], [], [], 0.004
        for layer in self.ground:
            left, own = layer[2], []
            total = 0.0
            while total < left:
                own.append(first)
                total += first
                first *= 1.06
            own = [x * left / total for x in own]
            dz += own
            k += [layer[0]] * len(own)
            c += [layer[1]] * len(own)
        self.gk, self.gc, self.gdz = map(np.array, (k, c, dz))
        half = self.gdz / (2 * self.gk)
        self.ghalf = half
        self.gbetween = 1 / (half[:-1] + half[1:])
        self.cells = len(dz)
        # Pots: thirds of a cone.
        n, d0, d1, h = self.pots
        edges = [d0 + (d1 - d0) * i / 3 for i in range(4)]
        self.volume = [n * math.pi / 12 * h / 3 * (a * a + a * b + b * b) for a, b in zip(edges, edges[1:])]
        self.wall = [
            n * math.pi * (a + b) / 2 * math.hypot(h / 3, (b - a) / 2) for a, b in zip(edges, edges[1:])
        ]
        self.breadth = [(a + b) / 2 for a, b in zip(edges, edges[1:])]
        share = lambda d: n * math.pi / 4 * d * d
        self.foot, self.top = share(d0), share(d1)
        self.halves = [h / 6 / (self.mix[0] * share(d)) for d in self.breadth]
        # Unknowns: ground cells from the top, [heater], water, [bed], three of the pots.
        self.names = [f"g{i}" for i in range(self.cells)]
        self.capacity = list(self.gc * self.gdz)
        if self.heater:
            self.names.append("heater")
            self.capacity.append(self.heater["capacity"])
        self.names.append("water")
        self.capacity.append(4.18e6 * self.water + self.tray_capacity)
        if self.bed:
            self.names.append("bed")
            self.capacity.append(self.bed[1] * self.bed[2])
        self.names += ["p1", "p2", "p3"]
        self.capacity += [v * self.mix[1] for v in self.volume]
        self.capacity = np.array(self.capacity)
        self.index = {name: i for i, name in enumerate(self.names)}
        self.on = True

    def closed(self, t):
        if not self.cover:
            return False
        hour = (t / 3600) % 24
        a, b = self.cover["from"], self.cover["to"]
        return (hour - a) % 24 < (b - a) % 24 or a == b

    def surface_heat(self, surface, area, s, around, cover, vapour, covered):
        """Heat from a surface at s to outside, W/m2 of standing."""
        h = film(surface["film"], s, around)
        if covered:
            q = h * (s - around) + radiated(surface["emissivity"], s, around)
            q += surface["wet"] * h * LEWIS / PSYCHROMETRIC * (saturation(s) - saturation(around))
        else:
            seen = around + surface["sees_cover"] * (cover - around)
            q = h * (s - around) + radiated(surface["emissivity"], s, seen)
            q += surface["wet"] * h * LEWIS / PSYCHROMETRIC * (saturation(s) - vapour)
        return area * q

    def skin(self, node, inner, surface, area, sun, around, cover, vapour, covered):
        """Heat from a node to a surface without heat of its own, and the heat from there outward."""
        if inner is None:
            out = self.surface_heat(surface, area, node, around, cover, vapour, covered)
            return out - sun, out
        s = node
        for _ in range(50):
            balance = lambda x: inner * (node - x) + sun - self.surface_heat(
                surface, area, x, around, cover, vapour, covered
            )
            f = balance(s)
            slope = (balance(s + 1e-4) - f) / 1e-4
            step = -f / slope
            s += step
            if abs(step) < 1e-10:
                break
        return inner * (node - s), inner * (node - s) + sun

    def rates(self, t, x):
        floor_air, bench_air, cover, vapour, sun = weather(t)
        own_air = floor_air + self.air_height * (bench_air - floor_air)
        i = self.index
        q = np.zeros(len(x))
        covered = self.closed(t)
        sun_here = sun * (self.cover["transmitted"] if covered else 1.0)

        skins = []
        side = self.side
        for third, name in enumerate(["p1", "p2", "p3"]):
            acting = self.wall[third] * self.acting
            inner = acting * 8 * self.mix[0] / self.breadth[third]
            part = [0.0, 0.5, 0.5][third]
            skins.append((i[name], inner, side, acting, side["sun"] * part * sun_here))
        skins.append((i["p3"], 1 / self.halves[2], self.top_surface, self.top, self.top_surface["sun"] * sun_here))
        opened = self.open
        if self.bed:
            inner = (1 - self.foot) * 2 * self.bed[0] / self.bed[2]
            skins.append((i["bed"], inner, opened, 1 - self.foot, opened["sun"] * sun_here))
        else:
            skins.append((i["water"], None, opened, 1 - self.foot, opened["sun"] * sun_here))

        def all_skins(around):
            return [self.skin(x[n], inner, s, a, heat, around, cover, vapour, covered) for n, inner, s, a, heat in skins]

        if covered:
            loss, seen = self.cover["loss"], self.cover["sees_cover"]
            outside = own_air + seen * (cover - own_air)
            low, high = -60.0, 120.0
            excess = lambda a: sum(out for _, out in all_skins(a)) - loss * (a - outside)
            from scipy.optimize import brentq

            around = brentq(excess, low, high, xtol=1e-9)
        else:
            around = own_air
        self.around = around
        for (n, *_), (lost, _) in zip(skins, all_skins(around)):
            q[n] -= lost

        # The pots.
        for a, b, ra, rb in [("p1", "p2", 0, 1), ("p2", "p3", 1, 2)]:
            flow = (x[i[a]] - x[i[b]]) / (self.halves[ra] + self.halves[rb])
            q[i[a]] -= flow
            q[i[b]] += flow
        into = 1 / (self.into_base * self.foot) + self.halves[0]
        if self.bed:
            half = self.bed[2] / (2 * self.bed[0])
            flow = (x[i["water"]] - x[i["bed"]]) / half
            q[i["water"]] -= flow
            q[i["bed"]] += flow
            flow = (x[i["bed"]] - x[i["p1"]]) / (into + half / self.foot)
            q[i["bed"]] -= flow
        else:
            flow = (x[i["water"]] - x[i["p1"]]) / into
            q[i["water"]] -= flow
        q[i["p1"]] += flow

        # Refills.
        for depth, tank, begins, lasts in self.refills:
            if ((t / 3600) % 24 - begins) % 24 < lasts:
                q[i["water"]] -= 4.18e6 * depth / (lasts * 3600) * (x[i["water"]] - tank)

        # The ground.
        g = x[: self.cells]
        between = (g[:-1] - g[1:]) * self.gbetween
        q[: self.cells - 1] -= between
        q[1 : self.cells] += between
        q[self.cells - 1] -= (g[-1] - self.deep) / self.ghalf[-1]

        # From the floor to what stands over it: the lowest node there.
        above = "heater" if self.heater else "water"
        insulation = self.heater["insulation"] if self.heater else 0.0
        if self.gap is None:
            flow = (g[0] - x[i[above]]) / (self.ghalf[0] + self.contact + insulation)
            q[0] -= flow
            q[i[above]] += flow
        else:
            gap = self.gap
            air_gap = floor_air + gap["air_height"] * (bench_air - floor_air)
            through = gap["through"] + insulation

            def off(s):
                u, f = s
                exchanged = radiated(gap["exchange"], f, u)
                to_u = (
                    (x[i[above]] - u) / through
                    + exchanged
                    - film(gap["under_tray"], u, air_gap) * (u - air_gap)
                )
                to_f = (
                    (g[0] - f) / self.ghalf[0]
                    - exchanged
                    - film(gap["on_floor"], f, floor_air) * (f - floor_air)
                    + gap["floor_sun"] * sun
                )
                return np.array([to_u, to_f])

            s = np.array([x[i[above]], g[0]])
            for _ in range(60):
                f0 = off(s)
                jac = np.column_stack([(off(s + np.eye(2)[j] * 1e-5) - f0) / 1e-5 for j in range(2)])
                step = np.linalg.solve(jac, -f0)
                s = s + step
                if np.abs(step).max() < 1e-10:
                    break
            q[i[above]] -= (x[i[above]] - s[0]) / through
            q[0] -= (g[0] - s[1]) / self.ghalf[0]
        if self.heater:
            flow = (x[i["heater"]] - x[i["water"]]) / self.heater["up"]
            q[i["heater"]] -= flow
            q[i["water"]] += flow
            if self.on:
                q[i["heater"]] += self.heater["power"]
        return q / self.capacity

    def switching(self, x):
        return self.heater is not None and "set" in self.heater

    def pieces(self, begins, ends):
        """Times between which nothing jumps."""
        hours = []
        if self.cover:
            hours += [self.cover["from"], self.cover["to"]]
        for _, _, h, lasts in self.refills:
            hours += [h, h + lasts]
        times = {begins, ends}
        for day in range(int(begins // DAY) - 1, int(ends // DAY) + 1):
            for h in hours:
                t = day * DAY + h * 3600
                if begins < t < ends:
                    times.add(t)
        return sorted(times)

    def run(self, x, begins, ends, each):
        """Runs on, and tells the state at equal times and the share of the time that the heater was on."""
        samples, on_s = [], 0.0
        wanted = list(np.arange(begins, ends - 1e-6, each))
        for a, b in zip(self.pieces(begins, ends), self.pieces(begins, ends)[1:]):
            t = a
            while t < b - 1e-9:
                if self.switching(x):
                    probe = self.index[self.heater["probe"]]
                    low = self.heater["set"] - self.heater["band"] / 2
                    high = self.heater["set"] + self.heater["band"] / 2
                    if x[probe] <= low + 1e-9:
                        self.on = True
                    if x[probe] >= high - 1e-9:
                        self.on = False
                    target = high if self.on else low

                    def event(t, y):
                        return y[probe] - target

                    event.terminal = True
                    event.direction = 1 if self.on else -1
                    events = [event]
                else:
                    events = None
                inner = [s for s in wanted if t - 1e-9 <= s < b - 1e-9]
                found = integrate.solve_ivp(
                    lambda s, y: self.rates(min(max(s, a + 1e-6), b - 1e-6), y),
                    (t, b),
                    x,
                    method="LSODA",
                    rtol=1e-6,
                    atol=1e-6,
                    events=events,
                    dense_output=True,
                    max_step=1800,
                )
                assert found.success
                end = found.t[-1]
                for s in inner:
                    if s <= end + 1e-9 and s not in done(samples):
                        samples.append((s, found.sol(s)))
                if self.on:
                    on_s += end - t
                t, x = end, found.y[:, -1]
        return x, samples, on_s / (ends - begins)


def done(samples):
    return {s for s, _ in samples}


PLAIN = {"emissivity": 0.0, "sees_cover": 0.0, "wet": 0.0, "sun": 0.0}


def surface(film, **others):
    return {**PLAIN, "film": film, **others}


def standings():
    free_top = surface(("up", 0.05), emissivity=0.9, sees_cover=0.8, wet=0.3, sun=0.15)
    free_side = surface(("upright", 0.09), emissivity=0.93, sees_cover=0.2, sun=0.1)
    free_water = surface(("up", 0.08), emissivity=0.96, sees_cover=0.5, wet=1.0, sun=0.1)
    common = dict(
        pots=(60.0, 0.065, 0.09, 0.085),
        mix=(0.27, 2.3e6),
        into_base=100.0,
        acting=0.4,
        tray_capacity=2000.0,
        refills=[],
        cover=None,
        heater=None,
        bed=None,
        gap=None,
        contact=0.0,
        air_height=1.0,
        deep=9.0,
        water=0.012,
    )
    gap = dict(
        under_tray=("down", 0.25),
        on_floor=("up", 0.25),
        exchange=0.85,
        air_height=0.5,
        floor_sun=0.1,
        through=0.02,
    )
    concrete = [(1.35, 2.0e6, 0.1), (1.2, 2.2e6, 0.9)]
    return {
        # On concrete, in the air at the floor; sun, evaporation, free convection, a cold refill at eight.
        "floor": Standing(
            **{
                **common,
                "ground": concrete,
                "contact": 0.05,
                "air_height": 0.0,
                "top_surface": free_top,
                "side": free_side,
                "open": free_water,
                "refills": [(0.003, 7.0, 8.0, 1.5)],
            }
        ),
        # Raised over soil, a bed of sand in the tray.
        "raised": Standing(
            **{
                **common,
                "ground": [(1.2, 2.2e6, 1.0)],
                "gap": gap,
                "bed": (1.1, 1.9e6, 0.03),
                "water": 0.002,
                "top_surface": free_top,
                "side": free_side,
                "open": free_water,
            }
        ),
        # Heated all day, a film over it by night.
        "covered": Standing(
            **{
                **common,
                "ground": [(1.2, 2.2e6, 1.0)],
                "gap": gap,
                "heater": {"power": 40.0, "capacity": 15e3, "up": 0.05, "insulation": 1.389},
                "cover": {"from": 18.0, "to": 8.0, "loss": 5.0, "sees_cover": 0.4, "transmitted": 0.8},
                "top_surface": free_top,
                "side": free_side,
                "open": free_water,
            }
        ),
        # A thermostat in the pots' bottom, insulated on the floor.
        "thermostat": Standing(
            **{
                **common,
                "ground": concrete,
                "contact": 0.05,
                "heater": {
                    "power": 150.0,
                    "capacity": 15e3,
                    "up": 0.05,
                    "insulation": 0.7,
                    "set": 18.0,
                    "band": 1.0,
                    "probe": "p1",
                },
                "top_surface": surface(("steady", 8.0)),
                "side": surface(("steady", 6.0)),
                "open": surface(("steady", 8.0)),
            }
        ),
    }


def solved_standings():
    """Two days from 12 °C throughout: hour by hour on the second. (No need to find the day that repeats
    itself: both programs run the same two days.)"""
    out = {}
    for name, standing in standings().items():
        x = np.full(len(standing.names), 12.0)
        standing.on = standing.heater is not None and "set" not in standing.heater
        x, _, first_on = standing.run(x, 0.0, DAY, 3600.0)
        _, samples, on = standing.run(x, DAY, 2 * DAY, 3600.0)
        assert len(samples) == 24, len(samples)
        wanted = [n for n in ["heater", "water", "bed", "p1", "p2", "p3"] if n in standing.index]
        out[name] = {
            "duty": [rounded(first_on, 6), rounded(on, 6)],
            "hours": {n: [round(float(s[1][standing.index[n]]), 5) for s in samples] for n in wanted},
        }
        print(name, on, out[name]["hours"]["p2"][::6])
    return out


# --- A day in April by harmonics ----------------------------------------------------------------


def parton_logan(lowest, highest, length, a=1.86, b=2.20, c=-0.17):
    coldest, sunset, night = 12 - length / 2 + c, 12 + length / 2, 24 - length
    by_day = lambda h: lowest + (highest - lowest) * math.sin(math.pi * (h - coldest) / (length + 2 * a))
    out = []
    for h in range(24):
        if coldest <= h <= sunset:
            out.append(by_day(h))
        else:
            n = h - sunset if h > sunset else h + 24 - sunset
            out.append(lowest + (by_day(sunset) - lowest) * math.exp(-b * n / night))
    return np.array(out)


def april():
    """Five nodes (floor or heater, water, thirds of the pots) of the plain standings of common.rs, exactly, by
    the harmonics of 24 hours and the conductance of a metre of ground over 9 degrees for each of them."""
    air = parton_logan(5.0, 24.0, 13.7)
    f, walls, k, c, dz = 0.38, 1.527, 0.35, 2.5e6, 0.03
    w_p1 = 1 / (dz / (2 * k * f) + 1 / (100 * f))
    p_p = k * f / dz
    top = f / (1 / 8 + dz / (2 * k))
    side = 6 * 0.4 * walls / 3
    out = {}
    for name, below, q in [("floor", None, 0.0), ("raised", 1 / 0.13, 0.0), ("heated", 1 / (0.05 / 0.036 + 0.17), 100.0)]:
        # Order: below the tray, water, p1, p2, p3.
        contact = {"floor": 1 / 0.05, "raised": 1 / 0.01, "heated": 1 / 0.05}[name]
        capacity = np.array([15e3 if name == "heated" else 0.0, 4.18e6 * 0.015] + [c * f * dz] * 3)
        links = [contact, w_p1, p_p, p_p]
        to_air = np.array([below or 0.0, (1 - f) * 8, side, side, side + top])
        matrix = np.diag(to_air)
        for i, link in enumerate(links):
            matrix[i, i] += link
            matrix[i + 1, i + 1] += link
            matrix[i, i + 1] -= link
            matrix[i + 1, i] -= link
        waves = np.fft.rfft(air)
        found = []
        for n, wave in enumerate(waves):
            w = 2 * math.pi * n / DAY
            system = matrix.astype(complex) + 1j * w * np.diag(capacity)
            right = to_air * wave
            if n == 0:
                right = right + 24 * q * np.eye(5)[0]
            if name == "floor":
                kg, cg, depth = 1.5, 2.2e6, 1.0
                root = np.sqrt(1j * w * cg / kg)
                system[0, 0] += kg / depth if n == 0 else kg * root / np.tanh(root * depth)
                if n == 0:
                    right = right + 24 * 9.0 * kg / depth * np.eye(5)[0]
            found.append(np.linalg.solve(system, right))
        hours = np.fft.irfft(np.array(found), 24, axis=0)
        places = ["heater" if name == "heated" else "floor", "water", "p1", "p2", "p3"]
        if name == "raised":
            places[0] = "underside"
        out[name] = {place: [round(float(x), 5) for x in hours[:, i]] for i, place in enumerate(places)}
    return out


def main():
    reference = {
        "error_functions": error_functions(),
        "steps_through_film": steps_through_film(),
        "film_waves": film_waves(),
        "layer_conductances": layer_conductances(),
        "walls": walls(),
        "cylinders": cylinders(),
        "free_convection": free_convection(),
        "days": days(),
        "april": april(),
        "standings": solved_standings(),
    }
    lines = [f'"{key}": {json.dumps(value)}' for key, value in reference.items()]
    (HERE / "heat.json").write_text("{\n" + ",\n".join(lines) + "\n}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
