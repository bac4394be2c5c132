"""Which conductor of a run goes to which pole at its other end."""

from __future__ import annotations

from linework.design.elements import End, Run
from linework.design.model import Design
from linework.wiring import Pole, Terminal, is_ac, is_dc, is_ungrounded

PoleMap = tuple[tuple[Pole, Pole], ...]

_NATURAL = {
    frozenset({Pole.PE, Pole.BODY}),
    frozenset({Pole.PE, Pole.EARTH}),
    frozenset({Pole.BODY, Pole.EARTH}),
}


def terminal_at(design: Design, end: End) -> Terminal | None:
    """The terminal at one end of a run, None where the part does not have it."""
    part = design.part(end.part)
    for terminal in design.kind(part).terminals(design.values(part)):
        if terminal.name == end.terminal:
            return terminal
    return None


def pole_map(design: Design, run: Run) -> PoleMap:
    """The pole map of a run: its own, else the default of its terminals."""
    if run.poles is not None:
        return run.poles
    return design.worked_out(("pole map", run.a, run.b), lambda: _map_of_ends(design, run))


def _map_of_ends(design: Design, run: Run) -> PoleMap:
    a, b = terminal_at(design, run.a), terminal_at(design, run.b)
    return () if a is None or b is None else default_map(a, b)


def default_map(a: Terminal, b: Terminal) -> PoleMap:
    """Poles of the same name meet; a ground wire meets a body or earth. Nothing else is guessed."""
    same = tuple((pole, pole) for pole in a.poles if pole in b.poles)
    if same:
        return same
    return tuple((p, q) for p in a.poles for q in b.poles if frozenset({p, q}) in _NATURAL)


def misfit(a: Terminal, b: Terminal, poles: PoleMap) -> tuple[Pole, Pole] | None:
    """The first pair that may never be joined: direct current to alternating, or an absent pole."""
    for p, q in poles:
        if p not in a.poles or q not in b.poles:
            return p, q
        if (is_ac(p) and is_dc(q)) or (is_dc(p) and is_ac(q)):
            return p, q
    return None


def left_open(a: Terminal, b: Terminal) -> tuple[tuple[Pole, ...], tuple[Pole, ...]]:
    """The ungrounded poles of both ends that the default map joins to nothing.

    Where both ends have some, the default would leave a live conductor unjoined that has a
    place to go: it must be asked which.
    """
    joined = default_map(a, b)
    return (
        tuple(p for p in a.poles if is_ungrounded(p) and p not in {one for one, _ in joined}),
        tuple(q for q in b.poles if is_ungrounded(q) and q not in {other for _, other in joined}),
    )
