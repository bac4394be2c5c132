"""Published examples of three phases, which no part draws: solved by the program's solver alone."""

from __future__ import annotations

import cmath
import math

import pytest

from linework.circuit.network import STRONGEST, Network
from tests.circuit.handmade import Handmade
from tests.examples.circuits import currents, with_currents
from tests.examples.published import COMPANIONS, published


@published("041", "Principles of Power System, ch. 14, example 14.7, p. 368", COMPANIONS)
def test_the_neutral_of_three_unequal_loads() -> None:
    # 10, 8 and 5 kW at 231 V: 43.3, 34.6 and 21.65 A, neutral 18.9 A.
    star = [(p, "n", 231.0**2 / watts + 0j) for p, watts in (("r", 10e3), ("y", 8e3), ("b", 5e3))]
    three = [("r", "0", 231.0, 0.0), ("y", "0", 231.0, -120.0), ("b", "0", 231.0, 120.0)]
    made = Handmade(50.0, [*star, ("n", "0", 1e-6 + 0j)], three)
    volts = Network(made.here, 50.0, STRONGEST).open_volts
    found = [abs(amps) for amps in currents(made, 50.0, volts)]
    assert found == pytest.approx([43.3, 34.6, 21.65, 18.9], abs=0.05)


@published("045", "Principles of Power System, ch. 14, example 14.10, p. 371", COMPANIONS)
def test_what_is_sent_where_the_neutral_drops_too() -> None:
    # 30 A at -30, -90 and 120 degrees, 0.2 ohm in a line, 0.4 in the neutral, 230 V at the load of
    # the first: 239.588 - j10.608 V sent. Held against it: with that sent, the load has 230 V.
    sent = 239.588 - 10.608j
    wires = [("e", "r", 0.2 + 0j), ("0", "n", 0.4 + 0j)]
    made = Handmade(50.0, wires, [("e", "0", abs(sent), math.degrees(cmath.phase(sent)))])
    line = cmath.rect(30.0, math.radians(-30))
    others = cmath.rect(30.0, math.radians(-90)) + cmath.rect(30.0, math.radians(120))
    volts = with_currents(made, 50.0, {"r": line, "n": -(line + others)})
    across = complex(volts[made.node["r"]] - volts[made.node["n"]])
    assert across.real == pytest.approx(230.0, abs=0.01)
    assert across.imag == pytest.approx(0.0, abs=0.01)
