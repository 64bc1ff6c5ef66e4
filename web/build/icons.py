"""Draws the icon as PNG, in the sizes that a home screen asks for: the picture of icon.svg.

Every shape is given by its distance, so edges are smooth without drawing anything twice.
"""

import struct
import zlib
from collections.abc import Callable, Iterator
from itertools import pairwise
from math import hypot
from pathlib import Path

from web.build.packages import sha256
from web.build.settling import beside, settle

Point = tuple[float, float]
Colour = tuple[int, int, int]
Distance = Callable[[float, float], float]  # to the edge of a shape, in its units; inside below 0

SIZES = (192, 512)
BOX = 32.0  # the picture is this wide, as in icon.svg
MASKABLE = 0.72  # of the width: what is left when a home screen cuts a circle out stays whole
MOSS, WOOL, RUST = (0x26, 0x48, 0x3D), (0xF2, 0xE9, 0xD8), (0xC8, 0x70, 0x2F)
TRACE = ((4.0, 23.0), (12.0, 23.0), (16.0, 10.0), (20.0, 23.0), (28.0, 23.0))
JOINT, RADIUS, CRACK = (16.0, 10.0), 4.0, 4.6
SIGNATURE = b"\x89PNG\r\n\x1a\n"


def icon_files(cache: Path) -> dict[str, bytes]:
    """Return the icons by the name of their file, drawn once and kept in `cache`."""
    kept = cache / f"icons-{sha256(Path(__file__).read_bytes())[:16]}"
    if not kept.is_dir():
        partial = beside(kept)
        for name, data in drawn_icons().items():
            (partial / name).write_bytes(data)
        settle(partial, kept)
    return {path.name: path.read_bytes() for path in sorted(kept.iterdir())}


def drawn_icons() -> dict[str, bytes]:
    """Return the icons by the name of their file: each size, and one that may be cut round."""
    drawn = {f"icon-{size}.png": png(size, picture(size)) for size in SIZES}
    return {**drawn, "icon-maskable.png": png(SIZES[-1], picture(SIZES[-1], is_maskable=True))}


def icon_entries(folder: str) -> list[dict[str, str]]:
    """Return what a web manifest says of the icons in `folder`."""
    entries = [("icon.svg", "any", "image/svg+xml", "any")]
    entries += [(f"icon-{size}.png", f"{size}x{size}", "image/png", "any") for size in SIZES]
    entries += [("icon-maskable.png", f"{SIZES[-1]}x{SIZES[-1]}", "image/png", "maskable")]
    names = ("src", "sizes", "type", "purpose")
    return [dict(zip(names, (f"{folder}/{file}", *rest), strict=True)) for file, *rest in entries]


def picture(size: int, is_maskable: bool = False) -> bytes:
    """Return the pixels of a square picture, row by row, red, green, blue and how solid each."""
    scale = BOX / size / (MASKABLE if is_maskable else 1.0)
    start = BOX / 2.0 - size * scale / 2.0
    at = [start + (index + 0.5) * scale for index in range(size)]
    shapes = (*_painted(),)
    ground: Distance = (lambda x, y: -1.0) if is_maskable else _sheet
    half = at[: size // 2]
    rows = ([_pixel(x, y, scale, ground, shapes) for x in half] for y in at)
    return b"".join(b"".join((*row, *reversed(row))) for row in rows)  # the same left and right


def _painted() -> Iterator[tuple[Distance, Colour]]:
    """Yield the shapes on the ground, the lowest first: trace, joint, the crack around it."""
    yield lambda x, y: min(_to_line(x, y, a, b) for a, b in pairwise(TRACE)) - 1.25, WOOL
    yield lambda x, y: hypot(x - JOINT[0], y - JOINT[1]) - RADIUS, RUST
    yield _crack, WOOL


def _crack(x: float, y: float) -> float:
    """Return the distance to the arc over the joint, a line 1.4 wide."""
    away = abs(hypot(x - JOINT[0], y - (JOINT[1] + 4.2)) - CRACK) - 0.7
    return max(away, y - (JOINT[1] + 1.6))


def _sheet(x: float, y: float) -> float:
    """Return the distance to a square with round corners, as large as the box."""
    half, corner = BOX / 2.0, 7.0
    across, down = abs(x - half) - half + corner, abs(y - half) - half + corner
    return hypot(max(across, 0.0), max(down, 0.0)) + min(max(across, down), 0.0) - corner


def _to_line(x: float, y: float, start: Point, end: Point) -> float:
    along = (end[0] - start[0], end[1] - start[1])
    part = ((x - start[0]) * along[0] + (y - start[1]) * along[1]) / (along[0] ** 2 + along[1] ** 2)
    part = min(max(part, 0.0), 1.0)
    return hypot(x - start[0] - part * along[0], y - start[1] - part * along[1])


def _pixel(
    x: float, y: float, scale: float, ground: Distance, shapes: tuple[tuple[Distance, Colour], ...]
) -> bytes:
    """Return one pixel; `scale` is its width in the units of the picture."""
    colour: Colour = MOSS
    for distance, paint in shapes:
        cover = _cover(distance(x, y), scale)
        if cover > 0.0:
            red, green, blue = (
                round(a + (b - a) * cover) for a, b in zip(colour, paint, strict=True)
            )
            colour = (red, green, blue)
    return bytes((*colour, round(255 * _cover(ground(x, y), scale))))


def _cover(distance: float, scale: float) -> float:
    """Return how much of a pixel lies inside, from 0 to 1."""
    return min(max(0.5 - distance / scale, 0.0), 1.0)


def png(size: int, pixels: bytes) -> bytes:
    """Return a square PNG of pixels with red, green, blue and how solid each is, a byte each."""
    wide = 4 * size
    rows = (b"\0" + pixels[start : start + wide] for start in range(0, len(pixels), wide))
    header = struct.pack(">IIBBBBB", size, size, 8, 6, 0, 0, 0)
    chunks = ((b"IHDR", header), (b"IDAT", zlib.compress(b"".join(rows), 9)), (b"IEND", b""))
    return SIGNATURE + b"".join(_chunk(kind, data) for kind, data in chunks)


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
