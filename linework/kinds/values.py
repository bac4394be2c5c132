"""Typed access to the ratings of one part, with its unknowns settled for one case."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from linework.kinds.ratings import Answer, Band, OneOf, Rating, Ratings
from linework.quantity import KINDS, in_watts, read, wire_size
from linework.wiring import Three


@dataclass(frozen=True)
class Values:
    """The ratings of a part as its kind reads them.

    ``settled`` picks one possibility for each unknown that a case decides.
    ``setting``: facts of the whole design by name, on which a default may depend.
    """

    declared: Mapping[str, Rating]
    ratings: Ratings
    settled: Mapping[str, str] = field(default_factory=dict)
    setting: Mapping[str, str] = field(default_factory=dict)

    def given(self, key: str) -> bool:
        """Whether the user answered; a default is not an answer."""
        return key in self.ratings

    def answer(self, key: str) -> Answer | None:
        """The user's answer, else what stands in for it, else None."""
        if key in self.ratings:
            return self.ratings[key]
        rating = self.declared[key]
        derived = rating.derive(self) if rating.derive is not None else None
        if derived is not None:
            return derived
        if _is_setting(rating.default):
            return self.setting.get(str(rating.default)[1:])
        return rating.default

    def assumes(self, key: str) -> bool:
        """Whether something stands in for an answer that a person should be told of.

        A quiet rating assumes nothing, unless it should come from the settings of the design and
        these have no word for it.
        """
        if self.given(key) or not self.applies(key) or not self.has(key):
            return False
        rating = self.declared[key]
        derived = rating.derive is not None and rating.derive(self) is not None
        return not rating.quiet or (derived and _is_setting(rating.default))

    def applies(self, key: str) -> bool:
        """Whether a rating means anything here: what is for alternating current only does not on
        a direct-current circuit, and a rating may hang on others."""
        means = self.declared[key].means
        if means is not None and not means(self):
            return False
        idle = self.declared[key].ac_only and "circuit" in self.declared
        return not (idle and self.pick("circuit") == "dc")

    def has(self, key: str) -> bool:
        """Whether there is an answer or a default."""
        return self.answer(key) is not None

    def three(self, key: str) -> Three:
        """The band of a quantity, in its base unit.

        KeyError if nothing is known, TypeError if the rating is no quantity.
        """
        kind = self.declared[key].quantity
        if kind not in KINDS:
            raise TypeError(f"{key} is a {kind}, not a quantity")
        answer = self.answer(key)
        if isinstance(answer, Band):
            low, usual, high = (
                self._read(key, text) for text in (answer.low, answer.usual, answer.high)
            )
            return Three(low, usual, high)
        if not isinstance(answer, str):
            raise KeyError(key)
        return Three.exactly(self._read(key, answer))

    def _read(self, key: str, text: str) -> float:
        """A typed figure in its base unit: watts as the volt-amperes that they are at the power
        factor for which the part is rated."""
        rating = self.declared[key]
        value = read(text, rating.quantity)
        return value / self.num(rating.factor) if rating.factor and in_watts(text) else value

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


def _is_setting(default: Answer | None) -> bool:
    """Whether a declared default is the name of a setting ("$voltage")."""
    return isinstance(default, str) and default.startswith("$")
