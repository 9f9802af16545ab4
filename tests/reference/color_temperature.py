#!/usr/bin/env python3
"""Correlated colour temperature and distance from the Planckian locus of every light. Needs numpy and scipy.

Whites are the sums of tristimulus.py (1931 observer). The nearest black body is where the way to it in the CIE 1960 diagram is
at right angles to the locus (CIE 15:2004, 9.5; c2 = 1.4388e-2 m K): a root, with the slope of Planck's law written out, not a
search for the smallest distance. Writes color_temperature.csv.
"""
import pathlib
import numpy as np
from scipy.optimize import brentq
from tristimulus import LIGHTS, OBSERVERS, products, table

NM, FUNCTIONS = table(OBSERVERS["1931"])
USED = (NM >= 360) & (NM <= 780)
NM, FUNCTIONS = NM[USED], FUNCTIONS[USED]


def uv(xyz):
    return np.array([4 * xyz[0], 6 * xyz[1]]) / (xyz[0] + 15 * xyz[1] + 3 * xyz[2])


def black_body(kelvin):
    """u, v and their slopes with the temperature."""
    x = 1.4388e7 / (NM * kelvin)
    power = (560 / NM) ** 5 / np.expm1(x)
    xyz, slope = power @ FUNCTIONS, (power * x / -np.expm1(-x) / kelvin) @ FUNCTIONS
    sums, sums_slope = np.array([1, 15, 3]) @ xyz, np.array([1, 15, 3]) @ slope
    return uv(xyz), (np.array([4 * slope[0], 6 * slope[1]]) - uv(xyz) * sums_slope) / sums


def nearest(white):
    def along(kelvin):
        at, slope = black_body(kelvin)
        return (white - at) @ slope / np.linalg.norm(slope)
    kelvin = brentq(along, 1500, 20000, xtol=1e-9, rtol=1e-14)
    away = white - black_body(kelvin)[0]
    return kelvin, np.copysign(np.linalg.norm(away), away[1])


def main():
    with open(pathlib.Path(__file__).parent / "color_temperature.csv", "w") as out:
        out.write("illuminant,kelvin,distance_uv\n")
        for light in LIGHTS:
            kelvin, distance = nearest(uv(products(light, "1931")[1].sum(0)))
            out.write(f"{light},{kelvin:.6f},{distance:.9f}\n")


if __name__ == "__main__":
    main()
