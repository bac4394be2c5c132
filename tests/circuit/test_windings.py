"""Windings on one core in the network: ratio, impedance, what the primary takes, faults behind."""

from __future__ import annotations

from pathlib import Path

import pytest

from linework.design import Draft
from linework.study.loads.loaded import loaded
from linework.study.shorts.faults import Fault, faults
from linework.study.situation import Situation
from tests.circuit.spice import ngspice, printed
from tests.designs import situation_of

NETLIST = Path(__file__).parent / "ngspice" / "07-transformer-middle.cir"

POWER = {"power": "10 kVA", "impedance": "4 %", "x_over_r": "0"}


def stepped(load_w: str = "2400 W", prospective: str = "100 kA", **ratings: str) -> Draft:
    """A supply of 240 V without a neutral, a transformer to 120 V, a load."""
    d = Draft()
    d.part(
        "supply", "GS1", circuit="ac240", voltage="240 V", breaker="60 A", prospective=prospective
    )
    d.part("transformer", "T1", circuit="ac240", **(POWER | {"neutral": "bonded"} | ratings))
    d.run("GS1.out", "T1.primary", "p", size="6 AWG", length="1 mm")
    d.part("load", "EA1", power=load_w)
    d.run("T1.secondary", "EA1.in", "s", size="6 AWG", length="1 mm")
    return d


def of_sources(situation: Situation, owner: str) -> float:
    found = loaded(situation)
    return sum(
        abs(a) for i, a in found.source_a.items() if situation.circuit.sources[i].owner == owner
    )


def fault(situation: Situation, owner: str, part: str, terminal: str, kind: str) -> Fault:
    return next(
        f
        for f in faults(situation, owner)
        if (f.point.part, f.point.terminal, f.point.kind) == (part, terminal, kind)
    )


def test_the_turns_set_voltage_and_current() -> None:
    # 10 kVA, 240:120: 83.3 A; 4 % of 1.44 ohm are 0.0576 ohm. 2400 W at 120 V are 6 ohm.
    situation = situation_of(stepped())
    found = loaded(situation)
    (volts,) = (v for i, v in found.load_v.items() if situation.circuit.loads[i].owner == "EA1")
    assert volts == pytest.approx(120.0 * 6.0 / 6.0576, rel=1e-3)
    assert of_sources(situation, "T1") == pytest.approx(volts / 6.0, rel=1e-3)
    # both legs of the supply carry half of it
    assert of_sources(situation, "GS1") == pytest.approx(2 * volts / 6.0 / 2, rel=1e-3)
    assert all(check.sound for check in found.checks)


def test_a_short_behind_it_is_bounded_by_its_impedance_and_felt_before_it() -> None:
    # full-load current over per-unit impedance: 83.33 A / 0.04 = 2083 A behind a stiff supply (the
    # first step of the point-to-point method, published by makers of fuses, from memory); the
    # primary feels half of it
    situation = situation_of(stepped(prospective="1000 kA"))
    found = fault(situation, "T1", "T1", "secondary", "neutral")
    for outcome, within in ((found.weak, 0.015), (found.strong, 0.003)):
        assert outcome.current_a == pytest.approx(2083.0, rel=within)
        (device,) = (
            a for i, a in outcome.device_a.pairs() if situation.circuit.devices[i].owner == "GS1"
        )
        assert device == pytest.approx(2083.0 / 2, rel=within)


def test_what_stands_before_it_adds_its_impedance_by_the_square_of_the_turns() -> None:
    # supply 1 kA at 240 V: 0.24 ohm, seen from 120 V a quarter, 0.06 ohm, beside 0.0576 ohm
    situation = situation_of(stepped(prospective="1 kA"))
    leg = situation.circuit.sources[0].data
    r, x = leg.ohm_r.usual, leg.ohm_x.usual
    behind = abs(complex(2 * r / 4 + 0.0576, 2 * x / 4))
    found = fault(situation, "T1", "T1", "secondary", "metal")
    assert found.strong.current_a == pytest.approx(120.0 / behind, rel=0.01)


def with_middle(**power: str) -> Draft:
    """As :func:`stepped`, to 120/240 V with a neutral from the middle and a load on each leg."""
    d = Draft()
    d.part("supply", "GS1", circuit="ac240", voltage="240 V", breaker="60 A", prospective="100 kA")
    d.part("transformer", "T1", circuit="ac240", secondary="split", neutral="bonded", **POWER)
    d.run("GS1.out", "T1.primary", "p", size="6 AWG", length="1 mm")
    d.part("panel", "QP1", circuit="split", bond="absent")
    d.run("T1.secondary", "QP1.feed", "s", size="6 AWG", length="1 mm")
    for number, (name, watts) in enumerate(power.items(), 1):
        d.part("breaker", f"QF{number}", rating="20 A")
        d.seat(f"QF{number}", "QP1", name[-1])
        d.part("load", f"EA{number}", power=watts)
        d.run(f"QF{number}.load", f"EA{number}.in", f"m{number}", size="12 AWG", length="1 mm")
    return d


