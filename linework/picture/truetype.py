"""Reads from a TrueType file what measuring text needs: advances, character map, glyph heights.

Format: the OpenType specification (tables head, hhea, hmtx, cmap format 12, loca, glyf).
"""

from __future__ import annotations

import struct
from dataclasses import dataclass
from itertools import pairwise

_TRUETYPE_TAGS = (b"\x00\x01\x00\x00", b"true")


class FontFileError(ValueError):
    """The bytes are not a TrueType font with the tables we need."""


@dataclass(frozen=True)
class FaceMetrics:
    """Widths and heights of one face in font units (``units_per_em`` to the em)."""

    units_per_em: int
    cap_height: int
    glyphs: dict[int, int]
    advances: tuple[int, ...]
    heights: tuple[tuple[int, int], ...]

    def has(self, sign: str) -> bool:
        """True if the face can show this one character."""
        return ord(sign) in self.glyphs

    def advance(self, sign: str) -> int:
        """How far the pen moves for this character; for one not in the face, that of its box."""
        return self.advances[self.glyphs.get(ord(sign), 0)]

    def extent(self, sign: str) -> tuple[int, int]:
        """Lowest and highest point of the character's ink above the base line."""
        return self.heights[self.glyphs.get(ord(sign), 0)]


def read_metrics(data: bytes) -> FaceMetrics:
    """Parse one font file.

    Raises FontFileError when a table is missing or cut short.
    """
    try:
        return _read(data)
    except (struct.error, KeyError, IndexError) as error:
        raise FontFileError(f"not a complete TrueType font: {error!r}") from error


def _read(data: bytes) -> FaceMetrics:
    tables = _tables(data)
    head = tables["head"]
    units, long_offsets = _u16(head, 18), _u16(head, 50) == 1
    count = _u16(tables["maxp"], 4)
    glyphs = _character_map(tables["cmap"])
    heights = _heights(tables["loca"], tables["glyf"], count, long_offsets)
    advances = _advances(tables["hmtx"], _u16(tables["hhea"], 34), count)
    return FaceMetrics(units, heights[glyphs[ord("H")]][1], glyphs, advances, heights)


def _u16(data: bytes, offset: int) -> int:
    return int(struct.unpack_from(">H", data, offset)[0])


def _tables(data: bytes) -> dict[str, bytes]:
    if data[:4] not in _TRUETYPE_TAGS:
        raise FontFileError("not a TrueType font: wrong first bytes")
    found = {}
    for index in range(_u16(data, 4)):
        tag, _, start, length = struct.unpack_from(">4sLLL", data, 12 + 16 * index)
        found[tag.decode("latin-1")] = data[start : start + length]
    return found


def _advances(hmtx: bytes, given: int, count: int) -> tuple[int, ...]:
    advances = [_u16(hmtx, 4 * index) for index in range(given)]
    return tuple(advances + [advances[-1]] * (count - given))


def _heights(
    loca: bytes, glyf: bytes, count: int, long_offsets: bool
) -> tuple[tuple[int, int], ...]:
    letter, factor = ("L", 1) if long_offsets else ("H", 2)
    offsets = struct.unpack_from(f">{count + 1}{letter}", loca)
    heights = []
    for start, stop in pairwise(offsets):
        if stop == start:
            heights.append((0, 0))
            continue
        low, high = struct.unpack_from(">4xh2xh", glyf, start * factor)
        heights.append((low, high))
    return tuple(heights)


def _character_map(cmap: bytes) -> dict[int, int]:
    """The table of all Unicode planes (format 12), which every bundled face has."""
    for index in range(_u16(cmap, 2)):
        (offset,) = struct.unpack_from(">L", cmap, 8 + 8 * index)
        if _u16(cmap, offset) == 12:
            return _format_12(cmap, offset)
    raise FontFileError("no character map of format 12")


def _format_12(cmap: bytes, offset: int) -> dict[int, int]:
    glyphs = {}
    (groups,) = struct.unpack_from(">L", cmap, offset + 12)
    for index in range(groups):
        first, last, glyph = struct.unpack_from(">LLL", cmap, offset + 16 + 12 * index)
        glyphs.update({code: glyph + code - first for code in range(first, last + 1)})
    return glyphs
