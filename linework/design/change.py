"""What an edit yields: for each element its value before and after."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from linework.design.elements import Element
from linework.words import say

Pair = tuple[Element | None, Element | None]


class EditError(ValueError):
    """An edit that cannot be made; the message says why and what to do. Nothing has changed."""


@dataclass(frozen=True)
class Change:
    """Named pairs {element id: (before, after)}; undo swaps them."""

    title: str
    pairs: Mapping[str, Pair] = field(default_factory=dict)

    def __bool__(self) -> bool:
        return bool(self.pairs)

    def inverse(self) -> Change:
        """The change that takes this one back."""
        return Change(self.title, {key: (b, a) for key, (a, b) in self.pairs.items()})


def changed(title: str, pairs: Iterable[Pair]) -> Change:
    """A change of the pairs that differ."""
    kept: dict[str, Pair] = {}
    for before, after in pairs:
        element = after or before
        if element is not None and before != after:
            kept[element.id] = (before, after)
    return Change(title, kept)


def merged(title: str, *changes: Change) -> Change:
    """Several changes made one after the other, as one. EditError where one does not begin with
    what an earlier one left, for then it would undo it unseen."""
    pairs: dict[str, Pair] = {}
    for change in changes:
        for key, (before, after) in change.pairs.items():
            first, left = pairs.get(key, (before, before))
            if left != before:
                raise EditError(say("'{title}' does not follow the edit before", title=title))
            pairs[key] = (first, after)
    return Change(title, {key: pair for key, pair in pairs.items() if pair[0] != pair[1]})
