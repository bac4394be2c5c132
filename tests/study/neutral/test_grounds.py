"""Which ground wires on their own some metal relies on."""

from __future__ import annotations

from linework.design import Draft
from linework.study.neutral.grounds import lone_ground_wires
from tests.designs import situation_of


def boards(poles: str) -> Draft:
    """Two boards; a ground wire by itself joins them."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="100 A", outage="no")
    draft.part("panel", "QP1", bond="absent")
    draft.run("GS1.out", "QP1.feed", "W1", size="1 AWG", length="20 ft")
    draft.part("breaker", "QF1", rating="60 A")
    draft.seat("QF1", "QP1", "1")
    draft.part("panel", "QP2", bond="absent")
    draft.run("QF1.load", "QP2.feed", "W2", poles, size="4 AWG", length="20 ft")
    draft.run("QP1.ground", "QP2.ground", "W3", size="10 AWG", length="20 ft")
    return draft


def test_the_device_ahead_of_the_metal_that_hangs_on_it() -> None:
    situation = situation_of(boards("L N"))
    (wire,) = lone_ground_wires(situation)
    assert (wire.run, wire.parts, wire.live_runs) == ("W3", ("QP2",), ("W2",))
    assert situation.circuit.devices[wire.device].owner == "QF1"


def test_beside_another_way_it_is_not_relied_on() -> None:
    assert list(lone_ground_wires(situation_of(boards("L N PE")))) == []


def test_one_to_a_rod_carries_nobodys_fault() -> None:
    draft = boards("L N PE")
    draft.cut("W3")
    draft.part("electrode", "XE1")
    draft.run("QP2.ground", "XE1.ground", "W4", size="6 AWG", length="6 ft")
    assert list(lone_ground_wires(situation_of(draft))) == []
