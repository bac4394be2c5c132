"""States and arrangements in words, as a person would say them; files name them by keys."""

from __future__ import annotations

from collections.abc import Iterable

from linework.circuit.model import Circuit, SelectorKey
from linework.circuit.states import State
from linework.design import Design
from linework.kinds import Kind
from linework.study.report import named_positions
from linework.words import say


def spoken_state(design: Design, circuit: Circuit, state: State) -> str:
    """A state: "G1 running, QT1 on generator, XP1 pulled out"."""
    caught = () if state.passing is None else ((state.passing, state.positions[state.passing]),)
    return spoken_arrangement(design, circuit, (*state.free, *caught))


def spoken_arrangement(
    design: Design, circuit: Circuit, positions: Iterable[tuple[SelectorKey, str]]
) -> str:
    """Some positions, sorted by designation; that of a follower is one in which it moves. It is
    night where all arrays of the design are dark."""
    told, moving = named_positions(design, circuit, positions)
    dark = {
        part for part, _, position in told if _is_dark(design.kind(design.part(part)), position)
    }
    night = dark == {part.id for part in design.parts if design.kind(part).source.solar}
    words = [
        say("at night")
        if part in dark and night
        else told_position(design.kind(design.part(part)), name, position)
        for part, name, position in told
    ]
    return ", ".join(dict.fromkeys((*words, *moving)))


def _is_dark(kind: Kind, position: str) -> bool:
    return kind.source.solar and position == "night"


def told_position(kind: Kind, name: str, position: str) -> str:
    """One position of a part of a kind, ``name`` and ``position`` in words already."""
    if _is_dark(kind, position):
        return say("{part} in the dark", part=name)
    if kind.source.solar:
        return say("{part} by day", part=name)
    if kind.plugs and position == "unplugged":
        return say("{part} pulled out", part=name)
    if kind.plugs:
        return say("{part} in {outlet}", part=name, outlet=position)
    if kind.transfers and position != "off":
        return say("{part} on {input}", part=name, input=position)
    return f"{name} {position}"
