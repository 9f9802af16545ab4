#!/usr/bin/env python3
"""Readings of an invented disc by an instrument with surface terms of its own, for the fit that has to find them.

R = share F(8) + (1 - F(8)) (1 - inside) Ri / (1 - inside Ri) (Saunderson 1942); Ri of the layer as in paints.py
(matrix exponential of the two-flux equations). The disc is in optical contact with its backings, whose internal
reflectance is given. Writes surface.csv. Needs numpy, scipy. """
import pathlib
import numpy as np
from scipy.linalg import expm

HERE = pathlib.Path(__file__).parent
INDEX = 1.5
SPECULAR = (lambda s, n: (((np.cos(s) - n * np.sqrt(1 - (np.sin(s) / n) ** 2)) / (np.cos(s) + n
    * np.sqrt(1 - (np.sin(s) / n) ** 2))) ** 2
                          + ((n * np.cos(s) - np.sqrt(1 - (np.sin(s) / n) ** 2)) / (n * np.cos(s)
                              + np.sqrt(1 - (np.sin(s) / n) ** 2))) ** 2) / 2)(np.radians(8), INDEX)


def layer(k, s, t, g):
    m = expm(-t * np.array([[-(k + s), s], [-s, k + s]]))
    i, j = m @ np.array([1.0, g])
    return j / i


with open(HERE / "surface.csv", "w") as out:
    out.write("share,inside,nm,K,S,mm,backing,R\n")
    for share, inside in ((0.35, 0.50), (1.0, 0.596), (0.1, 0.42)):
        for nm, k, s in ((400, 0.40, 1.6), (500, 0.15, 1.3), (600, 0.06, 1.1), (700, 0.03, 0.9)):
            for mm in (0.4, 0.8, 1.6):
                for backing in (0.0, 0.3, 0.85):
                    r = layer(k, s, mm, backing)
                    out.write(f"{share},{inside},{nm},{k},{s},{mm},{backing},"
                              f"{share * SPECULAR + (1 - SPECULAR) * (1 - inside) * r / (1 - inside * r):.12g}\n")
