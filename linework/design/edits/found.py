"""What an edit is about, or the reason why it cannot be made: it may have gone since it was
chosen."""

from __future__ import annotations

from collections.abc import Collection
from difflib import get_close_matches

from linework.design.change import EditError
from linework.design.elements import Part, Run
from linework.design.model import Design
from linework.words import say


def guessed(text: str, slip: str, known: Collection[str]) -> str:
    """The text, with the name among ``known`` that looks most like ``slip`` if one does."""
    near = get_close_matches(slip, known, 1, 0.4)
    return say("{text}; did you mean '{near}'?", text=text, near=near[0]) if near else text


def part_in(design: Design, part_id: str) -> Part:
    """The part with this id. EditError if there is none."""
    found = design.get(part_id)
    if not isinstance(found, Part):
        raise EditError(say("this part is no longer there"))
    return found


def run_in(design: Design, run_id: str) -> Run:
    """The run with this id. EditError if there is none."""
    found = design.get(run_id)
    if not isinstance(found, Run):
        raise EditError(say("this run is no longer there"))
    return found
