"""Published examples of prospective fault currents.

Three-phase plant is not drawn by the program: its networks are put together by hand, one phase
where the fault is symmetrical, and solved by the program's solver.
"""

from __future__ import annotations

import math

import pytest

from linework.circuit.network import STRONGEST, Network
from tests.circuit.handmade import Handmade, Wire
from tests.examples.circuits import currents
from tests.examples.published import COMPANIONS, published

SHORT = 1e-9 + 0j


def driven_a(wires: list[Wire], volts: float, hertz: float = 60.0) -> float:
    """Current in ampere through the last wire, from one source at "e"."""
    made = Handmade(hertz, wires, [("e", "0", volts, 0.0)])
    return abs(currents(made, hertz, Network(made.here, hertz, STRONGEST).open_volts)[-1])


@published("014", "Electrical Plan Review: point-to-point method", "scribd.com/document/325386963")
def test_point_to_point_behind_300_kva() -> None:
    # 300 kVA at 1.8 %, 120/208 V: 46,273 A; 20 ft of two 500 kcmil a phase in steel (the method's
    # constant C = 22185, amperes-feet for a volt): f = 0.174, multiplier 0.852. The method adds
    # magnitudes, so that everything is taken as resistance here.
    volts = 208.0 / math.sqrt(3.0)
    source = 0.018 * 208.0**2 / 300e3
    cable = 20.0 / (2 * 22185)
    at_source = driven_a([("e", "t", source + 0j), ("t", "0", SHORT)], volts)
    at_end = driven_a([("e", "t", source + 0j), ("t", "f", cable + 0j), ("f", "0", SHORT)], volts)
    assert at_source == pytest.approx(46273, rel=1e-3)
    assert at_end / at_source == pytest.approx(0.852, abs=0.001)
    assert at_source / at_end - 1.0 == pytest.approx(0.174, abs=0.001)


@published("016", "Principles of Power System, ch. 17, example 17.3, p. 404", COMPANIONS)
def test_a_set_a_transformer_and_a_line() -> None:
    # 10 MVA 10 %, 5 MVA 5 %, line 1 + j4 ohm, 10 kV: 50,000 kVA at the transformer, 16,440 at the
    # end of the line.
    volts = 10e3 / math.sqrt(3.0)
    behind: list[Wire] = [("e", "g", 0.1 * 1e8 / 10e6 * 1j), ("g", "t", 0.05 * 1e8 / 5e6 * 1j)]
    at_transformer = driven_a([*behind, ("t", "0", SHORT)], volts)
    at_end = driven_a([*behind, ("t", "l", 1 + 4j), ("l", "0", SHORT)], volts)
    assert 3 * volts * at_transformer / 1e3 == pytest.approx(50000, abs=1)
    assert 3 * volts * at_end / 1e3 == pytest.approx(16440, abs=1)


@published("017", "A Textbook on Power System Engineering, example 3.1.10, p. 472", COMPANIONS)
def test_a_loaded_set_shorted_at_its_terminals() -> None:
    # 625 kVA carrying 500 kW, X" = 0.08, all in per unit: 0.8 - j12.5. Its electromotive force is
    # what holds 1 V at its terminals under the load.
    loaded: list[Wire] = [("e", "t", 0.08j), ("t", "0", 625.0 / 500.0 + 0j)]
    made = Handmade(60.0, loaded, [("e", "0", 1.0, 0.0)])
    behind = 1.0 / complex(Network(made.here, 60.0, STRONGEST).open_volts[made.node["t"]])
    shorted = Handmade(
        60.0,
        [*loaded, ("t", "0", SHORT)],
        [("e", "0", abs(behind), math.degrees(math.atan2(behind.imag, behind.real)))],
    )
    net = Network(shorted.here, 60.0, STRONGEST)
    given = net.branch_currents(net.open_volts)[0]
    assert given.real == pytest.approx(0.8, abs=0.05)
    assert given.imag == pytest.approx(-12.5, abs=0.05)


@published("021", "Principles of Power System, ch. 18, example 18.16, p. 450", COMPANIONS)
def test_a_line_to_ground_fault_through_a_reactor_in_the_neutral() -> None:
    # 25 MVA, 11 kV, X1 = X2 = 0.2, X0 = 0.05 per unit, 0.3 ohm in the neutral: 6,190 A. With equal
    # X1 and X2 a set is X1 in each phase and (X0 - X1) / 3 where the phases meet.
    base = 11.0**2 / 25.0
    phase, common = 0.2 * base, (0.05 - 0.2) / 3 * base
    wires: list[Wire] = [(f"e{p}", p, phase * 1j) for p in "rst"]
    wires += [("star", "0", (common + 0.3) * 1j), ("r", "0", SHORT)]
    volts = 11e3 / math.sqrt(3.0)
    emfs = [(f"e{p}", "star", volts, -120.0 * n) for n, p in enumerate("rst")]
    made = Handmade(50.0, wires, emfs)
    found = currents(made, 50.0, Network(made.here, 50.0, STRONGEST).open_volts)
    assert abs(found[-1]) == pytest.approx(6190, abs=2)
