"""The bundled faces: which file draws which writing, and its measures.

The same files are used by every painter and for measuring, so that a label is as wide on the
screen as on paper.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import groupby
from pathlib import Path

from linework import data
from linework.picture.fontfile import FaceMetrics, FontFileError
from linework.words import say

FAMILY = "IBM Plex Sans Condensed"


class FontError(data.ResourceError):
    """A bundled font file is missing or damaged; the text says which and what to do."""


@dataclass(frozen=True, slots=True)
class Face:
    """One font file; ``name`` is that of the file and the one under which it is embedded."""

    name: str
    bold: bool

    @property
    def resource(self) -> str:
        """The name of its file among the program's resources."""
        return f"fonts/{self.name}.ttf"


WRITING = (
    Face("IBMPlexSansCondensed-Regular", bold=False),
    Face("IBMPlexSansCondensed-SemiBold", bold=True),
)
SPARE = (
    Face("DejaVuSansCondensed", bold=False),
    Face("DejaVuSansCondensed-Bold", bold=True),
)
"""For the signs that the writing's own faces lack (arrows, geometric shapes, other scripts)."""
FACES = (*WRITING, *SPARE)


def face(bold: bool = False) -> Face:
    """The face in which all is written."""
    return WRITING[bold]


def face_of(sign: str, bold: bool = False) -> Face:
    """The face that draws one character."""
    spare = SPARE[bold]
    return spare if not metrics(face(bold)).has(sign) and metrics(spare).has(sign) else face(bold)


@lru_cache(maxsize=16384)
def stretches(text: str, bold: bool = False) -> tuple[tuple[Face, str], ...]:
    """The text as it is drawn, cut where the face changes."""
    cut = groupby(printed(text), key=lambda sign: face_of(sign, bold))
    return tuple((which, "".join(signs)) for which, signs in cut)


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
        return FaceMetrics(file.read_bytes())
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
    """The characters of a text that no bundled face can show, each once, in order."""
    return tuple(
        sign
        for sign in dict.fromkeys(printed(text))
        if not all(metrics(face_of(sign, bold)).has(sign) for bold in (False, True))
    )


def printed(text: str) -> str:
    """The text as it is drawn: what has no shape of its own (line feed, tab) becomes a space."""
    return "".join(sign if sign.isprintable() else " " for sign in text)
