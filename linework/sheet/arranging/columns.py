"""Columns: what feeds stands left of what it feeds, sources first and loads last."""

from __future__ import annotations

import networkx as nx

from linework.sheet.arranging.scheme import Joint, Scheme
from linework.sheet.arranging.spacing import ORIGIN, Spacing

_LAST = "last"
_PLUG, _RUN, _MEET = 6.0, 1.0, 1.0
"""What a column between two things costs: a plug and its outlet, others."""
_BEHIND_LOADS = 2
_LOADS, _LEFT, _NARROW = 3.0, 0.02, 0.5


def columns(scheme: Scheme, wide: bool = False) -> dict[str, int]:
    """The column of each unit, from 0. Rings are left open where they close.

    ``wide``: loads stand beside the board that feeds them, and boards behind them, so that boards
    lie side by side rather than one below the other.
    """
    ahead = nx.DiGraph()
    ahead.add_nodes_from(scheme.units)
    spacing = Spacing()
    spacing.apart(ORIGIN, _LAST, 0)
    spacing.near(ORIGIN, _LAST, 0, _NARROW)
    for joint in sorted(scheme.joints, key=lambda joint: (joint.meets, joint.plug)):
        behind = wide and _is_feeder(scheme, joint)
        _keep_order(ahead, spacing, joint, _BEHIND_LOADS if behind else least_step(joint))
    fed = {joint.target.unit for joint in scheme.joints if not joint.meets}
    feeds = {joint.source.unit for joint in scheme.joints}
    for key, unit in scheme.units.items():
        spacing.apart(ORIGIN, key, 0)
        spacing.apart(key, _LAST, 0)
        spacing.near(ORIGIN, key, 0, _LEFT)
        if unit.is_load and key not in feeds:
            spacing.near(key, _LAST, 0, 0 if wide else _LOADS)
        elif key not in fed:
            spacing.near(ORIGIN, key, 0, _LOADS)
    found = spacing.places()
    assert found is not None, "columns without a ring can always be"
    return {key: found[key] for key in scheme.units}


def _is_feeder(scheme: Scheme, joint: Joint) -> bool:
    """Whether a joint goes from a board to what feeds on."""
    return scheme.units[joint.source.unit].board and not scheme.units[joint.target.unit].is_load


def _keep_order(ahead: nx.DiGraph, spacing: Spacing, joint: Joint, step: int | None) -> None:
    """The distance that a joint asks for, unless it would close a ring."""
    a, b = joint.source.unit, joint.target.unit
    if step is None:
        spacing.near(a, b, 0, _MEET)
        return
    if step < 0:
        a, b, step = b, a, 1
    if nx.has_path(ahead, b, a):  # type: ignore[no-untyped-call]
        return
    ahead.add_edge(a, b)
    spacing.apart(a, b, step)
    spacing.near(a, b, step, _PLUG if joint.plug else _RUN)


def least_step(joint: Joint) -> int | None:
    """How many columns on the target stands at least; None where that is all the same.

    From right to left side it is the next column; to what is entered at its right, too, it may be
    the same one; the other way round where both lie against the flow.
    """
    out, into = joint.source.side, joint.target.side
    if joint.drops:
        return None
    if out == "left" and into == "left":
        return None
    if out == "left":
        return -1
    if into == "right":
        return None if out != "right" else 0
    return 1
