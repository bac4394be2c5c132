"""From a design to the bytes of a file: format 1, sorted, one element a line."""

from __future__ import annotations

import json
from dataclasses import fields
from typing import Any

from linework.design import (
    Accepted,
    Design,
    End,
    Interlock,
    Note,
    Part,
    Run,
    Seat,
    Settings,
)
from linework.kinds import Answer, Band, OneOf

FORMAT = 1


def dumps(design: Design) -> bytes:
    """The file of a design; equal designs give equal bytes."""
    lines = ["{", f'"format": {FORMAT},', f'"settings": {_json(settings(design.settings))},']
    lists: dict[str, list[str]] = {
        "parts": [
            _json(part(x)) for x in sorted(design.parts, key=lambda x: (x.designation, x.id))
        ],
        "runs": [_json(run(x)) for x in sorted(design.runs, key=lambda x: (x.designation, x.id))],
        "seats": [_json(seat(x)) for x in sorted(design.seats, key=_seat_order)],
        "interlocks": [_json(interlock(x)) for x in sorted(design.interlocks, key=_by_id)],
        "notes": [_json(note(x)) for x in sorted(design.notes, key=_by_id)],
        "accepted": [_json(accepted(x)) for x in sorted(design.accepted, key=_by_id)],
    }
    blocks = [_block(name, rows) for name, rows in lists.items()]
    return ("\n".join(lines) + "\n" + ",\n".join(blocks) + "\n}\n").encode("utf-8")


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _block(name: str, rows: list[str]) -> str:
    if not rows:
        return f'"{name}": []'
    return f'"{name}": [\n' + ",\n".join(rows) + "\n]"


def _by_id(item: Interlock | Note | Accepted) -> str:
    return item.id


def _seat_order(item: Seat) -> tuple[str, str, str, str]:
    return (item.host, item.place, item.part, item.id)


def answer(value: Answer) -> Any:
    """An answer as it stands in the file."""
    if isinstance(value, Band):
        return {"low": value.low, "usual": value.usual, "high": value.high}
    if isinstance(value, OneOf):
        return {"one_of": list(value.options)}
    return value


def settings(item: Settings) -> dict[str, Any]:
    """The settings, each by its name."""
    known = {f.name: getattr(item, f.name) for f in fields(item) if f.name not in ("id", "extra")}
    return {**known, **dict(item.extra)}


def part(item: Part) -> dict[str, Any]:
    """One part; what is at its default is left out."""
    out: dict[str, Any] = {"id": item.id, "designation": item.designation, "kind": item.kind}
    if item.title:
        out["title"] = item.title
    out["at"] = [item.x, item.y]
    for name, value in (("turn", item.turn), ("mirror", item.mirror)):
        if value:
            out[name] = value
    if item.sheet != 1:
        out["sheet"] = item.sheet
    out["ratings"] = {key: answer(value) for key, value in sorted(item.ratings.items())}
    return {**out, **dict(item.extra)}


def _end(end: End) -> list[str]:
    return [end.part, end.terminal]


def run(item: Run) -> dict[str, Any]:
    """One run."""
    out: dict[str, Any] = {"id": item.id}
    if item.designation:
        out["designation"] = item.designation
    out |= {"from": _end(item.a), "to": _end(item.b)}
    if item.poles is not None:
        out["poles"] = [[str(p), str(q)] for p, q in item.poles]
    out["ratings"] = {key: answer(value) for key, value in sorted(item.ratings.items())}
    if item.route:
        out["route"] = [list(bend) for bend in item.route]
    return {**out, **dict(item.extra)}


def seat(item: Seat) -> dict[str, Any]:
    """One seat."""
    return {"id": item.id, "part": item.part, "in": item.host, "place": item.place}


def interlock(item: Interlock) -> dict[str, Any]:
    """One interlock."""
    return {"id": item.id, "title": item.title, "excludes": [list(x) for x in item.excludes]}


def note(item: Note) -> dict[str, Any]:
    """One note."""
    return {"id": item.id, "text": item.text, "at": [item.x, item.y], "sheet": item.sheet}


def accepted(item: Accepted) -> dict[str, Any]:
    """One accepted finding."""
    return {
        "id": item.id,
        "rule": item.rule,
        "subjects": list(item.subjects),
        "reason": item.reason,
        "by": item.by,
        "date": item.date,
        "fingerprint": item.fingerprint,
    }
