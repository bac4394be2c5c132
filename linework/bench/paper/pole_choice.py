"""Which ways of joining the poles of two terminals are sensible, where nothing may be guessed."""

from __future__ import annotations

from dataclasses import dataclass

from linework.bench.paper.edits import circuit_for, circuit_step, is_fresh
from linework.design import Design, End, PoleMap, default_map, terminal_at
from linework.design.edits.runs import why_never
from linework.design.poles import left_open
from linework.wiring import Pole, Terminal, is_ungrounded
from linework.words import N_, say

_NAMES: dict[Pole, str] = {
    Pole.L: N_("{hot}"),
    Pole.N: N_("{neutral}"),
    Pole.PE: N_("{ground_wire}"),
    Pole.POS: N_("plus"),
    Pole.NEG: N_("minus"),
    Pole.BODY: N_("chassis or hull"),
    Pole.EARTH: N_("earth"),
}

_BONDS = (
    (Pole.PE, Pole.BODY),
    (Pole.N, Pole.PE),
    (Pole.N, Pole.BODY),
    (Pole.NEG, Pole.BODY),
    (Pole.NEG, Pole.PE),
)
"""Single conductors that people join on purpose; which of them is meant must be asked."""


@dataclass(frozen=True)
class PoleChoice:
    """One way of joining two terminals, as it is offered.

    ``poles`` None: by the same names. ``circuit``: the part that takes another circuit for it, and
    which.
    """

    label: str
    poles: PoleMap | None = None
    circuit: tuple[str, str] | None = None

    @property
    def is_plain(self) -> bool:
        """Whether like meets like, so that nobody needs to be asked if there is no other way."""
        return self.poles is None


def pole_choices(design: Design, a: End, b: End) -> tuple[PoleChoice, ...]:
    """Every sensible way of joining two terminals, the plainest first; empty if there is none.

    See :func:`plain_choice` for what may be taken without asking.
    """
    one, other = terminal_at(design, a), terminal_at(design, b)
    if one is None or other is None or a.part == b.part:
        return ()
    adapted = circuit_step(design, a, b)
    if adapted is not None:
        return (PoleChoice(_circuit_label(design, *adapted), None, adapted),)
    if _is_tie(one) or _is_tie(other):
        return _tie_choices(design, one, other)
    plain = default_map(one, other)
    if plain and not all(left_open(one, other)):
        return (PoleChoice(map_label(design, plain)),)
    return (*_wider(design, a, b), *_legs(design, one, other, plain))


def plain_choice(choices: tuple[PoleChoice, ...]) -> PoleChoice | None:
    """The one way that may be taken without asking: there is no other, and like meets like."""
    return choices[0] if len(choices) == 1 and choices[0].is_plain else None


def why_not_joined(design: Design, a: End, b: End) -> str:
    """The reason why there is no sensible way of joining two terminals, "" where there is one."""
    if pole_choices(design, a, b):
        return ""
    names = (design.part(a.part).designation, design.part(b.part).designation)
    return why_never(design, a, b, None) or say(
        "no {hot} of {a} fits {b}", family=design.settings.family, a=names[0], b=names[1]
    )


def _is_tie(terminal: Terminal) -> bool:
    return terminal.role == "tie"


def _tie_choices(design: Design, one: Terminal, other: Terminal) -> tuple[PoleChoice, ...]:
    """At a grounding terminal one conductor arrives: which one?"""
    plain = default_map(one, other)
    found = [PoleChoice(map_label(design, plain))] if plain else []
    for p in one.poles:
        for q in other.poles:
            if ((p, q) in _BONDS or (q, p) in _BONDS) and ((p, q),) != plain:
                pair = ((p, q),)
                found.append(PoleChoice(map_label(design, pair), pair))
    return tuple(found)


def _legs(design: Design, one: Terminal, other: Terminal, plain: PoleMap) -> tuple[PoleChoice, ...]:
    """The single line of one end on each leg of the other."""
    found: list[PoleChoice] = []
    if not plain or (Pole.N in one.poles) != (Pole.N in other.poles):
        return ()
    for p in one.poles:
        for q in other.poles:
            if is_ungrounded(p) and is_ungrounded(q) and p != q and Pole.L in (p, q):
                pairs = ((p, q), *plain)
                found.append(PoleChoice(map_label(design, pairs), pairs))
    return tuple(found)


def _wider(design: Design, a: End, b: End) -> tuple[PoleChoice, ...]:
    """A part on which nothing hangs yet takes the circuit of the other end."""
    found: list[PoleChoice] = []
    for end, across in ((b, a), (a, b)):
        part, there = design.part(end.part), terminal_at(design, across)
        if there is not None and is_fresh(design, part):
            word = circuit_for(design, part.kind, part.ratings, there.poles, end.terminal)
            if word:
                found.append(
                    PoleChoice(_circuit_label(design, part.id, word), None, (part.id, word))
                )
    return tuple(found)


def _circuit_label(design: Design, part_id: str, word: str) -> str:
    part, family = design.part(part_id), design.settings.family
    rating = design.kind(part).declared["circuit"]
    label = next(choice.label for choice in rating.choices if choice.value == word)
    return say(
        "all conductors: {what} becomes {circuit}",
        what=part.designation,
        circuit=say(label, family=family),
    )


def pole_name(design: Design, pole: Pole) -> str:
    """A pole as a person reads it; numbered lines keep their letter and number."""
    text = _NAMES.get(pole)
    return str(pole) if text is None else say(text, family=design.settings.family)


def map_label(design: Design, poles: PoleMap) -> str:
    """A pole map as a person reads it: "L1 to hot; neutral, ground wire"."""
    crossed = [
        say("{p} to {q}", p=pole_name(design, p), q=pole_name(design, q))
        for p, q in poles
        if p != q
    ]
    same = ", ".join(pole_name(design, p) for p, q in poles if p == q)
    return "; ".join([*crossed, *([same] if same else [])])
