"""The drawn loads switched on, against hand formulas."""

from __future__ import annotations

import itertools
import math

import pytest

from linework.circuit.network import IN_USE, Complex, Network
from linework.design import Draft
from linework.design.edits import rate_run
from linework.study.loads.loaded import Loaded, loaded
from linework.study.situation import Situation
from tests.designs import situation_of

KFT_M = 304.8
"""Meters in 1000 ft."""
REACTANCE = 0.08e-3
"""Ohm per meter of a cable (IEC 60364-5-52 annex G, from memory)."""


def conductor(ohm_per_kft: float, feet: float) -> complex:
    """One conductor at 75 C from the figure of NFPA 70 chapter 9 table 8."""
    return complex(ohm_per_kft * feet / 1000.0, REACTANCE * feet * KFT_M / 1000.0)


def amps(situation: Situation, found: Loaded, owner: str, pole: str) -> float:
    (index,) = (
        i for i, b in enumerate(situation.circuit.branches) if (b.owner, b.pole) == (owner, pole)
    )
    return found.amps(index)


def only(situation: Situation) -> Loaded:
    found = loaded(situation)
    assert found.solved, found.cause
    assert all(check.sound for check in found.checks)
    return found


def test_the_drop_of_a_long_cable() -> None:
    # A set holds 120 V; 20 A nominal (6 ohm) at the end of 100 ft of 12 AWG, 1.98 ohm per 1000 ft.
    d = Draft(place="field")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("load", "EA1", power="2400 W")
    d.run("G1.out", "EA1.in", "W1", size="12 AWG", length="100 ft")
    situation = situation_of(d, G1="running")
    found = only(situation)
    z = 2.0 * conductor(1.98, 100.0)
    current = 120.0 / abs(6.0 + z)
    assert found.load_v[0] == pytest.approx(6.0 * current, rel=1e-4)
    assert found.load_a[0] == pytest.approx(current, rel=1e-4)
    assert amps(situation, found, "W1", "L") == pytest.approx(current, rel=1e-4)
    # Trade formula 2 K I L / CM with K = 12.9 for 75 C and 6530 circular mils, for this current.
    formula = 2.0 * 12.9 * current * 100.0 / 6530.0
    assert 120.0 - found.load_v[0] == pytest.approx(formula, rel=5e-3)


def test_what_the_source_gives_is_what_loads_and_cables_take() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("load", "EA1", power="1500 W", power_factor="0.8")
    d.run("G1.out", "EA1.in", "W1", size="12 AWG", length="50 ft")
    situation = situation_of(d, G1="running")
    found = only(situation)
    current = found.load_a[0]
    lost = 2.0 * current**2 * 1.98 * 50.0 / 1000.0
    taken = 1500.0 * (found.load_v[0] / 120.0) ** 2
    assert found.source_w[0] == pytest.approx(taken + lost, rel=1e-4)
    assert current == pytest.approx(1500.0 / 0.8 / 120.0 * found.load_v[0] / 120.0, rel=1e-9)


