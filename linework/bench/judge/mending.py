"""A proven mend on the design as it lies now: what was only moved since is no obstacle."""

from __future__ import annotations

from dataclasses import replace

from linework.design import Change, Design, Element, Part, Run


def rebased(change: Change, design: Design) -> Change:
    """The change with every place and bend as they are in the design now.

    What else changed since stays a misfit, and the design refuses the change then.
    """
    pairs = {}
    for key, (before, after) in change.pairs.items():
        now = design.get(key)
        if before is not None and now is not None and _lies_as(before, now) == now:
            moved = after is not None and _place(after) == _place(before)
            after = _lies_as(after, now) if moved and after is not None else after
            before = now
        pairs[key] = (before, after)
    return Change(change.title, pairs)


def _lies_as(element: Element, other: Element) -> Element:
    """The element at the place of another of its sort."""
    if isinstance(element, Part) and isinstance(other, Part):
        return replace(
            element, x=other.x, y=other.y, turn=other.turn, mirror=other.mirror, sheet=other.sheet
        )
    if isinstance(element, Run) and isinstance(other, Run):
        return replace(element, route=other.route)
    return element


def _place(element: Element) -> object:
    if isinstance(element, Part):
        return element.x, element.y, element.turn, element.mirror, element.sheet
    return element.route if isinstance(element, Run) else None
