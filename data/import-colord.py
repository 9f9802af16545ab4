#!/usr/bin/env python3
"""Copies the CIE tables that the Debian package colord-data carries into data/cie, digit for digit.

Run on a machine with colord-data installed; data/README.md names the version used. Only the layout
changes (one row a wavelength); no value is rounded, scaled or interpolated.
"""
import pathlib
import re

SOURCE = pathlib.Path("/usr/share/colord")
TARGET = pathlib.Path(__file__).parent / "cie"


def read(path):
    text = path.read_text()
    number = lambda key: float(re.search(rf'^{key}\s+"?([\d.]+)', text, re.M).group(1))
    start, end, bands = number("SPECTRAL_START_NM"), number("SPECTRAL_END_NM"), int(number("SPECTRAL_BANDS"))
    body = re.search(r"BEGIN_DATA\n(.*?)END_DATA\s*$", text, re.S).group(1)
    rows = [line.split() for line in body.strip().splitlines()]
    step = (end - start) / (bands - 1)
    return [start + step * i for i in range(bands)], rows


def write(name, columns, wavelengths, rows, keep=lambda w: True):
    with open(TARGET / name, "w") as out:
        out.write(",".join(["wavelength_nm"] + columns) + "\n")
        for i, w in enumerate(wavelengths):
            if keep(w):
                out.write(",".join([f"{w:g}"] + [row[i] for row in rows]) + "\n")


TARGET.mkdir(exist_ok=True)
for observer, name in (("CIE1931-2deg-XYZ", "cie1931-observer.csv"), ("CIE1964-10deg-XYZ", "cie1964-observer.csv")):
    write(name, ["x", "y", "z"], *read(SOURCE / "cmf" / f"{observer}.cmf"))
write("daylight-components.csv", ["s0", "s1", "s2"], *read(SOURCE / "ref" / "CIE-1986-daylight-SPD.cmf"))
for illuminant in ["A", "C", "D65"] + [f"F{i}" for i in range(1, 13)]:
    write(f"illuminant-{illuminant}.csv", ["power"], *read(SOURCE / "illuminant" / f"CIE-{illuminant}.sp"),
          keep=lambda w: w % 5 == 0)
