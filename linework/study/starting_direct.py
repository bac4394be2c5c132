"""Study: the voltage at a motor on direct current while it starts, the other drawn loads on."""

from __future__ import annotations

from linework.circuit.network import IN_USE
from linework.study.loaded import Loaded
from linework.study.situation import Situation


def starting_v(situation: Situation, loaded: Loaded, index: int) -> float | None:
    """Voltage in V at a load that has a starting current; None for all others.

    With V its voltage while it runs, y its admittance and z the resistance seen from its
    terminals, x more amperes are taken: y V + x (1 - y z) is its starting current, V - z x is left.
    """
    load = situation.circuit.loads[index]
    start_a, running_v = load.data.start_a, loaded.load_v.get(index)
    if start_a is None or load.data.hertz != 0.0 or running_v is None or 0.0 not in situation.hertz:
        return None
    net = situation.network(0.0, IN_USE)
    own = net.load_y.get(index)
    if own is None:
        return None
    moved = net.columns((load.a, load.b))
    z = float((moved[load.a, 0] - moved[load.b, 0] - moved[load.a, 1] + moved[load.b, 1]).real)
    more = (start_a - own.real * running_v) / (1.0 - own.real * z)
    return running_v - z * more
