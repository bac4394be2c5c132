"""Which of the sheets or tables a person asked for, by name or number."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import get_close_matches

from linework.handover.document import HandoverError
from linework.words import say

Known = Mapping[str, tuple[int, ...]]
"""Name, or number as text -> the places in their order that it stands for."""


def chosen(asked: Iterable[str], known: Known) -> tuple[int, ...]:
    """The places that are asked for, each once, in their own order; all where nothing is asked.

    HandoverError where one is not known: the text names those there are.
    """
    wanted = [word.strip().casefold() for word in asked if word.strip()]
    if not wanted:
        return tuple(sorted({place for places in known.values() for place in places}))
    found: set[int] = set()
    for word in wanted:
        if word not in known:
            raise HandoverError(_unknown(word, known))
        found.update(known[word])
    return tuple(sorted(found))


def _unknown(word: str, known: Known) -> str:
    names = [name for name in known if not name.isdecimal()]
    numbers = sorted(int(name) for name in known if name.isdecimal())
    near = get_close_matches(word, names, 1, 0.5)
    hint = say(" Did you mean '{near}'?", near=near[0]) if near else ""
    return (
        say(
            "there is no sheet '{word}' in what is to be written, only {names} and the numbers"
            " {first} to {last}.",
            word=word,
            names=", ".join(names),
            first=numbers[0],
            last=numbers[-1],
        )
        + hint
    )


def numbered(names: Iterable[str]) -> dict[str, tuple[int, ...]]:
    """Names in their order, each known by its number from 1 too."""
    found: dict[str, tuple[int, ...]] = {}
    for at, name in enumerate(names, 1):
        found[name] = (at,)
        found[str(at)] = (at,)
    return found
