"""What protective and switching devices are marked for, as far as it may be counted on."""

from __future__ import annotations

from collections.abc import Collection

from linework.findings.view import Look, View
from linework.kinds.fuse import AC_MARKS, DC_MARKS

_SORTS = ("protection", "switching")


def parts_on(view: View, look: Look, labels: Collection[int]) -> list[str]:
    """The devices and switches with a voltage marking that have a contact on these conductors.

    ``labels``: of :attr:`Situation.clusters`.
    """
    situation = look.studies.situation
    branches = situation.circuit.branches
    found = {
        branches[i].owner
        for i in situation.closed
        if branches[i].sort == "contact" and situation.clusters[branches[i].a] in labels
    }
    return sorted(owner for owner in found if is_marked(view, owner))


def is_marked(view: View, owner: str) -> bool:
    """Whether it is a device or switch that makers mark with a voltage."""
    if view.part(owner) is None:
        return False
    kind, values = view.kind(owner), view.values(owner)
    if kind.key == "adapter" and not values.has("breaker"):
        return False  # its configuration tells
    return kind.strip in _SORTS and "voltage" in kind.declared


def marked_v(view: View, owner: str, *, dc: bool) -> float | None:
    """The voltage in V that a device is marked for: as given; of a fuse else the highest that its
    type is made for; None of others and of a fuse of unknown type."""
    values = view.values(owner)
    if values.given("voltage"):
        return values.num("voltage")
    if "type" not in values.declared or not values.given("type"):
        return None
    word = values.pick("type")
    marks = (DC_MARKS if dc else AC_MARKS).get(word) or (AC_MARKS if dc else DC_MARKS).get(word, ())
    return max((volts for volts, _ in marks), default=None)


def made_for_direct(view: View, owner: str) -> bool | None:
    """Whether it is made for direct current; None where only its marking tells."""
    values = view.values(owner)
    if "direct" in values.declared:
        return {"yes": True, "no": False}.get(values.pick("direct"))
    if "type" in values.declared:
        return True if values.pick("type") in DC_MARKS else None
    return True
