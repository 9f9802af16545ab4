#!/usr/bin/env python3
"""Colours from invented photographs: terms of colour-science, least squares with 50 digits, every patch left out by a
fit of its own."""
import csv
import math
import pathlib
import numpy as np
from colour.characterisation import matrix_augmented_Cheung2004, polynomial_expansion_Finlayson2015
from mpmath import mp, mpf, matrix, lu_solve, inverse
from scipy.spatial import ConvexHull
from skimage.color import deltaE_ciede2000

mp.dps = 50
HERE = pathlib.Path(__file__).parent
POLYNOMIALS = [5, 7, 8, 10, 11, 14, 16, 17, 19, 20, 22]
METHODS = ["Linear"] + [f"Polynomial{n}" for n in POLYNOMIALS] + [f"RootPolynomial{d}" for d in (2, 3, 4)]
TERMS = dict(zip(METHODS, [3] + POLYNOMIALS + [6, 13, 22]))


def white():
    # Equal-energy light: plain sums of the 1 nm functions.
    observer = HERE.parents[1] / "src/TableGenerator/cie/cie1931-two-degree.csv"
    rows = [list(map(float, r)) for r in csv.reader(open(observer)) if r[0][0].isdigit()]
    sums = [math.fsum(r[k] for r in rows if 360 <= r[0] <= 780) for k in (1, 2, 3)]
    return [100 * s / sums[1] for s in sums]


WHITE = white()


def powers(method):
    """Exponents of R, G, B in each term, read off the other program's expansion at powers of two."""
    def expand(rgb):
        if method.startswith("Root"):
            return polynomial_expansion_Finlayson2015(rgb, int(method[-1]))
        return matrix_augmented_Cheung2004(rgb, TERMS[method])
    return [[round(float(e) * 12) for e in np.log2(expand(np.array(rgb)))]
        for rgb in ([2.0, 1, 1], [1, 2.0, 1], [1, 1, 2.0])]


def row(method, rgb):
    p = powers(method)
    return [mp.mpf(rgb[0]) ** (mpf(a) / 12) * mp.mpf(rgb[1]) ** (mpf(b) / 12) * mp.mpf(rgb[2]) ** (mpf(c) / 12)
        for a, b, c in zip(*p)]


def linear(curve, v):
    v = mpf(v)
    return v if curve == "linear" else v / mpf("12.92") if v <= mpf("0.04045") else (
        (v + mpf("0.055")) / mpf("1.055")) ** mpf("2.4")


def lab(xyz):
    def f(t):
        return mp.cbrt(t) if t > (mpf(24) / 116) ** 3 else mpf(841) / 108 * t + mpf(16) / 116
    x, y, z = (f(xyz[k] / mpf(WHITE[k])) for k in range(3))
    return [116 * y - 16, 500 * (x - y), 200 * (y - z)]


def xyz(color):
    def g(v):
        return v ** 3 if v > mpf(24) / 116 else mpf(108) / 841 * (v - mpf(16) / 116)
    y = (mpf(color[0]) + 16) / 116
    return [mpf(WHITE[0]) * g(y + mpf(color[1]) / 500), mpf(WHITE[1]) * g(y),
        mpf(WHITE[2]) * g(y - mpf(color[2]) / 200)]


def normal_inverse(rows, pull):
    n = len(rows[0])
    a = matrix(n, n)
    for i in range(n):
        for j in range(n):
            a[i, j] = mp.fsum(r[i] * r[j] for r in rows) + (pull[i] if i == j else 0)
    return inverse(a)


def fit(inv, rows, targets):
    return inv * matrix([[mp.fsum(r[i] * t[k] for r, t in zip(rows, targets)) for k in range(3)]
        for i in range(len(rows[0]))])


def apply(coefficients, r):
    return [mp.fsum(r[i] * coefficients[i, k] for i in range(len(r))) for k in range(3)]


def quadratic(inv, r):
    return (matrix([r]) * inv * matrix(r))[0]


def to_triangle(p, a, b, c):
    """Distance of a point from a triangle: the plane where its foot is inside, else the nearest edge."""
    n = np.cross(b - a, c - a)
    foot = p - n * np.dot(p - a, n) / np.dot(n, n)
    inside = all(np.dot(np.cross(v - u, foot - u), n) >= 0 for u, v in ((a, b), (b, c), (c, a)))
    if inside:
        return np.linalg.norm(p - foot)
    return min(np.linalg.norm(p - u - (v - u) * min(1, max(0, np.dot(p - u, v - u) / np.dot(v - u, v - u))))
        for u, v in ((a, b), (b, c), (c, a)))


def outside(color, known):
    hull = ConvexHull(known)
    color = np.array(color)
    if np.all(hull.equations[:, :3] @ color + hull.equations[:, 3] <= 1e-9):
        return 0.0
    return min(to_triangle(color, *known[s]) for s in hull.simplices)


