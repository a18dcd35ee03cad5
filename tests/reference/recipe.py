"""Reference answers for tests/recipe.rs: the same search over the published equations, written anew.

Makes recipe.json beside this file:

    python recipe.py

Made with Python 3.11, numpy 2.4.6, scipy 1.17.1. The figures of the materials are read out of
src/handbook/materials.rs and stand in recipe.json too; when they change, run this again.

The equations: van Genuchten 1980 and Durner 1994 for the curves; the mass balance on the volume
left, where the gaps between grains that are filled no longer hold water, and where air stays
trapped in a share of the pores of materials whose pores are known from densities; de Larrard 1999 for the volume lost (soft mixes lose half); the container integral of Milks et
al. 1989 for a straight pot, by the trapezium rule on a fine grid. The best blend on the 5 % grid is
found by going through all of them, and that of all blends by differential evolution.
"""

import itertools
import json
import math
import pathlib
import re

import numpy as np
from scipy import optimize

HERE = pathlib.Path(__file__).parent
HANDBOOK = HERE.parent.parent / "src/handbook/materials.rs"
FILLING = HERE.parent.parent / "src/handbook/filling.rs"
KEYS = ["coir_pith", "composted_bark", "perlite_coarse", "grit"]
STEPS = 20


def handbook():
    rows = {}
    trapped = float(re.search(r"TRAPPED_AIR: Figure = figure\([^,]+, ([^,]+),", FILLING.read_text())[1])
    for block in re.split(r"\n    Material \{", HANDBOOK.read_text())[1:]:
        def number(name):
            return float(re.search(rf"\b{name}: (-?[\d.]+)", block)[1])

        def best(name):
            return float(re.search(rf"\b{name}: figure\(([^,]+),([^,]+),", block)[2])

        gaps = re.search(r"between_grains: Some\(pores\(([\d.]+), ([\d.]+), ([\d.]+)\)\)", block)
        rows[re.search(r'key: "(\w+)"', block)[1]] = {
            "density": best("dry_density_g_per_l"),
            "pore_space": best("pore_space"),
            "water_at_10_cm": best("water_at_10_cm"),
            "residual": number("residual"),
            "saturated": number("saturated"),
            "gaps": [float(x) for x in gaps.groups()] if gaps else None,
            "fine": [number("fine_alpha_per_cm"), number("fine_n")],
            "packing": number("packing_fraction"),
            "grain": number("grain_mm"),
            "soft": "Nature::Soft" in block,
            "left": 1 - trapped if "PoresBy::Densities" in block else 1.0,
        }
    return rows


def curve(row):
    """Water by suction, and the share of it in the gaps between grains, drawn through the pore space and
    the water at 10 cm, less the air that stays trapped in both."""
    saturated = row["soaked"] = row["pore_space"] * row["left"]
    residual = row["residual"] * saturated / row["saturated"]

    def pores(h, alpha, n):
        return (1 + (alpha * h) ** n) ** -(1 - 1 / n)

    def shape(h):
        return residual + (saturated - residual) * pores(h, *row["fine"])

    water = row["water_at_10_cm"] * row["left"]
    if not row["gaps"]:
        ln_factor = optimize.brentq(lambda x: shape(10 * math.exp(x)) - water, -5, 5, xtol=1e-12)
        row["gap_volume"] = 0.0
        return lambda h: shape(h * math.exp(ln_factor)), lambda h: 0 * h
    # The volume within the grains differs from lot to lot, and the gaps take up the rest.
    alpha, n, share = row["gaps"]
    within = saturated - share * (saturated - residual)
    full_gaps = pores(10.0, alpha, n)
    held = residual + (within - residual) * pores(10.0, *row["fine"])
    k = (water - saturated * full_gaps) / (held - within * full_gaps)
    assert 0.05 <= k <= saturated / within, "this lot needs other pores too"
    row["gap_volume"] = gaps = saturated - within * k
    inner = within * k - residual * k

    def in_gaps(h):
        return gaps * pores(h, alpha, n)

    return lambda h: residual * k + inner * pores(h, *row["fine"]) + in_gaps(h), in_gaps


def lost(rows, shares):
    """de Larrard 1999, linear packing model, times what happens of it."""
    rows, shares = zip(*[(r, s) for r, s in zip(rows, shares) if s > 0])
    envelopes = sum(s * r["packing"] for r, s in zip(rows, shares))
    x = [s * r["packing"] / envelopes for r, s in zip(rows, shares)]
    packed = []
    for i, dominant in enumerate(rows):
        phi, taken = dominant["packing"], 0.0
        for j, other in enumerate(rows):
            if i == j:
                continue
            if other["grain"] > dominant["grain"]:
                b = 1 - (1 - dominant["grain"] / other["grain"]) ** 1.5
                taken += (1 - phi + b * phi * (1 - 1 / other["packing"])) * x[j]
            else:
                a = math.sqrt(1 - (1 - other["grain"] / dominant["grain"]) ** 1.02)
                taken += (1 - a * phi / other["packing"]) * x[j]
        packed.append(phi / (1 - taken))
    hard = max(1 - envelopes / min(min(packed), 1), 0)
    soft = sum(s for r, s in zip(rows, shares) if r["soft"])
    happens = 1.0 + min(soft / 0.2, 1) * (0.5 - 1.0)
    return min(hard * happens, 0.25)


