"""Published examples of what comes back through soil and through a second bond."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.codes import person_ohm
from linework.design import Draft
from linework.study.shorts.faults import faults
from tests.circuit.test_ngspice import amps, double_bond
from tests.designs import situation_of
from tests.examples.published import published
from tests.findings.told import flat


def case_on_a_rod() -> Draft:
    """A case whose only way back is a rod of 25 ohm; the supply's own earth is as good as none."""
    d = Draft(place="building")
    d.part(
        "supply",
        "GS1",
        prospective="10 kA",
        breaker="15 A",
        electrode="0.001 ohm",
        outage="no",
    )
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "EA1.in", poles="L N", size="12 AWG", length="10 ft")
    d.part("panel", "QP1", bond="absent")  # its lug takes the rod's wire to the case
    d.run("EA1.in", "QP1.feed", poles="PE>PE", size="6 AWG", length="0 ft")
    d.part("electrode", "XE1", resistance="25 ohm")
    d.run("QP1.ground", "XE1.ground", size="6 AWG", length="0 ft")
    return d


@published("026", "The Path of Least Resistance", "ecmweb.com/content/article/20886840")
def test_a_rod_as_the_only_return() -> None:
    # 120 V through 25 ohm: 4.8 A, which trips no 15 A breaker; the case stays at 120 V, and a
    # person of 1000 ohm takes 120 mA.
    d = case_on_a_rod()
    (fault,) = (
        f for f in faults(situation_of(d), "GS1") if (f.point.part, f.point.to) == ("EA1", "PE")
    )
    assert fault.weak.current_a == pytest.approx(4.8, abs=0.01)
    assert fault.weak.metal_v == pytest.approx(120.0, abs=0.5)
    assert fault.weak.metal_v / person_ohm().value == pytest.approx(0.120, abs=0.001)
    told = [f for f in flat(analyse(d.design).findings) if f.rule == "fault-not-cleared"]
    assert [f.level.word for f in told if "EA1" in f.where] == ["danger"]


@published("028", "Never bond the ground and neutral in a subpanel", "garynsmith.net")
def test_a_second_bond_halves_the_return() -> None:
    # Neutral and ground wire alike: half each, within 0.01.
    situation = double_bond("12 AWG", "12 AWG", "1200 W", "fitted")
    neutral, ground = amps(situation, "W1", "N"), amps(situation, "W1", "PE")
    assert neutral / (neutral + ground) == pytest.approx(0.5, abs=0.01)
