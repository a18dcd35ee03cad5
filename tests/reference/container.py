"""Reference values for tests/mix, worked out by general-purpose libraries.

Makes container.json beside this file:

    python container.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1, mpmath 1.4.1.

Numbers with a fraction stand as text, with as many digits as make them out: not every reader of
JSON takes a number to its last bit.

Each value is found in one way and confirmed in another where there are two: the container
integral in closed form (Gauss's hypergeometric function) and by adaptive quadrature.
"""

import json
import math
import pathlib

import mpmath as mp
import numpy as np
from scipy import integrate, optimize, stats

mp.mp.dps = 40
HERE = pathlib.Path(__file__).parent


# --- Retention curves and pots --------------------------------------------------------------

# theta_r, theta_s, share of the coarse pores, coarse (alpha, n), fine (alpha, n); alpha in 1/cm.
CURVES = {
    # Carsel & Parrish 1988, Water Resources Research 24:755, table 6, sand.
    "sand": (0.045, 0.43, 0.0, None, (0.145, 2.68)),
    # The shape of a peat, of a coarse and porous grain, and of gravel: numbers of this project's
    # own handbook, here only something to integrate.
    "peat": (0.207, 0.93, 0.0, None, (0.1479, 1.796)),
    "bark": (0.08, 0.8, 0.5, (0.6, 3.0), (0.1336, 1.204)),
    "chips": (0.067, 0.9, 0.576, (1.6, 3.0), (0.261, 1.373)),
    "gravel": (0.007, 0.39, 0.939, (1.6, 3.0), (0.1793, 1.658)),
    "hulls": (0.024, 0.87, 0.78, (0.5, 3.0), (7.688, 1.1)),
    # Matrix-free gravel as fitted in a published table (alpha 111.6 1/m, n 2.70).
    "clean_gravel": (0.02, 0.36, 0.0, None, (1.116, 2.70)),
}

# outline, breadth at base, breadth at rim, height, fill; all cm, breadths and fill inside.
POTS = {
    "core": ("round", 7.6, 7.6, 7.6, 7.6),
    "shallow_core": ("round", 7.6, 7.6, 3.8, 3.8),
    "tall_core": ("round", 7.6, 7.6, 15.2, 15.2),
    "round_10_cm": ("round", 7.0, 10.0, 8.8, 7.8),
    "round_2_l": ("round", 12.0, 17.0, 13.0, 13.0),
    "upside_down": ("round", 17.0, 12.0, 13.0, 11.5),
    "module": ("square", 2.2, 3.8, 4.5, 4.2),
    "round_15_l": ("round", 25.5, 33.0, 30.0, 27.5),
}

# Height of the free water above the base, cm; below the base is negative.
LEVELS = (0.0, 2.0, -5.0, -30.0)


def suction_integral(k, alpha, n, upper):
    """The integral of h^k S(h) from 0 to `upper`, after van Genuchten with m = 1 - 1/n."""
    alpha, n, upper = mp.mpf(alpha), mp.mpf(n), mp.mpf(upper)
    if upper == 0:
        return mp.mpf(0)
    m = 1 - 1 / n
    b = (k + 1) / n
    return upper ** (k + 1) / (k + 1) * mp.hyp2f1(m, b, 1 + b, -((alpha * upper) ** n))


def closed_mean(curve, pot, level):
    """Mean water of a filled pot in closed form."""
    residual, saturated, share, coarse, fine = curve
    outline, base, rim, height, fill = pot
    form = mp.pi / 4 if outline == "round" else mp.mpf(1)
    base, rim, height, fill, level = map(mp.mpf, (base, rim, height, fill, level))
    gradient = (rim - base) / height
    # Breadth squared as a polynomial in the suction h = z - level.
    at_level = base + gradient * level
    c = (at_level**2, 2 * at_level * gradient, gradient**2)
    low = max(-level, mp.mpf(0))
    high = fill - level
    wet = min(max(level, mp.mpf(0)), fill)

    def frustum(to):
        top = base + gradient * to
        return form * to / 3 * (base**2 + base * top + top**2)

    volume = frustum(fill)
    drained = volume - frustum(wet)
    filled = mp.mpf(0)
    for weight, pores in ((share, coarse), (1 - share, fine)):
        if weight == 0:
            continue
        for k in range(3):
            upper = suction_integral(k, *pores, max(high, 0))
            lower = suction_integral(k, *pores, low)
            filled += mp.mpf(weight) * form * c[k] * (upper - lower)
    water = (volume - drained) * saturated + drained * residual + (mp.mpf(saturated) - residual) * filled
    return water / volume


