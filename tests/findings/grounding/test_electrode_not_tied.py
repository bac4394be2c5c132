"""An electrode by itself."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, house, levels
from tests.findings.told import found, number

RULE = "electrode-not-tied"


def lone() -> Draft:
    """A rod somewhere on the ground of a house."""
    draft = house()
    draft.part("electrode", "XE1", resistance="40 ohm")
    return draft


def test_a_rod_by_itself_is_a_danger() -> None:
    # 250.50: all electrodes present are one system
    assert levels(lone(), RULE) == {("XE1",): Level.DANGER}
    assert number(found(lone(), RULE)[0], "its resistance to earth") == 40.0


def test_two_rods_joined_to_each_other_only_are_both_told() -> None:
    draft = lone()
    draft.part("electrode", "XE2")
    draft.run("XE1.ground", "XE2.ground", size="6 AWG", length="6 ft", installation="jumper")
    assert set(levels(draft, RULE)) == {("XE1",), ("XE2",)}


def test_joined_to_the_board_it_is_silent() -> None:
    draft = lone()
    draft.run("QP1.ground", "XE1.ground", size="6 AWG", length="6 ft", installation="jumper")
    assert found(draft, RULE) == []


def test_through_the_soil_it_is_not_joined() -> None:
    # the site has an electrode of its own; what joins the two is soil
    draft = lone()
    draft.rate("GS1", electrode="0 ohm")
    draft.rate("XE1", resistance="0 ohm")
    assert levels(draft, RULE) == {("XE1",): Level.DANGER}


def test_joined_in_one_state_is_joined() -> None:
    # the rod stands at the board, which a cord joins to its set
    draft = camp()
    draft.part("electrode", "XE1")
    draft.run("QP1.ground", "XE1.ground", size="6 AWG", length="6 ft", installation="jumper")
    assert found(draft, RULE) == []


def test_without_alternating_current_only_a_rod_joined_to_nothing_is_told() -> None:
    draft = Draft(place="field")
    draft.part("battery", "GB1", fault_current="1 kA")
    draft.part("body", "XB1", name="mast", type="structure")
    draft.part("electrode", "XE1")
    assert levels(draft, RULE) == {("XE1",): Level.WARNING}
    draft.run("XB1.tie", "XE1.ground", size="6 AWG", length="6 ft", installation="jumper")
    assert found(draft, RULE) == []
