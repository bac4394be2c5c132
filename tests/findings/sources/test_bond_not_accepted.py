"""A link on a source whose maker forbids one."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import OneOf
from tests.findings.camps import camp, caravan, levels
from tests.findings.told import found, number

RULE = "bond-not-accepted"


@pytest.mark.parametrize("answer", ["yes", "unknown"])
def test_a_link_in_the_board_is_silent_where_the_maker_does_not_forbid_it(answer: str) -> None:
    draft = camp(neutral="floating", bond_allowed=answer)
    draft.rate("QP1", bond="fitted")
    assert found(draft, RULE) == []


def test_where_the_maker_forbids_it_it_is_a_danger() -> None:
    # NFPA 70 110.3(B): listed equipment is used as its instructions say
    draft = camp(neutral="floating", bond_allowed="no")
    draft.rate("QP1", bond="fitted")
    assert levels(draft, RULE) == {("G1",): Level.DANGER}
    assert number(found(draft, RULE)[0], "{neutral_ground_link}s in circuit") == 1.0


def test_without_the_link_a_note_says_what_may_not_be_added() -> None:
    draft = camp(neutral="floating", bond_allowed="no")
    assert levels(draft, RULE) == {("G1",): Level.NOTE}
    assert "add none behind it" in found(draft, RULE)[0].message
    assert found(camp(neutral="floating", bond_allowed="unknown"), RULE) == []


def test_a_link_of_its_own_that_its_maker_forbids_is_a_danger() -> None:
    draft = caravan(neutral="bonded", bond_allowed="no")
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("G1",), Level.DANGER)
    assert "take it out" in hit.message
    assert number(hit, "{neutral_ground_link}s in circuit") == 1.0
    assert found(caravan(neutral="bonded", bond_allowed="yes"), RULE) == []


def test_a_link_added_to_an_inverter_is_told_apart_from_its_makers() -> None:
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1")
    draft.part("inverter", "TB1", power="1 kVA", neutral="added", bond_allowed="no", outlets="1")
    draft.run("GB1.dc", "TB1.dc", size="1/0 AWG", length="1 ft")
    draft.part("outlet", "XD1", configuration="5-15")
    draft.seat("XD1", "TB1", "1")
    assert levels(draft, RULE) == {("TB1",): Level.DANGER}
    draft.rate("TB1", neutral="floating")
    assert levels(draft, RULE) == {("TB1",): Level.NOTE}
    draft.rate("TB1", neutral="bonded")
    assert found(draft, RULE) == []


def test_where_the_neutral_is_not_known_no_link_of_its_own_is_guessed() -> None:
    draft = caravan(neutral=OneOf(("bonded", "floating")), bond_allowed="no")
    assert {hit.level for hit in found(draft, RULE)} == {Level.NOTE}


def test_a_bonding_plug_is_such_a_link() -> None:
    draft = caravan(neutral="floating", bond_allowed="no")
    draft.part("bond_plug", "XQ1", configuration="5-20")
    draft.seat("XQ1", "XD2", "face")
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("G1",)
    assert "XQ1" in hit.message
