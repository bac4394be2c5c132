"""The cases of what is not known: every combination of possibilities, and what fits in none."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice, product

from linework.design.elements import Part, Run, Seat
from linework.design.fits import cannot_join, cannot_sit, must_ask
from linework.design.model import Design, Settled
from linework.design.names import run_name
from linework.design.poles import terminal_at
from linework.kinds import RUN_RATINGS, is_known
from linework.words import say, say_within

_MOST_CASES = 64


def unknowns(
    design: Design, owners: Iterable[Part | Run]
) -> dict[tuple[str, str], tuple[str, ...]]:
    """(id, rating key) -> its possibilities, for everything that is not known of these."""
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for owner in owners:
        values = design.run_values(owner) if isinstance(owner, Run) else design.values(owner)
        for key in values.declared:
            options = values.open_options(key)
            if options:
                found[owner.id, key] = options
    return found


def cases_of(design: Design, owners: Iterable[Part | Run]) -> Iterator[Settled]:
    """Every combination of what is not known of these parts and runs, up to 64: one where all is
    known."""
    open_ones = unknowns(design, owners)
    chosen = islice(product(*open_ones.values()), _MOST_CASES)
    return (dict(zip(open_ones, options, strict=True)) for options in chosen)


def case_text(design: Design, settled: Settled) -> str:
    """A case in words: "G1 neutral: floating; W2 material: copper"."""
    return "; ".join(
        _taken(design, owner, key, value) for (owner, key), value in sorted(settled.items())
    )


def _taken(design: Design, owner: str, key: str, value: str) -> str:
    element, family = design.get(owner), design.settings.family
    if isinstance(element, Run):
        name, rating = run_name(design, owner), RUN_RATINGS[key]
    else:
        part = design.part(owner)
        name, rating = part.designation, design.kind(part).declared[key]
    label = next((c.label for c in rating.choices if c.value == value), value)
    return f"{name} {say_within(rating.label, family=family)}: {say(label, family=family)}"


def misfits(design: Design) -> Iterator[tuple[Run | Seat, Settled, str]]:
    """Runs and seats whose conductors do not all fit, with the reason in the first such case and
    the unknowns on which it hangs: none where nothing else fits either.

    Parts of unknown kinds have nothing that could fit or not.
    """
    joints: list[Run | Seat] = [*design.runs, *design.seats]
    for joint in joints:
        ends = (joint.a.part, joint.b.part) if isinstance(joint, Run) else (joint.part, joint.host)
        parts = [design.part(end) for end in ends]
        if all(is_known(part.kind) for part in parts):
            told = [(case, _misfit(design, joint, case)) for case in cases_of(design, parts)]
            faulty = [(case, fault) for case, fault in told if fault]
            fitting = [case for case, fault in told if not fault]
            for case, fault in faulty[:1]:
                yield joint, _deciding(case, fitting), fault


def _deciding(case: Settled, fitting: list[Settled]) -> Settled:
    """What of a case would have to be otherwise for it to be among those that fit."""
    differ = [{key for key in case if case[key] != other[key]} for other in fitting]
    nearest = min(differ, key=len, default=set())
    return {key: value for key, value in case.items() if key in nearest}


def _misfit(design: Design, joint: Run | Seat, case: Settled) -> str:
    read = design.in_case(case)
    return _run_misfit(read, joint) if isinstance(joint, Run) else _seat_misfit(read, joint)


def _run_misfit(design: Design, run: Run) -> str:
    names = design.part(run.a.part).designation, design.part(run.b.part).designation
    a, b = terminal_at(design, run.a), terminal_at(design, run.b)
    fault = cannot_join(a, b, run.poles, names)
    if fault or run.poles is not None or a is None or b is None:
        return fault
    return must_ask(a, b, names)


def _seat_misfit(design: Design, seat: Seat) -> str:
    part, host = design.part(seat.part), design.part(seat.host)
    names = part.designation, host.designation
    offered = design.kind(host).places(design.values(host))
    place = next((place for place in offered if place.name == seat.place), None)
    return cannot_sit(design.kind(part), design.values(part), place, names, seat.place)
