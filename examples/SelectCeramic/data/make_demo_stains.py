#!/usr/bin/env python3
"""Makes the invented stains, glaze and liner of this example: bands and plateaus, nothing measured. K and S of a
stain are those of one unit of load."""
import json
import pathlib
import math

HERE = pathlib.Path(__file__).parent
NM = [380 + 10 * i for i in range(41)]


def edge(middle, width, height):
    """Absorbs below the middle: yellow, orange, red."""
    return [round(height / (1 + math.exp((w - middle) / width)), 5) for w in NM]


def band(middle, width, height):
    return [round(height * math.exp(-((w - middle) / width) ** 2), 5) for w in NM]


def flat(value):
    return [value] * len(NM)


STAINS = {
    "straw": (edge(480, 18, 14), flat(6)), "ochre": (edge(510, 22, 22), flat(8)), "amber": (edge(535, 25, 26), flat(7)),
    "rust": (edge(570, 20, 30), flat(9)), "rose": (band(530, 35, 20), flat(7)), "violet": (band(570, 40, 18), flat(6)),
    "slate blue": (band(600, 50, 16), flat(6)),
    "reed": ([a + b for a, b in zip(edge(460, 20, 10), band(650, 35, 14))], flat(7)),
    "umber": ([a + 4 for a in edge(590, 40, 22)], flat(9)), "smoke": (flat(14), flat(5)),
    "ash": (flat(5), flat(10)), "chalk": (flat(0.05), flat(60)),
}


def entry(name, role, k, s, index):
    return {
        "name": name, "role": role, "model": {"theory": "radiative transfer", "anisotropy": 0},
        "refractiveIndex": {"constant": index, "cauchyNm2": 0},
        "wavelengths": {"startNm": 380, "stepNm": 10, "count": len(NM)},
        "absorptionPerMm": [round(v, 5) for v in k], "scatteringPerMm": s,
        "provenance": {"origin": "invented", "instrument": "none", "geometry": "di:8",
            "note": "invented demonstration data"},
    }


entries = [entry("clear glaze", "glaze", edge(430, 25, 0.05), flat(0.15), 1.5),
    entry("cover liner", "liner", edge(470, 40, 0.15), flat(55), 1.53)]
entries += [entry(name, "stain", k, s, 1.5) for name, (k, s) in STAINS.items()]
(HERE / "stains.json").write_text(json.dumps({"format": "ceramic-optics-material-catalog", "version": 2,
    "name": "invented stains", "entries": entries}, indent=1) + "\n")
