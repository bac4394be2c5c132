"""What solar arrays yield through their charge controllers: a controller cannot give more."""

from __future__ import annotations

from dataclasses import dataclass, replace

from linework.circuit.model import Conversion, LiveSource
from linework.circuit.network import IN_USE
from linework.study.situation import Situation
from linework.study.ways.banks import rows


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
    """By the index of a controller's source what the sun gives it; others are not in it. Those that
    share the same arrays get as much each (common practice, no source)."""
    found: dict[int, Yield] = {}
    for conversion in situation.circuit.conversions:
        before = rows_before(situation, conversion)
        if before:
            made, many = _yield(before, conversion), len(sharing(situation, conversion)) or 1
            watts = _arriving_w(situation, conversion, made) / many
            found[conversion.source] = replace(made, array_w=watts, array_a=made.array_a / many)
    return found


def sharing(situation: Situation, conversion: Conversion) -> tuple[Conversion, ...]:
    """The converters that work from the same arrays as one, itself included, wherever their
    minus comes back."""
    circuit, label = situation.circuit, situation.conductive
    hot = label[circuit.loads[conversion.load].a]
    working = {index for index, _ in situation.loads}
    return tuple(
        each
        for each in circuit.conversions
        if each.load in working and label[circuit.loads[each.load].a] == hot
    )


def _arriving_w(situation: Situation, conversion: Conversion, made: Yield) -> float:
    """The power in watt at a controller's input when the arrays give their best current: V - Z I
    of the network seen from there."""
    load = situation.circuit.loads[conversion.load]
    net = situation.network(0.0, IN_USE)
    ohm = net.seen_ohm(load.a, load.b).real
    open_v = (net.open_volts[load.a] - net.open_volts[load.b]).real
    arriving = float(open_v - ohm * made.array_a) * made.array_a
    return min(max(arriving, 0.0), made.array_w)


@dataclass(frozen=True)
class Row:
    """Arrays in series, or one by itself, on the input of a converter: the nodes of its ends, its
    current in ampere and its voltage in volt at its greatest power, its parts from the plus on."""

    plus: int
    minus: int
    amps: float
    volts: float
    owners: tuple[str, ...]


def rows_before(situation: Situation, conversion: Conversion) -> list[Row]:
    """The solar arrays in the sun on the input of a converter, those in series as one."""
    circuit = situation.circuit
    hot = situation.conductive[circuit.loads[conversion.load].a]
    strings = (string for string in rows(situation) if string.top == hot)
    return [_row([circuit.sources[i] for i in string.cells]) for string in strings]


def _row(arrays: list[LiveSource]) -> Row:
    """The weakest of those in series decides the current (common practice, no source)."""
    amps = min(array.data.rated_a or 0.0 for array in arrays)
    volts = sum(_best_v(array) for array in arrays)
    owners = tuple(array.owner for array in arrays)
    return Row(arrays[0].plus, arrays[-1].minus, amps, volts, owners)


def _yield(before: list[Row], conversion: Conversion) -> Yield:
    amps = sum(row.amps for row in before)
    watts = sum(row.volts * row.amps for row in before)
    return Yield(watts, amps, conversion.data.efficiency, conversion.data.steps)


def _best_v(array: LiveSource) -> float:
    """Voltage of an array at its greatest power, in volt."""
    return array.data.volts - array.data.ohm_r.usual * (array.data.rated_a or 0.0)
