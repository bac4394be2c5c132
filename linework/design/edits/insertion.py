"""A part put into a run."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from linework.design.change import Change, EditError, changed
from linework.design.edits.found import run_in
from linework.design.edits.parts import add_part
from linework.design.elements import End, Part, Run, new_id
from linework.design.fits import cannot_join
from linework.design.model import Design
from linework.design.names import next_run_designation
from linework.design.poles import PoleMap, default_map, pole_map, terminal_at
from linework.kinds import Answer, circuit_for, kind_of
from linework.wiring import Terminal
from linework.words import say


def insert_on_run(
    design: Design,
    run_id: str,
    kind: str,
    *,
    at: tuple[int, int],
    ratings: Mapping[str, Answer] | None = None,
) -> Change:
    """A new part put into a run, which becomes two.

    The new part carries the conductors of the run (its circuit is chosen by them where it is not
    given) and lies with its input to the end the power comes from. Both runs are as the old one
    was, but for their length: how it is shared is not known, so it is asked anew. Crossed
    conductors and a cut one stay on one side only.
    """
    run = run_in(design, run_id)
    carried = pole_map(design, run)
    answers = _with_circuit(kind, carried, ratings or {})
    sheet = design.part(run.a.part).sheet
    added = add_part(design, kind, at=at, sheet=sheet, ratings=answers)
    part = next(new for _, new in added.pairs.values() if isinstance(new, Part))
    near, far = _ports(design, part, run)
    straight = tuple(dict.fromkeys((p, p) for p, _ in carried))
    kept = run.ratings.with_answer("length", None)
    first = replace(
        run,
        b=End(part.id, near.name),
        poles=_poles(part, terminal_at(design, run.a), near, straight),
        ratings=kept,
        route=(),
    )
    second = replace(
        run,
        id=new_id(),
        a=End(part.id, far.name),
        designation=next_run_designation(design),
        poles=_poles(part, far, terminal_at(design, run.b), carried),
        ratings=kept.with_answer("broken", None),
        route=(),
        extra=(),
    )
    return changed(
        say("insert {what}", what=part.designation), [(None, part), (run, first), (None, second)]
    )


def _with_circuit(
    kind: str, carried: PoleMap, ratings: Mapping[str, Answer]
) -> Mapping[str, Answer]:
    """The answers, with the circuit of the run's conductors where the kind asks for one."""
    asked = kind_of(kind).declared.get("circuit")
    if "circuit" in ratings or asked is None:
        return ratings
    circuit = circuit_for(p for p, _ in carried)
    fits = circuit in {choice.value for choice in asked.choices}
    return ratings if circuit is None or not fits else {**ratings, "circuit": circuit}


def _ports(design: Design, part: Part, run: Run) -> tuple[Terminal, Terminal]:
    """The terminals at which the first and the second run end: input first where power flows
    from the run's end a to its end b, output first where it flows back."""
    kind = kind_of(part.kind)
    values = kind.values(part.ratings, None, design.setting_answers())
    terminals = kind.terminals(values)
    into = _of_role(terminals, "in")
    out = _of_role(tuple(t for t in terminals if t is not into), "out")
    if into is None or out is None or kind.plugs:
        raise EditError(say("{what} cannot be put into a run", what=part.designation))
    a, b = terminal_at(design, run.a), terminal_at(design, run.b)
    back = a is not None and b is not None and (a.role, b.role) in _BACKWARDS
    return (out, into) if back else (into, out)


_BACKWARDS = {("in", "out"), ("in", "both"), ("both", "out")}
"""Roles of a run's ends a and b between which power flows from b to a."""


def _of_role(terminals: tuple[Terminal, ...], role: str) -> Terminal | None:
    exact = (t for t in terminals if t.role == role)
    return next(exact, None) or next((t for t in terminals if t.role == "both"), None)


def _poles(part: Part, a: Terminal | None, b: Terminal | None, wanted: PoleMap) -> PoleMap | None:
    """The pole map of one of the two runs; None where the default says the same."""
    refusal = cannot_join(a, b, wanted, (say("one end"), say("the other")))
    if refusal:
        raise EditError(
            say("{what} cannot be put into this run: {why}", what=part.designation, why=refusal)
        )
    if a is not None and b is not None and sorted(default_map(a, b)) == sorted(wanted):
        return None
    return wanted
