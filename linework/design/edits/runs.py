"""Edits of runs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from linework.design.change import Change, EditError, changed
from linework.design.edits.found import part_in, run_in
from linework.design.edits.rating import checked_ratings
from linework.design.elements import End, Run, new_id
from linework.design.fits import cannot_join, must_ask
from linework.design.model import Design
from linework.design.names import next_run_designation
from linework.design.poles import PoleMap, terminal_at
from linework.kinds import RUN_RATINGS, Answer, Ratings
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
    checked_ratings(RUN_RATINGS, ratings or {}, design.settings.family)
    name = designation.strip() or next_run_designation(design)
    _check_free(design, name, "")
    run = Run(run_id or new_id(), a, b, name, poles, Ratings.of(ratings or {}))
    return changed(say("join {what}", what=run.designation), [(None, run)])


def why_not(design: Design, a: End, b: End, poles: PoleMap | None = None) -> str:
    """The reason why two terminals cannot be joined so, empty where they can.

    Without a pole map that is also the case where the default would have to guess to which hot
    conductor another belongs. EditError if one of the parts is gone.
    """
    refusal = why_never(design, a, b, poles)
    if refusal or poles is not None:
        return refusal
    first, second = terminal_at(design, a), terminal_at(design, b)
    return must_ask(first, second, _names(design, a, b)) if first and second else ""


def why_never(design: Design, a: End, b: End, poles: PoleMap | None) -> str:
    """The reason why no run may lie so, however it came to it. EditError if a part is gone."""
    names = _names(design, a, b)
    if a.part == b.part:
        return say("a run needs two different parts")
    return cannot_join(terminal_at(design, a), terminal_at(design, b), poles, names)


def _names(design: Design, a: End, b: End) -> tuple[str, str]:
    return part_in(design, a.part).designation, part_in(design, b.part).designation


def rate_run(design: Design, run_id: str, answers: Mapping[str, Answer | None]) -> Change:
    """Answers set, or taken away (None), on one run."""
    run = run_in(design, run_id)
    checked_ratings(RUN_RATINGS, answers, design.settings.family)
    after = replace(run, ratings=run.ratings.with_answers(answers))
    return changed(say("rate {what}", what=run.designation), [(run, after)])


def rename_run(design: Design, run_id: str, designation: str) -> Change:
    """Another designation, which must be free."""
    run = run_in(design, run_id)
    name = designation.strip()
    if not name:
        raise EditError(say("a run needs a designation, for example W1"))
    _check_free(design, name, run_id)
    return changed(
        say("rename {what}", what=run.designation), [(run, replace(run, designation=name))]
    )


def _check_free(design: Design, name: str, but: str) -> None:
    if any(run_id != but for run_id in design.named(Run, name)):
        raise EditError(say("the designation {name} is taken; choose another", name=name))


def set_poles(design: Design, run_id: str, poles: PoleMap | None) -> Change:
    """Another pole map; None is the default."""
    run = run_in(design, run_id)
    refusal = why_not(design, run.a, run.b, poles)
    if refusal:
        raise EditError(refusal)
    return changed(say("wires of {what}", what=run.designation), [(run, replace(run, poles=poles))])


def reroute(design: Design, run_id: str, route: Sequence[tuple[int, int]]) -> Change:
    """The bends of a run, in tenths of a millimetre."""
    run = run_in(design, run_id)
    return changed(
        say("route of {what}", what=run.designation), [(run, replace(run, route=tuple(route)))]
    )
