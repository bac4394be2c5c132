"""The one place where words become a paragraph: what a file holds is never markup on paper.

The PDF library reads a paragraph as markup, in which a tag can lead to a picture on this machine
or to an address. So nobody else makes one, words are escaped whole, and what a link leads to is a
name made here or on the sheet from a word and a number, never from anything that was read.
"""

from __future__ import annotations

import re
from xml.sax.saxutils import escape

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, Paragraph

from linework.picture.fonts import face, stretches
from linework.sheet.lettering import kept_together

_NAME = re.compile(r"[a-z]+(-([a-z]+|[0-9]+))?", re.ASCII)


def paragraph(
    words: str,
    style: ParagraphStyle,
    color: str,
    anchor: str = "",
    link: str = "",
    bullet: str | None = None,
    aside: tuple[str, str] = ("", ""),
) -> Flowable:
    """Plain words as a paragraph; ``anchor`` names it, ``link`` leads to a name.

    ``bullet``: the sign that stands before it. ``aside``: words that follow, and their colour.

    ``color`` is that of a link, "#16202a". ValueError where a name is more than a word and another
    or a number ("finding-3").
    """
    marked = _in_faces(typeset(words), style.fontName == face(bold=True).name)
    if link:
        marked = f'<a href="#{_name(link)}" color="{color}">{marked}</a>'
    if anchor:
        marked = f'<a name="{_name(anchor)}"/>{marked}'
    more, ink = aside
    if more:
        told = _in_faces(typeset(more), False)
        marked += f' &nbsp;<font name="{face().name}" color="{ink}">{told}</font>'
    made = _Words(marked, style, bulletText=bullet)
    made.anchor = anchor
    return made


def typeset(words: str) -> str:
    """As signs stand in print: those of degrees, ohm and minus where a file has letters."""
    for sign, plain in _SIGNS:
        words = plain.sub(sign, words)
    return words


_SIGNS = (
    ("°C", re.compile(r"(?<=[0-9] )degC\b")),
    ("Ω", re.compile(r"(?<=[0-9] )ohm\b")),
    ("\N{MINUS SIGN}", re.compile(r"(?:^|(?<=[\s\[(]))-(?=[0-9])")),
)


class _Words(Paragraph):  # type: ignore[misc]
    """A paragraph that is not broken into lines anew where it has the width that it had last.

    ``anchor``: its name, if it has one.
    """

    anchor = ""
    _broken_at = -1.0

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """Its size at a width in points."""
        if width != self._broken_at or not hasattr(self, "blPara"):  # gone when it was drawn
            self._size: tuple[float, float] = super().wrap(width, height)
            self._broken_at = width
        return self._size

    def getPlainText(self, identify: bool | None = None) -> str:  # noqa: N802 - reportlab's name
        """Its words, with plain spaces."""
        plain: str = super().getPlainText(identify)
        return plain.replace("\N{NO-BREAK SPACE}", " ")


def _name(text: str) -> str:
    if not _NAME.fullmatch(text):
        raise ValueError(f"{text!r} cannot name a place on paper")
    return text


def _in_faces(words: str, bold: bool) -> str:
    """The words escaped, a figure not parted from its unit, what the writing's face lacks in the
    face that has it."""
    marked = "".join(
        escape(signs)
        if which == face(bold)
        else f'<font name="{which.name}">{escape(signs)}</font>'
        for which, signs in stretches(words, bold)
    )
    return kept_together(marked)
