"""Edits of runs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from linework.design.change import Change, EditError, changed
from linework.design.edits.parts import add_part, checked_ratings
from linework.design.elements import End, Part, Run, new_id
from linework.design.model import Design
from linework.design.names import next_run_designation
from linework.design.poles import PoleMap, default_map, misfit, terminal_at
from linework.kinds import RUN_RATINGS, Answer, Ratings, kind_of
from linework.words import say


def add_run(
    design: Design,
    a: End,
    b: End,
    *,
    ratings: Mapping[str, Answer] | None = None,
    poles: PoleMap | None = None,
    designation: str = "",
    run_id: str = "",
) -> Change:
    """A run between two terminals; refused, with the reason, where their poles do not fit."""
    refusal = why_not(design, a, b, poles)
    if refusal:
        raise EditError(refusal)
    checked_ratings(RUN_RATINGS, ratings or {})
    run = Run(
        run_id or new_id(),
        a,
        b,
        designation or next_run_designation(design),
        poles,
        Ratings.of(ratings or {}),
    )
    return changed(say("join {what}", what=run.designation), [(None, run)])


def why_not(design: Design, a: End, b: End, poles: PoleMap | None = None) -> str:
    """The reason why two terminals cannot be joined, empty where they can."""
    if a == b or (a.part == b.part):
        return say("a run needs two different parts")
    first, second = terminal_at(design, a), terminal_at(design, b)
    if first is None or second is None:
        return say("there is no terminal of this name")
    names = tuple(design.part(end.part).designation for end in (a, b))
    if poles is None and not default_map(first, second):
        return say(
            "{a} has {p} and {b} has {q}: no conductor fits both; say which goes where",
            a=names[0],
            b=names[1],
            p=", ".join(first.poles),
            q=", ".join(second.poles),
        )
    bad = misfit(first, second, poles or ())
    if bad:
        return say("{p} of {a} cannot go to {q} of {b}", a=names[0], b=names[1], p=bad[0], q=bad[1])
    return ""


def rate_run(design: Design, run_id: str, answers: Mapping[str, Answer | None]) -> Change:
    """Answers set, or taken away (None), on one run."""
    run = _run(design, run_id)
    checked_ratings(RUN_RATINGS, answers)
    ratings = run.ratings
    for key, answer in answers.items():
        ratings = ratings.with_answer(key, answer)
    return changed(say("rate {what}", what=run.designation), [(run, replace(run, ratings=ratings))])


def set_poles(design: Design, run_id: str, poles: PoleMap | None) -> Change:
    """Another pole map; None is the default."""
    run = _run(design, run_id)
    first, second = terminal_at(design, run.a), terminal_at(design, run.b)
    bad = misfit(first, second, poles) if poles and first and second else None
    if bad:
        raise EditError(say("{p} cannot go to {q} here", p=bad[0], q=bad[1]))
    return changed(say("wires of {what}", what=run.designation), [(run, replace(run, poles=poles))])


def reroute(design: Design, run_id: str, route: Sequence[tuple[int, int]]) -> Change:
    """The bends of a run, in tenths of a millimetre."""
    run = _run(design, run_id)
    return changed(
        say("route of {what}", what=run.designation), [(run, replace(run, route=tuple(route)))]
    )


def insert_on_run(
    design: Design,
    run_id: str,
    kind: str,
    *,
    at: tuple[int, int],
    ratings: Mapping[str, Answer] | None = None,
) -> Change:
    """A new part put into a run: the run becomes two, both as the old one was."""
    run = _run(design, run_id)
    added = add_part(design, kind, at=at, ratings=ratings)
    part = next(new for _, new in added.pairs.values() if isinstance(new, Part))
    into, out = _way_through(design, part, run)
    first = replace(run, b=End(part.id, into), route=())
    second = replace(
        run, id=new_id(), a=End(part.id, out), designation=next_run_designation(design), route=()
    )
    return changed(
        say("insert {what}", what=part.designation), [(None, part), (run, first), (None, second)]
    )


def _way_through(design: Design, part: Part, run: Run) -> tuple[str, str]:
    """The two terminals of a part by which a run can pass through it."""
    kind = kind_of(part.kind)
    values = kind.values(part.ratings, None, design.setting_answers())
    ports = [t for t in kind.terminals(values) if t.role != "tie"]
    outer = terminal_at(design, run.a)
    if len(ports) < 2 or outer is None or not default_map(outer, ports[0]):
        raise EditError(say("{what} cannot be put into this run", what=part.designation))
    return ports[0].name, ports[1].name


def _run(design: Design, run_id: str) -> Run:
    found = design.get(run_id)
    if not isinstance(found, Run):
        raise EditError(say("this run is no longer there"))
    return found