def quadrature_mean(curve, pot, level):
    """The same by adaptive quadrature."""
    residual, saturated, share, coarse, fine = curve
    outline, base, rim, height, fill = pot

    def theta(h):
        if h <= 0:
            return saturated
        filled = 0.0
        for weight, pores in ((share, coarse), (1 - share, fine)):
            if weight:
                alpha, n = pores
                filled += weight * (1 + (alpha * h) ** n) ** -(1 - 1 / n)
        return residual + (saturated - residual) * filled

    def area(z):
        breadth = base + (rim - base) * z / height
        return breadth**2 * (math.pi / 4 if outline == "round" else 1)

    wet = min(max(level, 0.0), fill)
    ends = sorted({0.0, wet, wet + 0.02 * (fill - wet), wet + 0.2 * (fill - wet), fill})

    def total(f):
        pieces = zip(ends, ends[1:])
        return sum(integrate.quad(f, a, b, epsabs=1e-13, epsrel=1e-13, limit=500)[0] for a, b in pieces)

    return total(lambda z: area(z) * theta(z - level)) / total(area)


def containers():
    rows, worst = [], 0.0
    for curve_name, curve in CURVES.items():
        for pot_name, pot in POTS.items():
            for level in LEVELS:
                if level >= pot[4]:
                    continue
                closed = closed_mean(curve, pot, level)
                worst = max(worst, abs(float(closed) - quadrature_mean(curve, pot, level)))
                rows.append({"curve": curve_name, "pot": pot_name, "level_cm": level, "mean": float(closed)})
    assert worst < 1e-12, worst
    return rows


def curve_table():
    return {
        name: {
            "residual": residual,
            "saturated": saturated,
            "coarse_share": share,
            "coarse": list(coarse or fine),
            "fine": list(fine),
        }
        for name, (residual, saturated, share, coarse, fine) in CURVES.items()
    }


def pot_table():
    return {
        name: {"outline": outline, "base_cm": base, "rim_cm": rim, "height_cm": height, "fill_cm": fill}
        for name, (outline, base, rim, height, fill) in POTS.items()
    }


def brooks_corey():
    """Straight pots in closed form, confirmed by quadrature from the air-entry suction on."""
    # theta_r, theta_s, h_b cm, lambda, H cm. The first two: shapes at and off the logarithm's case.
    # The others: fibric, hemic and sapric peat of Letts et al. 2000, Atmosphere-Ocean 38:141, table 2
    # (psi_s 1.03, 1.02, 1.01 cm; b 2.7, 6.1, 12.0; lambda = 1/b; no residual water).
    cases = [
        (0.2, 0.9, 4.0, 0.8, 10.0),
        (0.2, 0.9, 4.0, 1.0, 10.0),
        (0.2, 0.9, 4.0, 0.8, 3.0),
        (0.0, 0.93, 1.03, 1 / 2.7, 7.6),
        (0.0, 0.93, 1.03, 1 / 2.7, 20.0),
        (0.0, 0.88, 1.02, 1 / 6.1, 7.6),
        (0.0, 0.83, 1.01, 1 / 12.0, 7.6),
    ]
    rows = []
    for residual, saturated, entry, slope, height in cases:
        if height <= entry:
            mean = saturated
        else:
            if slope == 1.0:
                tail = entry * math.log(height / entry)
            else:
                tail = entry**slope * (height ** (1 - slope) - entry ** (1 - slope)) / (1 - slope)
            mean = (saturated * entry + residual * (height - entry) + (saturated - residual) * tail) / height
            above = integrate.quad(
                lambda h: residual + (saturated - residual) * (entry / h) ** slope, entry, height, epsabs=1e-13
            )[0]
            assert abs((saturated * entry + above) / height - mean) < 1e-12
        rows.append(
            {
                "residual": residual,
                "saturated": saturated,
                "air_entry_cm": entry,
                "lambda": slope,
                "height_cm": height,
                "mean": mean,
            }
        )
    return rows


