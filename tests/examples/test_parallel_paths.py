"""Published examples of currents that divide between paths."""

from __future__ import annotations

import cmath
import math

import pytest

from linework.design import Draft
from linework.study.loads.loaded import loaded
from tests.circuit.handmade import Handmade
from tests.designs import situation_of
from tests.examples.circuits import currents, dc_load, load_volts, wire, with_currents
from tests.examples.published import COMPANIONS, published

RING = {("A", "B"): 0.02, ("B", "C"): 0.018, ("C", "D"): 0.025, ("D", "A"): 0.02}
TAKEN = {"B": 150.0, "C": 300.0, "D": 250.0}


def ring(at: dict[str, float], **across: float) -> Draft:
    """The ring drawn, on 250 V; its loads are impedances that take their currents at ``at``."""
    d = Draft(place="building")
    d.part("battery", "A", voltage="250 V", fault_current="300000 kA")
    for name, volts in at.items():
        dc_load(d, name, volts, TAKEN[name])
    end = {"A": "A.dc"} | {name: f"{name}.in" for name in at}
    ways = RING | {(name[0], name[1]): ohm for name, ohm in across.items()}
    for (a, b), ohm in ways.items():
        d.run(end[a], end[b], a + b, **wire(ohm / 2))
    return d


@published("030", "Principles of Power System, ch. 13, example 13.24, p. 336", COMPANIONS)
def test_a_ring_before_and_after_a_way_across() -> None:
    # Before: 243.265, 239.903 and 242.735 V. After, a way of 0.02 ohm from A to C: the printed
    # figures rest on a rounded resistance; the exact ones are 245.961, 245.027 and 245.012 V and
    # 248.66 A across.
    before = dict(zip("BCD", (243.265, 239.903, 242.735), strict=True))
    situation = situation_of(ring(before))
    assert load_volts(situation, loaded(situation)) == pytest.approx(before, abs=0.02)
    after = dict(zip("BCD", (245.9614, 245.0267, 245.0119), strict=True))
    situation = situation_of(ring(after, AC=0.02))
    found = loaded(situation)
    assert load_volts(situation, found) == pytest.approx(after, abs=0.02)
    (across,) = (
        i for i, b in enumerate(situation.circuit.branches) if (b.owner, b.pole) == ("AC", "+")
    )
    assert found.amps(across) == pytest.approx(248.66, abs=0.1)


@published("031", "Principles of Power System, ch. 13, example 13.25, p. 338", COMPANIONS)
def test_the_current_across_a_loaded_ring() -> None:
    # 10, 30, 20 and 10 A at B, C, D and E; 0.05 ohm across B and D: 9.8 A, 0.49 V. The loads keep
    # their current whatever the voltage, which none of the program does: put together by hand.
    wires = [("a", "b", 0.075 + 0j), ("b", "c", 0.025 + 0j), ("c", "d", 0.01 + 0j),
             ("d", "e", 0.05 + 0j), ("e", "a", 0.1 + 0j), ("b", "d", 0.05 + 0j)]  # fmt: skip
    made = Handmade(0.0, wires, [("a", "0", 240.0, 0.0)])
    volts = with_currents(made, 0.0, {"b": 10.0, "c": 30.0, "d": 20.0, "e": 10.0})
    assert currents(made, 0.0, volts)[5].real == pytest.approx(9.8, abs=0.05)
    between = volts[made.node["b"]] - volts[made.node["d"]]
    assert between.real == pytest.approx(0.49, abs=0.005)


@published("033", "Principles of Power System, ch. 14, example 14.4, p. 362", COMPANIONS)
def test_a_ring_of_complex_impedances() -> None:
    # AB 1 + j1, BC 1 + j2, AC 1 + j3 ohm; 20 A at 0.8 at B, 15 A at 0.6 at C.
    wires = [("a", "b", 1 + 1j), ("b", "c", 1 + 2j), ("a", "c", 1 + 3j)]
    made = Handmade(60.0, wires, [("a", "0", 11000.0, 0.0)])
    taken = {
        "b": cmath.rect(20.0, -math.acos(0.8)),
        "c": cmath.rect(15.0, -math.acos(0.6)),
    }
    found = currents(made, 60.0, with_currents(made, 60.0, taken))
    for amps, printed in zip(found, (18.6 - 13.53j, 2.6 - 1.53j, 6.4 - 10.47j), strict=True):
        assert amps.real == pytest.approx(printed.real, abs=0.01)
        assert amps.imag == pytest.approx(printed.imag, abs=0.01)
