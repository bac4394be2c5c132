"""Typed access to the ratings of one part, with its unknowns settled for one case."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from linework.kinds.ratings import Answer, Band, OneOf, Rating, Ratings
from linework.quantity import read, wire_size
from linework.wiring import Three


@dataclass(frozen=True)
class Values:
    """The ratings of a part as its kind reads them.

    ``settled`` picks one possibility for each unknown that a case decides.
    ``family`` and ``setting`` (design-wide facts by name) let a default depend on them.
    """

    declared: Mapping[str, Rating]
    ratings: Ratings
    settled: Mapping[str, str] = field(default_factory=dict)
    setting: Mapping[str, str] = field(default_factory=dict)

    def given(self, key: str) -> bool:
        """Whether the user answered; a default is not an answer."""
        return key in self.ratings

    def answer(self, key: str) -> Answer | None:
        """The user's answer, else the default, else None."""
        if key in self.ratings:
            return self.ratings[key]
        default = self.declared[key].default
        if isinstance(default, str) and default.startswith("$"):
            return self.setting.get(default[1:])
        return default

    def applies(self, key: str) -> bool:
        """Whether a rating means anything here: what is for alternating current only does not on
        a direct-current circuit."""
        idle = self.declared[key].ac_only and "circuit" in self.declared
        return not (idle and self.pick("circuit") == "dc")

    def has(self, key: str) -> bool:
        """Whether there is an answer or a default."""
        return self.answer(key) is not None

    def three(self, key: str) -> Three:
        """The band of a quantity, in its base unit. KeyError if nothing is known."""
        answer = self.answer(key)
        kind = self.declared[key].quantity
        if isinstance(answer, Band):
            return Three(read(answer.low, kind), read(answer.usual, kind), read(answer.high, kind))
        if not isinstance(answer, str):
            raise KeyError(key)
        return Three.exactly(read(answer, kind))

    def num(self, key: str) -> float:
        """The usual figure of a quantity, in its base unit."""
        return self.three(key).usual

    def opt(self, key: str) -> float | None:
        """As ``num``, or None where nothing is known."""
        return self.num(key) if self.has(key) else None

    def pick(self, key: str) -> str:
        """The chosen word; of several possibilities the settled one, else the first."""
        if key in self.settled:
            return self.settled[key]
        answer = self.answer(key)
        if isinstance(answer, OneOf):
            return answer.options[0]
        return answer if isinstance(answer, str) else ""

    def text(self, key: str) -> str:
        """A free text, empty where none is given."""
        answer = self.answer(key)
        return answer if isinstance(answer, str) else ""

    def open_options(self, key: str) -> tuple[str, ...]:
        """The possibilities of a rating that is not known, empty where it is."""
        answer = self.answer(key)
        return answer.options if isinstance(answer, OneOf) else ()

    def area_mm2(self, key: str) -> float:
        """The cross-section of a wire size rating."""
        return wire_size(self.text(key)).area_mm2
