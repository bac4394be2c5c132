"""Ratings: what a kind asks of its user, and what a user may answer.

An answer is a text with its unit as typed ("20 A"), three figures where only a
band is known, or a list of possibilities. An absent rating is "not given": the
declared default stands in, is shown in brackets and never written to a file.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches

from linework.quantity import KINDS, QuantityError, read, wire_size
from linework.words import N_, say


@dataclass(frozen=True, slots=True)
class Band:
    """Low, usual and high figure of a rating, as typed."""

    low: str
    usual: str
    high: str


@dataclass(frozen=True, slots=True)
class OneOf:
    """The possibilities that are left where a person does not know."""

    options: tuple[str, ...]


Answer = str | Band | OneOf


class RatingError(ValueError):
    """An answer that does not fit its rating; the message says what to write."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One possible answer of a choice rating: its word in the file and what a person reads."""

    value: str
    label: str


@dataclass(frozen=True, slots=True)
class Rating:
    """One declared rating.

    ``quantity`` is a kind of :mod:`linework.quantity`, or "choice", "text",
    "size" (a wire size) or "configuration" (a plug configuration).
    ``default`` None: nothing sensible can be assumed. ``source`` says where the
    default comes from. ``low`` and ``high`` bound the value in base units.
    ``needed``: without it the part cannot be judged.
    """

    key: str
    label: str
    quantity: str
    default: Answer | None = None
    source: str = N_("common practice, no source")
    choices: tuple[Choice, ...] = ()
    low: float | None = None
    high: float | None = None
    needed: bool = False
    help: str = ""
    quiet: bool = False
    """Quiet: an absent answer means "none fitted" and assumes nothing."""
    ac_only: bool = False
    """Means nothing on a direct-current circuit."""

    def check(self, answer: Answer) -> None:
        """Raise RatingError unless ``answer`` fits this rating."""
        if isinstance(answer, Band):
            self._check_band(answer)
        elif isinstance(answer, OneOf):
            self._check_options(answer)
        else:
            self._check_text(answer)

    def _check_band(self, band: Band) -> None:
        if self.quantity not in KINDS:
            raise RatingError(say("{label}: three figures fit only a quantity", label=self.label))
        values = [self._check_text(text) for text in (band.low, band.usual, band.high)]
        if values != sorted(values):
            raise RatingError(
                say("{label}: write low, usual, high in rising order", label=self.label)
            )

    def _check_options(self, options: OneOf) -> None:
        if not self.choices or len(options.options) < 2:
            raise RatingError(
                say("{label}: possibilities need a choice and at least two", label=self.label)
            )
        for option in options.options:
            self._check_text(option)

    def _check_text(self, text: str) -> float:
        if self.choices:
            return self._check_choice(text)
        if self.quantity == "size":
            return wire_size(text).area_mm2
        if self.quantity not in KINDS:
            return 0.0
        try:
            value = read(text, self.quantity)
        except QuantityError as fault:
            raise RatingError(say("{label}: {fault}", label=self.label, fault=fault)) from fault
        self._check_range(text, value)
        return value

    def _check_choice(self, text: str) -> float:
        known = [choice.value for choice in self.choices]
        if text not in known:
            near = get_close_matches(text, known, 1, 0.4) or known[:1]
            raise RatingError(
                say(
                    "{label}: '{text}' is not among {known}; did you mean '{near}'?",
                    label=self.label,
                    text=text,
                    known=", ".join(known),
                    near=near[0],
                )
            )
        return 0.0

    def _check_range(self, text: str, value: float) -> None:
        low_ok = self.low is None or value >= self.low
        high_ok = self.high is None or value <= self.high
        if not (low_ok and high_ok):
            raise RatingError(
                say(
                    "{label}: {text} is outside what is possible ({low} to {high} {unit})",
                    label=self.label,
                    text=text,
                    low="-" if self.low is None else f"{self.low:g}",
                    high="-" if self.high is None else f"{self.high:g}",
                    unit=KINDS[self.quantity].unit,
                )
            )


@dataclass(frozen=True)
class Ratings(Mapping[str, Answer]):
    """The answers of one part or run: an immutable mapping that can be hashed."""

    answers: tuple[tuple[str, Answer], ...] = ()
    _index: dict[str, Answer] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_index", dict(self.answers))

    @classmethod
    def of(cls, answers: Mapping[str, Answer]) -> Ratings:
        """The same answers, in sorted order of their keys."""
        return cls(tuple(sorted(answers.items(), key=lambda item: item[0])))

    def __getitem__(self, key: str) -> Answer:
        return self._index[key]

    def __iter__(self):  # type: ignore[no-untyped-def]
        return iter(self._index)

    def __len__(self) -> int:
        return len(self._index)

    def __hash__(self) -> int:
        return hash(self.answers)

    def with_answer(self, key: str, answer: Answer | None) -> Ratings:
        """A copy with one answer set, or with it taken away (None)."""
        rest = {name: value for name, value in self._index.items() if name != key}
        return Ratings.of(rest if answer is None else {**rest, key: answer})
