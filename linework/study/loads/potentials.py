"""Voltages before anything is switched on."""

from __future__ import annotations

from linework.circuit.network import STRONGEST, NotSolved
from linework.study.situation import Situation


def open_volts(situation: Situation, a: int, b: int, hertz: float) -> float:
    """Voltage between two nodes with every source on and no load, in volt.

    Exact for legs, windings and batteries in series. Zero where nothing of this frequency joins
    the two, or where the network was not solved.
    """
    try:
        net = situation.network(hertz, STRONGEST)
    except NotSolved:
        return 0.0
    if net.islands.label[a] != net.islands.label[b]:
        return 0.0
    volts = net.open_volts
    return float(abs(complex(volts[a] - volts[b])))
