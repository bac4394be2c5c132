"""From a design to the bytes of a file: the same elements give the same bytes."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable

from linework.design import Accepted, Design, Interlock, Note, Part, Run
from linework.storage.elements import (
    Plain,
    write_accepted,
    write_interlock,
    write_note,
    write_part,
    write_run,
    write_seat,
    write_settings,
)
from linework.storage.kept import ELSEWHERE, Kept
from linework.storage.migrations import FORMAT

_HALVES = re.compile("[\ud800-\udfff]")


def dumps(design: Design) -> bytes:
    """The file of a design: UTF-8 JSON, one element a line, sorted whatever the order of entry.

    Half characters, which UTF-8 cannot hold, become U+FFFD. Nothing else of a text is touched.
    """
    elsewhere = _elsewhere(design)
    seats = sorted(design.seats, key=lambda seat: (seat.host, seat.place, seat.part, seat.id))
    sections: dict[str, Iterable[Plain]] = {
        "parts": map(write_part, sorted(design.parts, key=_by_name)),
        "runs": map(write_run, sorted(design.runs, key=_by_name)),
        "seats": map(write_seat, seats),
        "interlocks": map(write_interlock, sorted(design.interlocks, key=_by_id)),
        "notes": map(write_note, sorted(design.notes, key=_by_id)),
        "accepted": map(write_accepted, sorted(design.accepted, key=_by_id)),
    }
    members = [f'"format": {FORMAT}', f'"settings": {_text(write_settings(design.settings))}']
    members += [_section(name, rows, elsewhere) for name, rows in sections.items()]
    members += [f"{_text(name)}: {_text(value)}" for name, value in _below(elsewhere, "").items()]
    text = "{\n" + ",\n".join(members) + "\n}\n"
    return _HALVES.sub("\ufffd", text).encode()


def _by_name(element: Part | Run) -> tuple[str, str]:
    return element.designation, element.id


def _by_id(element: Interlock | Note | Accepted) -> str:
    return element.id


def _section(name: str, rows: Iterable[Plain], elsewhere: Plain) -> str:
    """One section, each row with the unknown fields that were read with it."""
    lines = [_text({**row, **_below(elsewhere, str(row["id"]))}) for row in rows]
    return f'"{name}": [\n' + ",\n".join(lines) + "\n]" if lines else f'"{name}": []'


def _elsewhere(design: Design) -> Plain:
    held = dict(design.settings.extra).get(ELSEWHERE)
    value = held.value if isinstance(held, Kept) else {}
    return value if isinstance(value, dict) else {}


def _below(elsewhere: Plain, key: str) -> Plain:
    found = elsewhere.get(key)
    return dict(sorted(found.items())) if isinstance(found, dict) else {}


def _text(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)
