"""Study: what a motor asks of its source when it starts, and how far its voltage falls.

The standing motor is an impedance, its rated voltage over its locked-rotor current; with the
open voltage V and the impedance Z seen from its terminals, V Zm / (Z + Zm) is left there.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterable
from dataclasses import dataclass

from linework.circuit.model import Load
from linework.circuit.network import WEAKEST, NotSolved, load_admittance
from linework.study.loads.loaded import Loaded
from linework.study.situation import Situation


@dataclass(frozen=True)
class Start:
    """One motor that starts while the other drawn loads run.

    ``dip``: part of its open voltage that is lost at its terminals at the weakest source;
    ``start_a`` its locked-rotor current; ``asked``: index of each winding that feeds it ->
    what that gives then, in ampere.
    """

    load: int
    start_a: float
    dip: float
    asked: dict[int, float]


def starts(situation: Situation, loaded: Loaded) -> list[Start]:
    """Every motor on alternating current that is fed. NotSolved where a network is singular."""
    found = []
    for index, load in situation.loads:
        data = load.data
        feeding = [s for n in (load.a, load.b) for s in situation.feeds(n) if s.is_ac]
        if data.start_a and data.hertz != 0.0 and feeding:
            volts = loaded.volts.get(feeding[0].hertz)
            if volts is not None:
                across = complex(volts[load.a] - volts[load.b])
                more = _standing_s(load) * across - load_admittance(load) * across
                asked = {
                    s.source: abs(
                        loaded.source_a.get(s.source, 0j)
                        + (more if situation.clusters[load.a] == s.hot else -more)
                        / len(situation.hot_of[s.hot])
                    )
                    for s in feeding
                }
                dip = _dip(situation, load, feeding[0].hertz)
                found.append(Start(index, data.start_a, dip, asked))
    return found


def falls(situation: Situation, start: Start, others: Iterable[int]) -> dict[int, float]:
    """The part of its open voltage that each of some other loads loses while a motor starts, at
    the weakest source; those that its current does not reach are left out. NotSolved passes on."""
    motor = situation.circuit.loads[start.load]
    hertz = next(s.hertz for n in (motor.a, motor.b) for s in situation.feeds(n) if s.is_ac)
    net = situation.network(hertz, WEAKEST)
    label, before = net.islands.label, net.open_volts
    if math.isnan(start.dip):
        return {}
    left = complex(before[motor.a] - before[motor.b])
    amps = left / (1.0 / _standing_s(motor) + net.seen_ohm(motor.a, motor.b))
    currents = net.source_currents()
    currents[motor.a] -= amps
    currents[motor.b] += amps
    after = net.solve(currents)
    found = {}
    for index in others:
        load = situation.circuit.loads[index]
        if all(s.hertz != hertz for node in (load.a, load.b) for s in situation.feeds(node)):
            continue
        if label[load.a] == label[load.b] == label[motor.a]:
            open_v = abs(complex(before[load.a] - before[load.b]))
            if open_v > 0.0:
                found[index] = 1.0 - abs(complex(after[load.a] - after[load.b])) / open_v
    return found


def _standing_s(load: Load) -> complex:
    """Admittance of the standing motor in siemens."""
    data = load.data
    return cmath.rect((data.start_a or 0.0) / data.volts, -math.acos(data.start_pf))


def _dip(situation: Situation, load: Load, hertz: float) -> float:
    """Part of the open voltage that the start takes away; NaN where nothing drives the motor."""
    net = situation.network(hertz, WEAKEST)
    if net.islands.label[load.a] != net.islands.label[load.b]:
        return math.nan
    open_v = complex(net.open_volts[load.a] - net.open_volts[load.b])
    if not abs(open_v) > 0.0:
        return math.nan
    return 1.0 - 1.0 / abs(1.0 + net.seen_ohm(load.a, load.b) * _standing_s(load))


__all__ = ["NotSolved", "Start", "falls", "starts"]
