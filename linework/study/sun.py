"""What solar arrays yield through their charge controllers: a controller cannot give more."""

from __future__ import annotations

from dataclasses import dataclass

from linework.circuit.model import Conversion, LiveSource
from linework.study.situation import Situation


@dataclass(frozen=True)
class Yield:
    """What the arrays on the input of one controller have to give in full sun.

    ``array_w`` and ``array_a`` at their greatest power; ``efficiency`` of the controller;
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
            found[conversion.source] = _yield(arrays, conversion)
    return found


def arrays_before(situation: Situation, conversion: Conversion) -> list[LiveSource]:
    """The solar arrays in the sun on the input of a converter."""
    circuit = situation.circuit
    fed = [circuit.sources[s.source] for s in situation.feeds(circuit.loads[conversion.load].a)]
    return [source for source in fed if source.data.group == "solar"]


def _yield(arrays: list[LiveSource], conversion: Conversion) -> Yield:
    data = [array.data for array in arrays]
    amps = sum(each.rated_a or 0.0 for each in data)
    watts = sum(
        (each.volts - each.ohm_r.usual * (each.rated_a or 0.0)) * (each.rated_a or 0.0)
        for each in data
    )
    return Yield(watts, amps, conversion.data.efficiency, conversion.data.steps)
