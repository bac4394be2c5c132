"""What every mistake is made with: a copy of the design with one thing changed."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from linework.design import Change, Design, EditError, Part, Run
from linework.design.edits import add_part, add_run, rate, rate_run, remove, seat
from linework.design.elements import End
from linework.kinds import Answer
from linework.wiring import Pole
from tests.trial.judge.expand import pairs
from tests.trial.judge.reading import Told
from tests.trial.judge.tables import SIZES, STANDARD

PoleNames = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Mistake:
    """One mistake: its kind, the ids of what it was made at, the design with it."""

    kind: str
    place: tuple[str, ...]
    design: Design


class Made(NamedTuple):
    """A design with a mistake and the ids at which it was made."""

    place: tuple[str, ...]
    design: Design


Maker = Callable[[Design], Iterator[Made]]
Edit = Callable[[Design], Change]


def tried(design: Design, place: tuple[str, ...], *edits: Edit) -> Iterator[Made]:
    """The design after the edits, made on a copy; nothing where one of them cannot be drawn."""
    copy = design.snapshot()
    try:
        for edit in edits:
            copy.apply(edit(copy))
    except EditError:
        return
    if not copy.same_as(design):
        yield Made(place, copy)


def told(item: Part | Run) -> Told:
    """What is told of a part or run."""
    return Told(item, item.kind if isinstance(item, Part) else "")


def parts(design: Design, *kinds: str) -> list[Part]:
    """The parts of some kinds, by designation."""
    found = [part for part in design.parts if part.kind in kinds]
    return sorted(found, key=lambda part: part.designation)


def runs(design: Design) -> list[Run]:
    """All runs by designation."""
    return sorted(design.runs, key=lambda run: run.designation)


def poles_of(design: Design, run: Run) -> PoleNames:
    """The pole map of a run."""
    return tuple(pairs(design, run))


def alternating(design: Design, run: Run) -> bool:
    """Whether a run carries alternating current."""
    return any(p[0] == "L" for p, _ in poles_of(design, run))


def rated(part_id: str, **answers: Answer | None) -> Edit:
    """Ratings of a part."""
    return lambda design: rate(design, part_id, answers)


def rated_run(run_id: str, **answers: Answer | None) -> Edit:
    """Ratings of a run."""
    return lambda design: rate_run(design, run_id, answers)


def gone(*ids: str) -> Edit:
    """Parts or runs taken away."""
    return lambda design: remove(design, ids)


def added(kind: str, name: str, **answers: Answer) -> Edit:
    """A new part."""
    return lambda design: add_part(design, kind, designation=name, part_id=name, ratings=answers)


def seated(part_id: str, host: str, place: str) -> Edit:
    """A part put into a place."""
    return lambda design: seat(design, part_id, host, place)


def joined(a: tuple[str, str], b: tuple[str, str], name: str, poles: str, **told: Answer) -> Edit:
    """A new run; poles as "L>N N"."""
    mapped = tuple((Pole(p), Pole(q or p)) for p, _, q in (w.partition(">") for w in poles.split()))

    def edit(design: Design) -> Change:
        return add_run(
            design,
            End(*a),
            End(*b),
            ratings=told,
            poles=mapped or None,
            designation=name,
            run_id=name,
        )

    return edit


def mapped(run: Run, poles: PoleNames) -> Edit:
    """A run with other poles, whether or not the default would ask."""
    after = replace(run, poles=tuple((Pole(a), Pole(b)) for a, b in poles))
    return lambda design: Change("poles", {run.id: (run, after)})


def moved_end(run: Run, end: str, to: End) -> Edit:
    """A run with one end somewhere else."""
    after = replace(run, a=to) if end == "a" else replace(run, b=to)
    return lambda design: Change("end", {run.id: (run, after)})


def ends(run: Run) -> tuple[str, ...]:
    """A run and the parts at its ends."""
    return (run.id, run.a.part, run.b.part)


def sized(size: str, steps: int) -> str | None:
    """A gauge so many steps thicker (or thinner), as it is typed."""
    at = SIZES.index(size.removesuffix(" AWG")) + steps
    even = [s for s in SIZES if s != "3"]
    if size.removesuffix(" AWG") in even:
        at = even.index(size.removesuffix(" AWG")) + steps
        return f"{even[at]} AWG" if 0 <= at < len(even) else None
    return f"{SIZES[at]} AWG" if 0 <= at < len(SIZES) else None


def standard(amps: float, steps: int) -> str | None:
    """A standard rating so many steps up or down."""
    above = [rated for rated in STANDARD if rated > amps]
    below = [rated for rated in STANDARD if rated < amps]
    found = above[steps - 1 :] if steps > 0 else below[steps:]
    return f"{found[0]} A" if found else None
