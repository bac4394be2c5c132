"""Edits of parts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from linework.design.change import Change, EditError, Pair, changed
from linework.design.edits.found import guessed, part_in
from linework.design.edits.locks import relabelled, without
from linework.design.edits.rating import checked_ratings, still_fits
from linework.design.elements import Note, Part, Run, new_id
from linework.design.model import Design
from linework.design.names import next_designation
from linework.kinds import Answer, Ratings, is_known, kind_of, kinds
from linework.words import say


def add_part(
    design: Design,
    kind: str,
    *,
    designation: str = "",
    at: tuple[int, int] = (0, 0),
    title: str = "",
    turn: int = 0,
    sheet: int = 1,
    ratings: Mapping[str, Answer] | None = None,
    part_id: str = "",
) -> Change:
    """A new part of a kind; without a designation it gets the next free one of its class."""
    if not is_known(kind):
        text = say("there is no kind of part '{kind}'", kind=kind)
        raise EditError(guessed(text, kind, kinds()))
    declared = kind_of(kind)
    checked_ratings(declared.declared, ratings or {}, design.settings.family)
    name = designation.strip() or next_designation(design, declared.letters)
    _check_free(design, name, "")
    part = Part(
        part_id or new_id(),
        kind,
        name,
        Ratings.of(ratings or {}),
        title.strip(),
        at[0],
        at[1],
        turn % 4,
        False,
        sheet,
    )
    return changed(say("add {what}", what=name), [(None, part)])


def rate(design: Design, part_id: str, answers: Mapping[str, Answer | None]) -> Change:
    """Answers set, or taken away (None), on one part. Refused where a run, a seat or an interlock
    would no longer fit."""
    part = part_in(design, part_id)
    checked_ratings(design.kind(part).declared, answers, design.settings.family)
    after = replace(part, ratings=part.ratings.with_answers(answers))
    still_fits(design, after)
    return changed(say("rate {what}", what=part.designation), [(part, after)])


def rename(design: Design, part_id: str, designation: str) -> Change:
    """Another reference designation, which must be free; interlocks follow it."""
    part = part_in(design, part_id)
    name = designation.strip()
    if not name:
        raise EditError(say("a part needs a reference designation, for example G1"))
    _check_free(design, name, part_id)
    return changed(
        say("rename {what}", what=part.designation),
        [(part, replace(part, designation=name)), *relabelled(design, part, name)],
    )


def retitle(design: Design, part_id: str, title: str) -> Change:
    """The words beside the designation ("vaccine refrigerator")."""
    part = part_in(design, part_id)
    return changed(
        say("title of {what}", what=part.designation), [(part, replace(part, title=title.strip()))]
    )


def _check_free(design: Design, name: str, but: str) -> None:
    if any(part_id != but for part_id in design.named(Part, name)):
        raise EditError(say("the designation {name} is taken; choose another", name=name))


def move_parts(design: Design, part_ids: Iterable[str], dx: int, dy: int) -> Change:
    """Parts and notes, and the bends of runs wholly among them, shifted by tenths of a
    millimetre."""
    ids = set(part_ids)
    pairs: list[Pair] = []
    runs: dict[str, Run] = {}
    for element_id in sorted(ids):
        found = design.get(element_id)
        if isinstance(found, Note):
            pairs.append((found, replace(found, x=found.x + dx, y=found.y + dy)))
            continue
        part = part_in(design, element_id)
        pairs.append((part, replace(part, x=part.x + dx, y=part.y + dy)))
        runs.update({run.id: run for run in design.runs_at(element_id)})
    for run in runs.values():
        if run.route and run.a.part in ids and run.b.part in ids:
            route = tuple((x + dx, y + dy) for x, y in run.route)
            pairs.append((run, replace(run, route=route)))
    return changed(say("move"), pairs)


def turn_parts(
    design: Design, part_ids: Iterable[str], quarters: int = 1, flip: bool = False
) -> Change:
    """Parts turned clockwise by quarters, or mirrored."""
    pairs: list[Pair] = []
    for part_id in sorted(set(part_ids)):
        part = part_in(design, part_id)
        after = replace(part, turn=(part.turn + quarters) % 4, mirror=part.mirror != flip)
        pairs.append((part, after))
    return changed(say("turn"), pairs)


def remove(design: Design, element_ids: Iterable[str]) -> Change:
    """Elements taken away, with the runs and seats that would lose a part and the interlocked
    positions that would lose their meaning. What is gone already is passed over."""
    gone = {key for key in element_ids if key in design} - {"settings"}
    for element_id in list(gone):
        if isinstance(design.get(element_id), Part):
            gone |= {run.id for run in design.runs_at(element_id)}
            gone |= {seat.id for seat in design.seats_of(element_id)}
            gone |= {seat.id for seat in design.seated_in(element_id)}
    pairs: list[Pair] = [(design.get(key), None) for key in sorted(gone)]
    names = [e.designation for e, _ in pairs if isinstance(e, Part | Run) and e.designation]
    title = say("remove {what}", what=", ".join(names[:3])) if names else say("remove")
    return changed(title, [*pairs, *without(design, gone)])
