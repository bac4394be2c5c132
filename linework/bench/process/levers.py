"""Reads the levers out of a design's circuit; runs where it is solved, not in the window."""

from __future__ import annotations

from linework.bench.states import Key, Lever, LeverBoard
from linework.circuit import Circuit, State, expand
from linework.circuit.model import SelectorAt
from linework.circuit.states import free_selectors
from linework.design import Design, Part
from linework.design.names import natural
from linework.study.report import position_word, state_key
from linework.words import N_, say

_POSITIONS = {
    "stopped": N_("stopped"),
    "running": N_("running"),
    "live": N_("live"),
    "dead": N_("dead"),
    "on": N_("on"),
    "off": N_("off"),
    "open": N_("open"),
    "closed": N_("closed"),
    "unplugged": N_("unplugged"),
    "passing": N_("passing through"),
    "inverting": N_("inverting"),
    "120/240V": N_("120/240 V"),
    "120V": N_("120 V only"),
    "charging": N_("charging"),
    "day": N_("day"),
    "night": N_("night"),
    "apart": N_("apart"),
    "joined": N_("joined"),
    "both": N_("both"),
    "forward": N_("fed from its primary"),
    "backward": N_("fed from its secondary"),
}


def lever_board(design: Design) -> LeverBoard:
    """The levers of a design as its circuit has them."""
    circuit = expand(design, {})
    free = free_selectors(circuit)
    following = [
        key for key, s in circuit.selectors.items() if s.moves == "follows" and len(s.positions) > 1
    ]
    levers = [_lever(design, circuit, selector.key) for selector in free]
    followers = [_lever(design, circuit, key) for key in following]
    return LeverBoard(
        tuple(sorted(levers, key=lambda lever: natural(lever.designation))),
        tuple(sorted(followers, key=lambda lever: natural(lever.designation))),
        circuit.excluded,
    )


def _lever(design: Design, circuit: Circuit, key: Key) -> Lever:
    part, selector = design.part(key[0]), circuit.selectors[key]
    return Lever(
        key,
        part.designation,
        part.title or say(design.kind(part).name, family=design.settings.family),
        selector.positions,
        tuple(_word(design, part.id, position) for position in selector.positions),
        tuple(_piece(design, circuit, key, position) for position in selector.positions),
        selector.rest,
        _in_use(selector),
    )


_IDLE = frozenset({"stopped", "dead", "off", "night", "unplugged"})


def _in_use(selector: SelectorAt) -> str:
    """A source gives, and a plug stands in the first place that it may go to."""
    if selector.moves != "source" and selector.rest != "unplugged":
        return ""
    return next((p for p in selector.positions if p not in _IDLE), "")


def _piece(design: Design, circuit: Circuit, key: Key, position: str) -> str:
    return state_key(design, circuit, State(((key, position),), {}))


def _word(design: Design, part_id: str, position: str) -> str:
    word = position_word(design, part_id, position)
    if word in _POSITIONS:
        return say(_POSITIONS[word])
    return _place_word(design, word)


def _place_word(design: Design, designation: str) -> str:
    """An outlet that a plug can go to, with its title or that of the part it belongs to."""
    part = next((p for p in design.parts if p.designation == designation), None)
    if part is None:
        return designation
    title = _title_of(design, part)
    return f"{designation}, {title}" if title else designation


def _title_of(design: Design, part: Part) -> str:
    """Its own title, else that of what it sits in, and so on."""
    seen: set[str] = set()
    while part.id not in seen:
        seen.add(part.id)
        seats = design.seats_of(part.id)
        if part.title or not seats:
            return part.title
        part = design.part(seats[0].host)
    return ""
