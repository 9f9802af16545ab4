#!/usr/bin/env python3
"""Reflectance of a layer whose K and S change with depth: Kubelka's equation dR/dz = S - 2 (K + S) R + S R^2
integrated by scipy."""
import pathlib
from scipy.integrate import solve_ivp

with open(pathlib.Path(__file__).parent / "graded.csv", "w") as out:
    out.write("k_upper,s_upper,k_lower,s_lower,t,power,backing,r\n")
    for ku, su, kl, sl, t, power, g in ((0.02, 1, 0.2, 6, 1.5, 1, 0), (0.02, 1, 0.2, 6, 1.5, 1, 0.4),
        (0.3, 8, 0.01, 2, 0.8, 2, 0.1),
                                        (0.05, 3, 0.05, 3, 1.0, 1, 0.9), (0.0, 5, 0.0, 0.5, 2.0, 3, 0.25)):
        def slope(z, r, ku=ku, su=su, kl=kl, sl=sl, t=t, power=power):
            w = (1 - z / t) ** power            # z grows upwards from the lower face
            k, s = ku + w * (kl - ku), su + w * (sl - su)
            return s - 2 * (k + s) * r + s * r * r
        r = solve_ivp(slope, (0, t), [g], rtol=1e-12, atol=1e-14, method="DOP853").y[0, -1]
        out.write(f"{ku},{su},{kl},{sl},{t},{power},{g},{r:.12f}\n")
