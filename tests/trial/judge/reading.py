"""Answers of a design as plain figures, by a reader of its own.

Base units: ampere, volt, watt or volt-ampere, metre, ohm, degree Celsius, ampere-hour; a percentage
becomes a share. Wire sizes become gauges ("12", "4/0").
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from linework.design import Part, Run
from linework.kinds import Band

_FACTORS = {
    "A": 1.0,
    "kA": 1e3,
    "mA": 1e-3,
    "V": 1.0,
    "kV": 1e3,
    "W": 1.0,
    "kW": 1e3,
    "VA": 1.0,
    "kVA": 1e3,
    "m": 1.0,
    "ft": 0.3048,
    "in": 0.0254,
    "ohm": 1.0,
    "degC": 1.0,
    "Ah": 1.0,
    "%": 0.01,
    "": 1.0,
}
_AMOUNT = re.compile(r"(-?[0-9.]+(?:e-?[0-9]+)?)\s*([a-zA-Z%]*)")
_GAUGE = re.compile(r"([0-9]+(?:/0)?) AWG")

USUAL: dict[tuple[str, str], str] = {
    # What is taken where the drawing says nothing; figures of common practice, from memory.
    ("supply", "breaker"): "30 A",
    ("supply", "neutral"): "bonded",
    ("battery", "voltage"): "12 V",
    ("battery_disconnect", "poles"): "plus",
    ("transfer_switch", "poles"): "all",
    ("transfer_automatic", "poles"): "all",
    ("isolator", "poles"): "all",
    ("fuse", "type"): "ato",
    ("gfci", "ground_fault"): "class_a",
    ("inverter_charger", "neutral_through"): "switched",
    ("busbar", "bar"): "plus",
    ("busbar", "taps"): "4",
    ("outlet", "configuration"): "5-15",
    ("plug_load", "configuration"): "5-15",
    ("body", "name"): "chassis",
}


def amount(text: str) -> float:
    """The figure of an answer in its base unit. ValueError if it is none."""
    found = _AMOUNT.fullmatch(text.strip())
    if found is None or found[2] not in _FACTORS:
        raise ValueError(f"'{text}' is no amount")
    return float(found[1]) * _FACTORS[found[2]]


def gauge(text: str) -> str:
    """The gauge of a wire size. ValueError if the judge's tables do not know such sizes."""
    found = _GAUGE.fullmatch(text.strip())
    if found is None:
        raise ValueError(f"'{text}' is no gauge")
    return found[1]


class Told:
    """What is told of a part or run, by key."""

    def __init__(self, item: Part | Run, kind: str = "") -> None:
        self.answers: Mapping[str, object] = item.ratings
        self.kind = kind

    def word(self, key: str, otherwise: str = "") -> str:
        """A word or text; of a band the middle figure."""
        answer = self.answers.get(key)
        if isinstance(answer, Band):
            return answer.usual
        if isinstance(answer, str):
            return answer
        return USUAL.get((self.kind, key), otherwise)

    def figure(self, key: str, otherwise: float | None = None) -> float:
        """A figure. KeyError where nothing is told and nothing stands in."""
        text = self.word(key)
        if text:
            return amount(text)
        if otherwise is None:
            raise KeyError(key)
        return otherwise

    def band(self, key: str, otherwise: tuple[float, float]) -> tuple[float, float]:
        """The least and the greatest figure."""
        answer = self.answers.get(key)
        if isinstance(answer, Band):
            return amount(answer.low), amount(answer.high)
        if isinstance(answer, str):
            return amount(answer), amount(answer)
        return otherwise

    def has(self, key: str) -> bool:
        """Whether it is told."""
        return key in self.answers
