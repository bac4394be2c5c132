"""Two links on one ring."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import OneOf
from tests.findings.camps import camp, caravan, changeover, house, levels
from tests.findings.told import cured, found, number

RULE = "bond-doubled"


def test_a_second_link_in_the_board_is_a_danger() -> None:
    draft = camp()
    draft.rate("QP1", bond="fitted")
    assert levels(draft, RULE) == {("QP1",): Level.DANGER}


def test_one_link_is_silent_wherever_it_is() -> None:
    assert found(camp(), RULE) == []
    draft = camp(neutral="floating")
    draft.rate("QP1", bond="fitted")
    assert found(draft, RULE) == []


def test_the_ring_carries_the_share_that_the_resistances_give() -> None:
    draft = camp()
    draft.rate("QP1", bond="fitted")
    hit = found(draft, RULE)[0]
    # 600 W at 120 V; neutral and ground wire of W1 alike: 20 ft of 10 AWG at 75 C, 1.24 ohm per
    # 1000 ft (NFPA 70 chapter 9 table 8), the ground's way with two links of 0.75 mohm more
    wire = 20 * 1.24e-3
    share = wire / (2 * wire + 2 * 0.75e-3)
    assert number(hit, "current in a link, drawn loads on") == pytest.approx(5 * share, rel=0.03)


def test_two_links_without_a_ground_wire_between_them_are_no_ring() -> None:
    # the old three-wire feeder: NFPA 70 250.32(B) exception
    draft = camp()
    draft.rate("QP1", bond="fitted")
    draft.run_poles("W1", "L N")
    assert found(draft, RULE) == []


def test_soil_closes_no_ring() -> None:
    draft = camp()
    draft.rate("QP1", bond="fitted")
    draft.run_poles("W1", "L N")
    for rod, at in (("XE1", "G1.frame"), ("XE2", "QP1.ground")):
        draft.part("electrode", rod, resistance="5 ohm")
        draft.run(at, f"{rod}.ground", f"W{rod}", size="6 AWG", length="6 ft")
    assert found(draft, RULE) == []


def test_a_chassis_closes_one() -> None:
    draft = camp("vehicle")
    draft.rate("QP1", bond="fitted")
    draft.run_poles("W1", "L N")
    draft.part("body", "XB1")
    jumper = {"size": "8 AWG", "length": "3 ft", "installation": "jumper"}
    draft.run("G1.frame", "XB1.tie", "W8", **jumper)
    draft.run("QP1.ground", "XB1.tie", "W9", **jumper)
    assert levels(draft, RULE) == {("QP1",): Level.DANGER}


def test_a_changeover_that_switches_the_neutral_keeps_two_links_apart() -> None:
    assert found(changeover("all"), RULE) == []


def test_a_changeover_with_the_neutral_joined_through_does_not() -> None:
    draft = changeover("lines")
    assert levels(draft, RULE) == {("G1",): Level.DANGER}
    top = next(f for f in analyse(draft.design).findings if f.rule == RULE)
    assert {c.rule for c in top.consequences} == {"transfer-poles-wrong", "ground-carries-load"}


def test_it_holds_only_in_the_states_that_close_the_ring() -> None:
    draft = caravan()
    draft.rate("QP1", bond="fitted")
    assert found(draft, RULE)[0].states == ("G1=running XP1=XD1",)


def test_the_mend_takes_the_link_out_of_a_vehicles_board() -> None:
    draft = caravan()
    draft.rate("QP1", bond="fitted")
    assert cured(draft, found(draft, RULE)[0]).silent


def test_nothing_is_taken_out_of_a_board_that_nobody_looked_into() -> None:
    draft = caravan()
    draft.rate("QP1", bond=OneOf(("absent", "fitted")))
    hits = found(draft, RULE)
    assert [hit.cases for hit in hits] == [("QP1 neutral-ground link in the panel: fitted",)]
    assert hits[0].mend is None


def test_a_jumper_drawn_as_a_run_counts() -> None:
    draft: Draft = camp()
    draft.run_poles("W3", "L N PE N>PE")
    assert levels(draft, RULE) == {("W3",): Level.DANGER}


@pytest.mark.parametrize(("neutral", "told"), [("bonded", True), ("floating", False)])
def test_a_bonding_plug_is_right_on_a_floating_set_only(neutral: str, told: bool) -> None:
    draft = caravan(neutral=neutral)
    draft.part("bond_plug", "XQ1", configuration="5-20")
    draft.seat("XQ1", "XD2", "face")
    assert levels(draft, RULE) == ({("G1", "XQ1"): Level.DANGER} if told else {})


def test_a_bonding_plug_in_the_outlet_of_a_house_is_a_danger() -> None:
    draft = house()
    draft.part("breaker", "QF2", rating="20 A", interrupting="10 kA")
    draft.seat("QF2", "QP1", "2")
    draft.part("outlet", "XD1", configuration="5-20")
    draft.run("QF2.load", "XD1.feed", "W8", size="12 AWG", length="20 ft")
    draft.part("bond_plug", "XQ1", configuration="5-20")
    draft.seat("XQ1", "XD1", "face")
    assert levels(draft, RULE) == {("XQ1",): Level.DANGER}


@pytest.mark.parametrize(("through", "doubled"), [("common", True), ("switched", False)])
def test_a_relay_link_on_a_neutral_that_stays_joined_to_a_dead_shore(
    through: str, doubled: bool
) -> None:
    """The post trips while the cord is in: the set makes its link, the post's is still there."""
    d = Draft(place="recreational")
    d.part("supply", "GS1", prospective="2 kA")
    d.part("battery", "GB1")
    d.part("inverter_charger", "TB1", power="2 kVA", neutral="relay", neutral_through=through)
    d.run("GS1.out", "TB1.ac_in", size="10 AWG", length="25 ft")
    d.run("GB1.dc", "TB1.dc", size="4/0 AWG", length="3 ft")
    d.part("load", "EA1", power="500 W")
    d.run("TB1.ac_out", "EA1.in", size="12 AWG", length="15 ft")
    hits = found(d, RULE)
    assert bool(hits) is doubled
    if doubled:
        (hit,) = hits
        # and while it looks at a live post: its link is closed until it takes the input
        assert hit.states == ("GS1=dead TB1=on", "TB1=on while TB1 is looking at its input")
