"""Names are listed as people count: QF2 before QF10."""

from __future__ import annotations

from linework.design import Draft
from linework.design.names import natural
from linework.sheet.targets import part_targets


def test_figures_are_compared_by_their_value() -> None:
    names = ["W10", "QF1", "QF10", "XD2", "QF2", "W9", "W", "QF2b", "QF2a"]
    assert sorted(names, key=natural) == [
        "QF1",
        "QF2",
        "QF2a",
        "QF2b",
        "QF10",
        "W",
        "W9",
        "W10",
        "XD2",
    ]


def test_parts_are_numbered_in_that_order() -> None:
    draft = Draft()
    for name in ("QF10", "QF2", "QF1"):
        draft.part("breaker", name)
    assert part_targets(draft.design) == {"QF1": "part-1", "QF2": "part-2", "QF10": "part-3"}
