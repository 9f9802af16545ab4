#!/usr/bin/env python3
"""K and S of two paints from three drawn-down layers by another program (scipy least_squares), and the mixture
predicted from them.

The layer is integrated numerically: Kubelka's equation dR/dt = S - 2 (K + S) R + S R^2 (Kubelka 1948) from the card
up, by the closed solution in exponentials of its linear form (matrix exponential, scipy.linalg.expm); no formula is
shared with the library. Card and paint have index 1.5; diffuse internal reflectance by quadrature over angle. de:8: R
= (1 - F(8)) (1 - r21) Ri / (1 - r21 Ri).

Writes paints_fit.csv from paints.csv. Needs numpy, scipy.
"""
import csv
import pathlib
import numpy as np
from scipy.integrate import quad
from scipy.linalg import expm
from scipy.optimize import least_squares

HERE = pathlib.Path(__file__).parent
N, NOISE = 1.5, 0.003
# white, pure colour, mixture fitted, mixture predicted, shares of the layer that is colour
CASES = [("07A", "12A", "12B", "12C", 0.27, 0.77), ("07A", "01A", "01C", "01B", 0.8, 0.3),
    ("07A", "11A", "11B", "11C", 0.37, 0.83)]


def fresnel(n1, n2, cosine):
    sine = n1 / n2 * np.sqrt(1 - cosine ** 2)
    if sine >= 1:
        return 1.0
    other = np.sqrt(1 - sine ** 2)
    s = (n1 * cosine - n2 * other) / (n1 * cosine + n2 * other)
    p = (n2 * cosine - n1 * other) / (n2 * cosine + n1 * other)
    return (s * s + p * p) / 2


critical = np.sqrt(1 - 1 / N ** 2)
INSIDE = quad(lambda c: 2 * c * fresnel(N, 1, c), 0, critical, limit=200)[0] + quad(
    lambda c: 2 * c * fresnel(N, 1, c), critical, 1, limit=200, epsabs=1e-13)[0]
THROUGH = (1 - fresnel(1, N, np.cos(np.radians(8)))) * (1 - INSIDE)


def inside(read):
    return read / (THROUGH + INSIDE * read)


def outside(r):
    return THROUGH * r / (1 - INSIDE * r)


def layer(k, s, g):
    """Fluxes down i and up j obey d(i, j)/dx = [[-(k + s), s], [-s, k + s]] (i, j); R = j/i on top."""
    m = expm(-np.array([[-(k + s), s], [-s, k + s]]))
    i, j = m @ np.array([1.0, g])
    return j / i


def main():
    rows = {}
    with open(HERE / "paints.csv") as file:
        for row in csv.reader(line for line in file if not line.startswith("#")):
            if row[0] != "paint":
                rows[row[0], row[2]] = np.array([float(cell) / 100 for cell in row[3:]])
    with open(HERE / "paints_fit.csv", "w") as out:
        out.write("white,colour,fitted,predicted,share_fitted,share_predicted,nm,"
                  "K_colour,S_colour,K_white,S_white,chi_square,over_black,over_white\n")
        for white, colour, fitted, predicted, share, other in CASES:
            for i in range(0, 31, 3):
                layers = [(white, 0.0), (colour, 1.0), (fitted, share)]
                cards = {paint: [inside(rows[paint, card][i]) for card in ("bare_black", "bare_white")]
                         for paint in (white, colour, fitted, predicted)}

                def residuals(x):
                    found = []
                    for paint, v in layers:
                        k, s = v * x[0] + (1 - v) * x[2], v * x[1] + (1 - v) * x[3]
                        for card, role in zip(cards[paint], ("over_black", "over_white")):
                            found.append((outside(layer(k, s, card)) - rows[paint, role][i]) / NOISE)
                    return found

                best = None
                for start in ([1, 0.5, 0.1, 3], [5, 0.3, 0.5, 5], [0.1, 0.3, 0.05, 5], [0.3, 2, 0.3, 2]):
                    fit = least_squares(residuals, start, bounds=([0] * 4, [1e3] * 4), xtol=1e-14, ftol=1e-14,
                        gtol=1e-12, max_nfev=4000)
                    best = fit if best is None or fit.cost < best.cost - 1e-12 else best
                x = best.x
                k, s = other * x[0] + (1 - other) * x[2], other * x[1] + (1 - other) * x[3]
                values = [*x, 2 * best.cost, *(outside(layer(k, s, card)) for card in cards[predicted])]
                out.write(",".join([white, colour, fitted, predicted, str(share), str(other), str(400 + 10 * i)]
                    + [f"{v:.9g}" for v in values]) + "\n")


main()
