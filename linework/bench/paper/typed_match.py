"""What a person means who types "30 A breaker": the kind, and the ratings that the words give."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from linework.codes.errors import CodesError
from linework.codes.plugs import configuration
from linework.kinds import Answer, Choice, Kind, Rating, RatingError, kinds
from linework.quantity import KINDS, QuantityError, read
from linework.words import say

_WORD = re.compile(r"[^\s,;]+")
_FIGURE = re.compile(r"[0-9][0-9.,/]*")
_LEAST_CHOICE = 4
"""Shorter words are too common to stand for an answer."""

_SHOWN = 3
"""What it counts for that a figure answers a rating that is written at the symbol."""


@dataclass(frozen=True)
class Match:
    """A kind that fits what was typed. ``label``: how it is offered, answers included."""

    kind: str
    label: str
    answers: dict[str, Answer] = field(default_factory=dict)
    score: int = 0


@dataclass(frozen=True)
class _Piece:
    """One or two words of what was typed: a figure with its unit, or a word."""

    text: str
    is_figure: bool


def matches(text: str, family: str) -> tuple[Match, ...]:
    """The kinds that fit a typed text, the best first and of equal ones the plainer name; all of
    them, as the strip has them, for an empty text.

    Every word must be understood: as a part of the kind's name or search words, as the figure of
    one of its ratings, as a plug configuration, or as an answer to one of its questions.
    """
    pieces = tuple(_pieces(text))
    found = [match for kind in kinds().values() if (match := _match(kind, pieces, family))]
    return tuple(sorted(found, key=lambda m: (-m.score, bool(pieces) and _length(m, family))))


def _length(match: Match, family: str) -> int:
    """Words in the name of its kind."""
    return len(say(kinds()[match.kind].name, family=family).split())


def _pieces(text: str) -> Iterator[_Piece]:
    """Figures are taken together with the unit that follows them."""
    words = _WORD.findall(text)
    at = 0
    while at < len(words):
        word = words[at]
        if _FIGURE.fullmatch(word) and at + 1 < len(words):
            yield _Piece(f"{word} {words[at + 1]}", True)
            at += 2
        else:
            yield _Piece(word, word[:1].isdigit())
            at += 1


def _match(kind: Kind, pieces: tuple[_Piece, ...], family: str) -> Match | None:
    answers: dict[str, Answer] = {}
    score = 0
    words = _words_of(kind, family)
    is_asked = any(_named(piece.text, words) for piece in pieces if not piece.is_figure)
    for piece in pieces:
        # "fuse" is the kind, though one of its types has the word in its name, too.
        is_name = piece.text.casefold() in words[0]
        given = None if is_name else _rated(kind, piece.text, answers, family)
        if given is None and is_asked and piece.is_figure and family == "NA":
            given = _by_current(kind, piece.text, answers)
        if given is not None:
            answers[given[0]] = given[1]
            score += _SHOWN if given[0] in kind.captions else 0
        named = 0 if piece.is_figure else _named(piece.text, words)
        if given is None and not named:
            return None
        score += named
    return Match(kind.key, _label(kind, answers, family), answers, score)


def _words_of(kind: Kind, family: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The words of its name, and those it is searched by."""
    name = say(kind.name, family=family).casefold()
    search = say(kind.search, family=family).casefold() if kind.search else ""
    return tuple(name.split()), tuple(search.split())


def _named(word: str, words: tuple[tuple[str, ...], tuple[str, ...]]) -> int:
    """How well a word names a kind: whole or begun, in its name or only in its search words."""
    typed = word.casefold()
    for whole, begun, group in ((8, 5, words[0]), (4, 2, words[1])):
        if typed in group:
            return whole
        if any(known.startswith(typed) for known in group):
            return begun
    return 0


def _rated(kind: Kind, text: str, taken: Iterable[str], family: str) -> tuple[str, Answer] | None:
    """The rating that a piece answers, those written at the symbol first; None for none."""
    order = [*kind.captions, *(key for key in kind.declared if key not in kind.captions)]
    for key in order:
        rating = kind.declared[key]
        if key in taken:
            continue
        if rating.quantity in KINDS and not rating.choices and _reads(rating, text, family):
            return key, text
        if rating.quantity == "configuration" and (name := _configuration(text)):
            return key, name
    return _chosen(kind, text, taken, family)


def _reads(rating: Rating, text: str, family: str) -> bool:
    if not text[:1].isdigit() or rating.quantity in ("count", "ratio"):
        return False
    try:
        rating.check(text, family)
    except (RatingError, ValueError):
        return False
    return True


def _configuration(text: str) -> str:
    """The plug configuration of this name as tables write it, "" for none."""
    if not any(sign.isdigit() for sign in text):
        return ""
    try:
        return configuration(text.upper()).name
    except CodesError:
        return ""


_USUAL = ("5-15", "5-20", "TT-30", "14-50")
"""What is meant where only a current is told, in North America: common practice, no source."""


def _by_current(kind: Kind, text: str, taken: Iterable[str]) -> tuple[str, Answer] | None:
    """The usual plug configuration of a current: "20 A outlet"."""
    key = next((k for k, r in kind.declared.items() if r.quantity == "configuration"), "")
    try:
        amps = read(text, "current")
    except QuantityError:
        return None
    name = next((name for name in _USUAL if configuration(name).amps == amps), "")
    return (key, name) if key and name and key not in taken else None


def _chosen(kind: Kind, text: str, taken: Iterable[str], family: str) -> tuple[str, Answer] | None:
    """An answer that has this word in it and that is not what is assumed anyway."""
    word = text.casefold()
    for key in kind.captions:
        rating = kind.declared[key]
        for choice in rating.choices:
            new = key not in taken and choice.value != rating.default
            if new and word in _called(choice, family):
                return key, choice.value
    return None


def _called(choice: Choice, family: str) -> Iterator[str]:
    """The words of an answer that are long enough, and all by which people ask for it."""
    label = say(choice.label, family=family)
    words = re.findall(r"\w+", f"{label} {choice.value}".casefold())
    yield from (word for word in words if len(word) >= _LEAST_CHOICE)
    if choice.search:
        yield from say(choice.search, family=family).casefold().split()


def _label(kind: Kind, answers: dict[str, Answer], family: str) -> str:
    """The kind's name, and what the words answer: "breaker (30 A)"."""
    name = say(kind.name, family=family)
    if not answers:
        return name
    shown = [_shown(kind.declared[key], str(answer), family) for key, answer in answers.items()]
    return say("{name} ({answers})", name=name, answers=", ".join(shown))


def _shown(rating: Rating, answer: str, family: str) -> str:
    label = next((c.label for c in rating.choices if c.value == answer), "")
    text = say(label, family=family) if label else answer
    return say("{label}: {value}", label=say(rating.label, family=family), value=text)