class Pot:
    def __init__(self, rows, depth_cm):
        self.rows = rows
        # Closer together near the base, where the curves are steepest.
        self.z = depth_cm * np.linspace(0, 1, 20001) ** 3
        heights = np.maximum(self.z, 1e-12)
        curves = [curve(row) for row in rows]
        self.curves = np.array([water(heights) for water, _ in curves])
        self.in_gaps = np.array([in_gaps(heights) for _, in_gaps in curves])

    def judged(self, shares):
        s = lost(self.rows, shares)
        solids = sum(v * (1 - row["soaked"]) for v, row in zip(shares, self.rows))
        pores = 1 - solids / (1 - s)
        shares = np.asarray(shares)
        gaps = sum(v * row["gap_volume"] for v, row in zip(shares, self.rows))
        filled = s / gaps if gaps > s else 1.0
        held = shares @ self.curves
        widest = np.minimum(held / (1 - s), pores)
        alike = np.minimum((held - filled * (shares @ self.in_gaps)) / (1 - s), pores)
        # Half way between the widest gaps filled first and all gaps alike.
        water = (widest + alike) / 2
        mean = np.trapezoid(water, self.z) / self.z[-1]
        density = sum(v * row["density"] for v, row in zip(shares, self.rows)) / (1 - s)
        return {"air": pores - mean, "water": mean, "wet_kg": density / 1000 + mean, "lost": s}


def bags(shop, shares, litres, s):
    price = worth = 0.0
    for (bag_price, bag, stock), share in zip(shop, shares):
        buy = max(litres * share / (1 - s) - stock, 0)
        price += bag_price * math.ceil(buy / bag - 1e-9)
        worth += bag_price * buy / bag
    return price, worth


def main():
    table = handbook()
    rows = [table[key] for key in KEYS]
    pot = Pot(rows, 18.0)
    # Price of a bag, litres of the bag, litres in stock: the question that the page opens with.
    shop = [(14, 70, 40), (9, 60, 0), (22, 100, 30), (5, 20, 20)]
    blends = [c for c in itertools.product(range(STEPS + 1), repeat=len(KEYS)) if sum(c) == STEPS]
    judged = {}
    for counts in blends:
        shares = [c / STEPS for c in counts]
        found = pot.judged(shares)
        found["price"], found["worth"] = bags(shop, shares, 100, found["lost"])
        judged[counts] = found

    meets = [c for c in blends if judged[c]["air"] >= 0.20]
    cheapest = min(meets, key=lambda c: (judged[c]["price"], judged[c]["worth"], sum(p > 0 for p in c)))
    wet = [c for c in blends if judged[c]["water"] >= 0.45]
    airiest = max(wet, key=lambda c: judged[c]["air"])
    # No blend has 45 % of air and 45 % of water; the nearest gives least of one of the two.
    nearest = min(blends, key=lambda c: near(judged[c]))

    def airless(shares):
        shares = np.asarray(shares) / max(sum(shares), 1e-9)
        found = pot.judged(shares)
        return -found["air"] + 100 * max(0.45 - found["water"], 0)

    continuous = optimize.differential_evolution(
        airless, [(0, 1)] * len(KEYS), seed=1, tol=1e-8, maxiter=400, popsize=12, polish=False
    )
    found = {
        "materials": {key: table[key] for key in KEYS},
        "cheapest": {"counts": cheapest, **judged[cheapest]},
        "airiest": {"counts": airiest, **judged[airiest]},
        "airiest_of_all": -float(continuous.fun),
        "nearest": {"counts": nearest, **judged[nearest]},
        "some": [{"counts": c, **judged[c]} for c in blends[::97]],
    }
    text = json.dumps(found, default=float)
    text = re.sub(r'("\w+": (?:\{"(?:density|counts)|\[\{|-?[\d.]+}))', r"\n\1", text)
    (HERE / "recipe.json").write_text(text.replace('}, {"counts"', '},\n{"counts"') + "\n")
    print({name: value for name, value in found.items() if name not in ("materials", "some")})


def near(found):
    missed = [max(0.45 - found[name], 0) / 0.45 for name in ("air", "water")]
    return (min(sum(m > 0 for m in missed), 2), max(missed))


if __name__ == "__main__":
    main()
