"""Published examples of batteries."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.study.loads.loaded import loaded
from linework.study.shorts.faults import faults
from tests.designs import situation_of
from tests.examples.circuits import wire
from tests.examples.published import COMPANIONS, published


def cells(series: bool) -> Draft:
    """Eight cells of 2.2 V and 0.2 ohm, which a short draws 11 A from, and a load of 1 mW."""
    d = Draft(place="field")
    for n in range(1, 9):
        d.part("battery", f"GB{n}", voltage="2.2 V", fault_current="11 A")
    d.part("load", "EA1", circuit="dc", voltage="12 V", power="0.001 W")
    d.run("GB1.dc", "EA1.in", poles="+", **wire(0.0))
    d.run("GB8.dc", "EA1.in", poles="-", **wire(0.0))
    for n in range(1, 8):
        d.run(f"GB{n}.dc", f"GB{n + 1}.dc", poles="->+" if series else "+ -", **wire(0.0))
    return d


@published("087", "Electrical Circuit Theory and Technology, ch. 4, example 1, p. 35", COMPANIONS)
@pytest.mark.parametrize(
    ("series", "volts", "ohm"), [(True, 17.6, 1.6), (False, 2.2, 0.025)], ids=["series", "parallel"]
)
def test_eight_cells(series: bool, volts: float, ohm: float) -> None:
    # In series 17.6 V behind 1.6 ohm, in parallel 2.2 V behind 0.025 ohm: shorts of 11 and 88 A.
    situation = situation_of(cells(series))
    assert loaded(situation).load_v[0] == pytest.approx(volts, abs=0.001)
    (short,) = (
        f
        for owner in situation.owners
        for f in faults(situation, owner)
        if {f.point.node, f.point.to_node} == set(situation.circuit.terminals["EA1", "in"].values())
    )
    assert short.strong.before_v == pytest.approx(volts, abs=0.001)
    assert short.strong.before_v / short.strong.current_a == pytest.approx(ohm, abs=0.001)


@published("090", "Basic Electrical Engineering with Numerical Problems, ex. 9.8", COMPANIONS)
@pytest.mark.parametrize(("per_cell", "amps"), [(1.8, 8.0), (2.2, 7.0)])
def test_charging_from_a_higher_voltage(per_cell: float, amps: float) -> None:
    # 50 cells of 0.01 ohm on 250 V through 19.4 ohm and leads of 0.1: 8 A, then 7 A. The resistor
    # is drawn as part of the leads.
    volts = 50 * per_cell
    d = Draft(place="building")
    d.part("battery", "GB1", voltage="250 V", fault_current="1000000 kA")
    d.part("battery", "GB2", voltage=f"{volts!r} V", fault_current=f"{volts / 0.5!r} A")
    d.run("GB1.dc", "GB2.dc", "w", **wire((19.4 + 0.1) / 2, "14 AWG"))
    situation = situation_of(d)
    (index,) = (i for i, b in enumerate(situation.circuit.branches) if b.pole == "+")
    assert loaded(situation).amps(index) == pytest.approx(amps, abs=0.01)
