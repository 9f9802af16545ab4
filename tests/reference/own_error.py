#!/usr/bin/env python3
"""Fits the laws of a theory's own error (src/CeramicOptics/Layers/OwnErrorLaw.cs) to simulated crowns.

The crowns: own_error_crowns.csv, which the long run of SimulatedPracticeTests writes into the folder of the test's
program. Plain Python, no packages. usage: own_error.py own_error_crowns.csv

Standard uncertainties u minimize the negative logarithm of the likelihood of normal errors, with L*, a*, b* in fixed
proportions (their root mean squares over all crowns); Nelder and Mead 1965. Prints, for each theory, the numbers of the
law, and found and stated errors by distance from the disc.
"""
import csv
import math
import random
import sys

AXES = {"rt": (1.41, 0.35, 0.9), "two": (1.45, 0.26, 0.9)}
THINNEST_DISC = {"rt": 0.8, "two": 0.3}
START = {"rt": [.02, .03, .3, 1.2, .8, .2, .5, .8, .3, .3], "two": [.05, .1, .8, 1.2, .6, 1, .5, .6, .3, .3]}
NAMES = "Floor Clear Thin ThinPower ThinFall Thick ThickReach ThickFall ThinIndex ThickIndex".split()


def stated(p, row):
    floor, clear, thin, power, fall, thick, reach, disc_fall, thin_index, thick_index = p
    x, index = row["x"], (row["index"] - 1.53) / 0.62
    tau = max(0.3, row["tau"])
    disc = max(THINNEST_DISC[row["theory"]], row["tau"] * math.exp(-x))
    away = (thin * (-x) ** power * tau ** -fall * math.exp(thin_index * index) if x < 0 else
            thick * (1 - math.exp(-x / reach)) * disc ** -disc_fall * math.exp(thick_index * index))
    return math.hypot(floor + clear / tau, away)


def squares(row):
    return sum((row[k] / axis) ** 2 for k, axis in zip(("dL", "da", "db"), AXES[row["theory"]]))


def cost(p, rows):
    if min(p[:8]) <= 0:
        return 1e9
    return sum(3 * math.log(u) + squares(row) / (2 * u * u) for row in rows for u in [stated(p, row)]) / len(rows)


def minimum(f, start, turns=700):
    n = len(start)
    corners = [list(start)] + [[v * 1.25 + (0.2 if i >= 8 else 0) if i == j else v for j, v in enumerate(start)]
                               for i in range(n)]
    points = [(f(p), p) for p in corners]
    for _ in range(turns):
        points.sort(key=lambda item: item[0])
        middle = [sum(p[j] for _, p in points[:-1]) / n for j in range(n)]
        worst = points[-1][1]

        def along(step):
            p = [m + step * (w - m) for m, w in zip(middle, worst)]
            return f(p), p

        best = along(-1)
        if best[0] < points[0][0]:
            best = min(best, along(-2))
        elif best[0] >= points[-2][0]:
            best = along(0.5)
        if best[0] < points[-1][0]:
            points[-1] = best
        else:
            points = [points[0]] + [(f(p), p) for p in
                                    ([(a + b) / 2 for a, b in zip(p, points[0][1])] for _, p in points[1:])]
    return min(points)[1]


def main(path):
    with open(path) as file:
        rows = [{k: v if k == "theory" else float(v) for k, v in row.items()} for row in csv.DictReader(file)]
    for theory in AXES:
        own = [row for row in rows if row["theory"] == theory]
        random.seed(1)
        sample = random.sample(own, min(len(own), 1500))
        p = minimum(lambda values: cost(values, sample), START[theory])
        print(theory, len(own), ", ".join(f"{name} {value:.3f}" for name, value in zip(NAMES, p)))
        for low, high in ((-2.5, -0.7), (-0.7, -0.1), (-0.1, 0.1), (0.1, 0.9), (0.9, 3)):
            part = [row for row in own if low <= row["x"] < high]
            found = math.sqrt(sum(squares(row) for row in part) / 3 / len(part))
            print(f"  ln(wall/disc) {low} to {high}: {len(part)} crowns, found {found:.2f}, "
                  f"stated {math.sqrt(sum(stated(p, row) ** 2 for row in part) / len(part)):.2f}")


if __name__ == "__main__":
    main(sys.argv[1])