# Parts by volume (of the curves above), share of the volume lost, how far the widest gaps go first.
BLENDS = [
    ([("peat", 0.75), ("bark", 0.25)], 0.04, 0.5),
    ([("peat", 0.5), ("hulls", 0.5)], 0.06, 0.0),
    ([("bark", 0.8), ("sand", 0.2)], 0.12, 0.5),
    ([("bark", 0.6), ("chips", 0.2), ("peat", 0.2)], 0.05, 1.0),
    ([("gravel", 0.7), ("sand", 0.3)], 0.2, 0.3),
    # Two of one pore system each: no gaps to be filled, so what is lost goes in order of width.
    ([("peat", 0.7), ("sand", 0.3)], 0.1, 0.2),
]


def saturation(alpha, n, suction):
    return (1.0 + (alpha * suction) ** n) ** (1.0 / n - 1.0)


def blends():
    """Mean water of straight cores of a blend, by scipy's adaptive quadrature in short pieces."""
    rows = []
    for parts, lost, widest_first in BLENDS:
        gaps = sum(v * CURVES[k][2] * (CURVES[k][1] - CURVES[k][0]) for k, v in parts)
        solids = sum(v * (1.0 - CURVES[k][1]) for k, v in parts)
        soaked = 1.0 - solids / (1.0 - lost)

        def content(suction):
            water = full_gaps = 0.0
            for key, share in parts:
                residual, saturated, coarse_share, coarse, fine = CURVES[key]
                drainable = saturated - residual
                in_gaps = coarse_share * drainable * saturation(*coarse, suction) if coarse else 0.0
                in_grains = (1.0 - coarse_share) * drainable * saturation(*fine, suction)
                water += share * (residual + in_gaps + in_grains)
                full_gaps += share * in_gaps
            in_order = min(soaked, water / (1.0 - lost))
            filled = min(lost, gaps) / gaps if gaps > 0.0 else 0.0
            alike = min(soaked, (water - filled * full_gaps) / (1.0 - lost))
            return widest_first * in_order + (1.0 - widest_first) * alike

        for height in (3.8, 7.6, 15.2):
            edges = np.linspace(0.0, height, 401)
            mean = sum(
                integrate.quad(content, low, high, epsabs=1e-13)[0]
                for low, high in zip(edges, edges[1:])
            ) / height
            rows.append({
                "parts": [{"curve": key, "share": share} for key, share in parts],
                "lost": lost,
                "widest_first": widest_first,
                "height_cm": height,
                "soaked": soaked,
                "mean": mean,
            })
    return rows


def frustums():
    """Volumes of filled pots by quadrature, mL."""
    rows = []
    for name, (outline, base, rim, height, fill) in POTS.items():
        form = math.pi / 4 if outline == "round" else 1.0
        volume = integrate.quad(lambda z: form * (base + (rim - base) * z / height) ** 2, 0, fill, epsabs=1e-12)[0]
        rows.append({"pot": name, "millilitres": volume})
    return rows


# --- Statistics -----------------------------------------------------------------------------


def normal_quantiles():
    shares = [1e-300, 1e-200, 1e-100, 1e-50, 1e-20, 1e-16, 1e-12, 1e-9, 1e-6, 1e-4, 0.001, 0.01, 0.025, 0.05]
    shares += [0.0749, 0.075, 0.0751, 0.1, 0.2, 0.3, 0.4, 0.45, 0.49, 0.4999, 0.5001, 0.6, 0.75, 0.8, 0.9, 0.925]
    shares += [0.9251, 0.95, 0.975, 0.99, 0.999, 0.9999, 1 - 1e-6, 1 - 1e-9, 1 - 1e-12, 1 - 2**-53]
    rows = []
    for share in shares:
        ours = float(stats.norm.ppf(share))
        # The same to 40 figures: Newton's steps on the distribution itself.
        exact = mp.mpf(ours)
        for _ in range(6):
            exact -= (mp.ncdf(exact) - mp.mpf(share)) / mp.npdf(exact)
        assert abs(exact - ours) <= 2e-15 * abs(exact), (share, ours, exact)
        rows.append({"share": share, "deviate": float(exact)})
    return rows


