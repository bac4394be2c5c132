"""Study: voltage lost in the low-voltage wiring of boats, by the sizing formula of ABYC E-11.

10.75 ohm circular mil per foot x current x feet, out and back, over circular mils: copper a little
warmer than the air. Loads count with their rated current, all drawn ones together; the formula
gives a drop in volt, to be held against the voltage of the source.
"""

from __future__ import annotations

from linework.circuit.conductors import pole_size
from linework.circuit.model import Branch, Load
from linework.codes import size_of
from linework.design import Design, Run
from linework.study.loads.demand import Demand
from linework.study.loads.drop import Drop, Drops
from linework.study.stands import place_of_run
from linework.study.wires.ratings import low_voltage, rules_of
from linework.wiring import Pole

_M_PER_FT = 0.3048


def is_afloat(design: Design, drop: Drop) -> bool:
    """Whether a way belongs to the low-voltage wiring of a boat."""
    runs = [run for run_id in drop.runs if isinstance(run := design.get(run_id), Run)]
    afloat = [run for run in runs if place_of_run(design, run).afloat]
    return any(low_voltage(design, run) for run in afloat)


def cool_ohm(design: Design, wire: Branch) -> float:
    """Resistance in ohm by the formula; that of a hot wire where it is no copper of known size."""
    run = design.get(wire.owner)
    if not isinstance(run, Run):
        return wire.r_hot
    values = design.run_values(run)
    size = pole_size(values, Pole(wire.pole))
    if not size or not values.has("length") or values.pick("material") != "copper":
        return wire.r_hot
    constant = rules_of(design).drop_constant_afloat().value
    return constant * values.num("length") / _M_PER_FT / float(size_of(size).cmil)


def drop_cool(design: Design, drops: Drops, demand: Demand, a: int, b: int) -> Drop | None:
    """The drop up to two nodes with all drawn loads at their rated current; None where nothing
    feeds them."""
    wires = drops.situation.circuit.branches

    def volts(i: int) -> float:
        return cool_ohm(design, wires[i]) * demand.amps(i)[0]

    return drops.losing(a, b, volts)


def carrying_cool(design: Design, drops: Drops, load: Load, amps: float) -> Drop | None:
    """The drop of a load that takes ``amps``, alone."""
    wires = drops.situation.circuit.branches
    return drops.losing(load.a, load.b, lambda i: cool_ohm(design, wires[i]) * amps)
