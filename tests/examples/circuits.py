"""How circuits of examples are put before the program."""

from __future__ import annotations

from collections.abc import Mapping

from linework.circuit.network import STRONGEST, Complex, Network
from linework.codes import resistance
from linework.design import Draft
from linework.study.loads.loaded import Loaded
from linework.study.situation import Situation
from tests.circuit.handmade import Handmade

WIRE = "1000 kcmil"


def wire(ohm: float, size: str = WIRE) -> dict[str, str]:
    """Ratings of a run each of whose conductors has this resistance, warm as the loads find it."""
    return {"size": size, "length": f"{ohm / resistance(size).value!r} m"}


def dc_load(d: Draft, name: str, volts: float, amps: float) -> None:
    """A load that takes its amperes at its volts."""
    d.part("load", name, circuit="dc", voltage=f"{volts!r} V", power=f"{volts * amps!r} W")


def load_volts(situation: Situation, found: Loaded) -> dict[str, float]:
    """Voltage at each load by its designation."""
    return {situation.circuit.loads[i].owner: volts for i, volts in found.load_v.items()}


def with_currents(made: Handmade, hertz: float, taken: Mapping[str, complex]) -> Complex:
    """Potentials while these currents in ampere are taken from nodes to earth."""
    net = Network(made.here, hertz, STRONGEST)
    inject = net.source_currents()
    for name, amps in taken.items():
        inject[made.node[name]] -= amps
        inject[made.node["0"]] += amps
    return net.solve(inject)


def currents(made: Handmade, hertz: float, volts: Complex) -> list[complex]:
    """Currents in ampere of the wires, in their order."""
    return list(Network(made.here, hertz, STRONGEST).branch_currents(volts).values())