def split_normal_quantiles():
    """Quantiles of two half-normal distributions that meet at the median, by inverting their own
    distribution function; the 10 % and 90 % points are the low and the high."""
    rows = []
    to_ninety = optimize.brentq(lambda z: stats.norm.cdf(z) - 0.9, 0, 5, xtol=1e-15)
    for low, best, high in [(60.0, 90.0, 120.0), (0.05, 0.25, 0.55), (150.0, 200.0, 300.0), (-0.04, 0.0, 0.04)]:
        below, above = (best - low) / to_ninety, (high - best) / to_ninety

        def distribution(x):
            scale = below if x < best else above
            return stats.norm.cdf((x - best) / scale)

        span = high - low
        for share in (0.001, 0.02, 0.1, 0.25, 0.4, 0.5, 0.7, 0.9, 0.99, 0.9995):
            x = optimize.brentq(lambda x: distribution(x) - share, low - 9 * span, high + 9 * span, xtol=1e-15)
            rows.append({"low": low, "best": best, "high": high, "share": share, "figure": x})
    return rows


def pcg():
    """First outputs of PCG XSL-RR 128/64 MCG (O'Neill 2014), written anew from the paper, for seeds
    that are spread over the state by PCG XSH-RR 64/32 as the documentation of rand_core says."""
    multiplier = 0x2360ED051FC65DA44385DF649FCCF645
    mask = (1 << 128) - 1

    def outputs(state, count):
        state |= 1
        found = []
        for _ in range(count):
            state = state * multiplier & mask
            turn = state >> 122
            folded = (state >> 64 ^ state) & (1 << 64) - 1
            found.append((folded >> turn | folded << (64 - turn)) & (1 << 64) - 1)
        return found

    # The published ones, for a state of 42 (check-mcg-128-xsl-rr-64.out of the C library).
    published = outputs(42, 6)
    assert published == [
        0x63B4A3A813CE700A, 0x382954200617AB24, 0xA7FD85AE3FE950CE,
        0xD715286AA2887737, 0x60C92FEE2E59F32C, 0x84C4E96BEFF30017,
    ]

    def state_of(seed):
        words = []
        for _ in range(4):
            seed = (seed * 0x5851F42D4C957F2D + 0xA17654E46FBE17F3) & (1 << 64) - 1
            folded = ((seed >> 18 ^ seed) >> 27) & 0xFFFFFFFF
            turn = seed >> 59
            words.append((folded >> turn | folded << (-turn & 31)) & 0xFFFFFFFF)
        return sum(word << 32 * place for place, word in enumerate(words))

    def uniform(output):
        return ((output >> 11) + 0.5) / 2**53

    return [
        {"seed": str(seed), "uniforms": [uniform(output) for output in outputs(state_of(seed), 6)]}
        for seed in (0, 1, 2, 42, 2**63, 2**64 - 1)
    ]


# --- Numerics -------------------------------------------------------------------------------


def legendre():
    """Nodes and weights of the 32-point rule, to 40 figures and rounded once."""
    rows = []
    for guess in np.polynomial.legendre.leggauss(32)[0]:
        node = mp.findroot(lambda x: mp.legendre(32, x), mp.mpf(float(guess)))
        slope = 32 * (mp.legendre(31, node) - node * mp.legendre(32, node)) / (1 - node**2)
        rows.append({"node": float(node), "weight": float(2 / ((1 - node**2) * slope**2))})
    return rows


