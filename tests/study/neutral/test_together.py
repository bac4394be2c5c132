"""Neutrals by which circuits behind different devices come back together."""

from __future__ import annotations

from linework.design import Draft
from linework.study.neutral.together import neutrals_of_two_circuits
from tests.designs import situation_of
from tests.findings.overcurrent.test_handle_not_common import shared, without_box


def test_the_neutral_two_loads_use_and_not_that_of_the_feeder() -> None:
    situation = situation_of(without_box())
    found = list(neutrals_of_two_circuits(situation))
    runs = {situation.circuit.branches[each.branch].owner for each in found}
    assert runs == {"W2"}  # not W1, the feeder of both
    assert {(each.one.owner, each.other.owner) for each in found} == {("QF1", "QF2")}
    assert not any(each.same_leg for each in found)


def test_circuits_with_a_neutral_each_share_none() -> None:
    d = shared()
    d.cut("W3", "WEA2")
    d.run("QF2.load", "EA2.in", "W3", size="12 AWG", length="10 ft")
    assert list(neutrals_of_two_circuits(situation_of(d))) == []


def test_the_device_before_a_winding_lies_before_all_that_it_feeds() -> None:
    d = Draft(place="building")
    d.part("generator", "G1", power="6 kVA", circuit="ac240", voltage="240 V", breaker="25 A")
    d.part("autotransformer", "TA1", power="4 kVA", form="balance")
    d.part("panel", "QP1", circuit="split", bond="fitted")
    d.run("G1.out", "TA1.primary", "W1", size="10 AWG", length="20 ft")
    d.run("TA1.secondary", "QP1.feed", "W2", size="10 AWG", length="5 ft")
    for n in (1, 2):
        d.part("breaker", f"QF{n}", rating="15 A")
        d.seat(f"QF{n}", "QP1", str(n))
        d.part("heater", f"EH{n}", power="600 W", voltage="120 V")
        d.run(f"QF{n}.load", f"EH{n}.in", f"W{n + 2}", size="14 AWG", length="20 ft")
    assert list(neutrals_of_two_circuits(situation_of(d, G1="running"))) == []
