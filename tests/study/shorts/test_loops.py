"""The loop of a short, against Kirchhoff's voltage law and a published sum."""

from __future__ import annotations

import math

import pytest

from linework.design import Draft
from linework.study.shorts.faults import Fault, faults
from linework.study.shorts.loops import Loop, loop_of
from linework.study.situation import Situation
from linework.wiring import is_protective
from linework.wiring.poles import Pole
from tests.designs import situation_of, situations
from tests.findings.camps import camp, caravan, changeover
from tests.study.shorts.test_faults import at, feeder


def of(situation: Situation, fault: Fault) -> Loop:
    loop = loop_of(situation, fault)
    assert loop is not None
    return loop


@pytest.mark.parametrize("drawn", [camp(), camp(neutral="floating"), caravan(), changeover()])
def test_the_volts_of_the_pieces_add_up_to_those_of_the_source(drawn: Draft) -> None:
    """Kirchhoff's voltage law, in every short of every state."""
    closed = 0  # of those that are not at the source's own terminals
    for situation in situations(drawn.design):
        for owner in situation.owners:
            for fault in faults(situation, owner):
                loop = of(situation, fault)
                if fault.weak.current_a > 1e-3:
                    assert loop.back is not None
                    total = sum(piece.volts for piece in (*loop.out, *loop.back))
                    assert abs(total - loop.terminal_v) < 1e-9 + 1e-6 * abs(loop.terminal_v)
                    closed += abs(loop.terminal_v) > 1.0
    assert closed


def test_a_piece_loses_what_its_current_and_impedance_make() -> None:
    situation = situation_of(camp(), G1="running")
    fault = at(situation, "EA1")
    loop = of(situation, fault)
    assert loop.source == "G1"
    assert loop.back is not None
    for piece in (*loop.out, *loop.back):
        assert abs(piece.volts) == pytest.approx(piece.ohm * piece.amps, rel=1e-6)
        assert piece.amps == pytest.approx(fault.weak.current_a, rel=1e-3)
    assert [p.owner for p in loop.out if p.sort == "run"] == ["W1", "W2"]
    assert [p.owner for p in loop.back if p.sort == "run"] == ["W2", "W1"]
    assert "QF1" in {p.owner for p in loop.out}
    assert [p.owner for p in loop.back if p.sort == "bond"] == ["G1"]


def test_soil_as_the_only_way_back_takes_all_the_volts() -> None:
    # "The Path of Least Resistance" (trade magazine, 2001): 120 V over 25 ohm are 4.8 A, and all
    # of the voltage stands between the case and the source's earth.
    d = feeder(breaker="15 A", electrode="0 ohm", prospective="10 kA")
    d.part("panel", "QP1", bond="absent")
    d.part("electrode", "XE1", resistance="25 ohm")
    d.run("GS1.out", "EA1.in", size="12 AWG", length="10 ft", broken="PE")
    d.run("EA1.in", "QP1.feed", poles="PE>PE", size="6 AWG", length="1 ft")
    d.run("QP1.ground", "XE1.ground", size="6 AWG", length="1 ft")
    situation = situation_of(d)
    loop = of(situation, at(situation, "EA1"))
    (soil,) = [p for p in loop.back or () if p.sort == "soil" and p.owner == "XE1"]
    assert soil.ohm == pytest.approx(25.0, rel=1e-3)
    assert soil.amps == pytest.approx(4.8, abs=0.01)
    assert abs(soil.volts) == pytest.approx(120.0, abs=0.5)


def test_of_two_ways_back_it_goes_the_one_that_carries_more() -> None:
    d = camp()
    d.part("junction_box", "XJ1")
    d.run("QP1.feed", "XJ1.a", "W8", poles="PE>PE", size="4/0 AWG", length="1 ft")
    d.run("XJ1.b", "G1.out", "W9", poles="PE>PE", size="4/0 AWG", length="1 ft")
    situation = situation_of(d, G1="running")
    loop = of(situation, at(situation, "EA1"))
    owners = [p.owner for p in loop.back or ()]
    assert {"W8", "W9"} <= {*owners}
    assert "W1" not in owners
    total = sum(piece.volts for piece in (*loop.out, *(loop.back or ())))
    assert abs(total - loop.terminal_v) < 1e-6 * abs(loop.terminal_v)


def test_a_floating_source_has_no_way_back() -> None:
    situation = situation_of(camp(neutral="floating"), G1="running")
    loop = of(situation, at(situation, "EA1"))
    assert loop.back is None
    assert [p.owner for p in loop.out if p.sort == "run"] == ["W1", "W2"]
    assert math.isclose(abs(loop.terminal_v), 120.0, rel_tol=0.1)


def test_a_source_that_limits_its_current_holds_no_more_volts_than_the_loop_loses() -> None:
    situation = situation_of(camp(), G1="running")
    fault = at(situation, "EA1")
    loop = of(situation, fault)
    ohm = sum(p.ohm for p in (*loop.out, *(loop.back or ())))
    assert abs(loop.terminal_v) == pytest.approx(fault.weak.current_a * ohm, rel=0.05)
    assert any(is_protective(Pole(p.pole)) for p in loop.back or () if p.sort == "run")
