#!/usr/bin/env python3
"""The same tristimulus values by a second program: the weighting factors of colour-science 0.4.6 (its own code for
ASTM E2022).

Its tables of observers are the ones used here; lamps are handed to it at 1 nm, interpolated by scipy's piecewise
Lagrange polynomials, D65 linearly. Its weights run over the range of the observer cut to that of the lamp, from 360
or 380 to 780 nm; data below 380 nm is the value at 380 nm. Writes tristimulus_colour.csv and prints what of the
published white points (ASTM E308) the ways of interpolating a lamp give. """
import pathlib
import numpy as np
from scipy.interpolate import lagrange
import colour
from colour.colorimetry import MSDS_CMFS, tristimulus_weighting_factors_ASTME2022 as factors
from tristimulus import LIGHTS, spectra, table

HERE = pathlib.Path(__file__).parent
# ASTM E308, as SpanDSP (t42.c) tables it, for 2 degrees also colormath 3.0.0: X and Z of white, 2 degrees, then 10
# degrees.
PRINTED = {"A": (109.850, 35.585, 111.144, 35.200), "C": (98.074, 118.232, 97.285, 116.145),
    "D50": (96.422, 82.521, 96.720, 81.427),
           "D55": (95.682, 92.149, 95.799, 90.926), "D65": (95.047, 108.883, 94.811, 107.304), "D75": (94.972, 122.638,
               94.416, 120.641),
           "FL2": (99.186, 67.393, 103.279, 69.027), "FL7": (95.041, 108.747, 95.792, 107.686), "FL11": (100.962,
               64.350, 103.863, 65.607)}


def cubic(own, power, nm):
    out = np.empty(len(nm))
    for k, w in enumerate(nm):
        left = min(int((w - own[0]) // 5), len(own) - 2)
        low, high = max(left - 1, 0), min(left + 2, len(own) - 1)
        out[k] = lagrange(own[low:high + 1] - w, power[low:high + 1])(0)
    return out


def observer(name, nm):
    return MSDS_CMFS[name].copy().trim(colour.SpectralShape(nm[0], nm[-1], 1))


def lamp(light, how=None):
    if light == "E":
        own, power = np.arange(300.0, 831, 5), np.full(107, 100.0)
    else:
        own, power = table(f"illuminant-{light}")
        power = power[:, 0]
    nm = np.arange(max(360, own[0]), 781)
    how = how or ("linear" if light == "D65" else "cubic")
    sprague = colour.SpragueInterpolator(own, power)
    values = {"linear": lambda: np.interp(nm, own, power), "cubic": lambda: cubic(own, power, nm),
        "Sprague": lambda: sprague(nm)}[how]()
    return nm, colour.SpectralDistribution(values, nm)


def main():
    names = {"1931": "CIE 1931 2 Degree Standard Observer", "1964": "CIE 1964 10 Degree Standard Observer"}
    for light, printed in PRINTED.items():
        for how in ("linear", "cubic", "Sprague"):
            nm, power = lamp(light, how)
            whites = []
            for name in names.values():
                sums = observer(name, nm).values.T @ power.values
                whites += [100 * sums[0] / sums[1], 100 * sums[2] / sums[1]]
            print(f"{light:5} {how:8} misses the printed white by at most {abs(np.array(whites) - printed).max():.4f}")
    at, samples = spectra()
    with open(HERE / "tristimulus_colour.csv", "w") as out:
        out.write("sample,illuminant,observer,start_nm,end_nm,step_nm,X,Y,Z\n")
        for step in (10, 20):
            for light in LIGHTS:
                nm, power = lamp(light)
                for year, name in names.items():
                    w = factors(observer(name, nm), power, colour.SpectralShape(nm[0], nm[-1], step))
                    for sample in ("TCS01", "TCS09", "TCS12", "G01", "G02", "G06"):
                        values = np.interp(np.arange(nm[0], 781, step), at, samples[sample])
                        x, y, z = values @ w
                        out.write(f"{sample},{light},{year},380,780,{step},{x:.9f},{y:.9f},{z:.9f}\n")


main()
