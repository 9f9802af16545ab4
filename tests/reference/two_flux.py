#!/usr/bin/env python3
"""Two-flux reflectance of a layer on a backing to 17 digits, from Kubelka's hyperbolic solution evaluated with 60
digits."""
import itertools
import pathlib
from mpmath import mp, mpf, sqrt, sinh, cosh, diff

mp.dps = 60
HERE = pathlib.Path(__file__).parent


def reflectance(k, s, t, g):
    # Kubelka 1948 with a = (K + S)/S and b = sqrt(a^2 - 1), multiplied by S so that S = 0 and K = 0 need no limit but x
    # = 0.
    x = sqrt(k * (k + 2 * s)) * t
    a = t if x == 0 else sinh(x) / x * t
    d = cosh(x) + (k + s) * a
    r0, transmittance = s * a / d, 1 / d
    return r0 + transmittance ** 2 * g / (1 - r0 * g)


def number(text):
    return mpf(float(text))


coefficients = ["0", "1e-14", "1e-9", "1e-5", "0.01", "0.3", "2", "40", "1e3"]
thicknesses = ["0", "1e-6", "0.01", "0.3", "1", "7", "50"]
backings = ["0", "0.25", "0.8", "0.999999999", "1"]
with open(HERE / "two_flux.csv", "w") as out:
    out.write("k,s,t,g,r\n")
    for k, s, t, g in itertools.product(coefficients, coefficients, thicknesses, backings):
        r = reflectance(*map(number, (k, s, t, g)))
        out.write(f"{k},{s},{t},{g},{mp.nstr(r, 20)}\n")

mp.dps = 300
with open(HERE / "two_flux_derivatives.csv", "w") as out:
    out.write("k,s,t,g,by_t,by_k,by_s,by_g\n")
    for k, s, t, g in itertools.product(["1e-6", "0.02", "0.5", "8"], ["1e-6", "0.2", "3", "25"],
        ["0.001", "0.2", "1", "6"], ["0.05", "0.5", "0.95"]):
        point = list(map(number, (k, s, t, g)))
        d = [mp.nstr(diff(reflectance, tuple(point), tuple(int(i == j) for j in range(4))), 20) for i in (2, 0, 1, 3)]
        out.write(f"{k},{s},{t},{g},{','.join(d)}\n")