def test_a_middle_holds_both_legs_however_they_are_loaded() -> None:
    situation = situation_of(with_middle(at1="2400 W", at3="240 W"))
    found = loaded(situation)
    volts = {situation.circuit.loads[i].owner: v for i, v in found.load_v.items()}
    # a leg of 5 kVA at 120 V: 4 % of 2.88 ohm are 0.115 ohm; 6 ohm on it
    assert volts["EA1"] == pytest.approx(120.0 * 6.0 / 6.115, rel=2e-3)
    assert volts["EA2"] == pytest.approx(120.0, rel=5e-3)
    amps = {
        b.pole: abs(found.branch_a[60.0][i])
        for i, b in enumerate(situation.circuit.branches)
        if b.owner == "s"
    }
    assert amps["N"] == pytest.approx(amps["L1"] - amps["L2"], rel=1e-3)
    primary = next(i for i, b in enumerate(situation.circuit.branches) if b.owner == "p")
    taken = [a for i, a in found.load_a.items() if situation.circuit.loads[i].owner == "T1"]
    assert max(taken) == pytest.approx(abs(found.branch_a[60.0][primary]), rel=1e-6)
    assert max(taken) == pytest.approx((amps["L1"] + amps["L2"]) / 2.0, rel=1e-3)


def test_both_sides_are_apart() -> None:
    """The secondary floats against the primary: no conductor, no current between them."""
    situation = situation_of(stepped(neutral="floating", ground="shield"))
    label = situation.conductive
    nodes = situation.circuit.terminals
    one, other = nodes["T1", "primary"], nodes["T1", "secondary"]
    assert not {label[n] for n in one.values()} & {label[n] for n in other.values()}
    found = fault(situation, "GS1", "T1", "primary", "metal")
    assert not any(
        situation.circuit.branches[i].owner == "s"
        for i, a in found.weak.branch_a.pairs()
        if a > 1e-3
    )


def test_it_works_backward_where_only_its_secondary_is_fed() -> None:
    d = Draft()
    d.part("generator", "G1", power="3 kVA", neutral="bonded")
    d.part("transformer", "T1", circuit="ac240", neutral="floating", power="3 kVA")
    d.run("G1.out", "T1.secondary", "s", size="10 AWG", length="1 mm")
    d.part("load", "EA1", circuit="ac240", voltage="240 V", power="1 kW")
    d.run("T1.primary", "EA1.in", "p", size="12 AWG", length="1 mm")
    found = loaded(situation_of(d, G1="running"))
    assert max(found.load_v.values()) == pytest.approx(240.0, rel=0.02)
    assert not any(s.owner == "T1" for _, s in situation_of(d, G1="stopped").active)


def test_another_solver_finds_the_same_with_ideal_transformers_in_it() -> None:
    spice = printed(ngspice(NETLIST))
    situation = situation_of(with_middle(at1="2400 W", at3="240 W"))
    found = loaded(situation)
    volts = {situation.circuit.loads[i].owner: v for i, v in found.load_v.items()}
    assert volts["EA1"] == pytest.approx(spice["v6"], rel=2e-3)
    assert volts["EA2"] == pytest.approx(spice["v60"], rel=2e-3)
    line = max(
        abs(a) for i, a in found.source_a.items() if situation.circuit.sources[i].owner == "GS1"
    )
    assert line == pytest.approx(spice["i_line"], rel=2e-3)
    # the weakest: at the strongest a half alone has less, see below
    short = fault(situation, "T1", "T1", "secondary", "neutral").weak
    assert short.current_a == pytest.approx(spice["i_short"], rel=0.015)
    (felt,) = (a for i, a in short.device_a.pairs() if situation.circuit.devices[i].owner == "GS1")
    assert felt == pytest.approx(spice["i_felt"], rel=0.015)


def test_a_short_of_one_half_may_draw_half_as_much_again_as_one_of_both() -> None:
    # 75 kVA, 240 V, 1.40 %: 312.5 A, 22.3 kA from line to line, 1.33 to 1.67 times that from line
    # to neutral at the terminals (guides to short-circuit currents, from memory)
    d = Draft()
    d.part(
        "supply", "GS1", circuit="ac240", voltage="240 V", breaker="400 A", prospective="1000 kA"
    )
    power = {"power": "75 kVA", "impedance": "1.4 %", "x_over_r": "1.5"}
    d.part("transformer", "T1", circuit="ac240", secondary="split", neutral="bonded", **power)
    d.run("GS1.out", "T1.primary", "p", size="500 kcmil", length="1 mm")
    situation = situation_of(d)
    whole = fault(situation, "T1", "T1", "secondary", "line")
    half = fault(situation, "T1", "T1", "secondary", "neutral")
    assert whole.weak.current_a == pytest.approx(22.3e3, rel=0.05)
    assert half.weak.current_a == pytest.approx(22.3e3, rel=0.05)
    assert 1.33 * 22.3e3 < half.strong.current_a < 1.67 * 22.3e3
