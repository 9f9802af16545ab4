"""Calls the shared library by ctypes and prints what it answers, tab-separated, for a comparison with .NET.

Standard library only. usage: check.py LIBRARY. Constants are invented.
"""
import ctypes
import re
import sys
import threading
from ctypes import POINTER, Structure, byref, c_char_p, c_double, c_int32, c_int64, c_uint32, c_uint64, c_void_p

NAN = float("nan")
DOUBLES = POINTER(c_double)


class Layer(Structure):
    _fields_ = [("size", c_uint32), ("role", c_int32), ("thickness_mm", c_double), ("refractive_index", c_double),
                ("absorption", DOUBLES), ("scattering", DOUBLES), ("relative_uncertainty", c_double)]


class Zone(Structure):
    _fields_ = [("size", c_uint32), ("stump", c_int32), ("name", c_char_p), ("stump_reflectance", DOUBLES),
                ("stump_refractive_index", c_double), ("stump_spot_mm", c_double),
                ("stump_window_mm", c_double), ("reference", c_int32), ("strength", c_int32),
                ("target_lab", c_double * 3), ("target_spot_mm", c_double),
                ("target_window_mm", c_double), ("strength_limit_mm", c_double)]


class Case(Structure):
    _fields_ = [("size", c_uint32), ("model", c_int32), ("start_nm", c_double), ("step_nm", c_double),
                ("wavelengths", c_int32), ("formula", c_int32), ("limit", c_double), ("layers", POINTER(Layer)),
                ("zones", POINTER(Zone)), ("layer_count", c_int32), ("zone_count", c_int32),
                ("coupling_index", c_double), ("min_mm", c_double), ("max_mm", c_double),
                ("veneer_min_mm", c_double), ("veneer_max_mm", c_double), ("illuminants", POINTER(c_char_p)),
                ("illuminant_count", c_int32), ("observer", c_int32), ("uncertainty", c_void_p),
                ("reliable_share", c_double)]


class Points(Structure):
    _fields_ = [("size", c_uint32), ("type", c_int32), ("count", c_int64), ("thickness", c_void_p),
                ("thickness_stride", c_int64), ("veneer", c_void_p), ("veneer_stride", c_int64),
                ("zones", c_void_p), ("zone_stride", c_int64)]


class Info(Structure):
    _fields_ = [("size", c_uint32), ("zone_count", c_int32)] + [(name, c_double) for name in (
        "min_mm", "max_mm", "veneer_min_mm", "veneer_max_mm", "error_bound", "limit", "by_color_mm", "reliable_mm",
        "reliable_share", "structural_mm", "recommended_mm", "standard_uncertainty_mm", "by_color_up_to_mm",
        "reliable_up_to_mm")]


class Limits(Structure):
    _fields_ = [("size", c_uint32), ("reserved", c_uint32), ("minima_mm", DOUBLES), ("maxima_mm", DOUBLES),
                ("margin", POINTER(c_int32)), ("margin_count", c_int64), ("margin_edge_mm", c_double),
                ("margin_slope", c_double)]


library = ctypes.CDLL(sys.argv[1])
library.ceramic_struct_size.restype = c_uint32
library.ceramic_live_handles.restype = c_int64
assert library.ceramic_version() == 2
for number, structure in ((1, Case), (2, Layer), (3, Zone), (5, Points), (7, Info), (8, Limits)):
    assert library.ceramic_struct_size(number) == ctypes.sizeof(structure), structure


def last_error():
    needed = c_int64()
    library.ceramic_last_error(None, c_int64(0), byref(needed))
    text = ctypes.create_string_buffer(needed.value)
    library.ceramic_last_error(text, needed, None)
    return text.value.decode("utf-8")


def do(status):
    if status != 0:
        raise RuntimeError(last_error())


def spectrum(first, slope):
    return (c_double * 31)(*[first + slope * i for i in range(31)])


absorption, scattering, stump = spectrum(0.2, -0.004), spectrum(7, -0.05), spectrum(0.1, 0.006)
layers = (Layer * 1)(Layer(ctypes.sizeof(Layer), 3, NAN, 1.55, absorption, scattering, 0.03))
zones = (Zone * 1)(Zone(ctypes.sizeof(Zone), 1, "Stumpf é".encode("utf-8"), stump, 1.54, NAN, NAN, 1, 2,
                        (c_double * 3)(NAN, NAN, NAN), NAN, NAN, 0.8))
lights = (c_char_p * 2)(b"D65", b"FL11")
case = Case(ctypes.sizeof(Case), 1, 400, 10, 31, 1, 1.8, layers, zones, 1, 1, 1.47, 0.3, 2.5, NAN, NAN, lights, 2, 1,
            None, NAN)
made = c_uint64()
do(library.ceramic_map_create(byref(case), None, None, byref(made)))
info = Info(size=ctypes.sizeof(Info))
do(library.ceramic_map_info(made, 0, c_double(NAN), byref(info)))
for name in ("by_color_mm", "reliable_mm", "structural_mm", "recommended_mm", "standard_uncertainty_mm"):
    print(f"{name}\t{getattr(info, name)!r}")

count = 23
mm = (c_double * count)(*[0.3 + 0.1 * i for i in range(count - 1)], 2.5)
points = Points(ctypes.sizeof(Points), 2, count, ctypes.addressof(mm), 8, None, 0, None, 0)
differences, lab, missing, statuses = ((c_double * n)() for n in (count, 3 * count, count, 1))
statuses = (ctypes.c_uint8 * count)()
do(library.ceramic_differences(made, byref(points), differences, c_int64(8)))
do(library.ceramic_colors(made, byref(points), lab, c_int64(24)))
do(library.ceramic_missing(made, 1, byref(points), missing, c_int64(8)))
do(library.ceramic_statuses(made, byref(points), statuses, c_int64(1)))
for i in range(count):
    values = [differences[i], *lab[3 * i:3 * i + 3], missing[i], float(statuses[i])]
    for name, value in zip(("difference", "L", "a", "b", "missing", "status"), values):
        print(f"{name} {i}\t{value!r}")

# The areas of the stump and of the target, each by what its window loses.
zones[0].stump_spot_mm, zones[0].stump_window_mm, zones[0].reference = 3, 2, 2
zones[0].target_lab, zones[0].target_spot_mm, zones[0].target_window_mm = (c_double * 3)(72, 2, 16), 5, 4
windows = c_uint64()
do(library.ceramic_map_create(byref(case), None, None, byref(windows)))
text = ctypes.create_string_buffer(8192)
do(library.ceramic_map_cautions(windows, 0, text, c_int64(len(text)), None))
for name in ("Stumpf é stump", "target"):
    lost = re.search(f"'{name}' was read through a window that loses about ([0-9]+) %", text.value.decode("utf-8"))
    print(f"percent lost of {name}\t{lost[1]}")
do(library.ceramic_map_free(windows))

case.model = 0
none = c_uint64(7)
assert library.ceramic_map_create(byref(case), None, None, byref(none)) == 1 and none.value == 0
assert last_error().startswith("case.model is not stated")
of_other_thread = []
thread = threading.Thread(target=lambda: of_other_thread.append(last_error()))
thread.start()
thread.join()
assert of_other_thread == [""], of_other_thread
do(library.ceramic_map_free(made))
assert library.ceramic_live_handles() == 0