def roots():
    """Roots of the test problems of Alefeld, Potra & Shi 1995, ACM Transactions on Mathematical
    Software 21:327, table I, by scipy.optimize.brentq. Problem 13 is left out: in double precision it
    is nought on a whole interval, so that it has no one root to compare."""
    e = math.e
    problems = []

    def add(number, n, low, high, f):
        root = optimize.brentq(f, low, high, xtol=1e-15, rtol=4 * np.finfo(float).eps, maxiter=1000)
        problems.append({"problem": number, "n": n, "low": low, "high": high, "root": root})

    add(1, 0, math.pi / 2, math.pi, lambda x: math.sin(x) - x / 2)
    for n in range(1, 11):
        add(2, n, n**2 + 1e-9, (n + 1) ** 2 - 1e-9,
            lambda x: -2 * sum((2 * i - 5) ** 2 / (x - i * i) ** 3 for i in range(1, 21)))
    for n, (a, b) in enumerate([(-40, -1), (-100, -2), (-200, -3)]):
        add(3, n, -9.0, 31.0, lambda x: a * x * math.exp(b * x))
    for n in (4, 6, 8, 10, 12):
        add(4, n, 0.0, 5.0, lambda x: x**n - 0.2)
    add(5, 0, 0.0, 1.5, lambda x: math.sin(x) - 0.5)
    for n in (1, 2, 3, 4, 5, 20, 40, 60, 80, 100):
        add(6, n, 0.0, 1.0, lambda x: 2 * x * math.exp(-n) - 2 * math.exp(-n * x) + 1)
    for n in (5, 10, 20):
        add(7, n, 0.0, 1.0, lambda x: (1 + (1 - n) ** 2) * x - (1 - n * x) ** 2)
    for n in (2, 5, 10, 15, 20):
        add(8, n, 0.0, 1.0, lambda x: x**2 - (1 - x) ** n)
    for n in (1, 2, 4, 5, 8, 15, 20):
        add(9, n, 0.0, 1.0, lambda x: (1 + (1 - n) ** 4) * x - (1 - n * x) ** 4)
    for n in (1, 5, 10, 15, 20):
        add(10, n, 0.0, 1.0, lambda x: math.exp(-n * x) * (x - 1) + x**n)
    for n in (2, 5, 15, 20):
        add(11, n, 0.01, 1.0, lambda x: (n * x - 1) / ((n - 1) * x))
    for n in (2, 3, 4, 5, 6, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 27, 29, 31, 33):
        add(12, n, 1.0, 100.0, lambda x: x ** (1 / n) - n ** (1 / n))
    for n in (1, 10, 20, 30, 40):
        add(14, n, -1e4, math.pi / 2,
            lambda x: n / 20 * (x / 1.5 + math.sin(x) - 1) if x >= 0 else -n / 20)
    for n in (20, 30, 40, 100, 1000):
        add(15, n, -1e4, 1e-4,
            lambda x: e - 1.859 if x > 2e-3 / (1 + n)
            else math.exp((n + 1) * x / 2 * 1e3) - 1.859 if x >= 0 else -0.859)
    return problems


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
    found = {
        "curves": curve_table(),
        "pots": pot_table(),
        "containers": containers(),
        "blends": blends(),
        "brooks_corey": brooks_corey(),
        "frustums": frustums(),
        "normal_quantiles": normal_quantiles(),
        "split_normal_quantiles": split_normal_quantiles(),
        "pcg": pcg(),
        "gauss_legendre_32": legendre(),
        "roots": roots(),
    }
    lines = []
    for name, value in as_text(found).items():
        if isinstance(value, list):
            rows = ",\n".join("    " + json.dumps(row) for row in value)
            lines.append(f'  "{name}": [\n{rows}\n  ]')
        else:
            rows = ",\n".join(f'    "{key}": {json.dumps(row)}' for key, row in value.items())
            lines.append(f'  "{name}": {{\n{rows}\n  }}')
    (HERE / "container.json").write_text("{\n" + ",\n".join(lines) + "\n}\n")
    print({name: len(value) for name, value in found.items()})


if __name__ == "__main__":
    main()
