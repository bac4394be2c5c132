"""Heaters and electronic loads: what they draw, what leaks, what stands on their cases."""

from __future__ import annotations

import math

import pytest

from linework.design import Draft
from linework.kinds import kinds
from linework.study.loads.loaded import loaded
from linework.study.tester import across
from linework.wiring import Contact, Draw, Leak
from tests.designs import situation_of
from tests.kinds.cases import rated

RUN = {"size": "12 AWG", "length": "20 ft"}
HEATER, ELECTRONIC = kinds()["heater"], kinds()["electronic_load"]


def fed(kind: str, **ratings: str) -> Draft:
    """A bonded set, a ground-fault breaker, one load."""
    d = Draft(place="field")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("breaker", "QF1", rating="20 A", ground_fault="class_a")
    d.part(kind, "E1", **ratings)
    d.run("G1.out", "QF1.line", "W1", **RUN)
    d.run("QF1.load", "E1.in", "W2", **RUN)
    return d


@pytest.mark.parametrize("thermostat", ["none", "one", "all"])
def test_a_heater_is_a_resistance_behind_its_thermostat(thermostat: str) -> None:
    """P = U^2 / R: at three quarters of its voltage nine sixteenths of its power."""
    d = fed("heater", power="1500 W", voltage="160 V", thermostat=thermostat)
    found = loaded(situation_of(d, G1="running"))
    volts = found.load_v[0]
    assert 115.0 < volts < 120.0
    assert found.load_a[0] == pytest.approx(volts / (160.0**2 / 1500.0), rel=1e-6)


@pytest.mark.parametrize(("choice", "poles"), [("one", {"L"}), ("all", {"L", "N"})])
def test_what_a_thermostat_opens(choice: str, poles: set[str]) -> None:
    inside = HEATER.inside(rated(HEATER, power="1 kW", thermostat=choice))
    contacts = [e for e in inside.elements if isinstance(e, Contact)]
    assert {str(c.a[1]) for c in contacts} == poles
    (selector,) = inside.selectors
    assert (selector.moves, selector.rest) == ("protection", "closed")


def test_a_fixed_heater_counts_as_continuous_unless_told_otherwise() -> None:
    """NFPA 70 (2023) 424.4(B)."""
    for answer, counts in ((None, True), ("yes", True), ("no", False)):
        given = {} if answer is None else {"continuous": answer}
        inside = HEATER.inside(rated(HEATER, power="1 kW", **given))
        (draw,) = (e for e in inside.elements if isinstance(e, Draw))
        assert draw.continuous is counts


def test_an_electronic_load_takes_more_current_at_a_lower_voltage() -> None:
    """P = U I pf, whatever the voltage."""
    found = {}
    for feet in ("5 ft", "300 ft"):
        d = fed("electronic_load", power="600 W", power_factor="0.95")
        d.rate_run("W2", length=feet)
        study = loaded(situation_of(d, G1="running"))
        assert study.load_v[0] * study.load_a[0] * 0.95 == pytest.approx(600.0, rel=1e-6)
        found[feet] = study.load_a[0]
    assert found["300 ft"] > 1.01 * found["5 ft"]


@pytest.mark.parametrize(("farad", "text"), [(4.7e-9, "4.7 nF"), (22e-9, "22 nF")])
def test_the_filter_leaks_past_a_ground_fault_device(farad: float, text: str) -> None:
    """By hand: the capacitor of the hot conductor passes 2 pi f C U; that of the bonded neutral,
    which stands within a volt of ground, next to nothing."""
    d = fed("electronic_load", power="100 W", filter=text)
    found = loaded(situation_of(d, G1="running"))
    bare = loaded(situation_of(fed("electronic_load", power="100 W", filter="0 F"), G1="running"))
    leak = found.residual_a[0] - bare.residual_a[0]
    assert leak == pytest.approx(2.0 * math.pi * 60.0 * farad * 120.0, rel=0.02)


def test_a_case_without_its_ground_wire_stands_at_half_the_voltage_and_gives_little() -> None:
    """By hand: two equal capacitors halve the voltage; through 1,000 ohm their two in parallel
    drive 2 pi f 2C U/2 = 2 pi f C U."""
    d = fed("electronic_load", power="100 W", filter="4.7 nF")
    d.rate_run("W2", broken="PE", length="0 ft")  # no cable that leaks beside the filter
    situation = situation_of(d, G1="running")
    terminals = situation.circuit.terminals
    case, frame = terminals["E1", "in"]["PE"], terminals["G1", "frame"]["PE"]
    assert across(situation, [(case, frame)], 1e9)[0] == pytest.approx(60.0, rel=0.02)
    volts = across(situation, [(case, frame)], 1000.0)[0]
    assert volts == pytest.approx(1000.0 * 2.0 * math.pi * 60.0 * 4.7e-9 * 120.0, rel=0.02)


def test_only_a_grounded_case_has_a_filter_to_ground() -> None:
    for answers, leaks in (({}, 2), ({"case": "insulated"}, 0), ({"circuit": "dc"}, 0)):
        inside = ELECTRONIC.inside(rated(ELECTRONIC, power="60 W", **answers))
        assert sum(isinstance(e, Leak) for e in inside.elements) == leaks
