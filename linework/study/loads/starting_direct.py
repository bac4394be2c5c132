"""Study: the voltage at a motor on direct current while it starts, the other drawn loads on."""

from __future__ import annotations

from linework.circuit.network import IN_USE, WEAKEST, NotSolved
from linework.study.loads.loaded import Loaded
from linework.study.situation import Situation


def starting_v(situation: Situation, loaded: Loaded, index: int) -> float | None:
    """Voltage in V at a load that has a starting current; None for all others.

    A battery on a charger counts with the voltage at which that holds it. The standing motor is a
    resistance, its rated voltage over its starting current. With V its voltage while it runs, y
    its admittance and z the resistance seen from its terminals, V / (1 - y z) stands there without
    it, behind z / (1 - y z).
    """
    load = situation.circuit.loads[index]
    start_a, running_v = load.data.start_a, loaded.load_v.get(index)
    if start_a is None or load.data.hertz != 0.0 or running_v is None or 0.0 not in situation.hertz:
        return None
    net = situation.network(0.0, IN_USE)
    own = net.load_y.get(index)
    if own is None:
        return None
    z = net.seen_ohm(load.a, load.b).real
    without = 1.0 - own.real * z
    open_v = running_v * _held(situation, index) / without
    return open_v / (1.0 + z / without * start_a / load.data.volts)


def _held(situation: Situation, index: int) -> float:
    """The voltage at which a charger holds the batteries that feed a load, over their own; one
    where none works."""
    load, sources = situation.circuit.loads[index], situation.circuit.sources
    feeding = [sources[s.source].data for s in situation.feeds(load.a)]
    held = max((s.volts for s in feeding if s.group.charges), default=0.0)
    try:
        volts = situation.network(0.0, WEAKEST).open_volts  # chargers give nothing there
    except NotSolved:
        return 1.0
    own = abs(complex(volts[load.a] - volts[load.b]))
    batteries = any(s.group.stores for s in feeding)
    return max(held / own, 1.0) if batteries and own > 0.0 else 1.0
