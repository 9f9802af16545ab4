#!/usr/bin/env python3
"""L*a*b* of 60 reflectance spectra by two independent routes: tristimulus.py with scikit-image, and argyll's
spec2cie."""
import pathlib
import re
import subprocess
import tempfile
import numpy as np
from colour.quality.datasets.tcs import SDS_TCS
from skimage.color import xyz2lab
import skimage.color.colorconv as conv
from tristimulus import weights

HERE = pathlib.Path(__file__).parent
GRID = np.arange(380, 781, 5)


def main():
    rng = np.random.default_rng(20240607)
    samples = {f"TCS{i:02d}": np.array([SDS_TCS[f"TCS{i:02d}"][float(nm)] for nm in GRID]) for i in range(1, 15)}
    for i in range(46):
        kind = i % 3
        if kind == 0:      # tooth-like: rising from blue to red
            low, high, mid, width = rng.uniform(0.02, 0.4), rng.uniform(0.3, 0.9), \
                rng.uniform(440, 600), rng.uniform(20, 120)
            values = low + (high - low) / (1 + np.exp(-(GRID - mid) / width))
        elif kind == 1:    # bands
            values = 0.05 + rng.uniform(0.1, 0.9) * np.exp(-((GRID - rng.uniform(400, 700)) / rng.uniform(15, 80)) ** 2)
        else:              # smooth random
            values = np.clip(np.interp(GRID, np.linspace(380, 780, 9), rng.uniform(0, 1, 9)), 0, 1)
        samples[f"G{i + 1:02d}"] = np.clip(values, 0, 1)
    samples = {name: np.round(values, 5) for name, values in samples.items()}

    with open(HERE / "spectra.csv", "w") as out:
        out.write("wavelength_nm," + ",".join(samples) + "\n")
        for i, w in enumerate(GRID):
            out.write(f"{w}," + ",".join(f"{samples[n][i]:.5f}" for n in samples) + "\n")

    with open(HERE / "spectra_lab.csv", "w") as out:
        out.write("sample,illuminant,observer,L,a,b\n")
        for obs, year in (("2", "1931"), ("10", "1964")):
            for ill in ("A", "C", "D65", "F2", "F7", "F11"):
                weighing = weights(ill.replace("F", "FL"), year, GRID) / 100
                white = weighing.sum(axis=1)
                conv.illuminants["A"]["2"] = tuple(white)      # scikit-image takes its white from this table
                for name, values in samples.items():
                    lab = xyz2lab((weighing @ values)[None, :], illuminant="A", observer="2")[0]
                    out.write(f"{name},{ill},{obs},{lab[0]:.9f},{lab[1]:.9f},{lab[2]:.9f}\n")

    with tempfile.TemporaryDirectory() as folder, open(HERE / "spectra_lab_argyll.csv", "w") as out:
        out.write("sample,illuminant,observer,L,a,b\n")
        source = pathlib.Path(folder) / "in.ti3"
        fields = " ".join(f"SPEC_{w}" for w in GRID)
        rows = "\n".join(f"{name} 50 50 50 50 50 50 " + " ".join(f"{100 * v:.3f}" for v in values)
            for name, values in {**samples, "WHITE": np.ones(len(GRID))}.items())
        source.write_text(f'CTI3\n\nDESCRIPTOR "x"\nORIGINATOR "x"\nCREATED "x"\nDEVICE_CLASS "OUTPUT"\n'
                          f'COLOR_REP "iRGB_XYZ"\n'
                          f'SPECTRAL_BANDS "{len(GRID)}"\nSPECTRAL_START_NM "380.0"\nSPECTRAL_END_NM "780.0"\n\n'
                          f'NUMBER_OF_FIELDS {7 + len(GRID)}\n'
                          f'BEGIN_DATA_FORMAT\nSAMPLE_ID RGB_R RGB_G RGB_B XYZ_X XYZ_Y XYZ_Z {fields}\n'
                          f'END_DATA_FORMAT\n\n'
                          f'NUMBER_OF_SETS {len(samples) + 1}\nBEGIN_DATA\n{rows}\nEND_DATA\n')
        subprocess.run(["spec2cie", "-i", "D65", str(source), str(HERE / "argyll.ti3")], check=True,
            capture_output=True)
        for obs, argyll in (("2", "1931_2"), ("10", "1964_10")):
            for ill in ("A", "D50", "D65"):
                target = pathlib.Path(folder) / "out.ti3"
                subprocess.run(["spec2cie", "-n", "-i", ill, "-o", argyll, str(source), str(target)], check=True,
                    capture_output=True)
                text = target.read_text()
                columns = re.search(r"BEGIN_DATA_FORMAT\n(.*?)\nEND_DATA_FORMAT", text, re.S).group(1).split()
                cells = [line.split() for line in re.search(r"BEGIN_DATA\n(.*?)END_DATA\s*$", text,
                    re.S).group(1).strip().splitlines()]
                xyz = {row[0].strip('"'): np.array([float(row[columns.index(f"XYZ_{c}")]) for c in "XYZ"]) / 100
                    for row in cells}
                conv.illuminants["A"]["2"] = tuple(xyz.pop("WHITE"))
                for name, value in xyz.items():
                    lab = xyz2lab(value[None, :], illuminant="A", observer="2")[0]
                    out.write(f"{name},{ill},{obs},{lab[0]:.4f},{lab[1]:.4f},{lab[2]:.4f}\n")


if __name__ == "__main__":
    main()
