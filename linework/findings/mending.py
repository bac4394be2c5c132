"""The ways in which rules mend: every edit that a finding may offer is made here.

A rule says what to change and why that would cure it; it is offered only after it was proven on
a copy (:mod:`linework.advice.mends`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from linework.codes import metric_not_below, size_of
from linework.design import Change, Design, End, Part, PoleMap, Run, Seat, merged
from linework.design.edits import (
    add_part,
    add_run,
    insert_on_run,
    rate,
    rate_run,
    remove,
    seat,
    set_poles,
    unseat,
)
from linework.findings.lengths import length_text
from linework.findings.model import Mend
from linework.findings.view import View
from linework.kinds import Answer, Remedy, remedy
from linework.quantity import write
from linework.words import say

Answers = Mapping[str, Answer | None]
"""Ratings to set; None takes the answer away."""

_LINK_M, _TO_ROD_M = 0.3048, 3.048
"""A jumper as long as a link of which nothing is said, and the conductor to a rod; the person gives
their true lengths."""


def change_part(title: str, part: str, answers: Answers) -> Mend:
    """Other ratings of a part."""
    return Mend(title, lambda design: rate(design, part, answers))


def change_run(title: str, run: str, answers: Answers) -> Mend:
    """Other ratings of a run."""
    return Mend(title, lambda design: rate_run(design, run, answers))


def change_poles(title: str, run: str, poles: PoleMap) -> Mend:
    """Other conductors of a run, or other terminals for them."""
    return Mend(title, lambda design: set_poles(design, run, poles))


def resize(view: View, element: str, size: str, key: str = "size") -> Mend | None:
    """A run, or the cord of a part, in another size, as its own is written; None where no such size
    is made."""
    values = view.values(element) if view.run(element) is None else view.run_values(element)
    if (values.text(key) or values.text("size")).endswith("mm2"):
        metric = metric_not_below(size_of(size).cmil)
        if metric is None:
            return None
        size = metric
    title = say("Make {what} {size}", what=view.name(element), size=size)
    change = change_part if view.run(element) is None else change_run
    return change(title, element, {key: size})


def rerate(view: View, device: str, amps: float) -> Mend:
    """A device of another rating in ampere."""
    title = say("Make {what} {amps} A", what=view.name(device), amps=f"{amps:g}")
    return change_part(title, device, {"rating": write(amps, "current")})


def in_turn(mends: Iterable[Mend]) -> Mend | None:
    """Several ways, each tried where those before it did not prove themselves; None of none."""
    first: Mend | None = None
    for mend in mends:
        first = mend if first is None else first.then(mend)
    return first


def class_t(view: View, fuse: str, forgotten: tuple[str, ...]) -> Mend:
    """A fuse of class T instead; what was marked on the old one is ``forgotten``."""
    title = say("Make {what} a fuse of class T", what=view.name(fuse))
    return change_part(title, fuse, {"type": "class_t", **dict.fromkeys(forgotten)})


def join(title: str, a: End, b: End, ratings: Mapping[str, Answer]) -> Mend:
    """A new run between two terminals."""
    return Mend(title, lambda design: add_run(design, a, b, ratings=ratings))


def link(title: str, a: End, b: End, size: str, poles: PoleMap | None = None) -> Mend:
    """A new jumper between two terminals, short."""
    return Mend(title, lambda design: _linked(design, (a, b), size, _LINK_M, poles))


def _linked(
    design: Design, ends: tuple[End, End], size: str, length_m: float, poles: PoleMap | None
) -> Change:
    ratings = {"size": size, "length": length_text(design, length_m), "installation": "jumper"}
    return add_run(design, *ends, ratings=ratings, poles=poles)


def take_away(title: str, run: str) -> Mend:
    """A run removed."""
    return Mend(title, lambda design: remove(design, [run]))


def reattach(title: str, run: Run, stays: End, goes: End) -> Mend:
    """A run that keeps one of its ends and its ratings, with its other end somewhere else."""
    return Mend(title, lambda design: _reattached(design, run, stays, goes))


def _reattached(design: Design, run: Run, stays: End, goes: End) -> Change:
    gone = remove(design, [run.id])
    copy = design.snapshot()
    copy.apply(gone)
    return merged(gone.title, gone, add_run(copy, stays, goes, ratings=run.ratings))


def together(title: str, done: str, mends: Sequence[Mend]) -> Mend:
    """Several that touch different elements, as one; ``done``: what the history calls it."""
    return Mend(title, lambda design: merged(done, *(mend.edit(design) for mend in mends)))


def move(title: str, seated: Seat, host: str, place: str) -> Mend:
    """A part put into another place."""
    return Mend(title, lambda design: _moved(design, seated, host, place))


def _moved(design: Design, seated: Seat, host: str, place: str) -> Change:
    trial = design.snapshot()
    out = unseat(trial, seated.id)
    trial.apply(out)
    return merged(out.title, out, seat(trial, seated.part, host, place))


def put_into(
    title: str,
    run: Run,
    kind: str,
    ratings: Mapping[str, Answer],
    lengths_m: tuple[float, float],
) -> Mend:
    """A new part in a run, which is cut in two round it; ``lengths_m`` of the piece at its end a,
    and the rest."""
    return Mend(title, lambda design: _inserted(design, run, kind, ratings, lengths_m))


def _inserted(
    design: Design,
    run: Run,
    kind: str,
    ratings: Mapping[str, Answer],
    lengths_m: tuple[float, float],
) -> Change:
    """The part lies between the parts at the run's ends."""
    ends = [design.part(end.part) for end in (run.a, run.b)]
    middle = (ends[0].x + ends[1].x) // 50 * 25, (ends[0].y + ends[1].y) // 50 * 25
    inserted = insert_on_run(design, run.id, kind, at=middle, ratings=ratings)
    copy = design.snapshot()
    copy.apply(inserted)
    added = next(new for new in _new(inserted) if isinstance(new, Run))
    change = merged(inserted.title, inserted)
    for run_id, length in zip((run.id, added.id), lengths_m, strict=True):
        step = rate_run(copy, run_id, {"length": length_text(design, length)})
        copy.apply(step)
        change = merged(inserted.title, change, step)
    return change


