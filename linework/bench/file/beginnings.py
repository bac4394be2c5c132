"""Sound beginnings of a new sheet: sources, protection and a circuit or two, to be filled in."""

from __future__ import annotations

from dataclasses import replace

from linework import data
from linework.design import Design, Settings, changed
from linework.storage import load
from linework.words import N_, say

EMPTY = ""
_BEGINNINGS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    (
        "portable",
        N_("a generating set outdoors, its cord in an inlet"),
        ("vehicle", "recreational", "field"),
    ),
    ("shore", N_("shore power, an inverter-charger and a battery"), ("recreational", "vehicle")),
    ("direct", N_("a battery and the sun, 12 V only"), ("vehicle", "recreational")),
    ("cabin", N_("a set, an inverter-charger and a battery of 48 V"), ("building",)),
    ("boat", N_("shore power, a charger and a battery"), ("boat",)),
)
"""By the end of their file's name: what a person reads, and where they are sound."""


def beginnings(family: str, place: str) -> list[tuple[str, str]]:
    """Name and words of those that there are for a family and kind of place, the empty sheet
    first."""
    found = [(EMPTY, say("nothing yet: an empty sheet"))]
    return found + [
        (name, say(told))
        for name, told, places in _BEGINNINGS
        if place in places and data.exists(_file(family, name))
    ]


def begun(name: str, settings: Settings) -> Design:
    """The beginning of this name as a design of its own, with the answers to the questions. The
    paper is its own. ResourceError if there is none."""
    if name == EMPTY:
        return Design(settings)
    design = load(data.path(_file(settings.family, name)))
    old = design.settings
    design.apply(changed("", [(old, replace(settings, sheet=old.sheet))]))
    return design


def _file(family: str, name: str) -> str:
    return f"beginnings/{family.lower()}-{name}.linework"
