"""From the bytes of a file to a design; every fault is collected with its path."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, fields
from difflib import get_close_matches
from typing import Any

from linework.design import (
    Accepted,
    Change,
    Design,
    EditError,
    Element,
    End,
    Interlock,
    Note,
    Part,
    Run,
    Seat,
    Settings,
    changed,
)
from linework.design.integrity import flaws
from linework.kinds import RUN_RATINGS, Answer, Band, OneOf, Ratings, is_known, kind_of, kinds
from linework.storage.errors import FileFaults, StorageError
from linework.storage.fields import Faults, Fields, is_place
from linework.storage.migrations import NEWEST, migrated
from linework.wiring import Pole
from linework.words import say

MOST_BYTES = 32 * 1024 * 1024
"""A file larger than this is none of ours."""
MOST_DEPTH = 20
"""Deeper nesting is none of ours."""
MOST_ELEMENTS = 100_000


@dataclass(frozen=True)
class Loaded:
    """A design and what in its file was not known (path, message); it is kept on saving."""

    design: Design
    warnings: tuple[tuple[str, str], ...]


def loads(data: bytes, name: str = "file") -> Loaded:
    """The design of a file's bytes. StorageError or FileFaults with a message otherwise."""
    raw = _parsed(data, name)
    faults = Faults()
    plain = migrated(raw, name)
    top = Fields(plain, say("file"), faults)
    top.known.add("format")
    settings = _settings(top)
    paths: dict[str, str] = {"settings": "settings"}
    elements: list[Element] = [settings]
    for key, build in _BUILDERS.items():
        elements += _listed(top, key, build, faults, paths)
    for key, _ in top.rest():
        faults.add(key, say("'{key}' is no list of this format", key=key))
    if faults.faults:
        raise FileFaults(name, faults.faults)
    design = _assembled(elements, name, paths)
    wrong = [(f"{paths.get(f.element, f.element)}.{f.field}", f.message) for f in flaws(design)]
    if wrong:
        raise FileFaults(name, wrong)
    warnings = [*faults.warnings, *_unknown(design, paths)]
    return Loaded(design, tuple(warnings))


# the JSON text


def _parsed(data: bytes, name: str) -> dict[str, Any]:
    if len(data) > MOST_BYTES:
        raise StorageError(
            say(
                "{name} is larger than any design ({most} MB); it was not opened",
                name=name,
                most=32,
            )
        )
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as fault:
        raise StorageError(
            say(
                "{name} is no text: byte {at} is not UTF-8. Open another copy, or the"
                " version before it (.bak)",
                name=name,
                at=fault.start,
            )
        ) from fault
    try:
        raw = json.loads(text, object_pairs_hook=_unique, parse_constant=_no_constant)
    except json.JSONDecodeError as fault:
        raise StorageError(
            say(
                "{name} is not whole: {what} in line {line}, column {column}. Open the version"
                " before it (.bak), or mend this line",
                name=name,
                what=fault.msg,
                line=fault.lineno,
                column=fault.colno,
            )
        ) from fault
    except RecursionError as fault:
        raise StorageError(say("{name} is nested too deeply to be a design", name=name)) from fault
    except ValueError as fault:
        raise StorageError(f"{name}: {fault}") from fault
    if not isinstance(raw, dict) or _depth(raw) > MOST_DEPTH:
        raise StorageError(say("{name} is no design: it must be one object in braces", name=name))
    return raw


def _unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        keys = [key for key, _ in pairs]
        twice = next(key for key in keys if keys.count(key) > 1)
        raise ValueError(say("the key '{key}' stands twice in one object", key=twice))
    return found


def _no_constant(word: str) -> float:
    raise ValueError(say("'{word}' is no number", word=word))


def _depth(value: object) -> int:
    level, deepest = [value], 0
    while level:
        deepest += 1
        if deepest > MOST_DEPTH:
            break
        level = [child for item in level for child in _children(item)]
    return deepest


def _children(value: object) -> Iterable[object]:
    if isinstance(value, dict):
        return value.values()
    return value if isinstance(value, list) else ()


# the elements


def _settings(top: Fields) -> Settings:
    one = Fields(top.mapping("settings"), "settings", top.faults)
    texts = {
        f.name: one.text(f.name, f.default)  # type: ignore[arg-type]
        for f in fields(Settings)
        if f.name not in ("id", "wet", "extra")
    }
    return Settings(**texts, wet=one.flag("wet"), extra=one.rest())  # type: ignore[arg-type]


_Build = Callable[[Fields], Element]


def _listed(
    top: Fields, key: str, build: _Build, faults: Faults, paths: dict[str, str]
) -> Iterator[Element]:
    top.known.add(key)
    rows = top.raw.get(key, [])
    if not isinstance(rows, list) or len(rows) > MOST_ELEMENTS:
        faults.add(key, say("must be a list of at most {most}", most=MOST_ELEMENTS))
        return
    for number, row in enumerate(rows):
        path = f"{key}[{number}]"
        if isinstance(row, dict) and isinstance(row.get("designation"), str):
            path += f" {row['designation'][:20]}"
        element = build(Fields(row, path, faults))
        if not element.id:
            faults.add(path, say("'id' must not be empty"))
        elif element.id in paths:
            faults.add(path, say("the id '{id}' stands twice", id=element.id))
        else:
            paths[element.id] = path
            yield element


