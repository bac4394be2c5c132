"""Copying a piece of a drawing and putting it down again, as the text of a file."""

from __future__ import annotations

from dataclasses import replace

from linework.design import Change, Design, EditError, Element, Part, Run, Seat, changed, new_id
from linework.design.names import next_designation, next_run_designation
from linework.storage import StorageError, dumps, loads_with_warnings
from linework.words import say

STEP = 50
"""A copy lies so far beside what it was copied from, in tenths of a millimetre."""


def copied(design: Design, chosen: tuple[str, ...]) -> str:
    """The chosen parts, what sits in them, and the runs and seats among them, as text."""
    kept = _with_seated(design, set(chosen))
    piece = Design(design.settings)
    parts = [p for p in design.parts if p.id in kept]
    runs = [r for r in design.runs if {r.a.part, r.b.part} <= kept]
    seats = [s for s in design.seats if {s.part, s.host} <= kept]
    if not parts:
        raise EditError(say("choose the parts that are to be copied"))
    elements: list[Element] = [*parts, *runs, *seats]
    piece.apply(changed("", [(None, element) for element in elements]))
    return dumps(piece).decode("utf-8")


def _with_seated(design: Design, kept: set[str]) -> set[str]:
    before = -1
    while len(kept) != before:
        before = len(kept)
        kept |= {
            s.part for s in design.seats if s.host in kept and len(design.seats_of(s.part)) == 1
        }
    return kept


def pasted(design: Design, text: str, sheet: int) -> tuple[Change, tuple[str, ...]]:
    """Put a copied piece down on a sheet, with designations that are free; the ids of its parts.

    EditError where the text is no piece of a drawing.
    """
    try:
        piece = loads_with_warnings(
            text.encode("utf-8"), say("what was copied"), strict=False
        ).design
    except StorageError as fault:
        raise EditError(say("there is nothing on the clipboard that belongs on a sheet")) from fault
    elements: list[Part | Run | Seat] = [*piece.parts, *piece.runs, *piece.seats]
    ids = {element.id: new_id() for element in elements}
    trial = design.snapshot()
    for part in piece.parts:
        trial.apply(changed("", [(None, _part(trial, part, ids, sheet))]))
    for run in piece.runs:
        trial.apply(changed("", [(None, _run(trial, run, ids))]))
    for seat in piece.seats:
        trial.apply(changed("", [(None, _seat(seat, ids))]))
    change = changed(say("paste"), [(None, trial.get(ids[e.id])) for e in elements])
    return change, tuple(ids[part.id] for part in piece.parts)


def _part(trial: Design, part: Part, ids: dict[str, str], sheet: int) -> Part:
    letters = part.designation.rstrip("0123456789") or trial.kind(part).letters
    return replace(
        part,
        id=ids[part.id],
        designation=next_designation(trial, letters),
        x=part.x + STEP,
        y=part.y + STEP,
        sheet=sheet,
    )


def _run(trial: Design, run: Run, ids: dict[str, str]) -> Run:
    return replace(
        run,
        id=ids[run.id],
        a=replace(run.a, part=ids[run.a.part]),
        b=replace(run.b, part=ids[run.b.part]),
        designation=next_run_designation(trial),
        route=tuple((x + STEP, y + STEP) for x, y in run.route),
    )


def _seat(seat: Seat, ids: dict[str, str]) -> Seat:
    return replace(seat, id=ids[seat.id], part=ids[seat.part], host=ids[seat.host])
