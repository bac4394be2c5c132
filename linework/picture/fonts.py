"""The bundled faces: which file draws which writing, and its measures.

The same files are used by every painter and for measuring, so that a label is as wide on the
screen as on paper.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from linework import data
from linework.picture.truetype import FaceMetrics, FontFileError, read_metrics
from linework.words import say

FAMILY = "DejaVu Sans"


class FontError(data.ResourceError):
    """A bundled font file is missing or damaged; the text says which and what to do."""


@dataclass(frozen=True, slots=True)
class Face:
    """One font file; ``name`` is its PostScript name."""

    name: str
    bold: bool
    condensed: bool

    @property
    def resource(self) -> str:
        """The name of its file among the program's resources."""
        return f"fonts/{self.name}.ttf"


FACES = (
    Face("DejaVuSans", bold=False, condensed=False),
    Face("DejaVuSans-Bold", bold=True, condensed=False),
    Face("DejaVuSansCondensed", bold=False, condensed=True),
    Face("DejaVuSansCondensed-Bold", bold=True, condensed=True),
)


def face(bold: bool = False, condensed: bool = False) -> Face:
    """The face for a writing."""
    return FACES[bold + 2 * condensed]


def font_path(which: Face) -> Path:
    """The font's file. FontError if it is missing."""
    try:
        return data.path(which.resource)
    except data.ResourceError as error:
        raise FontError(
            say("Text cannot be drawn, because a font is missing. {reason}", reason=error)
        ) from error


@cache
def metrics(which: Face) -> FaceMetrics:
    """The face's widths and heights. FontError if its file is missing or damaged."""
    file = font_path(which)
    try:
        return read_metrics(file.read_bytes())
    except (OSError, FontFileError) as error:
        raise FontError(
            say(
                "Text cannot be drawn, because the font {file} cannot be read: {reason}. "
                "Install Linework again, or restore the file in the checkout.",
                file=file,
                reason=error,
            )
        ) from error


def missing_signs(text: str) -> tuple[str, ...]:
    """The characters of a text that not every bundled face can show, each once, in order."""
    return tuple(
        sign
        for sign in dict.fromkeys(printed(text))
        if not all(metrics(which).has(sign) for which in FACES)
    )


def printed(text: str) -> str:
    """The text as it is drawn: what has no shape of its own (line feed, tab) becomes a space."""
    return "".join(sign if sign.isprintable() else " " for sign in text)
