"""Study: chargers that take from their input what the loads that it passes on leave them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linework.circuit.model import Conversion
from linework.circuit.network import IN_USE, Complex
from linework.study.situation import Situation


def left_for_charging(situation: Situation, volts: Mapping[float, Complex]) -> dict[int, float]:
    """The most that each charger with an input limit gives, in ampere, by the index of its source.

    ``volts``: potentials by frequency. What is left of the limit on the conductor that passes on
    most, as power at the input's own voltage and power factor; magnitudes are subtracted, so that
    rather too little is left.
    """
    on = {i for i, _ in situation.active}
    found: dict[int, float] = {}
    for conversion in situation.circuit.conversions:
        data, load = conversion.data, situation.circuit.loads[conversion.load].data
        solution = volts.get(load.hertz or 0.0)
        if data.limit_a is None or conversion.source not in on or solution is None:
            continue
        passed = max(_passed_a(situation, conversion, solution), default=0.0)
        watts = max(data.limit_a - passed, 0.0) * load.volts * load.power_factor
        given_w = max(watts - data.idle_w, 0.0) * data.efficiency
        found[conversion.source] = given_w / situation.circuit.sources[conversion.source].data.volts
    return found


def _passed_a(situation: Situation, conversion: Conversion, solution: Complex) -> Iterator[float]:
    """The current of each contact that passes the input on, in ampere."""
    circuit = situation.circuit
    load = circuit.loads[conversion.load].data
    net = situation.network(load.hertz or 0.0, IN_USE)
    for i in circuit.branches_of.get(conversion.owner, ()):
        branch = circuit.branches[i]
        if branch.name in conversion.data.beside and i in net.branch_y:
            yield abs(complex(solution[branch.a] - solution[branch.b]) * net.branch_y[i])
