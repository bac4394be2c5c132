"""Neutrals by which circuits behind different devices come back together."""

from __future__ import annotations

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
