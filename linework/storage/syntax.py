"""From the bytes of a file to plain values: strict JSON, each key once, no NaN, bounded size."""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from collections.abc import Iterator

from linework.quantity.errors import quoted
from linework.storage.errors import Fault, FileFaults, StorageError
from linework.words import say

MOST_BYTES = 32 * 2**20
"""No real design is a hundredth of it."""

_LONE_SURROGATE = re.compile("[\ud800-\udfff]")
_MAY_HIDE_SURROGATE = re.compile(rb"\\u[dD][89a-fA-F]")


class _Odd:
    """Stands where the file has something that JSON does not allow, until its place is known."""

    def __init__(self, message: str) -> None:
        self.message = message


class _Doubled(dict[str, object]):
    """An object of the file in which keys come twice."""

    keys_twice: tuple[str, ...] = ()


class _Hooks:
    """The parser's hooks; ``odd`` tells whether the values must be searched for faults."""

    def __init__(self) -> None:
        self.odd = False

    def pairs(self, pairs: list[tuple[str, object]]) -> dict[str, object]:
        found = dict(pairs)
        if len(found) == len(pairs):
            return found
        self.odd = True
        doubled = _Doubled(found)
        times = Counter(name for name, _ in pairs)
        doubled.keys_twice = tuple(name for name in found if times[name] > 1)
        return doubled

    def constant(self, text: str) -> _Odd:
        self.odd = True
        return _Odd(say("{text} is no number; write a figure or leave it out", text=text))

    def floating(self, text: str) -> float | _Odd:
        value = float(text)
        if math.isfinite(value):
            return value
        self.odd = True
        return _Odd(say("{text} is too large for a number", text=text[:40]))


def parse(data: bytes, name: str) -> dict[str, object]:
    """The one JSON object that a file holds.

    StorageError where it is not JSON in UTF-8 or too large, FileFaults where keys come twice,
    figures are none or texts hold halves of characters.
    """
    if len(data) > MOST_BYTES:
        raise StorageError(
            say(
                "{name} is larger than {most} MB, more than any design needs. It was not opened.",
                name=name,
                most=MOST_BYTES // 2**20,
            )
        )
    hooks = _Hooks()
    value = _parsed(_decoded(data, name), hooks, name)
    if hooks.odd or _MAY_HIDE_SURROGATE.search(data):
        faults = tuple(_searched(value))
        if faults:
            raise FileFaults(name, faults)
    if not isinstance(value, dict):
        raise StorageError(_no_design(name))
    return value


def _decoded(data: bytes, name: str) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise StorageError(
            say(
                "{name} is not UTF-8 text (byte {place}), so it is not a design of this program, "
                "or it is damaged.",
                name=name,
                place=error.start,
            )
        ) from None


def _parsed(text: str, hooks: _Hooks, name: str) -> object:
    try:
        value: object = json.loads(
            text,
            object_pairs_hook=hooks.pairs,
            parse_constant=hooks.constant,
            parse_float=hooks.floating,
        )
    except json.JSONDecodeError as error:
        raise StorageError(
            say(
                "{name} is not whole: line {line}, column {column} cannot be read ({reason}). "
                "If it was cut off, open the version kept before it ({name}.bak).",
                name=name,
                line=error.lineno,
                column=error.colno,
                reason=error.msg,
            )
        ) from None
    except RecursionError:
        raise StorageError(say("{name} is nested too deeply to be a design.", name=name)) from None
    except ValueError:  # an integer of more digits than Python turns into a number
        raise StorageError(
            say("{name} holds a number that is too long to be read.", name=name)
        ) from None
    return value


def _no_design(name: str) -> str:
    return say("{name} is not a design of this program.", name=name)


def _searched(document: object) -> Iterator[Fault]:
    """Every oddity with its path, in the order of the file. Not recursive: the depth is theirs."""
    waiting = [iter([("", document)])]
    while waiting:
        path, value = next(waiting[-1], ("", None))
        if value is None:
            waiting.pop()
        elif isinstance(value, _Odd):
            yield Fault(path, value.message)
        elif isinstance(value, str) and _LONE_SURROGATE.search(value):
            yield Fault(path, say("this text holds half of a character"))
        elif isinstance(value, list):
            waiting.append(_items(path, value))
        elif isinstance(value, dict):
            yield from _keys(path, value)
            waiting.append(_fields(path, value))


def _items(path: str, value: list[object]) -> Iterator[tuple[str, object]]:
    return ((f"{path}[{n}]", item) for n, item in enumerate(value) if item is not None)


def _fields(path: str, value: dict[str, object]) -> Iterator[tuple[str, object]]:
    return ((_below(path, key), item) for key, item in value.items() if item is not None)


def _keys(path: str, value: dict[str, object]) -> Iterator[Fault]:
    if isinstance(value, _Doubled):
        for key in value.keys_twice:
            yield Fault(_below(path, key), say("this is given twice; keep one of them"))
    if any(_LONE_SURROGATE.search(key) for key in value):
        yield Fault(path, say("the name of a field holds half of a character"))


def _below(path: str, key: str) -> str:
    """The path of a field; its name made printable, it may be anything."""
    return f"{path}.{quoted(key)}".lstrip(".")
