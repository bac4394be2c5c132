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

_NAME = re.compile(r"[a-z]+(-[0-9]+)?", re.ASCII)


def paragraph(
    words: str, style: ParagraphStyle, color: str, anchor: str = "", link: str = ""
) -> Flowable:
    """Plain words as a paragraph; ``anchor`` names it, ``link`` leads to a name.

    ``color`` is that of a link, "#16202a". ValueError where a name is more than a word and a
    number ("finding-3").
    """
    marked = escape(_printable(words))
    if link:
        marked = f'<a href="#{_name(link)}" color="{color}">{marked}</a>'
    if anchor:
        marked = f'<a name="{_name(anchor)}"/>{marked}'
    return Paragraph(marked, style)


def _name(text: str) -> str:
    if not _NAME.fullmatch(text):
        raise ValueError(f"{text!r} cannot name a place on paper")
    return text


def _printable(words: str) -> str:
    """Signs without a shape (an escape, a half character) would end the page description early."""
    return "".join(sign if sign.isprintable() or sign.isspace() else " " for sign in words)
