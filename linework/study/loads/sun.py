"""What solar arrays yield through their charge controllers: a controller cannot give more."""

from __future__ import annotations

from dataclasses import dataclass, replace

from linework.circuit.model import Conversion, LiveSource
from linework.circuit.network import IN_USE
from linework.study.situation import Situation


@dataclass(frozen=True)
class Yield:
    """What the arrays on the input of one controller have to give in full sun.

    ``array_a`` at their greatest power, and ``array_w`` that arrives at the controller then, what
    the wires lose taken off; ``efficiency`` of the controller;
    ``steps``: it changes the voltage, so that its power counts, else its current does.
    """

    array_w: float
    array_a: float
    efficiency: float
    steps: bool

    def most_a(self, across_v: float) -> float:
        """The most current in ampere at ``across_v`` volt on the controller's output."""
        if not self.steps:
            return self.array_a
        return self.efficiency * self.array_w / max(across_v, 1.0)

    def taken_w(self, wanted_w: float, given_a: float) -> float:
        """What the controller takes from the arrays for ``given_a`` ampere at its output."""
        if not self.steps:
            return given_a * self.array_w / self.array_a
        return min(wanted_w, self.array_w)


def yields(situation: Situation) -> dict[int, Yield]:
    """By the index of a controller's source what the sun gives it; others are not in it."""
    found: dict[int, Yield] = {}
    for conversion in situation.circuit.conversions:
        arrays = arrays_before(situation, conversion)
        if arrays:
            made = _yield(arrays, conversion)
            found[conversion.source] = replace(
                made, array_w=_arriving_w(situation, conversion, made)
            )
    return found


def _arriving_w(situation: Situation, conversion: Conversion, made: Yield) -> float:
    """The power in watt at a controller's input when the arrays give their best current: V - Z I
    of the network seen from there."""
    load = situation.circuit.loads[conversion.load]
    net = situation.network(0.0, IN_USE)
    ohm = net.seen_ohm(load.a, load.b).real
    open_v = (net.open_volts[load.a] - net.open_volts[load.b]).real
    arriving = float(open_v - ohm * made.array_a) * made.array_a
    return min(max(arriving, 0.0), made.array_w)


def arrays_before(situation: Situation, conversion: Conversion) -> list[LiveSource]:
    """The solar arrays in the sun on the input of a converter."""
    circuit = situation.circuit
    fed = [circuit.sources[s.source] for s in situation.feeds(circuit.loads[conversion.load].a)]
    return [source for source in fed if source.data.group.solar]


def _yield(arrays: list[LiveSource], conversion: Conversion) -> Yield:
    amps = sum(array.data.rated_a or 0.0 for array in arrays)
    watts = sum(best_v(array) * (array.data.rated_a or 0.0) for array in arrays)
    return Yield(watts, amps, conversion.data.efficiency, conversion.data.steps)


def best_v(array: LiveSource) -> float:
    """Voltage of an array at its greatest power, in volt."""
    return array.data.volts - array.data.ohm_r.usual * (array.data.rated_a or 0.0)
