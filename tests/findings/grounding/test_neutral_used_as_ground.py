"""A ground contact or case that hangs on the neutral."""

from __future__ import annotations

from linework.findings.model import Level
from tests.findings.camps import camp, house, levels
from tests.findings.told import cured, found

RULE = "neutral-used-as-ground"


def test_a_jumper_from_neutral_to_the_ground_contact_is_a_danger() -> None:
    draft = camp()
    draft.run_poles("W3", "L N N>PE")
    assert levels(draft, RULE) == {("W3",): Level.DANGER}
    # and no instrument at the outlet shows it
    assert "read correct" in found(draft, RULE)[0].message


def test_a_ground_wire_of_its_own_is_silent() -> None:
    assert found(camp(), RULE) == []


def test_neutral_and_ground_exchanged_at_an_outlet() -> None:
    draft = camp()
    draft.run_poles("W3", "L N>PE PE>N")
    assert levels(draft, RULE) == {("W3",): Level.DANGER}


def test_neutral_and_ground_exchanged_at_a_load_explain_the_current_on_the_ground_wire() -> None:
    draft = camp()
    draft.run_poles("W2", "L N>PE PE>N")
    cause = found(draft, "neutral-missing")[0]
    told = {c.rule for c in cause.consequences}
    assert told >= {RULE, "ground-carries-load"}


def test_a_jumper_beside_a_whole_ground_wire_is_a_second_link_instead() -> None:
    draft = camp()
    draft.run_poles("W3", "L N PE N>PE")
    assert found(draft, RULE) == []
    assert levels(draft, "bond-doubled") == {("W3",): Level.DANGER}


def test_the_link_of_a_board_on_a_three_wire_feeder_is_not_meant() -> None:
    # NFPA 70 250.32(B) exception: an existing feeder whose neutral is the fault path
    draft = house()
    draft.rate("QP1", bond="fitted")
    draft.run_poles("W1", "L N")
    assert found(draft, RULE) == []
    assert found(draft, "ground-open") == []


def test_on_a_floating_source_it_is_no_less_wrong() -> None:
    draft = camp(neutral="floating")
    draft.run_poles("W3", "L N N>PE")
    assert levels(draft, RULE) == {("W3",): Level.DANGER}


def test_the_mend_puts_each_wire_on_its_own() -> None:
    for poles in ("L N>PE PE>N",):
        draft = camp()
        draft.run_poles("W3", poles)
        assert cured(draft, found(draft, RULE)[0]).silent
