#!/usr/bin/env python3
"""Smoothest reflectances (Burns 2020, least slope squared of z, reflectance = (tanh z + 1)/2) by a general
optimiser."""
import pathlib
import numpy as np
from scipy.optimize import minimize
import tristimulus

GRID = np.arange(380, 781, 5)
weights = tristimulus.weights("D65", "1931", GRID) / 100


def xyz_of_lab(lab, white):
    fy = (lab[0] + 16) / 116
    f = np.array([fy + lab[1] / 500, fy, fy - lab[2] / 200])
    return white * np.where(f > 6 / 29, f ** 3, 108 / 841 * (f - 4 / 29))


colors = [(70, 2, 18), (82, 0, 12), (35, 4, 10), (50, 0, 0), (60, 30, 40), (40, -20, -10), (25, 1, 3), (90, -2, 8)]
with open(pathlib.Path(__file__).parent / "smoothest.csv", "w") as out:
    out.write("L,a,b," + ",".join(f"r{w}" for w in GRID) + "\n")
    for lab in colors:
        target = xyz_of_lab(np.array(lab, float), weights.sum(axis=1))
        refl = lambda z: (np.tanh(z) + 1) / 2
        jac = lambda z: weights * ((1 - np.tanh(z) ** 2) / 2)
        grad = lambda z: 2 * (np.concatenate([[0], np.diff(z)]) - np.concatenate([np.diff(z), [0]]))
        best = minimize(lambda z: np.sum(np.diff(z) ** 2), np.full(81, np.arctanh(2 * target[1] - 1)), jac=grad,
            method="SLSQP",
                        constraints={"type": "eq", "fun": lambda z: 100 * (weights @ refl(z) - target),
                            "jac": lambda z: 100 * jac(z)},
                        options={"maxiter": 2000, "ftol": 1e-15})
        assert np.abs(weights @ refl(best.x) - target).max() < 1e-9, (lab, best)
        out.write(",".join(map(str, lab)) + "," + ",".join(f"{v:.6f}" for v in refl(best.x)) + "\n")
