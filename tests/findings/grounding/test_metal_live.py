"""Touchable metal that is live in normal use."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.camps import camp, caravan, house, levels
from tests.findings.told import found, number

RULE = "metal-live"


def test_hot_and_ground_exchanged_at_an_outlet_is_a_danger() -> None:
    draft = camp()
    draft.run_poles("W3", "L>PE N PE>L")
    hits = found(draft, RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("W3",), Level.DANGER)]
    assert number(hits[0], "voltage with a person in between") == pytest.approx(120.0, rel=0.01)


def test_the_same_at_a_load() -> None:
    draft = camp()
    draft.run_poles("W2", "L>PE N PE>L")
    assert levels(draft, RULE) == {("W2",): Level.DANGER}


def test_straight_wires_are_silent_with_and_without_earth_and_chassis() -> None:
    for draft in (camp(), house(), caravan()):
        assert found(draft, RULE) == []


def test_hot_and_neutral_exchanged_put_nothing_on_metal() -> None:
    draft = caravan()
    draft.run_poles("W1", "L>N N>L PE")
    assert found(draft, RULE) == []


def test_a_floating_source_puts_nothing_on_metal_that_a_person_could_feel() -> None:
    # what the stray capacitance of the set drives falls away with 1000 ohm across it
    draft = camp(neutral="floating")
    draft.run_poles("W3", "L>PE N PE>L")
    assert found(draft, RULE) == []


@pytest.mark.parametrize(
    ("volts", "wet", "live"),
    [(48, False, False), (52, False, True), (24, True, False), (48, True, True)],
)
def test_the_boundary_is_the_touch_voltage(volts: int, wet: bool, live: bool) -> None:
    # 50 V, 25 V where it is wet (IEC 60364-4-41, -7)
    draft = Draft(place="building", voltage=f"{volts} V")
    draft.design.apply(change_settings(draft.design, wet=wet))
    draft.part("supply", "GS1", breaker="20 A", prospective="2 kA", outage="no", electrode="1 ohm")
    draft.part("load", "EA1", power="10 W")
    draft.run("GS1.out", "EA1.in", "W1", poles="L>PE N PE>L", size="12 AWG", length="10 ft")
    assert levels(draft, RULE) == ({("W1",): Level.DANGER} if live else {})


def exchanged_with_ground(body: bool) -> Draft:
    """A house whose outlet has its hot wire on the neutral and the ground contact; a vehicle."""
    d = house()
    d.part("electrode", "XE1")
    d.run("QP1.ground", "XE1.ground", size="6 AWG", length="10 ft")
    d.part("breaker", "QF9", rating="15 A", interrupting="10 kA")
    d.seat("QF9", "QP1", "3")
    d.part("outlet", "XD9", configuration="5-15")
    d.run("QF9.load", "XD9.feed", "W9", poles="L>N N>L L>PE", size="14 AWG", length="40 ft")
    if body:
        d.part("body", "XB1", name="trailer")
        d.run("XD9.onward", "XB1.tie", poles="PE>body", size="10 AWG", length="20 ft")
    return d


@pytest.mark.parametrize("body", [False, True])
def test_the_live_skin_is_told_and_not_what_is_grounded(body: bool) -> None:
    hits = found(exchanged_with_ground(body), RULE)
    assert [hit.subjects for hit in hits] == [("W9", "XB1") if body else ("W9",)]
    assert number(hits[0], "voltage with a person in between") > 100.0
