"""What the settings of a design may be."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import replace

from linework.design.elements import Settings
from linework.design.place import PlaceKind
from linework.quantity import read, write
from linework.quantity.errors import quoted
from linework.words import FAMILIES, say

SHEETS = ("A3", "A4", "tabloid", "letter")
"""The papers that a drawing set is made for."""

SETTING_CHOICES = {"family": FAMILIES, "place": tuple(PlaceKind), "sheet": SHEETS}
"""The settings that are one of a few words."""

SETTING_QUANTITIES = {"voltage": (1.0, 1000.0), "frequency": (1.0, 1000.0)}
"""The settings that are quantities of the kind of their name: least and most in base units."""

Guess = Callable[[str, str, Collection[str]], str]
"""Adds to a text, where one is near, the known name that a slip looks like."""


def setting_faults(settings: Settings, guess: Guess) -> Iterator[tuple[str, str]]:
    """(field, message) of each setting that is none of the words it may be, or no such quantity."""
    for name, known in SETTING_CHOICES.items():
        value = str(getattr(settings, name))
        if value not in known:
            text = say("'{text}' is not among {known}", text=quoted(value), known=", ".join(known))
            yield name, guess(text, value, known)
    for name, (low, high) in SETTING_QUANTITIES.items():
        refusal = _why_no_quantity(getattr(settings, name), name, low, high)
        if refusal:
            yield name, refusal


def _why_no_quantity(text: str, kind: str, low: float, high: float) -> str:
    try:
        value = read(text, kind)
    except ValueError as fault:
        return str(fault)
    if low <= value <= high:
        return ""
    return say(
        "'{text}' is outside what is possible ({low} to {high})",
        text=quoted(text),
        low=f"{low:g}",
        high=f"{high:g}",
    )


def in_plain_units(settings: Settings) -> Settings:
    """The same settings, their quantities in base units and as files have them ("60 Hz")."""
    return replace(
        settings,
        voltage=write(read(settings.voltage, "voltage"), "voltage"),
        frequency=write(read(settings.frequency, "frequency"), "frequency"),
    )