def _new(change: Change) -> list[Part | Run]:
    return [
        now
        for before, now in change.pairs.values()
        if before is None and isinstance(now, Part | Run)
    ]


def shift(title: str, part: str, lengths_m: Mapping[str, float]) -> Mend:
    """A part moved along its conductors: the runs at it become longer and shorter, by id."""
    return Mend(title, lambda design: _shifted(design, part, lengths_m))


def _shifted(design: Design, part: str, lengths_m: Mapping[str, float]) -> Change:
    steps = [
        rate_run(design, run, {"length": length_text(design, meters)})
        for run, meters in lengths_m.items()
    ]
    return merged(say("move {what}", what=design.part(part).designation), *steps)


# joining to ground

TO_ROD = "6 AWG"
"""The size of a conductor to a rod: never more than 6 AWG copper is asked for (250.66(A))."""


def only_board(view: View) -> Part | None:
    """The only panel with a ground bar, None where there are several or none."""
    boards = [
        part
        for part in view.design.parts
        if view.kind(part.id).board and view.values(part.id).pick("circuit") != "dc"
    ]
    return boards[0] if len(boards) == 1 else None


def tie(title: str, board: Part, electrode: str) -> Mend:
    """An electrode joined to the ground bar of a board."""
    return Mend(title, lambda design: _tied(design, board.id, electrode))


def _tied(design: Design, board: str, electrode: str) -> Change:
    ends = End(board, "ground"), End(electrode, "ground")
    return _linked(design, ends, TO_ROD, _TO_ROD_M, None)


def plant(title: str, board: Part, below: int) -> Mend:
    """A new electrode, ``below`` a board in tenths of a millimetre and joined to its ground bar."""
    return Mend(title, lambda design: _planted(design, board, below))


def _planted(design: Design, board: Part, below: int) -> Change:
    at = (board.x, board.y + below)
    placed = add_part(design, remedy(Remedy.ELECTRODE).key, at=at, sheet=board.sheet)
    copy = design.snapshot()
    copy.apply(placed)
    electrode = next(new for new in _new(placed) if isinstance(new, Part))
    return merged(placed.title, placed, _tied(copy, board.id, electrode.id))
