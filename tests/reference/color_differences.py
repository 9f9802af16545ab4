#!/usr/bin/env python3
"""CIE94, CMC(l:c), CIEDE2000 and L*u*v* of random colours by scikit-image; Bradford adaptation by colormath's
matrix."""
import pathlib
import numpy as np
from skimage.color import deltaE_ciede94, deltaE_ciede2000, deltaE_cmc, lab2xyz, xyz2luv

HERE = pathlib.Path(__file__).parent
rng = np.random.default_rng(94)
n = 2000
one = np.column_stack([rng.uniform(1, 99, n), rng.uniform(-60, 60, n), rng.uniform(-60, 60, n)]).round(3)
step = rng.normal(size=(n, 3)) * rng.choice([0.5, 3, 15], n)[:, None]
two = (one + step).clip([0.5, -70, -70], [100, 70, 70]).round(3)
columns = [deltaE_ciede94(one, two), deltaE_cmc(one, two, kL=2, kC=1), deltaE_cmc(one, two, kL=1, kC=1),
    deltaE_ciede2000(one, two)]
with open(HERE / "color_differences.csv", "w") as out:
    out.write("L1,a1,b1,L2,a2,b2,cie94,cmc21,cmc11,ciede2000\n")
    for i in range(n):
        out.write(",".join(f"{v:g}" for v in (*one[i], *two[i])) + "," + ",".join(f"{c[i]:.6f}" for c in columns)
            + "\n")

xyz = lab2xyz(one[:500], illuminant="D65", observer="2")          # scikit-image: D65 white 0.95047, 1, 1.08883
luv = xyz2luv(xyz, illuminant="D65", observer="2")
with open(HERE / "luv.csv", "w") as out:
    out.write("x,y,z,L,u,v\n")
    for i in range(500):
        out.write(",".join(f"{100 * v:.9f}" for v in xyz[i]) + "," + ",".join(f"{v:.6f}" for v in luv[i]) + "\n")
