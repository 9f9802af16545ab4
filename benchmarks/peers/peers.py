#!/usr/bin/env python3
"""Times the library beside general-purpose programs that do the same work, in one run, and compares their results.

    python3 benchmarks/peers/peers.py [rounds] [--no-build]

Needs python3-numpy, python3-skimage, a C compiler and the .NET SDK; not part of .ci/run. All run on one core (numpy's
matrix products too), in turn, several rounds; each figure is the smallest of all rounds, in nanoseconds an item. Inputs
are drawn with a fixed seed; results of all programs are compared, and the script fails where they differ.
"""
import os
import subprocess
import sys
import tempfile
import time

for variable in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ[variable] = "1"

import numpy as np
from skimage.color import deltaE_ciede2000

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))
PROGRAM = os.path.join(ROOT, "benchmarks", "CeramicOptics.Benchmarks")


def lab_of(xyz, white):
    """ISO/CIE 11664-4, eqs. 1 to 5."""
    t = xyz / white
    f = np.where(t > (24 / 116) ** 3, np.cbrt(t), 841 / 108 * t + 16 / 116)
    return np.stack([116 * f[:, 1] - 16, 500 * (f[:, 0] - f[:, 1]), 200 * (f[:, 1] - f[:, 2])], axis=1)


def spectra_to_lab(spectra, weights, white):
    return lab_of(spectra @ weights.T, white)


def ciede2000(a, b):
    """Sharma, Wu, Dalal 2005, Color Res. Appl. 30:21-30, for whole arrays."""
    l1, a1, b1 = a.T
    l2, a2, b2 = b.T
    c7 = (0.5 * (np.hypot(a1, b1) + np.hypot(a2, b2))) ** 7
    g = 0.5 * (1 - np.sqrt(c7 / (c7 + 25.0 ** 7)))
    a1, a2 = (1 + g) * a1, (1 + g) * a2
    c1, c2 = np.hypot(a1, b1), np.hypot(a2, b2)
    h1, h2 = np.arctan2(b1, a1) % (2 * np.pi), np.arctan2(b2, a2) % (2 * np.pi)
    dh = h2 - h1
    dh = np.where(dh > np.pi, dh - 2 * np.pi, np.where(dh < -np.pi, dh + 2 * np.pi, dh))
    mean = h1 + dh / 2
    big_h = 2 * np.sqrt(c1 * c2) * np.sin(dh / 2)
    lm, cm = (l1 + l2) / 2 - 50, (c1 + c2) / 2
    t = (1 - 0.17 * np.cos(mean - np.pi / 6) + 0.24 * np.cos(2 * mean) + 0.32 * np.cos(3 * mean + np.pi / 30)
         - 0.20 * np.cos(4 * mean - 63 * np.pi / 180))
    sl = 1 + 0.015 * lm ** 2 / np.sqrt(20 + lm ** 2)
    sc, sh = 1 + 0.045 * cm, 1 + 0.015 * cm * t
    degrees = np.degrees(mean) % 360
    turn = np.radians(60 * np.exp(-(((degrees - 275) / 25) ** 2)))
    cm7 = cm ** 7
    rt = -2 * np.sqrt(cm7 / (cm7 + 25.0 ** 7)) * np.sin(turn)
    dl, dc, dh = (l2 - l1) / sl, (c2 - c1) / sc, big_h / sh
    return np.sqrt(np.maximum(0, dl ** 2 + dc ** 2 + dh ** 2 + rt * dc * dh))


def surface(index):
    """Diffuse Fresnel reflectance from air and from inside, di:8 reading (Duntley 1942 for the first)."""
    n = index
    outside = (0.5 + (n - 1) * (3 * n + 1) / (6 * (n + 1) ** 2)
               + n ** 2 * (n ** 2 - 1) ** 2 / (n ** 2 + 1) ** 3 * np.log((n - 1) / (n + 1))
               - 2 * n ** 3 * (n ** 2 + 2 * n - 1) / ((n ** 2 + 1) * (n ** 4 - 1))
               + 8 * n ** 4 * (n ** 4 + 1) / ((n ** 2 + 1) * (n ** 4 - 1) ** 2) * np.log(n))
    inside = 1 - (1 - outside) / n ** 2
    sine = np.sin(np.radians(8)) / n
    i, t = np.cos(np.radians(8)), np.sqrt(1 - sine ** 2)
    light = (((i - n * t) / (i + n * t)) ** 2 + ((n * i - t) / (n * i + t)) ** 2) / 2
    return light, inside


def two_flux_points(k, s, g, mm, index, weights, white):
    """Kubelka-Munk slabs over a stump with Saunderson's correction, and their differences from a thick one."""
    light, inside = surface(index)
    a = 1 + k / s
    b = np.sqrt(a * a - 1)
    x = b * s * mm[:, None]
    coth = 1 / np.tanh(x)
    r = (1 - g * (a - b * coth)) / (a - g + b * coth)
    # Light of 8 degrees; of what comes up inside a share passes that is a diffuse share both ways.
    reading = light + (1 - light) * (1 - inside) * r / (1 - inside * r)
    thick = a - b
    thick = light + (1 - light) * (1 - inside) * thick / (1 - inside * thick)
    lab = lab_of(reading @ weights.T, white)
    reference = lab_of(thick[None, :] @ weights.T, white)
    return ciede2000(np.broadcast_to(reference, lab.shape), lab)


def seconds(work):
    best = np.inf
    began = time.perf_counter()
    while time.perf_counter() - began < 1.5:
        start = time.perf_counter()
        result = work()
        best = min(best, time.perf_counter() - start)
    return best, result


