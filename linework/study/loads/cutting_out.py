"""Study: what is asked of each battery, and what it is charged with, beside what its own
management lets through."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import Load
from linework.circuit.network import IN_USE
from linework.study.loads.drop import converter_inputs
from linework.study.loads.loaded import Loaded
from linework.study.loads.sun import yields
from linework.study.situation import Situation

Shares = dict[int, float]
"""Index of each battery in circuit -> its part of one ampere taken between two nodes."""


@dataclass(frozen=True)
class Asked:
    """What one battery gives, in ampere. ``by``: the loads that ask for it, none for all drawn.

    ``seconds``: for a start only.
    """

    battery: int
    amps: float
    by: tuple[str, ...] = ()
    seconds: bool = False


def batteries(situation: Situation) -> list[int]:
    """The batteries in circuit, by the index of their cells."""
    return [i for i, source in situation.active if source.data.group.stores]


def given_by_batteries(situation: Situation, loaded: Loaded) -> list[Asked]:
    """What each battery gives with the drawn loads on; below zero where it is charged."""
    return [Asked(i, loaded.source_a[i].real) for i in batteries(situation) if i in loaded.source_a]


def asked_of_batteries(situation: Situation, loaded: Loaded) -> Iterator[Asked]:
    """What is asked of each battery besides: by each inverter at its rating, by all of them, and
    while each motor starts. NotSolved where the network is singular."""
    given = {each.battery: each.amps for each in given_by_batteries(situation, loaded)}
    alone: list[Asked] = []
    for load, amps in converter_inputs(situation):
        more = amps - _drawn_a(situation, loaded, load)
        alone += _beside(situation, given, load, more, load.owner, seconds=False)
    yield from alone
    yield from _at_once(given, alone)
    for index, load in situation.loads:
        for taker, more in _start(situation, loaded, index):
            yield from _beside(situation, given, taker, more, load.owner, seconds=True)


def _at_once(given: dict[int, float], alone: list[Asked]) -> Iterator[Asked]:
    """What several ask of one battery, from what each asks of it beside all that is drawn."""
    for battery, drawn_a in given.items():
        there = [each for each in alone if each.battery == battery]
        if len(there) > 1:
            more = sum(each.amps - drawn_a for each in there)
            yield Asked(battery, drawn_a + more, tuple(b for each in there for b in each.by))


def charging_a(situation: Situation) -> dict[int, float]:
    """What all chargers on each battery give it together, no load on, in ampere: their rating, or
    what the sun yields."""
    found: dict[int, float] = {}
    sunny = yields(situation)
    for index, source in situation.active:
        if source.data.group.charges:
            amps = source.data.rated_a or 0.0
            if index in sunny:
                amps = min(amps, sunny[index].most_a(source.data.volts))
            for i, share in _shares(situation, source.plus, source.minus).items():
                found[i] = found.get(i, 0.0) + share * amps
    return found


def _drawn_a(situation: Situation, loaded: Loaded, load: Load) -> float:
    index = next(i for i, other in situation.loads if other is load)
    return loaded.load_a.get(index, 0.0)


def _beside(
    situation: Situation, given: dict[int, float], taker: Load, more: float, by: str, seconds: bool
) -> Iterator[Asked]:
    """What one load asks for beside what all others do."""
    for i, share in _shares(situation, taker.a, taker.b).items():
        if i in given and share * more > 0.0:
            yield Asked(i, given[i] + share * more, (by,), seconds)


def _start(situation: Situation, loaded: Loaded, index: int) -> Iterator[tuple[Load, float]]:
    """What takes more of the batteries while a motor starts, and by how many ampere.

    On alternating current its inverter gives the real power of the standing motor, U I cos phi,
    over its efficiency.
    """
    load = situation.circuit.loads[index]
    data = load.data
    if not data.start_a or index not in loaded.load_v:
        return
    if data.hertz == 0.0:
        yield load, data.start_a - loaded.load_a.get(index, 0.0)
        return
    inputs = [taker for taker, _ in converter_inputs(situation)]
    feeding = {s.source for node in (load.a, load.b) for s in situation.feeds(node)}
    watts = data.start_a * data.volts * data.start_pf - data.watts
    for conversion in situation.circuit.conversions:
        taker = situation.circuit.loads[conversion.load]
        if conversion.source in feeding and any(taker is other for other in inputs):
            yield taker, watts / conversion.data.efficiency / taker.data.volts
            return  # both legs of an inverter take from one input


def _shares(situation: Situation, a: int, b: int) -> Shares:
    """How batteries share one ampere taken from node ``a`` and given back at ``b``."""
    if 0.0 not in situation.hertz:
        return {}
    net = situation.network(0.0, IN_USE)
    if not net.islands.live(a) or net.islands.label[a] != net.islands.label[b]:
        return {}
    currents = net.source_currents()
    currents[a] -= 1.0
    currents[b] += 1.0
    before, after = net.source_output(net.open_volts), net.source_output(net.solve(currents))
    return {i: (after[i] - before[i]).real for i in batteries(situation) if i in before}


__all__ = ["Asked", "asked_of_batteries", "charging_a", "given_by_batteries"]
