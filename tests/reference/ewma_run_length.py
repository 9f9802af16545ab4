#!/usr/bin/env python3
"""Average run length of the multivariate EWMA chart from its integral equation (Rigdon 1995, J. Stat. Comput. Simul.
52:351-365), by Nystroem's method with Gauss-Legendre nodes: another way than the Markov chain of the library.
Coordinates p = 3 go into the file; p = 4 is printed to compare with published limits: weight 0.1, limit 12.73 for
200; weight 0.25, limit 16.38 for 500."""
import pathlib
from mpmath import mp, mpf, besseli, exp, lu_solve, matrix, sqrt, pi
from mpmath.calculus.quadrature import GaussLegendre

mp.dps = 20
NODES = [(x, w) for x, w in GaussLegendre(mp).calc_nodes(5, 80)]


def density(y, shift, p):
    """Of the length of a standard normal vector of p coordinates that is moved by a shift."""
    if shift < mpf("1e-9"):
        return 2 * y ** (p - 1) * exp(-y * y / 2) / (2 ** (mpf(p) / 2) * mp.gamma(mpf(p) / 2))
    half = mpf(p) / 2
    return y ** half * shift ** (1 - half) * exp(-(y * y + shift * shift) / 2) * besseli(half - 1, shift * y)


def average(weight, limit, p):
    weight, limit = mpf(str(weight)), mpf(str(limit))
    largest = sqrt(limit * weight / (2 - weight))
    at = [(largest * (x + 1) / 2, largest * w / 2) for x, w in NODES]

    def kernel(a, b):
        return density(b / weight, (1 - weight) * a / weight, p) / weight

    n = len(at)
    a = matrix(n, n)
    for i in range(n):
        for j in range(n):
            a[i, j] = (1 if i == j else 0) - at[j][1] * kernel(at[i][0], at[j][0])
    lengths = lu_solve(a, matrix([1] * n))
    return 1 + sum(at[j][1] * kernel(mpf(0), at[j][0]) * lengths[j] for j in range(n))


for weight, limit, published in ((0.1, 12.73, 200), (0.25, 16.38, 500)):
    print(f"p = 4, weight {weight}, limit {limit}: {float(average(weight, limit, 4)):.2f}, published {published}")
with open(pathlib.Path(__file__).parent / "ewma_run_length.csv", "w") as out:
    out.write("weight,limit,averageRunLength\n")
    for weight in (0.05, 0.1, 0.2, 0.4):
        for limit in (8, 10.79, 14):
            out.write(f"{weight},{limit},{float(average(weight, limit, 3)):.6f}\n")
