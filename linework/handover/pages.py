"""The canvas of the set: it knows what begins where, and may leave pages out.

A page that is left out keeps its number: sheet 7 of 12 says so although it is handed over alone.
What leads to a page that is not there becomes plain text.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from itertools import pairwise
from typing import Any

from reportlab.pdfgen.canvas import Canvas

from linework.handover.styles import REGULAR
from linework.words import language


class SetCanvas(Canvas):  # type: ignore[misc]
    """A canvas with embedded fonts and fixed bytes.

    ``kept``: the numbers of the pages to be written; None for all. ``places``: name -> page of all
    that was named so far; those of a first pass given as ``known`` tell where links lead.
    """

    def __init__(
        self,
        *args: object,
        kept: frozenset[int] | None = None,
        known: dict[str, int] | None = None,
        **named: object,
    ) -> None:
        self.kept, self.known = kept, known or {}
        self.places: dict[str, int] = {}
        # The tag of a language (BCP 47) has a hyphen where a catalogue's code has an underscore.
        tag = language().replace("_", "-")
        super().__init__(
            *args, **{**named, "invariant": 1, "initialFontName": REGULAR, "lang": tag}
        )

    def showPage(self) -> None:  # noqa: N802 - reportlab's name
        """The end of a page, which is written if it is kept."""
        if self._is_kept(self._pageNumber):
            super().showPage()
        else:
            self._startPage()

    def bookmarkPage(self, key: str, *args: Any, **named: Any) -> Any:  # noqa: N802
        """A named place on this page."""
        self.places.setdefault(key, self._pageNumber)
        if self._is_kept(self._pageNumber):
            return super().bookmarkPage(key, *args, **named)
        return None

    def addOutlineEntry(self, title: str, key: str, *args: Any, **named: Any) -> None:  # noqa: N802
        """An entry that leads to a place."""
        if self._is_kept(self._pageNumber):
            super().addOutlineEntry(title, key, *args, **named)

    def linkRect(self, contents: str, destinationname: str, *args: Any, **named: Any) -> Any:  # noqa: N802
        """A field that leads to a place, unless one of both is left out."""
        there = self.known.get(destinationname)
        if self._is_kept(self._pageNumber) and self._is_kept(there):
            return super().linkRect(contents, destinationname, *args, **named)
        return None

    @property
    def acroForm(self) -> Any:  # noqa: N802
        """What sets fields to be filled in; on a page that is left out it sets none."""
        return super().acroForm if self._is_kept(self._pageNumber) else _NoFields()

    def _is_kept(self, page: int | None) -> bool:
        return self.kept is None or page in self.kept


class _NoFields:
    """Takes every kind of field and sets none."""

    def __getattr__(self, name: str) -> Callable[..., None]:
        return lambda *args, **named: None


def spans(
    first: Mapping[str, int], places: Mapping[str, int], last: Mapping[str, int]
) -> dict[str, tuple[int, ...]]:
    """The pages of each sheet of the set by its key, and each page by its number.

    ``first``: the first page of each sheet, and under "" how many pages there are. ``places``: the
    page of all that has a name, among it "diagram-2" of one sheet of the diagram. ``last``: the
    last page of each sheet of text, on which another may begin.
    """
    drawn = {name: page for name, page in places.items() if _DRAWN.match(name)}
    starts = {key: page for key, page in first.items() if key} | drawn
    ends = {one: after - 1 for one, after in pairwise(sorted({*starts.values(), first[""] + 1}))}
    found = {key: tuple(range(page, last.get(key, ends[page]) + 1)) for key, page in starts.items()}
    diagram = tuple(page for name in drawn for page in found[name])
    numbered = {str(page): (page,) for page in range(1, first[""] + 1)}
    return {**found, **({"diagram": diagram} if diagram else {}), **numbered}


_DRAWN = re.compile(r"diagram-\d+$")