def solve(curve, chart, teeth, method, share):
    light = [[linear(curve, v) for v in c["rgb"]] for c in chart]
    rows = [row(method, v) for v in light]
    targets = [xyz(c["lab"]) for c in chart]
    # The pull on each coefficient, for terms scaled to a sum of squares of 1 over the whole chart.
    pull = [mpf(share) * mp.fsum(r[i] ** 2 for r in rows) for i in range(len(rows[0]))]
    left_out = []
    for i in range(len(chart)):
        others, their = rows[:i] + rows[i + 1:], targets[:i] + targets[i + 1:]
        left_out.append([float(v) for v in lab(apply(fit(normal_inverse(others, pull), others, their), rows[i]))])
    known = np.array([c["lab"] for c in chart])
    differences = deltaE_ciede2000(known, np.array(left_out))
    inv = normal_inverse(rows, pull)
    coefficients = fit(inv, rows, targets)
    leverages = [float(quadratic(inv, r)) for r in rows]
    found = []
    for t in teeth:
        def color(r, g, b):
            return lab(apply(coefficients, row(method, [linear(curve, r), linear(curve, g), linear(curve, b)])))
        place = tuple(mpf(v) for v in t["rgb"])
        at = [float(v) for v in color(*place)]
        own = 1 + float(quadratic(inv, row(method, [linear(curve, v) for v in t["rgb"]])))
        nearest = np.argsort(np.linalg.norm(known - at, axis=1), kind="stable")[:max(8, len(chart) // 2)]
        uncertainty = []
        for k in range(3):
            chart_part = own * sum((1 - leverages[i]) * (left_out[i][k] - known[i][k]) ** 2
                for i in nearest) / (len(nearest) - 2)
            noise = sum(
                (float(mp.diff(lambda *v: color(*v)[k], place, tuple(int(c == j) for j in range(3))))
                    * t["sd"][c]) ** 2 / t["n"] for c in range(3))
            uncertainty.append(math.sqrt(chart_part + noise))
        found.append((at, uncertainty, outside(at, known)))
    return left_out, differences, found


def photograph(random, count, exposure, curve):
    """Colours and readings that hang together, by a mixing matrix, a little curvature and noise."""
    mix = np.array([[0.7, 0.25, 0.05], [0.2, 0.7, 0.1], [0.02, 0.13, 0.85]])

    def reading(name, color, sd, n):
        share = np.array([float(v) for v in xyz(color)]) / WHITE
        light = exposure * (mix @ share) * (1 + 0.05 * (mix @ share)[::-1]) + random.normal(0, 0.001, 3)
        value = light if curve == "linear" else np.where(light <= 0.0031308, 12.92 * light,
            1.055 * light ** (1 / 2.4) - 0.055)
        assert min(value) > 2 * max(sd) and max(value) < 0.98 - 2 * max(sd), "clipped"
        return {"name": name, "rgb": [round(float(v), 5) for v in value], "sd": sd, "n": n,
            "lab": [round(float(v), 3) for v in color]}
    chart = []
    for i in range(count):
        angle, chroma = 2.4 * i, 0 if i < 5 else 12 + 25 * random.random()
        level = 15 + 75 * i / 5 if i < 5 else 30 + 50 * random.random()
        chart.append(reading(f"patch {i}", [level, chroma * math.cos(angle), chroma * math.sin(angle)], [0.001] * 3,
            400))
    teeth = [reading(name, color, sd, n) for name, color, sd, n in (
        ("stump", [52, 9, 24], [0.012, 0.01, 0.009], 900), ("neighbour", [72, 3, 19], [0.02, 0.02, 0.02], 1),
        ("gum", [45, 60, 45], [0.01] * 3, 100))]
    return chart, teeth


def text(values):
    return ",".join(repr(float(v)) for v in values)


PICTURES = [("raw", 26, 0.8, "linear", 0), ("display", 40, 0.7, "sRGB", 0), ("regularized", 26, 0.6, "linear", 0.001)]
random = np.random.default_rng(7)
with open(HERE / "photograph_readings.csv", "w") as readings, open(HERE / "photograph.csv", "w") as out:
    readings.write("picture,curve,regularization,kind,name,red,green,blue,"
                   "red_deviation,green_deviation,blue_deviation,pixels,L,a,b\n")
    out.write("picture,method,kind,name,1,2,3,4,5,6,7\n")
    for picture, count, exposure, curve, share in PICTURES:
        chart, teeth = photograph(random, count, exposure, curve)
        for kind, patches in (("chart", chart), ("tooth", teeth)):
            for p in patches:
                color = p["lab"] if kind == "chart" else ["", "", ""]
                readings.write(f"{picture},{curve},{share},{kind},{p['name']},{text(p['rgb'])},{text(p['sd'])},"
                               f"{p['n']},{','.join(map(str, color))}\n")
        judged = {}
        for method in METHODS:
            scaled = np.array([[float(v) for v in row(method, [linear(curve, v) for v in c["rgb"]])] for c in chart])
            if share == 0 and np.linalg.cond(scaled / np.linalg.norm(scaled, axis=0)) > 1e10:
                # Beyond double precision; the library refuses it.
                print(f"{picture}: {method} not determined")
                continue
            left_out, differences, found = solve(curve, chart, teeth, method, share)
            for c, l, d in zip(chart, left_out, differences):
                out.write(f"{picture},{method},chart,{c['name']},{text(l + [d])},,,\n")
            for t, (at, uncertainty, away) in zip(teeth, found):
                out.write(f"{picture},{method},tooth,{t['name']},{text(at + uncertainty + [away])}\n")
            if 3 * TERMS[method] <= 2 * count:
                judged[method] = differences
        best = min(judged.values(), key=np.mean)
        limit = np.mean(best) + np.std(best, ddof=1) / math.sqrt(count)
        chosen = min((m for m in judged if np.mean(judged[m]) <= limit), key=lambda m: (TERMS[m], np.mean(judged[m])))
        out.write(f"{picture},{chosen},chosen,,,,,,,,\n")
