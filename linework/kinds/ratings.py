"""Ratings: what a kind asks of its user, and what a user may answer.

An answer is a text with its unit as typed ("20 A"), three figures where only a
band is known, or a list of possibilities. An absent rating is "not given": the
declared default stands in, is shown in brackets and never written to a file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches

from linework.data import Confidence
from linework.quantity import KINDS, QuantityError, in_watts, read, wire_size, write
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
    """One possible answer of a choice rating: its word in the file and what a person reads.

    ``standard``: what names it so. ``search``: other words by which people ask for it.
    """

    value: str
    label: str
    standard: str = ""
    search: str = ""


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a default comes from: what a person reads, and how sure the figure is."""

    text: str
    confidence: Confidence


FROM_MEMORY = Origin(N_("from memory"), Confidence.MEMORY)
PRACTICE = Origin(N_("common practice, no source"), Confidence.PRACTICE)


@dataclass(frozen=True, slots=True)
class Rating:
    """One declared rating.

    ``quantity`` is a kind of :mod:`linework.quantity`, or "choice", "text",
    "size" (a wire size) or "configuration" (a plug configuration).
    ``default`` None and no ``derive``: nothing sensible can be assumed; "$name" is
    a setting of the design. ``source`` says where the default comes from. ``low``
    and ``high`` bound the value in base units.
    ``needed``: without it the part cannot be judged.
    """

    key: str
    label: str
    quantity: str
    default: Answer | None = None
    source: Origin = PRACTICE
    choices: tuple[Choice, ...] = ()
    low: float | None = None
    high: float | None = None
    needed: bool = False
    help: str = ""
    usual: tuple[float, float] | None = None
    """Least and greatest usual figure in the base unit: beyond, a person is asked for the unit."""
    marking: bool = False
    """The most that the part stands, as marked on it: tells nothing of what it lies on."""
    quiet: bool = False
    """Quiet: an absent answer is the ordinary case (mostly "none fitted") and is not listed among
    the values assumed."""
    ac_only: bool = False
    """Means nothing on a direct-current circuit."""
    derive: Callable[..., Answer | None] | None = None
    """What stands in for an answer, from the other ratings of the part (a ``Values``) and the
    settings; where it has nothing to say, or there is none, ``default`` does."""

    means: Callable[..., bool] | None = None
    """Whether it means anything beside the other ratings of the part (a ``Values``); None: always.
    """
    factor: str = ""
    """The rating by which this apparent power is divided where it is typed in watt."""

    def check(self, answer: Answer, family: str | None = None) -> None:
        """Raise RatingError, in the words of the family, unless ``answer`` fits this rating."""
        if isinstance(answer, Band):
            self._check_band(answer, family)
        elif isinstance(answer, OneOf):
            self._check_options(answer, family)
        else:
            self._check_text(answer, family)

    def _check_band(self, band: Band, family: str | None) -> None:
        if self.quantity not in KINDS:
            fault = say("three figures fit only a quantity")
            raise self._error(fault, family)
        values = [self._check_text(text, family) for text in (band.low, band.usual, band.high)]
        if values != sorted(values):
            raise self._error(say("write low, usual, high in rising order"), family)

    def _check_options(self, options: OneOf, family: str | None) -> None:
        if not self.choices or len(set(options.options)) < max(2, len(options.options)):
            fault = say("possibilities fit only a choice, at least two and each once")
            raise self._error(fault, family)
        for option in options.options:
            self._check_text(option, family)

    def _check_text(self, text: str, family: str | None) -> float:
        """The value in the base unit; 0 for what is no quantity."""
        if self.choices:
            return self._check_choice(text, family)
        try:
            if self.quantity == "size":
                return wire_size(text).area_mm2
            if self.quantity not in KINDS:
                return 0.0
            value = read(text, self.quantity)
        except QuantityError as fault:
            raise self._error(str(fault), family) from fault
        if self.quantity == "apparent_power" and not self.factor and in_watts(text):
            told = say("write it in volt-amperes, for example 2000 VA; watts tell less")
            raise self._error(told, family)
        self._check_range(text, value, family)
        return value

    def _check_choice(self, text: str, family: str | None) -> float:
        known = [choice.value for choice in self.choices]
        if text not in known:
            near = get_close_matches(text, known, 1, 0.4) or known[:1]
            fault = say(
                "'{text}' is not among {known}; did you mean '{near}'?",
                text=text,
                known=", ".join(known),
                near=near[0],
            )
            raise self._error(fault, family)
        return 0.0

    def _check_range(self, text: str, value: float, family: str | None) -> None:
        if self.low is not None and value < self.low:
            least = write(self.low, self.quantity)
            raise self._error(say("{text} is below {least}", text=text, least=least), family)
        if self.high is not None and value > self.high:
            most = write(self.high, self.quantity)
            raise self._error(say("{text} is above {most}", text=text, most=most), family)

    def _error(self, fault: str, family: str | None) -> RatingError:
        label = say(self.label, family=family)
        return RatingError(say("{label}: {fault}", label=label, fault=fault))


@dataclass(frozen=True)
class Ratings(Mapping[str, Answer]):
    """The answers of one part or run: an immutable mapping that can be hashed.

    Two are equal when they hold the same answers, in whatever order these were given.
    """

    answers: tuple[tuple[str, Answer], ...] = ()
    _index: dict[str, Answer] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        index = dict(sorted(self.answers, key=lambda item: item[0]))
        object.__setattr__(self, "answers", tuple(index.items()))
        object.__setattr__(self, "_index", index)

    @classmethod
    def of(cls, answers: Mapping[str, Answer]) -> Ratings:
        """The answers of a mapping."""
        return cls(tuple(answers.items()))

    def __getitem__(self, key: str) -> Answer:
        return self._index[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._index)

    def __len__(self) -> int:
        return len(self._index)

    def __hash__(self) -> int:
        return hash(self.answers)

    def with_answer(self, key: str, answer: Answer | None) -> Ratings:
        """A copy with one answer set, or with it taken away (None)."""
        return self.with_answers({key: answer})

    def with_answers(self, answers: Mapping[str, Answer | None]) -> Ratings:
        """A copy with some answers set, or taken away (None)."""
        both = {**self._index, **answers}
        return Ratings.of({key: value for key, value in both.items() if value is not None})
