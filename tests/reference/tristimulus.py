#!/usr/bin/env python3
"""Tristimulus values straight from the definition: reflectance interpolated to every nanometre, then summed over 1 nm
tables.

Weights are never formed. Interpolation of data and of lamps (ASTM E2022; CIE 15:2004, 7.2.1.1): through the two
nearest points on either side a cubic, through the nearest three in the first and last interval a parabola; found here
by solving for the polynomial. Observers are tables at 1 nm. D65 is linear between its 5 nm values, as its standard
says (ISO/CIE 11664-2). Sums run from 360 to 780 nm, or where the tables of observer and lamp begin (ASTM E308). Data
that ends early is continued at its own step with its end values.

Writes tristimulus.csv: six reflectances of spectra.csv, every light, every observer, four grids. Needs numpy.
"""
import csv
import pathlib
import numpy as np

HERE = pathlib.Path(__file__).parent
TABLES = HERE.parent.parent / "src" / "TableGenerator" / "cie"
OBSERVERS = {"1931": "cie1931-two-degree", "1964": "cie1964-ten-degree", "2015/2": "cie2015-two-degree",
    "2015/10": "cie2015-ten-degree"}
LIGHTS = (["A", "C", "E", "D50", "D55", "D65", "D75"] + [f"FL{i}" for i in range(1, 13)]
    + [f"LED-B{i}" for i in range(1, 6)]
          + ["LED-BH1", "LED-RGB1", "LED-V1", "LED-V2", "ID50", "ID65"])
GRIDS = [(380, 780, 5), (380, 780, 10), (380, 780, 20), (400, 700, 10)]


def table(name):
    with open(TABLES / f"{name}.csv") as file:
        rows = np.array([[float(cell) for cell in row] for row in list(csv.reader(file))[1:]])
    return rows[:, 0], rows[:, 1:]


def polynomial_through(at, values, where):
    scale = at[1] - at[0]
    powers = np.vander((at - where) / scale, increasing=True)
    return np.linalg.solve(powers, values)[0]


def interpolate(at, values, wanted):
    result = []
    for nm in wanted:
        if np.any(abs(at - nm) < 1e-9):
            result.append(values[np.argmin(abs(at - nm))])
            continue
        right = int(np.searchsorted(at, nm))
        chosen = [i for i in range(right - 2, right + 2) if 0 <= i < len(at)]
        result.append(polynomial_through(at[chosen], values[chosen], nm))
    return np.array(result)


def products(light, observer):
    """Wavelengths of the sum, and power times matching functions there, one column each for X, Y, Z; Y of white is
    100."""
    at, functions = table(OBSERVERS[observer])
    if light == "E":
        own, power = at, np.full(len(at), 100.0)
    else:
        own, power = table(f"illuminant-{light}")
        power = power[:, 0]
    nm = np.arange(max(360, own[0], at[0]), 781)
    power = np.interp(nm, own, power) if light == "D65" else interpolate(own, power, nm)
    product = functions[np.searchsorted(at, nm)] * power[:, None]
    return nm, 100 * product / product[:, 1].sum()


def at_every_nanometre(at, values, nm):
    step = at[1] - at[0]
    while at[0] > nm[0]:
        at, values = np.concatenate([[at[0] - step], at]), np.concatenate([values[:1], values])
    while at[-1] < nm[-1]:
        at, values = np.concatenate([at, [at[-1] + step]]), np.concatenate([values, values[-1:]])
    return interpolate(at, values, nm)


def weights(light, observer, at):
    """What each datum contributes, from data that is 1 at one wavelength and 0 elsewhere; rows X, Y, Z."""
    nm, product = products(light, observer)
    return np.array([at_every_nanometre(at.astype(float), row, nm) @ product for row in np.eye(len(at))]).T


def spectra():
    with open(HERE / "spectra.csv") as file:
        rows = list(csv.reader(file))
    body = np.array([[float(cell) for cell in row] for row in rows[1:]])
    return body[:, 0], {name: body[:, i + 1] for i, name in enumerate(rows[0][1:])}


def main():
    at, samples = spectra()
    chosen = ["TCS01", "TCS09", "TCS12", "G01", "G02", "G06"]
    with open(HERE / "tristimulus.csv", "w") as out:
        out.write("sample,illuminant,observer,start_nm,end_nm,step_nm,X,Y,Z\n")
        for start, end, step in GRIDS:
            pick = (at >= start) & (at <= end) & ((at - start) % step == 0)
            fine = {}
            for light in LIGHTS:
                for observer in OBSERVERS:
                    nm, product = products(light, observer)
                    for name in chosen:
                        key = (name, nm[0])
                        if key not in fine:
                            fine[key] = at_every_nanometre(at[pick], samples[name][pick], nm)
                        x, y, z = fine[key] @ product
                        out.write(f"{name},{light},{observer},{start},{end},{step},{x:.9f},{y:.9f},{z:.9f}\n")


if __name__ == "__main__":
    main()
