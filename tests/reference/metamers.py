#!/usr/bin/env python3
"""Extremes of metamers under another light by scipy's linear programming (HiGHS).

For twelve reflectances of spectra.csv: the largest and smallest X, Y, Z under A that any reflectance from 0 to 1 with the same X, Y, Z under
D65 can have, 2 degree observer, 5 nm sums over the tables of colord-data. Writes metamers.csv.
"""
import csv
import pathlib
import numpy as np
from scipy.optimize import linprog
from spectra import COLORD, table

HERE = pathlib.Path(__file__).parent


def main():
    cmf = table(COLORD / "cmf" / "CIE1931-2deg-XYZ.cmf")
    weights = {}
    for name in ("D65", "A"):
        power = table(COLORD / "illuminant" / f"CIE-{name}.sp")[0]
        weights[name] = 100 * cmf * power / np.sum(cmf[1] * power)
    rows = list(csv.reader(open(HERE / "spectra.csv")))
    with open(HERE / "metamers.csv", "w") as out:
        out.write("sample,x_min,x_max,y_min,y_max,z_min,z_max\n")
        for column in range(16, 28):
            values = np.array([float(row[column]) for row in rows[1:]])
            extremes = []
            for axis in range(3):
                for sign in (1, -1):
                    found = linprog(sign * weights["A"][axis], A_eq=weights["D65"], b_eq=weights["D65"] @ values, bounds=(0, 1), method="highs")
                    extremes.append(sign * found.fun)
            out.write(rows[0][column] + "," + ",".join(f"{value:.6f}" for value in extremes) + "\n")


main()
