"""Draws icon.png, 128 x 128, the picture of icon.svg: layers over a dark stump and a ray. Needs nothing but Python."""
import math
import os
import struct
import zlib

SIDE, FINE = 128, 4


def box(x, y, width, height, radius):
    def inside(px, py):
        dx = max(x + radius - px, 0, px - (x + width - radius))
        dy = max(y + radius - py, 0, py - (y + height - radius))
        return dx * dx + dy * dy <= radius * radius
    return inside


def ray(points, width, on=None, off=0):
    pieces, start = [], 0.0
    for (x0, y0), (x1, y1) in zip(points, points[1:]):
        length = math.hypot(x1 - x0, y1 - y0)
        pieces.append((x0, y0, (x1 - x0) / length, (y1 - y0) / length, length, start))
        start += length

    def inside(px, py):
        for x0, y0, ux, uy, length, begin in pieces:
            along = (px - x0) * ux + (py - y0) * uy
            across = abs((px - x0) * uy - (py - y0) * ux)
            if 0 <= along <= length and across <= width / 2 and (on is None or (begin + along) % (on + off) < on):
                return True
        return on is None and any(math.hypot(px - x, py - y) <= width / 2 for x, y in points[1:-1])
    return inside


SHAPES = [
    (box(0, 0, 128, 128, 24), (0x17, 0x32, 0x4D)),
    (box(22, 86, 84, 22, 4), (0x6B, 0x4A, 0x2F)),
    (box(22, 76, 84, 7, 2), (0xD9, 0xC9, 0xA8)),
    (box(22, 48, 84, 25, 4), (0xEF, 0xE6, 0xD3)),
    (box(22, 39, 84, 6, 2), (0xCF, 0xE4, 0xEE)),
    (ray([(40, 14), (58, 39), (66, 86)], 5), (0xFF, 0xC9, 0x4D)),
    (ray([(66, 86), (76, 48), (90, 18)], 4, 7, 5), (0xFF, 0xE3, 0xA3)),
]


def pixel(column, row):
    total, covered = [0, 0, 0], 0
    for i in range(FINE * FINE):
        x, y = column + (i % FINE + 0.5) / FINE, row + (i // FINE + 0.5) / FINE
        colors = [color for inside, color in SHAPES if inside(x, y)]
        if colors:
            covered += 1
            total = [a + b for a, b in zip(total, colors[-1])]
    return bytes([round(t / covered) if covered else 0 for t in total] + [round(255 * covered / FINE ** 2)])


def chunk(kind, data):
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


rows = b"".join(b"\0" + b"".join(pixel(column, row) for column in range(SIDE)) for row in range(SIDE))
with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "icon.png"), "wb") as file:
    file.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", SIDE, SIDE, 8, 6, 0, 0, 0))
               + chunk(b"IDAT", zlib.compress(rows, 9)) + chunk(b"IEND", b""))
