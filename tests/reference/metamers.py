#!/usr/bin/env python3
"""Extremes of metamers under another light by scipy's linear programming (HiGHS).

For twelve reflectances of spectra.csv: the largest and smallest X, Y, Z under A that any reflectance from 0 to 1 with
the same X, Y, Z under D65 can have, 2 degree observer, weights of 5 nm data by tristimulus.py. Writes metamers.csv.
"""
import pathlib
from scipy.optimize import linprog
from tristimulus import spectra, weights

HERE = pathlib.Path(__file__).parent


def main():
    at, samples = spectra()
    light = {name: weights(name, "1931", at) for name in ("D65", "A")}
    with open(HERE / "metamers.csv", "w") as out:
        out.write("sample,x_min,x_max,y_min,y_max,z_min,z_max\n")
        for name in (f"G{i:02d}" for i in range(1, 13)):
            values = samples[name]
            extremes = []
            for axis in range(3):
                for sign in (1, -1):
                    found = linprog(sign * light["A"][axis], A_eq=light["D65"], b_eq=light["D65"] @ values,
                        bounds=(0, 1), method="highs")
                    extremes.append(sign * found.fun)
            out.write(name + "," + ",".join(f"{value:.6f}" for value in extremes) + "\n")


main()
