#!/usr/bin/env python3
"""Reflectance of a half-space that scatters isotropically, for light that falls in at right angles from air. Needs
numpy.

Without a surface the light returned is known by Chandrasekhar's H function (Radiative Transfer, chapter V), here
solved from its integral equation. A smooth surface sends Fresnel's share of what comes from below back down; that is
a linear equation in the radiance that goes up. Directions are gathered at the critical angle and at grazing, where
the integrands have roots and logarithms.

Writes half_space.csv; prints how far twice the directions move a value.
"""
import pathlib
import numpy as np

ALBEDOS = (0.3, 0.5, 0.9, 0.99, 0.999)
INDICES = (1.0, 1.33, 1.5, 2.15)


def fresnel_from_below(n, mu):
    outside = np.sqrt(np.maximum(0, 1 - n * n * (1 - mu * mu)))
    s, p = (n * mu - outside) / (n * mu + outside), (mu - n * outside) / (mu + n * outside)
    return (s * s + p * p) / 2


def directions(n, count):
    at, weight = np.polynomial.legendre.leggauss(count)
    at, weight = (at + 1) / 2, weight / 2
    critical = np.sqrt(1 - 1 / n ** 2)
    escaping = critical + (1 - critical) * at ** 3, 3 * (1 - critical) * at ** 2 * weight
    kept = critical * at ** 3, 3 * critical * at ** 2 * weight
    return (np.concatenate(both) for both in zip(kept, escaping)) if n > 1 else escaping


def h_function(albedo, mu, weight, wanted):
    h = np.ones(len(mu))
    for _ in range(10000):
        following = 1 / (np.sqrt(1 - albedo) + albedo / 2 * (mu * h * weight / (mu[:, None] + mu)).sum(1))
        if abs(following - h).max() < 1e-15:
            break
        h = (h + following) / 2
    return 1 / (np.sqrt(1 - albedo) + albedo / 2 * (mu * h * weight / (wanted[:, None] + mu)).sum(1))


def reflectance(albedo, n, count):
    mu, weight = directions(n, count)
    h = h_function(albedo, mu, weight, np.append(mu, 1))
    h, h_normal = h[:-1], h[-1]
    surface = ((n - 1) / (n + 1)) ** 2
    back = fresnel_from_below(n, mu) if n > 1 else np.zeros(len(mu))
    first = albedo / (4 * np.pi) * (1 - surface) * h * h_normal / (mu + 1)
    again = albedo / 2 * weight * mu * h * h[:, None] / (mu[:, None] + mu)
    upward = np.linalg.solve(np.eye(len(mu)) - again * back, first)
    return surface + 2 * np.pi * (weight * mu * (1 - back) * upward).sum()


def main():
    moved = 0
    with open(pathlib.Path(__file__).parent / "half_space.csv", "w") as out:
        out.write("albedo,index,normal_reflectance\n")
        for albedo in ALBEDOS:
            for n in INDICES:
                value = reflectance(albedo, n, 200)
                moved = max(moved, abs(value - reflectance(albedo, n, 100)))
                out.write(f"{albedo},{n},{value:.10f}\n")
    print(f"half the directions move a value by at most {moved:.1e}")


if __name__ == "__main__":
    main()
