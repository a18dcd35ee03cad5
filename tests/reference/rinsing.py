"""Reference values for tests/rinse.rs, by other roads than the program's.

Makes rinsing.json beside this file:

    python rinsing.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1.

Soaks are kept as accounts of salt, litre by litre: a share e of the material's water takes part in the
mixing, the rest keeps what it had. Trickling is integrated as a stirred tank (solve_ivp). How many
soaks and how much trickled water reach a target is found by a root search (brentq) on those.
"""

import json
import pathlib

from scipy import integrate, optimize

HERE = pathlib.Path(__file__).parent


def soak(c, source, held, added, e):
    """All of it mixes in a second vessel; a share e of the held water is changed for the mixed."""
    mixed = (c * held + source * added) / (held + added)
    kept, changed = (1 - e) * held, e * held
    return (kept * c + changed * mixed) / held


def tank(c, source, held, volume):
    answer = integrate.solve_ivp(lambda v, y: [(source - y[0]) / held], (0, volume), [c], rtol=1e-11, atol=1e-13)
    return float(answer.y[0][-1])


def soaks_to(c, target, source, held, added):
    """Soaks as a number with a fraction: the fall of one soak is a constant factor of the excess."""
    factor = (soak(c, source, held, added, 1.0) - source) / (c - source)
    return float(optimize.brentq(lambda n: source + (c - source) * factor**n - target, 0, 500, xtol=1e-12))


SOAKS = [(4.4, 0.0, 0.65, 1.0, 1.0), (4.4, 0.3, 0.65, 1.0, 1.0), (4.4, 0.0, 0.65, 1.0, 0.7), (39.0, 0.2, 0.2, 1.0, 0.8),
         (12.0, 0.5, 0.69, 0.4, 0.55)]
TRICKLES = [(4.4, 0.0, 0.65, 1.0), (4.4, 0.3, 0.65, 2.0), (12.0, 0.7, 0.2, 0.15)]
TARGETS = [(4.4, 0.6, 0.0, 0.65, 1.0), (4.4, 0.6, 0.3, 0.65, 1.0), (39.0, 2.0, 0.2, 0.2, 0.5)]

out = {"soaks": [], "trickles": [], "targets": []}
for c, source, held, added, e in SOAKS:
    after, now = [], c
    for _ in range(6):
        now = soak(now, source, held, added, e)
        after.append(now)
    out["soaks"].append(dict(before=c, source=source, held=held, added=added, mixing=e, after=after))
for c, source, held, volume in TRICKLES:
    out["trickles"].append(dict(before=c, source=source, held=held, run_off=volume, after=tank(c, source, held, volume)))
for c, target, source, held, added in TARGETS:
    litres = optimize.brentq(lambda v: tank(c, source, held, v) - target, 1e-6, 20, xtol=1e-10)
    out["targets"].append(dict(before=c, target=target, source=source, held=held, added=added,
                               soaks=soaks_to(c, target, source, held, added), trickle=float(litres)))
print(json.dumps(out, indent=1))
(HERE / "rinsing.json").write_text(json.dumps(out, indent=1) + "\n")
