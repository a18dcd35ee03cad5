"""Reference values for tests/bed_published.rs, worked out by general-purpose libraries.

Makes bed.json beside this file, in seconds:

    python bed.py

Made with Python 3.11, numpy 2.4, scipy 1.17.

Numbers stand as text, with as many digits as make them out. Lengths are in cm, times in days.
Nothing here shares a method with what it checks: mean air by adaptive quadrature over the height,
steady flow as an initial value problem ds/dz = 1 + q/K(s) by an implicit Runge-Kutta method (Radau), and not
as an integral over the suction.
"""

import json
import pathlib

import numpy as np
from scipy import integrate, optimize

HERE = pathlib.Path(__file__).parent

# theta_r, theta_s, alpha 1/cm, n, Ks cm/day.
GRAVEL = (0.02, 0.36, 1.116, 2.70, 86400.0)
SAND = (0.045, 0.43, 0.145, 2.68, 712.8)
OPEN_MIX = (0.10, 0.88, 0.12, 1.60, 1000.0)
FINE_MIX = (0.15, 0.88, 0.05, 1.45, 500.0)
# theta_r, theta_s, h_b cm, lambda.
POWER_MIX = (0.25, 0.85, 3.0, 0.6)


def vg_theta(p, s):
    r, full, a, n, _ = p
    return r + (full - r) * (1 + (a * max(s, 0.0)) ** n) ** -(1 - 1 / n)


def vg_k(p, s):
    _, _, a, n, ks = p
    m = 1 - 1 / n
    x = (a * max(s, 1e-14)) ** n
    return ks * (1 + x) ** (-m / 2) * (1 - (x / (1 + x)) ** m) ** 2


def bc_theta(p, s):
    r, full, entry, lam = p
    return full if s <= entry else r + (full - r) * (entry / s) ** lam


def air():
    rows = []

    def say(name, model, theta, p, above, height):
        corner = [x for x in ((p[2] - above) if model == "brooks_corey" else 0.0,) if 0 < x < height]
        mean, _ = integrate.quad(lambda y: theta(p, above + y), 0, height, points=corner or None,
                                 epsabs=1e-12, limit=400)
        rows.append({"medium": name, "model": model, "parameters": list(map(float, p)),
                     "above_water_cm": float(above), "height_cm": float(height),
                     "air": theta(p, 0.0) - mean / height})

    for above, height in [(0, 8), (5, 8), (0, 22), (5, 22)]:
        say("an open mix", "van_genuchten", vg_theta, OPEN_MIX, above, height)
    for above in (0, 5):
        say("a fine mix", "van_genuchten", vg_theta, FINE_MIX, above, 8)
    for above, height in [(0, 8), (2, 8), (5, 8), (0, 20), (5, 20)]:
        say("a mix of powers", "brooks_corey", bc_theta, POWER_MIX, above, height)
    for above in (0, 5, 10):
        say("a column of sand", "van_genuchten", vg_theta, SAND, above, 10)
    return rows


def height_to(p, q, low, high):
    """The height at which the suction has gone from low to high, as an initial value problem in the
    logarithm of the suction, which no break can stop: dz/d ln s = s/(1 + q/K(s))."""
    first = max(low, 1e-9)
    solved = integrate.solve_ivp(lambda x, _: [np.exp(x) / (1 + q / vg_k(p, np.exp(x)))],
                                 (np.log(first), np.log(high)), [0.0], method="Radau",
                                 rtol=1e-10, atol=1e-13)
    return float(solved.y[0, -1])


def breaks():
    return [{"flux_cm_per_day": float(q), "height_cm": height_to(GRAVEL, q, 0, 1e4)}
            for q in (10, 30, 100)]


def fluxes():
    rows = []
    for name, p, foot, height, top in [
        ("an open mix", OPEN_MIX, 5, 20, 60), ("an open mix", OPEN_MIX, 0, 20, 60),
        ("a fine mix", FINE_MIX, 5, 20, 60), ("a fine mix", FINE_MIX, 0, 8, 60),
        ("clean gravel", GRAVEL, 0, 2, 1e4), ("clean gravel", GRAVEL, 0, 3, 1e4),
        ("clean gravel", GRAVEL, 0, 5, 1e4),
    ]:
        ln_q = optimize.brentq(lambda x: height_to(p, np.exp(x), foot, top) - height, -20, 12,
                               xtol=1e-10)
        rows.append({"medium": name, "parameters": list(map(float, p)), "from_cm": float(foot),
                     "height_cm": float(height), "to_cm": float(top),
                     "flux_cm_per_day": float(np.exp(ln_q))})
    return rows


def air_entry():
    """Mualem's integral of dS/h from the driest to S and to full, by quadrature, of the clay whose curve is
    van Genuchten's beyond the air entry and full before it: Vogel, van Genuchten & Cislerova 2000,
    Advances in Water Resources 24:133."""
    r, full, a, n, ks, entry = 0.068, 0.38, 0.008, 1.09, 4.8, 2.0
    m = 1 - 1 / n

    def saturation(s):
        return ((1 + (a * s) ** n) / (1 + (a * entry) ** n)) ** -m

    def over(low):
        # -dS/ds / s over ln s.
        def rate(x):
            s = np.exp(x)
            return saturation(s) * m * n * (a * s) ** n / (1 + (a * s) ** n) / s

        return integrate.quad(rate, np.log(low), np.log(low) + 60, epsabs=1e-14, limit=800)[0]

    return [{"suction_cm": float(s),
             "conductivity_cm_per_day": float(ks * saturation(s) ** 0.5 * (over(s) / over(entry)) ** 2)}
            for s in (2.0, 5.0, 10.0, 50.0, 100.0, 1000.0)]


def as_text(value):
    """The same with every float as the shortest text that reads back to it."""
    if isinstance(value, float):
        return repr(float(value))
    if isinstance(value, list):
        return [as_text(item) for item in value]
    if isinstance(value, dict):
        return {key: as_text(item) for key, item in value.items()}
    return value


def main():
    lines = []
    for make in (air, breaks, fluxes, air_entry):
        rows = make()
        print(make.__name__)
        for row in rows:
            print("   ", row)
        lines.append(f'  "{make.__name__}": [\n'
                     + ",\n".join("    " + json.dumps(as_text(row)) for row in rows) + "\n  ]")
    (HERE / "bed.json").write_text("{\n" + ",\n".join(lines) + "\n}\n")


if __name__ == "__main__":
    main()
