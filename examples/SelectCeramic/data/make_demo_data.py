#!/usr/bin/env python3
"""Makes the invented discs and stumps of this example: a simulated instrument reads simulated specimens, with noise.

Nothing here was measured. The forward model is written independently (Kubelka's hyperbolic solution, Fresnel
integrals by quadrature), so that the library's route back from readings to K and S is checked by it and does not
check itself. """
import pathlib
import numpy as np
from scipy.integrate import quad

HERE = pathlib.Path(__file__).parent
NM = np.arange(380, 781, 10)
NOISE = 0.0008
rng = np.random.default_rng(4711)


def fresnel(n1, n2, theta):
    st = n1 / n2 * np.sin(theta)
    if st >= 1:
        return 1.0
    c, ct = np.cos(theta), np.sqrt(1 - st * st)
    return (((n1 * c - n2 * ct) / (n1 * c + n2 * ct)) ** 2 + ((n2 * c - n1 * ct) / (n2 * c + n1 * ct)) ** 2) / 2


def diffuse(n1, n2):
    """Diffuse reflectance of the boundary from the side of n1."""
    low, high = min(n1, n2), max(n1, n2)
    outside = quad(lambda th: fresnel(low, high, th) * np.sin(2 * th), 0, np.pi / 2, epsabs=1e-12)[0]
    return outside if n1 <= n2 else 1 - (low / high) ** 2 * (1 - outside)


def through(n1, n2, r):
    """A body of internal reflectance r and index n2, seen from inside index n1."""
    r12, r21 = diffuse(n1, n2), diffuse(n2, n1)
    return r12 + (1 - r12) * (1 - r21) * r / (1 - r21 * r)


def read(n, r):
    """Diffuse/8, specular included."""
    f8, r21 = fresnel(1, n, np.radians(8)), diffuse(n, 1)
    return f8 + (1 - f8) * (1 - r21) * r / (1 - r21 * r)


def slab(k, s, t, g):
    a = (k + s) / s
    b = np.sqrt(a * a - 1)
    coth = 1 / np.tanh(b * s * t)
    return (1 - g * (a - b * coth)) / (a - g + b * coth)


def noisy(r):
    return np.round(r + rng.normal(0, NOISE, len(r)), 5)


def curve(floor, blue, width):
    return floor + blue * np.exp(-(NM - 400) / width)


TILE_INDEX, GLYCERINE = 1.5, 1.47
white_tile, black_tile = 0.955 - 0.02 * np.exp(-(NM - 380) / 40), np.full(len(NM), 0.012)


def disc(name, file, index, thickness, k, s, cgats=False):
    readings = {}
    for backing, tile in (("black", black_tile), ("white", white_tile)):
        seen = through(index, GLYCERINE, through(GLYCERINE, TILE_INDEX, tile))
        readings[f"over_{backing}"] = noisy(read(index, slab(k, s, thickness, seen)))
        readings[f"{backing}_backing"] = np.round(read(TILE_INDEX, tile), 5)
    meta = {"material": name, "refractive_index": index, "thickness_mm": thickness, "thickness_uncertainty_mm": 0.005,
            "reading_uncertainty": NOISE, "geometry": "di:8", "area": "large", "coupling": "glycerine",
            "backing_refractive_index": TILE_INDEX, "origin": "invented",
            "instrument": "simulated spectrophotometer", "date": "2026-11-25", "note": "invented demonstration data"}
    write(HERE / "discs" / file, meta, readings, cgats)


def stump(name, file, reading, cgats=False, **extra):
    meta = {"name": name, "refractive_index": 1.54, "geometry": "di:8", "area": "large", "origin": "invented",
        "instrument": "simulated spectrophotometer",
            "date": "2026-11-25", "note": "invented demonstration data", **extra}
    write(HERE / "stumps" / file, meta, {"reflectance": noisy(reading)}, cgats)


def write(path, meta, readings, cgats):
    if cgats:
        head = ["CGATS.17", 'ORIGINATOR "make_demo_data.py"', "SPECTRAL_NORM 100.0"]
        head += [f'KEYWORD "{key.upper()}"\n{key.upper()} "{value}"' for key, value in meta.items()]
        head += [f"NUMBER_OF_FIELDS {len(NM) + 1}", "BEGIN_DATA_FORMAT",
            "SAMPLE_NAME " + " ".join(f"SPEC_{w}" for w in NM), "END_DATA_FORMAT"]
        head += [f"NUMBER_OF_SETS {len(readings)}", "BEGIN_DATA"]
        body = [f'"{name}" ' + " ".join(f"{100 * v:.3f}" for v in values) for name, values in readings.items()]
        path.with_suffix(".txt").write_text("\n".join(head + body + ["END_DATA"]) + "\n")
        return
    lines = [f"# {key} = {value}" for key, value in meta.items()] + ["wavelength_nm," + ",".join(readings)]
    lines += [f"{w}," + ",".join(f"{values[i]:.5f}" for values in readings.values()) for i, w in enumerate(NM)]
    path.with_suffix(".csv").write_text("\n".join(lines) + "\n")


for grade, s550, thickness in ((1, 1.6, 0.70), (2, 2.6, 0.45), (3, 4.4, 0.30), (4, 9.0, 0.15)):
    s = s550 * (NM / 550) ** -1.1
    disc(f"Meadow glass-ceramic, grade {grade}", f"meadow-{grade}", 1.53, thickness, s * curve(0.028, 0.21, 68), s)
for grade, s550, thickness in ((1, 3.4, 0.50), (2, 5.5, 0.30), (3, 9.0, 0.20), (4, 15.0, 0.12)):
    s = s550 * (NM / 550) ** -0.9
    disc(f"Granary zirconia, grade {grade}", f"granary-{grade}", 2.15, thickness, s * curve(0.011, 0.105, 62), s)
disc("Tern cement, translucent", "tern-translucent", 1.52, 0.50, curve(0.02, 0.10, 45), 0.9 * (NM / 550) ** -1.0,
    cgats=True)
disc("Tern cement, opaque", "tern-opaque", 1.52, 0.12, curve(0.02, 0.15, 45), 28.0 * (NM / 550) ** -0.5, cgats=True)


def sigmoid(low, high, middle, width):
    return low + (high - low) / (1 + np.exp(-(NM - middle) / width))


stump("light tooth", "light-tooth", sigmoid(0.24, 0.62, 500, 45))
stump("brown tooth", "brown-tooth", sigmoid(0.08, 0.40, 585, 45))
stump("nearly black tooth", "nearly-black-tooth", sigmoid(0.058, 0.13, 620, 60), cgats=True)
stump("metal post", "metal-post", 0.50 + 0.06 * (NM - 380) / 400, metal="true")
