"""What of a design has a part in the verdict: everything but where it lies on the sheet."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from linework.design import Accepted, Design, Element, Note, Part, Run, Settings


def electrical(design: Design) -> frozenset[Element]:
    """The elements without places, bends, notes, acceptances and the words of the title block.

    Two designs with equal values get the same findings, so that a symbol that was only moved
    is not judged again.
    """
    return frozenset(_bare(element) for element in _judged(design))


def _judged(design: Design) -> Iterable[Element]:
    return (e for e in design.elements.values() if not isinstance(e, Note | Accepted))


def _bare(element: Element) -> Element:
    if isinstance(element, Part):
        return replace(element, x=0, y=0, turn=0, mirror=False, sheet=1)
    if isinstance(element, Run):
        return replace(element, route=())
    if isinstance(element, Settings):
        # What only the title block asks for.
        bare = replace(element, job="", site="", drawn_by="", checked_by="", revision="", sheet="")
        return replace(bare, revisions="", owner="", reference="", number="", status="")
    return element
