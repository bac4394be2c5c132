"""What measuring text needs of a font file: advances, glyphs, the height of their ink."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

from fontTools.ttLib import TTFont, TTLibError


class FontFileError(ValueError):
    """The bytes are not a TrueType font with the tables we need."""


class FaceMetrics:
    """Widths and heights of one face in font units (``units_per_em`` to the em).

    ``data``: a TrueType file; FontFileError where it is none or cut short.
    """

    def __init__(self, data: bytes) -> None:
        try:
            self._font = TTFont(io.BytesIO(data), lazy=True)
            self.units_per_em: int = self._font["head"].unitsPerEm
            self._glyphs: dict[int, str] = self._font.getBestCmap()
            self._advances: dict[str, tuple[int, int]] = self._font["hmtx"].metrics
            self._outlines: Any = self._font["glyf"]
            self.cap_height = self.extent("H")[1]
        except (TTLibError, KeyError, AssertionError, ValueError) as error:
            raise FontFileError(f"not a complete TrueType font: {error!r}") from error

    def has(self, sign: str) -> bool:
        """True if the face can show this one character."""
        return ord(sign) in self._glyphs

    def glyph(self, sign: str) -> int:
        """The number of the character's glyph; 0, an empty box, for one not in the face."""
        return int(self._font.getGlyphID(self._name(sign)))

    def advance(self, sign: str) -> int:
        """How far the pen moves for this character; for one not in the face, that of its box."""
        return self._advances[self._name(sign)][0]

    def extent(self, sign: str) -> tuple[int, int]:
        """Lowest and highest point of the character's ink above the base line."""
        return self._extent(self._name(sign))

    @cache  # noqa: B019 - a face lives as long as the program
    def _extent(self, name: str) -> tuple[int, int]:
        outline = self._outlines[name]
        if outline.numberOfContours == 0:
            return 0, 0
        return outline.yMin, outline.yMax

    def _name(self, sign: str) -> str:
        return self._glyphs.get(ord(sign), ".notdef")