def shared(second: str) -> tuple[Situation, Loaded]:
    """Two 1200 W circuits on one neutral; the second breaker in place ``second`` of the panel."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", prospective="10 kA", outage="no")
    d.part("panel", "QP1", circuit="split", bond="absent", places="4")
    d.part("junction_box", "XJ1", circuit="split")
    d.run("GS1.out", "QP1.feed", size="2 AWG", length="5 ft")
    for number, place in enumerate(("1", second), 1):
        d.part("breaker", f"QF{number}", rating="20 A")
        d.seat(f"QF{number}", "QP1", place)
        d.part("load", f"EA{number}", power="1200 W")
        d.run(
            "XJ1.c", f"EA{number}.in", poles=f"L{number}>L N>N PE>PE", size="12 AWG", length="5 ft"
        )
    cable = {"size": "12 AWG", "length": "40 ft"}
    d.run("QF1.load", "XJ1.a", "W8", poles="L>L1 N>N PE>PE", **cable)
    d.run("QF2.load", "XJ1.b", "W9", poles="L>L2", **cable)
    situation = situation_of(d)
    return situation, only(situation)


def test_a_shared_neutral_of_two_legs_carries_the_difference() -> None:
    situation, found = shared("3")
    assert amps(situation, found, "W8", "L") == pytest.approx(9.9, abs=0.15)
    assert amps(situation, found, "W8", "N") < 0.05


def test_a_shared_neutral_of_one_leg_carries_the_sum() -> None:
    situation, found = shared("2")
    both = amps(situation, found, "W8", "L") + amps(situation, found, "W9", "L")
    assert amps(situation, found, "W8", "N") == pytest.approx(both, rel=1e-3)
    assert both > 19.0


def sensed(bond: str) -> tuple[Situation, Loaded]:
    """A ground-fault breaker before a feeder whose panel has a link or not."""
    d = Draft(place="field")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("breaker", "QF1", rating="20 A", ground_fault="class_a")
    d.part("panel", "QP1", bond=bond)
    d.part("breaker", "QF2", rating="15 A")
    d.part("load", "EA1", power="1200 W")
    d.seat("QF1", "G1", "1")
    d.run("QF1.load", "QP1.feed", "W1", size="12 AWG", length="50 ft")
    d.seat("QF2", "QP1", "1")
    d.run("QF2.load", "EA1.in", size="12 AWG", length="10 ft")
    situation = situation_of(d, G1="running")
    return situation, only(situation)


def test_the_residual_of_a_sound_circuit_is_its_leak() -> None:
    _, found = sensed("absent")
    assert 0.0 < found.residual_a[0] < 1e-3


def test_a_second_link_takes_part_of_the_return_past_the_sensor() -> None:
    situation, found = sensed("fitted")
    ground = amps(situation, found, "W1", "PE")
    assert found.residual_a[0] == pytest.approx(ground, rel=1e-3)
    # Neutral: cable and contact of the breaker; ground wire: cable and both links.
    neutral, other = conductor(1.98, 50.0) + 5e-3, conductor(1.98, 50.0) + 2 * 0.75e-3
    share = abs(neutral / (neutral + other))
    assert ground == pytest.approx(share * found.load_a[0], rel=1e-3)
    assert 1000.0 * ground > situation.circuit.sensors[0].data.trip_ma.high


def on_a_bank(**inverter: str) -> Draft:
    d = Draft(place="vehicle")
    d.part("supply", "GS1", outage="yes", prospective="2 kA")
    d.part("battery", "GB1", capacity="200 Ah")
    d.part(
        "inverter_charger",
        "TB1",
        power="2 kVA",
        neutral="relay",
        neutral_through="switched",
        **inverter,
    )
    d.part("load", "EA1", power="900 W")
    d.run("GS1.out", "TB1.ac_in", "W1", size="10 AWG", length="10 ft")
    d.run("TB1.ac_out", "EA1.in", "W2", size="12 AWG", length="10 ft")
    d.run("GB1.dc", "TB1.dc", "W3", size="4/0 AWG", length="4 ft")
    return d


def volts(
    situation: Situation, found: Loaded, hertz: float, part: str, one: str, two: str
) -> float:
    nodes = situation.circuit.terminals[part, {0.0: "dc"}.get(hertz, "ac_in")]
    return abs(found.volts[hertz][nodes[one]] - found.volts[hertz][nodes[two]])


def test_an_inverter_draws_its_power_over_its_efficiency() -> None:
    situation = situation_of(on_a_bank(efficiency="85 %", idle="20 W"), GS1="dead", TB1="on")
    found = only(situation)
    inverter = next(i for i, s in enumerate(situation.circuit.sources) if s.data.name == "inverter")
    taken = found.source_w[inverter] / 0.85 + 20.0
    across = volts(situation, found, 0.0, "TB1", "+", "-")
    assert amps(situation, found, "W3", "+") == pytest.approx(taken / across, rel=1e-6)
    assert taken == pytest.approx(900.0 / 0.85 + 20.0, rel=0.01)


def test_a_charger_gives_its_current_and_takes_its_power() -> None:
    situation = situation_of(on_a_bank(charge="60 A", efficiency="90 %"), GS1="live", TB1="on")
    found = only(situation)
    assert amps(situation, found, "W3", "+") == pytest.approx(60.0, rel=1e-6)
    # 60 A at 13.5 V (12 V x 1.125), over 0.9, beside the load that is passed through.
    through = amps(situation, found, "W2", "L")
    charger = 60.0 * 13.5 / 0.9 / 0.95 / volts(situation, found, 60.0, "TB1", "L", "N")
    real, reactive = through + 0.95 * charger, math.sqrt(1.0 - 0.95**2) * charger
    assert amps(situation, found, "W1", "L") == pytest.approx(math.hypot(real, reactive), rel=2e-3)
    battery = next(i for i, s in enumerate(situation.circuit.sources) if s.owner == "GB1")
    assert found.source_a[battery].real == pytest.approx(-60.0, rel=1e-6)


def test_a_charger_on_long_thin_leads_stays_at_its_voltage() -> None:
    d = on_a_bank(charge="60 A")
    d.design.apply(rate_run(d.design, "W3", {"size": "12 AWG", "length": "20 ft"}))
    situation = situation_of(d, GS1="live", TB1="on")
    found = only(situation)
    assert volts(situation, found, 0.0, "TB1", "+", "-") == pytest.approx(13.5, rel=1e-6)
    # 1.5 V over 2 x 20 ft of 12 AWG and the battery's own 12 V / 8 kA.
    ohm = 2.0 * 1.98 * 20.0 / 1000.0 + 12.0 / 8000.0
    assert amps(situation, found, "W3", "+") == pytest.approx(1.5 / ohm, rel=1e-3)


def test_a_converter_that_asks_too_much_is_not_solved_and_says_why() -> None:
    d = on_a_bank()
    d.design.apply(rate_run(d.design, "W3", {"size": "14 AWG", "length": "60 ft"}))
    found = loaded(situation_of(d, GS1="dead", TB1="on"))
    assert not found.solved
    assert found.cause == "loads at 0 Hz ask for more than the conductors can carry"
    assert found.load_v == {}


def test_an_inverter_with_a_short_behind_it_shuts_off_and_the_rest_is_solved() -> None:
    d = on_a_bank(efficiency="85 %", idle="20 W")
    d.part("junction_box", "XJ1")
    d.run("TB1.ac_out", "XJ1.a", "W8", poles="L", size="10 AWG", length="5 ft")
    d.run("XJ1.a", "TB1.ac_out", "W9", poles="L>N", size="10 AWG", length="5 ft")
    found = only(situation_of(d, GS1="dead", TB1="on"))
    # what is left of its appetite is what it takes without a load
    assert sum(found.converter_w.values()) == pytest.approx(20.0)


def test_a_filament_takes_more_than_its_share_at_low_voltage() -> None:
    # Current to the power 0.6 of the voltage (from memory), through 2 x 50 ft of 14 AWG (3.14 ohm).
    d = Draft(place="vehicle")
    d.part("battery", "GB1", capacity="1000 Ah")
    d.part("lamp", "EL1", circuit="dc", type="filament", power="120 W", voltage="12 V")
    d.run("GB1.dc", "EL1.in", size="14 AWG", length="50 ft")
    found = only(situation_of(d))
    across = found.load_v[0]
    assert found.load_a[0] == pytest.approx(10.0 * (across / 12.0) ** 0.6, rel=1e-9)
    ohm = 2.0 * 3.14 * 50.0 / 1000.0 + 12.0 / 40000.0
    assert across == pytest.approx(12.0 - ohm * found.load_a[0], rel=1e-6)


def test_a_run_of_no_length_is_no_trouble() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("load", "EA1", power="1 kW")
    d.run("G1.out", "EA1.in", "W1", size="12 AWG", length="0 ft")
    situation = situation_of(d, G1="running")
    found = only(situation)
    assert found.load_v[0] == pytest.approx(120.0, rel=1e-4)
    assert situation.network(60.0, IN_USE).islands.live(
        situation.circuit.terminals["EA1", "in"]["L"]
    )


def test_a_load_whose_neutral_is_broken_is_dead() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("load", "EA1", power="1 kW")
    d.run("G1.out", "EA1.in", size="12 AWG", length="20 ft", broken="N")
    found = only(situation_of(d, G1="running"))
    assert found.load_v[0] == pytest.approx(0.0, abs=1.0)


def test_what_rounding_does_to_a_floating_neutral_is_no_unrest(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Loads see voltages between conductors; all of them may drift together against earth."""
    d = Draft(place="field")
    d.part("generator", "G1", power="4 kVA", neutral="floating")
    d.part("lamp", "EL1", power="600 W")
    d.run("G1.out", "EL1.in", size="12 AWG", length="50 ft")
    situation = situation_of(d, G1="running")
    plain = only(situation).load_v[0]
    drift = itertools.count(1)
    real = Network.solve

    def drifting(self: Network, injected: Complex) -> Complex:
        return real(self, injected) + 1e-6 * (-1) ** next(drift)

    monkeypatch.setattr(Network, "solve", drifting)
    assert only(situation_of(d, G1="running")).load_v[0] == pytest.approx(plain, rel=1e-9)