def _ratings(one: Fields) -> Ratings:
    found: dict[str, Answer] = {}
    for key, raw in one.mapping("ratings").items():
        answer = _answer(raw)
        if answer is None:
            text = say('must be a text such as "20 A", low/usual/high, or one_of')
            one.faults.add(f"{one.path}.ratings.{key}", text)
        else:
            found[key] = answer
    return Ratings.of(found)


def _answer(raw: object) -> Answer | None:
    if isinstance(raw, str):
        return raw
    if not isinstance(raw, dict):
        return None
    if set(raw) == {"low", "usual", "high"} and all(isinstance(v, str) for v in raw.values()):
        return Band(raw["low"], raw["usual"], raw["high"])
    options = raw.get("one_of")
    if set(raw) == {"one_of"} and isinstance(options, list):
        return OneOf(tuple(options)) if all(isinstance(v, str) for v in options) else None
    return None


def _part(one: Fields) -> Part:
    x, y = one.pair("at")
    return Part(
        one.text("id", needed=True),
        one.text("kind", needed=True),
        one.text("designation", needed=True),
        _ratings(one),
        one.text("title"),
        x,
        y,
        one.integer("turn", high=3),
        one.flag("mirror"),
        one.integer("sheet", 1, 1, 999),
        one.rest(),
    )


def _run(one: Fields) -> Run:
    a, b = one.texts("from", 2), one.texts("to", 2)
    poles = None
    if "poles" in one.raw:
        pairs = one.rows("poles", _is_pole_pair, say('pairs of conductor names such as ["L", "L"]'))
        poles = tuple((Pole(p), Pole(q)) for p, q in pairs)
    route = one.rows("route", is_place, say("a list of places [x, y]"))
    return Run(
        one.text("id", needed=True),
        End(*a),
        End(*b),
        one.text("designation"),
        poles,
        _ratings(one),
        tuple((x, y) for x, y in route),
        tuple(item for item in one.rest() if item[0] != "poles"),
    )


def _is_pole_pair(row: Any) -> bool:
    return isinstance(row, list) and len(row) == 2 and all(p in list(Pole) for p in row)


def _seat(one: Fields) -> Seat:
    found = Seat(
        one.text("id", needed=True),
        one.text("part", needed=True),
        one.text("in", needed=True),
        one.text("place", needed=True),
    )
    one.rest()
    return found


def _interlock(one: Fields) -> Interlock:
    rows = one.rows(
        "excludes",
        lambda row: (
            isinstance(row, list) and len(row) == 3 and all(isinstance(v, str) for v in row)
        ),
        say("a list of [part, selector, position]"),
    )
    found = Interlock(
        one.text("id", needed=True), tuple((a, b, c) for a, b, c in rows), one.text("title")
    )
    one.rest()
    return found


def _note(one: Fields) -> Note:
    x, y = one.pair("at")
    found = Note(
        one.text("id", needed=True), one.text("text"), x, y, one.integer("sheet", 1, 1, 999)
    )
    one.rest()
    return found


def _accepted(one: Fields) -> Accepted:
    found = Accepted(
        one.text("id", needed=True),
        one.text("rule", needed=True),
        one.texts("subjects"),
        one.text("reason", needed=True),
        one.text("by"),
        one.text("date"),
        one.text("fingerprint", needed=True),
    )
    one.rest()
    return found


_BUILDERS: dict[str, _Build] = {
    "parts": _part,
    "runs": _run,
    "seats": _seat,
    "interlocks": _interlock,
    "notes": _note,
    "accepted": _accepted,
}


# the whole


def _assembled(elements: list[Element], name: str, paths: dict[str, str]) -> Design:
    settings = elements[0]
    assert isinstance(settings, Settings)
    parts = {e.id for e in elements if isinstance(e, Part)}
    wrong = [
        (paths[e.id], say("there is no part '{part}'", part=end))
        for e in elements
        for end in _joined(e)
        if end not in parts
    ]
    if wrong:
        raise FileFaults(name, wrong)
    design = Design(settings)
    change: Change = changed("load", [(None, e) for e in elements[1:]])
    try:
        design.apply(change)
    except EditError as fault:  # what _joined let through
        raise StorageError(f"{name}: {fault}") from fault
    design.revision = 0
    return design


def _joined(element: Element) -> tuple[str, ...]:
    if isinstance(element, Run):
        return (element.a.part, element.b.part)
    if isinstance(element, Seat):
        return (element.part, element.host)
    return ()


def _unknown(design: Design, paths: dict[str, str]) -> Iterator[tuple[str, str]]:
    """Kinds and ratings that this version does not know."""
    for part in design.parts:
        if not is_known(part.kind):
            near = get_close_matches(part.kind, list(kinds()), 1)
            text = say("the kind '{kind}' is not known here; it is kept", kind=part.kind)
            text += say("; did you mean '{near}'?", near=near[0]) if near else ""
            yield paths[part.id], text
            continue
        for key in part.ratings:
            if key not in kind_of(part.kind).declared:
                yield (
                    paths[part.id],
                    say("the rating '{key}' is not known here; it is kept", key=key),
                )
    for run in design.runs:
        for key in run.ratings:
            if key not in RUN_RATINGS:
                yield (
                    paths[run.id],
                    say("the rating '{key}' is not known here; it is kept", key=key),
                )


__all__ = ["MOST_BYTES", "NEWEST", "Loaded", "loads"]
