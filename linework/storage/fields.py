"""The fields of one object of a file, taken one by one; what is left over is unknown."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from linework.design.integrity import Guesses
from linework.kinds import Answer, Band, OneOf
from linework.quantity.errors import quoted
from linework.storage.errors import Fault
from linework.words import N_, say

LONGEST_TEXT, LONGEST_NAME = 1_000_000, 1_000
MOST_DEEP, MOST_ITEMS = 32, 200_000
_LONGEST_MESSAGE = 500
FAR = 10**9
"""The largest coordinate: what a window can hold in 32 bits."""

_T = TypeVar("_T")
_MISSING = object()

_TRUE_OR_FALSE = N_("true or false")
_A_WHOLE_NUMBER = N_("a whole number")
_A_TEXT = N_("a text")
A_LIST = N_("a list")
AN_OBJECT = N_("an object")

_SORTS = (
    (bool, _TRUE_OR_FALSE),
    (int, _A_WHOLE_NUMBER),
    (float, N_("a number with decimals")),
    (str, _A_TEXT),
    (list, A_LIST),
    (dict, AN_OBJECT),
)


def sort_of(value: object) -> str:
    """What a value of the file is, in words."""
    return next((say(name) for sort, name in _SORTS if isinstance(value, sort)), say("nothing"))


@dataclass
class Report:
    """What is wrong with a file, and what is odd about it, in the order of reading."""

    faults: list[Fault] = field(default_factory=list)
    warnings: list[Fault] = field(default_factory=list)
    guesses: Guesses = field(default_factory=Guesses)

    def wrong(self, path: str, wanted: str, value: object) -> None:
        """A value of another sort than is wanted (a marked text, said only here)."""
        text = say("{wanted} is needed here, not {given}", wanted=say(wanted), given=sort_of(value))
        self.faults.append(Fault(path, text))


class Fields:
    """One object of the file at ``path``. Each method takes a field and reports what is wrong.

    A field without a default is needed. A faulty one gives its default, or an empty value, so
    that the rest can still be looked at.
    """

    def __init__(self, raw: dict[str, object], path: str, report: Report) -> None:
        self.raw = raw
        self.path = path
        self.report = report
        self._known: list[str] = []

    def text(self, name: str, default: str | None = None, most: int = LONGEST_TEXT) -> str:
        """A text."""
        value = self._take(name, _A_TEXT, default)
        if not isinstance(value, str):
            self._refuse(name, _A_TEXT, value)
            return default or ""
        if len(value) > most:
            self.fault(name, say("this text is longer than {most} characters", most=most))
            return default or ""
        return value

    def name(self, name: str, default: str | None = None) -> str:
        """A short text that names something."""
        return self.text(name, default, LONGEST_NAME)

    def whole(self, name: str, default: int, low: int = -FAR, high: int = FAR) -> int:
        """A whole number between two bounds."""
        value = self._take(name, _A_WHOLE_NUMBER, default)
        if not isinstance(value, int) or isinstance(value, bool):
            self._refuse(name, _A_WHOLE_NUMBER, value)
        elif low <= value <= high:
            return value
        else:
            text = say("a whole number from {low} to {high} is needed here", low=low, high=high)
            self.fault(name, text)
        return default

    def flag(self, name: str, default: bool) -> bool:
        """True or false."""
        value = self._take(name, _TRUE_OR_FALSE, default)
        if isinstance(value, bool):
            return value
        self._refuse(name, _TRUE_OR_FALSE, value)
        return default

    def names(self, name: str, count: int, wanted: str) -> tuple[str, ...]:
        """A list of so many short texts, such as the two of an end."""
        value = self._take(name, wanted, None)
        if value is _MISSING:
            return ("",) * count
        return self._row(name, value, count, wanted) or ("",) * count

    def rows(self, name: str, count: int, wanted: str) -> tuple[tuple[str, ...], ...] | None:
        """A list of lists of so many short texts; None where it is not given."""
        found = self.listed(name, lambda at, value: self._row(at, value, count, wanted))
        return None if found is None else tuple(found)

    def listed(self, name: str, one: Callable[[str, object], _T | None]) -> list[_T] | None:
        """A list, each item read by ``one`` (None: refused); None where it is not given."""
        if name not in self.raw:
            self._known.append(name)
            return None
        value = self._take(name, A_LIST, None)
        if not isinstance(value, list):
            self._refuse(name, A_LIST, value)
            return []
        if len(value) > MOST_ITEMS:
            self.fault(name, say("there are more than {most}", most=MOST_ITEMS))
            return []
        items = (one(f"{name}[{n}]", item) for n, item in enumerate(value))
        return [item for item in items if item is not None]

    def plain(self, name: str, default: object) -> object:
        """Whatever stands there."""
        return self._take(name, "", default)

    def inner(self, name: str) -> dict[str, object]:
        """An object; empty where it is not given."""
        value = self._take(name, AN_OBJECT, {})
        if isinstance(value, dict):
            return value
        self._refuse(name, AN_OBJECT, value)
        return {}

    def left_over(self) -> dict[str, object]:
        """The fields that nobody took: a warning each, and their values to be kept."""
        rest = {name: value for name, value in self.raw.items() if name not in self._known}
        return self.unknown("", rest, self._known)

    def unknown(
        self, prefix: str, fields: dict[str, object], known: Collection[str]
    ) -> dict[str, object]:
        """Fields that this version does not know, below ``prefix``: a warning each, and kept."""
        deep = {name for name, value in fields.items() if is_deep(value)}
        for name in fields:
            at = f"{prefix}{quoted(name)}"
            if name in deep:
                self.fault(at, say("this is nested more than {most} deep", most=MOST_DEEP))
            else:
                self.warn(
                    at, say("'{name}' is not known and is kept", name=quoted(name)), name, known
                )
        return {name: value for name, value in fields.items() if name not in deep}

    def warn(self, name: str, text: str, slip: str, known: Collection[str]) -> None:
        """Something unknown, with the name that was perhaps meant."""
        text = self.report.guesses.added(text, slip, known)
        self.report.warnings.append(Fault(self.at(name), text))

    def fault(self, name: str, text: str) -> None:
        """A fault of one field."""
        self.report.faults.append(Fault(self.at(name), shortened(text)))

    def lacks(self, name: str, wanted: str) -> None:
        """A fault: a field that is needed is not there. ``wanted`` is said only here."""
        self.fault(name, say("this is missing; {wanted} is needed", wanted=say(wanted)))

    def at(self, name: str) -> str:
        """The path of one field, below this object."""
        joint = "" if not self.path else " " if " " in self.path else "."
        return f"{self.path}{joint}{name}"

    def _take(self, name: str, wanted: str, default: object) -> object:
        self._known.append(name)
        if name in self.raw:
            return self.raw[name]
        if default is None:
            self.lacks(name, wanted)
            return _MISSING
        return default

    def _refuse(self, name: str, wanted: str, value: object) -> None:
        if value is not _MISSING:
            self.report.wrong(self.at(name), wanted, value)

    def _row(self, at: str, value: object, count: int, wanted: str) -> tuple[str, ...] | None:
        if isinstance(value, list) and len(value) == count:
            texts = tuple(v for v in value if isinstance(v, str) and len(v) <= LONGEST_NAME)
            if len(texts) == count:
                return texts
        self.fault(at, say("{wanted} is needed here", wanted=say(wanted)))
        return None


def answer_of(value: object) -> Answer | None:
    """A rating's answer: a text, three figures, or possibilities. None for anything else."""
    if _is_answer_text(value):
        return str(value)
    if not isinstance(value, dict):
        return None
    if value.keys() == {"low", "usual", "high"} and all(map(_is_answer_text, value.values())):
        return Band(**{key: str(text) for key, text in value.items()})
    options = value.get("one_of")
    if value.keys() == {"one_of"} and isinstance(options, list) and len(options) <= LONGEST_NAME:
        return OneOf(tuple(map(str, options))) if all(map(_is_answer_text, options)) else None
    return None


def _is_answer_text(value: object) -> bool:
    return isinstance(value, str) and len(value) <= LONGEST_TEXT


def shortened(text: str) -> str:
    """A message that repeats what somebody wrote may be as long as that was."""
    return text if len(text) <= _LONGEST_MESSAGE else f"{text[:_LONGEST_MESSAGE]}..."


def is_deep(value: object) -> bool:
    """Whether a plain value is nested deeper than anybody would write it."""
    level: list[object] = [value]
    for _ in range(MOST_DEEP):
        level = [inner for item in level for inner in _inside(item)]
        if not level:
            return False
    return True


def _inside(value: object) -> Iterator[object]:
    items = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return (item for item in items if isinstance(item, dict | list))
