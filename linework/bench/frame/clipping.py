"""Copying a piece of a drawing and putting it down again, as the text of a file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import TypeVar

from linework.design import (
    Change,
    Design,
    EditError,
    Element,
    Interlock,
    Note,
    Part,
    Run,
    Seat,
    changed,
    new_id,
)
from linework.design.names import natural, next_designation, next_run_designation
from linework.design.positions import PLUG
from linework.picture.geometry import Point
from linework.storage import StorageError, dumps, loads_with_warnings
from linework.words import say

_Named = TypeVar("_Named", Part, Run)

STEP = 50
"""A copy lies so far beside what it was copied from, in tenths of a millimetre."""


def copied(design: Design, chosen: tuple[str, ...]) -> str:
    """The chosen parts and notes, what sits in the parts, and the runs, seats and interlocks
    among them, as text. EditError where there is nothing to copy."""
    kept = _with_seated(design, set(chosen))
    piece = Design(design.settings)
    parts = [p for p in design.parts if p.id in kept]
    runs = [r for r in design.runs if {r.a.part, r.b.part} <= kept]
    seats = [s for s in design.seats if {s.part, s.host} <= kept]
    locks = [k for k in design.interlocks if {p for p, _, _ in k.excludes} <= kept and _stays(k)]
    notes = [note for note in design.notes if note.id in kept]
    if not parts and not notes:
        raise EditError(say("choose the parts that are to be copied"))
    elements: list[Element] = [*parts, *runs, *seats, *locks, *notes]
    piece.apply(changed("", [(None, element) for element in elements]))
    return dumps(piece).decode("utf-8")


def _stays(lock: Interlock) -> bool:
    """Whether its positions have the same names for a copy: a plug's are called after outlets."""
    return all(selector != PLUG for _, selector, _ in lock.excludes)


def _with_seated(design: Design, kept: set[str]) -> set[str]:
    before = -1
    while len(kept) != before:
        before = len(kept)
        kept |= {
            s.part for s in design.seats if s.host in kept and len(design.seats_of(s.part)) == 1
        }
    return kept


def pasted(
    design: Design, text: str, sheet: int, at: Point | None = None
) -> tuple[Change, tuple[str, ...]]:
    """Put a copied piece down on a sheet, with designations that are free; the ids of its parts.

    ``at``: where its upper left part lies then; None: a little beside where it was copied from,
    and beside earlier copies. EditError where the text is no piece of a drawing.
    """
    try:
        piece = loads_with_warnings(
            text.encode("utf-8"), say("what was copied"), strict=False
        ).design
    except StorageError as fault:
        raise EditError(say("there is nothing on the clipboard that belongs on a sheet")) from fault
    if not piece.parts and not piece.notes:
        raise EditError(say("there is nothing on the clipboard that belongs on a sheet"))
    by = _shift(design, piece, sheet, at)
    elements: list[Element] = [*_counted(piece.parts), *_counted(piece.runs), *piece.seats]
    elements += [*piece.interlocks, *piece.notes]
    ids = {element.id: new_id() for element in elements}
    trial = design.snapshot()
    for element in elements:
        trial.apply(changed("", [(None, _renewed(trial, element, ids, sheet, by))]))
    change = changed(say("paste"), [(None, trial.get(ids[e.id])) for e in elements])
    return change, tuple(ids[e.id] for e in elements if isinstance(e, Part | Note))


def _counted(found: Iterable[_Named]) -> list[_Named]:
    """By designation, W9 before W10, so that the copies are numbered in the same order."""
    return sorted(found, key=lambda item: natural(item.designation))


def _shift(design: Design, piece: Design, sheet: int, at: Point | None) -> Point:
    """How far a piece lies from where it was copied."""
    seated = {seat.part for seat in piece.seats}
    parts = [part for part in piece.parts if part.id not in seated] or piece.parts
    loose: list[Part | Note] = [*parts] if parts else [*piece.notes]
    if at is not None:
        first = min(loose, key=lambda item: (item.y, item.x))
        return at[0] - first.x, at[1] - first.y
    there: list[Part | Note] = [*design.parts, *design.notes]
    taken = {(item.x, item.y) for item in there if item.sheet == sheet}
    step = STEP
    while {(item.x + step, item.y + step) for item in loose} & taken:
        step += STEP
    return step, step


def _renewed(
    trial: Design, element: Element, ids: Mapping[str, str], sheet: int, by: Point
) -> Element:
    match element:
        case Part():
            return _part(trial, element, ids, sheet, by)
        case Run():
            return _run(trial, element, ids, by)
        case Seat():
            return replace(
                element, id=ids[element.id], part=ids[element.part], host=ids[element.host]
            )
        case Interlock():
            moved = tuple((ids[part], name, position) for part, name, position in element.excludes)
            return replace(element, id=ids[element.id], excludes=moved)
        case Note():
            x, y = element.x + by[0], element.y + by[1]
            return replace(element, id=ids[element.id], x=x, y=y, sheet=sheet)
    return element


def _part(trial: Design, part: Part, ids: Mapping[str, str], sheet: int, by: Point) -> Part:
    letters = part.designation.rstrip("0123456789") or trial.kind(part).letters
    return replace(
        part,
        id=ids[part.id],
        designation=next_designation(trial, letters),
        x=part.x + by[0],
        y=part.y + by[1],
        sheet=sheet,
    )


def _run(trial: Design, run: Run, ids: Mapping[str, str], by: Point) -> Run:
    return replace(
        run,
        id=ids[run.id],
        a=replace(run.a, part=ids[run.a.part]),
        b=replace(run.b, part=ids[run.b.part]),
        designation=next_run_designation(trial),
        route=tuple((x + by[0], y + by[1]) for x, y in run.route),
    )
