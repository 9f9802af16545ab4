#!/usr/bin/env python3
"""Diffuse Fresnel reflectance by quadrature over the angle of incidence, from either side, 40 digits."""
import pathlib
from mpmath import mp, mpf, sin, cos, asin, sqrt, quad, pi, linspace

mp.dps = 40


def fresnel(n1, n2, theta):
    st = n1 / n2 * sin(theta)
    if st >= 1:
        return mpf(1)
    c, ct = cos(theta), sqrt(1 - st * st)
    rs = (n1 * c - n2 * ct) / (n1 * c + n2 * ct)
    rp = (n2 * c - n1 * ct) / (n2 * c + n1 * ct)
    return (rs * rs + rp * rp) / 2


def diffuse(n1, n2):
    critical = asin(n2 / n1) if n2 < n1 else pi / 2
    # Points gathered towards the steep end of the integrand.
    points = [0, critical / 2] + [critical * (1 - mpf(2) ** -j) for j in range(2, 45, 2)] + [critical]
    inside = quad(lambda th: fresnel(n1, n2, th) * sin(2 * th), points)
    return inside + (1 - sin(critical) ** 2 if n2 < n1 else 0)


with open(pathlib.Path(__file__).parent / "fresnel_diffuse.csv", "w") as out:
    out.write("n1,n2,from_first,from_second\n")
    for a, b in (("1", "1.00001"), ("1", "1.001"), ("1", "1.1"), ("1", "1.333"), ("1", "1.47"), ("1", "1.5"),
        ("1", "1.54"), ("1", "2.15"),
                 ("1", "4"), ("1.52", "2.15"), ("1.47", "1.52"), ("1.333", "1.54")):
        n1, n2 = mpf(float(a)), mpf(float(b))
        out.write(f"{a},{b},{mp.nstr(diffuse(n1, n2), 18)},{mp.nstr(diffuse(n2, n1), 18)}\n")
