"""What protective and switching devices are marked for, as far as it may be counted on."""

from __future__ import annotations

from collections.abc import Collection

from linework.design import Design, Part
from linework.kinds.fuse import AC_MARKS, DC_MARKS
from linework.study.situation import Situation


def parts_on(design: Design, situation: Situation, labels: Collection[int]) -> list[str]:
    """The devices and switches with a voltage marking that have a contact on these conductors.

    ``labels``: of :attr:`Situation.clusters`.
    """
    branches = situation.circuit.branches
    found = {
        branches[i].owner
        for i in situation.closed
        if branches[i].sort == "contact" and situation.clusters[branches[i].a] in labels
    }
    return sorted(owner for owner in found if is_marked(design, owner))


def is_marked(design: Design, owner: str) -> bool:
    """Whether it is a device or switch that makers mark with a voltage."""
    part = design.get(owner)
    if not isinstance(part, Part):
        return False
    kind, values = design.kind(part), design.values(part)
    if "breaker" in kind.declared and not values.has("breaker"):
        return False  # nothing in it opens; its configuration tells
    return "voltage" in kind.declared and kind.declared["voltage"].marking


def marked_v(design: Design, owner: str, *, dc: bool) -> float | None:
    """The voltage in V that a device is marked for: as given; of a fuse else the highest that its
    type is made for; None of others and of a fuse of unknown type."""
    part = design.part(owner)
    values = design.values(part)
    if values.given("voltage"):
        return values.num("voltage")
    if not (design.kind(part).melts and values.given("type")):
        return None
    word = values.pick("type")
    marks = (DC_MARKS if dc else AC_MARKS).get(word) or (AC_MARKS if dc else DC_MARKS).get(word, ())
    return max((volts for volts, _ in marks), default=None)


def made_for_direct(design: Design, owner: str) -> bool | None:
    """Whether it is made for direct current; None where only its marking tells."""
    part = design.part(owner)
    values = design.values(part)
    if "direct" in values.declared:
        return {"yes": True, "no": False}.get(values.pick("direct"))
    if design.kind(part).melts:
        return True if values.pick("type") in DC_MARKS else None
    return True
