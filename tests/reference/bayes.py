#!/usr/bin/env python3
"""Bayesian linear regression in information form, all pieces at once: (J' R^-1 J + P^-1)^-1, with mpmath and 50
digits."""
import pathlib
from mpmath import mp, matrix, inverse

mp.dps = 50
Q, PIECES = 5, 6
state = 12345


def number():
    """Numbers from -1 to 1 by a linear congruence, so that nothing depends on a library's generator."""
    global state
    state = (1103515245 * state + 12345) % 2**31
    return round(2 * state / 2**31 - 1, 6)


spread = matrix(Q, Q)
for i in range(Q):
    for j in range(Q):
        spread[i, j] = mp.mpf(str(number()))
prior = spread * spread.T / 4
for i in range(Q):
    prior[i, i] += mp.mpf("0.01")
slopes = matrix(3 * PIECES, Q)
read = matrix(3 * PIECES, 1)
for i in range(3 * PIECES):
    read[i] = mp.mpf(str(number()))
    for j in range(Q):
        slopes[i, j] = 3 * mp.mpf(str(number()))
scatter = matrix([["0.09", "0.02", "-0.01"], ["0.02", "0.05", "0.01"], ["-0.01", "0.01", "0.12"]])
# What is written is rounded to double precision, so it is also what is computed with.
prior = prior.apply(lambda x: mp.mpf(float(x)))
weight = inverse(scatter.apply(lambda x: mp.mpf(float(x))))
information, sums = inverse(prior), matrix(Q, 1)
for p in range(PIECES):
    j = slopes[3 * p:3 * p + 3, :].apply(lambda x: mp.mpf(float(x)))
    information += j.T * weight * j
    sums += j.T * weight * read[3 * p:3 * p + 3, :].apply(lambda x: mp.mpf(float(x)))
covariance = inverse(information)
mean = covariance * sums


def rows(name, m):
    return "".join(name + "," + ",".join(repr(float(m[i, j])) for j in range(m.cols)) + "\n" for i in range(m.rows))


(pathlib.Path(__file__).parent / "bayes.csv").write_text(
    rows("prior", prior) + rows("slopes", slopes) + rows("scatter", scatter) + rows("read", read.T)
    + rows("mean", mean.T) + rows("covariance", covariance))
