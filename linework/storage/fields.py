"""Reads the fields of one JSON object and collects every fault with its path."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from difflib import get_close_matches
from typing import Any, TypeVar

from linework.words import say

_T = TypeVar("_T")

MOST_TEXT = 10_000
"""No text of ours is longer."""
MOST_COORDINATE = 1_000_000
"""A hundred metres of paper, in tenths of a millimetre."""


class Faults:
    """The faults of a file and its warnings, in the order of reading."""

    def __init__(self) -> None:
        self.faults: list[tuple[str, str]] = []
        self.warnings: list[tuple[str, str]] = []

    def add(self, path: str, message: str) -> None:
        """One more fault."""
        self.faults.append((path, message))


class Fields:
    """One object of the file. Each read marks its key as known; ``rest`` gives the others."""

    def __init__(self, raw: object, path: str, faults: Faults) -> None:
        self.path, self.faults = path, faults
        self.raw: Mapping[str, Any] = raw if isinstance(raw, dict) else {}
        self.known: set[str] = set()
        if not isinstance(raw, dict):
            faults.add(path, say("must be an object in braces"))

    def _take(self, key: str, default: _T, fits: Callable[[Any], bool], what: str) -> _T:
        self.known.add(key)
        if key not in self.raw:
            return default
        value = self.raw[key]
        if fits(value):
            return value  # type: ignore[no-any-return]
        self.faults.add(f"{self.path}.{key}", say("must be {what}", what=what))
        return default

    def text(self, key: str, default: str = "", needed: bool = False) -> str:
        """A text of at most MOST_TEXT signs."""
        if needed and key not in self.raw:
            self.faults.add(self.path, say("'{key}' is missing", key=key))
        return self._take(
            key, default, lambda v: isinstance(v, str) and len(v) <= MOST_TEXT, say("a text")
        )

    def integer(self, key: str, default: int = 0, low: int = 0, high: int = MOST_COORDINATE) -> int:
        """A whole number within bounds."""
        return self._take(
            key,
            default,
            lambda v: type(v) is int and low <= v <= high,
            say("a whole number from {low} to {high}", low=low, high=high),
        )

    def flag(self, key: str) -> bool:
        """True or false."""
        return self._take(key, False, lambda v: isinstance(v, bool), say("true or false"))

    def pair(self, key: str) -> tuple[int, int]:
        """Two whole numbers, a place on the paper."""
        x, y = self._take(key, [0, 0], _is_place, say("two whole numbers"))
        return x, y

    def texts(self, key: str, count: int | None = None) -> tuple[str, ...]:
        """A list of texts, of a fixed length if ``count`` says so."""
        found = self._take(
            key,
            [],
            lambda v: _texts(v) and (count is None or len(v) == count),
            say("a list of texts") if count is None else say("{count} texts", count=count),
        )
        if count is not None and key not in self.raw:
            self.faults.add(self.path, say("'{key}' is missing", key=key))
        return tuple(found) if found or count is None else ("",) * count

    def rows(self, key: str, fits: Callable[[Any], bool], what: str) -> tuple[tuple[Any, ...], ...]:
        """A list of lists, each of which ``fits``."""
        found = self._take(
            key, [], lambda v: isinstance(v, list) and all(fits(row) for row in v), what
        )
        return tuple(tuple(row) for row in found)

    def mapping(self, key: str) -> Mapping[str, Any]:
        """An object."""
        return self._take(key, {}, lambda v: isinstance(v, dict), say("an object in braces"))

    def rest(self) -> tuple[tuple[str, object], ...]:
        """Fields that this version does not know; they are kept, and a warning guesses the name."""
        out = []
        for key in sorted(self.raw):
            if key not in self.known:
                near = get_close_matches(key, sorted(self.known), 1)
                text = say("'{key}' is not known here; it is kept", key=key)
                if near:
                    text += say("; did you mean '{near}'?", near=near[0])
                self.faults.warnings.append((self.path, text))
                out.append((key, self.raw[key]))
        return tuple(out)


def _is_place(value: Any) -> bool:
    return (
        isinstance(value, list)
        and len(value) == 2
        and all(type(v) is int and abs(v) <= MOST_COORDINATE for v in value)
    )


def _texts(value: Any) -> bool:
    return isinstance(value, list) and all(
        isinstance(v, str) and len(v) <= MOST_TEXT for v in value
    )


is_place = _is_place
"""Whether a raw value is a place on the paper."""
