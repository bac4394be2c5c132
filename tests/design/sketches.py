"""Small designs that the tests of edits start from, and what every test of an edit asks."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from linework.design import Change, Design, Draft, EditError, Element


def shed() -> Draft:
    """A set feeding a panel whose breaker feeds a load; a plug that goes into two outlets."""
    draft = Draft(place="building")
    draft.part("generator", "G1", at=(0, 0), power="5 kVA", neutral="floating")
    draft.part("panel", "QP1", at=(1000, 0), main="30 A", bond="absent")
    draft.part("breaker", "QF1", at=(1000, 100), rating="20 A")
    draft.part("load", "EA1", at=(2000, 100), power="1 kW")
    draft.part("outlet", "XD1", at=(0, 500))
    draft.part("outlet", "XD2", at=(500, 500))
    draft.part("plug", "XP1", at=(0, 800))
    draft.part("plug_load", "EP1", at=(0, 1000), power="100 W")
    draft.run("G1.out", "QP1.feed", "W1", size="10 AWG", length="25 ft")
    draft.run("QF1.load", "EA1.in", "W2", size="12 AWG", length="10 ft")
    draft.run("XP1.cord", "EP1.in", "W3", size="14 AWG", length="6 ft")
    draft.seat("QF1", "QP1", "1")
    draft.seat("XP1", "XD1", "face")
    draft.seat("XP1", "XD2", "face")
    return draft


def frozen(design: Design) -> tuple[dict[str, Element], int, list[object], list[object]]:
    """All that a design holds, to be compared with itself later."""
    graph = design.graph
    return (
        dict(design.elements),
        design.revision,
        sorted(graph.nodes),
        sorted((*sorted((a, b)), key) for a, b, key in graph.edges(keys=True)),
    )


@contextmanager
def untouched(design: Design) -> Iterator[None]:
    """What happens here changes nothing in the design."""
    before = frozen(design)
    yield
    assert frozen(design) == before


@contextmanager
def refused(design: Design, reason: str) -> Iterator[None]:
    """What happens here is refused with this reason, and changes nothing."""
    with untouched(design), pytest.raises(EditError, match=reason):
        yield


def done(design: Design, change: Change) -> Design:
    """A copy with the change made; taking it back gives the design again."""
    after = design.snapshot()
    after.apply(change)
    back = after.snapshot()
    back.apply(change.inverse())
    assert back.same_as(design)
    return after
