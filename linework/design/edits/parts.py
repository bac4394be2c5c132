"""Edits of parts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from linework.design.change import Change, EditError, Pair, changed
from linework.design.elements import Part, Run, new_id
from linework.design.model import Design
from linework.design.names import next_designation
from linework.kinds import Answer, Rating, Ratings, kind_of
from linework.words import say


def checked_ratings(declared: Mapping[str, Rating], answers: Mapping[str, Answer | None]) -> None:
    """EditError unless every answer fits its declaration."""
    for key, answer in answers.items():
        rating = declared.get(key)
        if rating is None:
            raise EditError(say("there is no rating '{key}' here", key=key))
        if answer is not None:
            try:
                rating.check(answer)
            except ValueError as fault:
                raise EditError(str(fault)) from fault


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
    declared = kind_of(kind)
    checked_ratings(declared.declared, ratings or {})
    name = designation or next_designation(design, declared.letters)
    _check_free(design, name, "")
    part = Part(
        part_id or new_id(),
        kind,
        name,
        Ratings.of(ratings or {}),
        title,
        at[0],
        at[1],
        turn % 4,
        False,
        sheet,
    )
    return changed(say("add {what}", what=name), [(None, part)])


def rate(design: Design, part_id: str, answers: Mapping[str, Answer | None]) -> Change:
    """Answers set, or taken away (None), on one part."""
    part = design.part(part_id)
    checked_ratings(design.kind(part).declared, answers)
    after = part.rated(**dict(answers))
    _check_terminals_kept(design, part, after)
    return changed(say("rate {what}", what=part.designation), [(part, after)])


def _check_terminals_kept(design: Design, before: Part, after: Part) -> None:
    """A rating that takes a terminal away is refused while a run hangs on it."""
    names = {t.name for t in design.kind(after).terminals(design.values(after))}
    for run in design.runs_at(before.id):
        for end in (run.a, run.b):
            if end.part == before.id and end.terminal not in names:
                raise EditError(
                    say(
                        "{what} would lose its terminal '{terminal}' while a run ends there; remove the run first",
                        what=before.designation,
                        terminal=end.terminal,
                    )
                )


def rename(design: Design, part_id: str, designation: str) -> Change:
    """Another reference designation, which must be free."""
    part = design.part(part_id)
    name = designation.strip()
    if not name:
        raise EditError(say("a part needs a reference designation, for example G1"))
    _check_free(design, name, part_id)
    return changed(
        say("rename {what}", what=part.designation), [(part, replace(part, designation=name))]
    )


def retitle(design: Design, part_id: str, title: str) -> Change:
    """The words beside the designation ("vaccine refrigerator")."""
    part = design.part(part_id)
    return changed(
        say("title of {what}", what=part.designation), [(part, replace(part, title=title.strip()))]
    )


def _check_free(design: Design, name: str, but: str) -> None:
    for part in design.parts:
        if part.designation == name and part.id != but:
            raise EditError(say("the designation {name} is taken; choose another", name=name))


def move_parts(design: Design, part_ids: Iterable[str], dx: int, dy: int) -> Change:
    """Parts, and the bends of runs wholly among them, shifted by tenths of a millimetre."""
    ids = set(part_ids)
    pairs: list[Pair] = []
    for part_id in sorted(ids):
        part = design.part(part_id)
        pairs.append((part, replace(part, x=part.x + dx, y=part.y + dy)))
    for run in design.runs:
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
        part = design.part(part_id)
        after = replace(part, turn=(part.turn + quarters) % 4, mirror=part.mirror != flip)
        pairs.append((part, after))
    return changed(say("turn"), pairs)


def remove(design: Design, element_ids: Iterable[str]) -> Change:
    """Elements taken away, with the runs and seats that would lose a part."""
    gone = set(element_ids) - {"settings"}
    for element_id in list(gone):
        if isinstance(design.get(element_id), Part):
            gone |= {run.id for run in design.runs_at(element_id)}
            gone |= {
                seat.id for seat in (*design.seats_of(element_id), *design.seated_in(element_id))
            }
    pairs: list[Pair] = [(design.get(key), None) for key in sorted(gone)]
    pairs += _shortened_interlocks(design, gone)
    names = [e.designation for e, _ in pairs if isinstance(e, Part | Run) and e.designation]
    return changed(say("remove {what}", what=", ".join(names[:3]) or say("run")), pairs)


def _shortened_interlocks(design: Design, gone: set[str]) -> list[Pair]:
    pairs: list[Pair] = []
    for lock in design.interlocks:
        if lock.id in gone:
            continue
        kept = tuple(item for item in lock.excludes if item[0] not in gone)
        if kept != lock.excludes:
            pairs.append((lock, replace(lock, excludes=kept) if len(kept) > 1 else None))
    return pairs