def main():
    rounds = next((int(argument) for argument in sys.argv[1:] if argument.isdigit()), 3)
    rng = np.random.default_rng(1)
    if "--no-build" not in sys.argv:
        subprocess.run(["dotnet", "build", "-c", "Release", "--nologo", "-v", "quiet", PROGRAM], check=True)
    dll = os.path.join(PROGRAM, "bin", "Release", "net10.0", "CeramicOptics.Benchmarks.dll")
    best = {}
    with tempfile.TemporaryDirectory() as folder:
        slab = os.path.join(folder, "slab")
        subprocess.run(["cc", "-O3", "-march=native", "-o", slab, os.path.join(HERE, "slab.c"), "-lm"], check=True)

        def write(name, values):
            np.ascontiguousarray(values, dtype=np.float64).tofile(os.path.join(folder, name + ".f64"))

        def read(name):
            return np.fromfile(os.path.join(folder, name + ".f64"))

        def keep(name, nanoseconds):
            best[name] = min(best.get(name, np.inf), nanoseconds)

        spectra = rng.random((10_000, 81))
        references = np.stack([100 * rng.random(100_000), *(100 * rng.random((2, 100_000)) - 50)], axis=1)
        samples = references + np.stack([np.zeros(100_000), *(8 * rng.random((2, 100_000)) - 4)], axis=1)
        nm = np.linspace(0, 1, 31)
        k, s, g, mm = 0.4 - 0.3 * nm, 6 - 3 * nm, 0.1 + 0.3 * nm, 0.2 + 2.8 * rng.random(20_000)
        slabs = []
        for index in (1.33, 1.5, 1.77, 2.15):
            for _ in range(8):
                millimetres = 0.2 + 2.8 * rng.random()
                for _ in range(31):
                    absorption, scattering = 10 ** rng.uniform(-4, -0.7), 10 ** rng.uniform(-0.3, 1.2)
                    slabs.append((absorption, scattering, millimetres, index))
        lines = "".join("%r %r %r %r\n" % slab for slab in slabs)
        for name, values in (("spectra", spectra), ("references", references), ("samples", samples), ("absorption", k),
                             ("scattering", s), ("stump", g), ("thicknesses", mm), ("slabs", slabs)):
            write(name, values)

        for _ in range(rounds):
            output = subprocess.run(
                ["dotnet", dll, "peers", folder], check=True, stdout=subprocess.PIPE, text=True).stdout
            for line in output.splitlines():
                name, value = line.split()
                keep(name, float(value))
            weights = read("weights")
            weights, white = weights[:243].reshape(3, 81), weights[243:]
            time_of, lab = seconds(lambda: spectra_to_lab(spectra, weights, white))
            keep("spectra numpy", time_of * 1e9 / len(spectra))
            time_of, image = seconds(lambda: deltaE_ciede2000(references, samples))
            keep("differences scikit-image", time_of * 1e9 / len(samples))
            time_of, ours = seconds(lambda: ciede2000(references, samples))
            keep("differences numpy", time_of * 1e9 / len(samples))
            weights = read("weights31")
            weights, white = weights[:93].reshape(3, 31), weights[93:]
            time_of, points = seconds(lambda: two_flux_points(k, s, g, mm, 1.5, weights, white))
            keep("points numpy", time_of * 1e9 / len(mm))
            output = subprocess.run(
                [slab, "8", "12", "16", "64"], input=lines, check=True, stdout=subprocess.PIPE, text=True).stdout
            plain = {}
            for line in output.splitlines():
                count, value, *values = line.split()
                plain[count] = np.array([float(v) for v in values])
                keep("slabs%s C" % count, float(value))

        worst = {
            "spectra to Lab": (np.abs(read("spectra.out").reshape(-1, 3) - lab).max(), 1e-9),
            "CIEDE2000, scikit-image": (np.abs(read("differences.out") - image).max(), 1e-9),
            "CIEDE2000, numpy": (np.abs(read("differences.out") - ours).max(), 1e-9),
            "two-flux walls": (np.abs(read("points.out") - points).max(), 1e-4),
            "two-flux walls, table of a map": (np.abs(read("map.out") - points).max(), 5e-3),
        }
        for count in (8, 12, 16):
            worst["slabs, %d directions" % count] = (np.abs(read("slabs%d.out" % count) - plain["64"]).max(), 1e-2)
            worst["slabs, C, %d directions" % count] = (np.abs(plain[str(count)] - plain["64"]).max(), 1e-2)

    def row(what, ours, peer, name):
        print("| %s | %.1f | %s %.1f | %.1f |" % (what, best[ours], name, best[peer], best[peer] / best[ours]))

    print("| work | library, ns | peer, ns | times as fast |\n|---|---|---|---|")
    row("spectrum of 81 values to L\\*a\\*b\\*", "spectra", "spectra numpy", "numpy")
    row("CIEDE2000 of a pair", "differences", "differences scikit-image", "scikit-image")
    row("CIEDE2000 of a pair", "differences", "differences numpy", "numpy")
    row("two-flux wall of 31 wavelengths with its difference, spectrum by spectrum", "points", "points numpy", "numpy")
    row("the same by the table of a map", "map", "points numpy", "numpy")
    for count in (8, 12, 16):
        row("transport slab, %d directions" % count, "slabs%d" % count, "slabs%d C" % count, "C")
    print("\n| results | largest departure |\n|---|---|")
    for name, (value, _) in worst.items():
        print("| %s | %.1e |" % (name, value))
    wrong = [name for name, (value, limit) in worst.items() if not value <= limit]
    if wrong:
        sys.exit("results differ: " + ", ".join(wrong))


if __name__ == "__main__":
    main()
