"""A building without an earth electrode."""

from __future__ import annotations

from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.camps import camp, caravan, house, levels
from tests.findings.grounding.test_link_on_feeder import farm
from tests.findings.told import cured, found, places

RULE = "electrode-missing"


def cabin() -> Draft:
    """The camp's wiring in a building."""
    return camp(place="building")


def test_a_cabin_on_a_generator_wants_an_electrode() -> None:
    # 250.30(A)(4): a separately derived system in a building
    assert levels(cabin(), RULE) == {("G1",): Level.WARNING}


def test_an_electrode_at_the_board_or_at_the_set_makes_it_silent() -> None:
    for terminal in ("QP1.ground", "G1.frame"):
        draft = cabin()
        draft.part("electrode", "XE1")
        draft.run(terminal, "XE1.ground", size="6 AWG", length="6 ft", installation="jumper")
        assert found(draft, RULE) == []


def test_an_electrode_that_is_not_joined_is_none() -> None:
    draft = cabin()
    draft.part("electrode", "XE1")
    assert levels(draft, RULE) == {("G1",): Level.WARNING}


def test_a_supply_brings_the_electrode_of_its_site() -> None:
    assert found(house(), RULE) == []


def test_vehicles_and_the_open_field_are_not_asked() -> None:
    # 250.34: a portable set needs no rod (Code Q&A, ecmweb.com/content/code-qa)
    assert found(camp(), RULE) == []
    assert found(caravan(), RULE) == []


def test_a_portable_set_that_feeds_its_own_outlets_is_not_asked() -> None:
    draft = Draft(place="building")
    draft.part("generator", "G1", power="3 kVA", neutral="bonded")
    draft.part("breaker", "QF1", rating="20 A")
    draft.seat("QF1", "G1", "1")
    draft.part("outlet", "XD1", configuration="5-20", ground_fault="class_a")
    draft.seat("XD1", "QF1", "load")
    assert found(draft, RULE) == []


def test_the_mend_puts_one_at_the_only_board() -> None:
    assert cured(cabin(), found(cabin(), RULE)[0]).silent


def test_a_building_of_its_own_needs_an_electrode_of_its_own() -> None:
    """NFPA 70 250.32(A): a building supplied by a feeder."""
    draft = farm("L1 L2 N PE", "absent", rod=False)
    assert found(draft, RULE) == []
    draft.rate("QP2", detached="yes")
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level, hit.clause) == (("QP2",), Level.WARNING, "250.32(A)")
    cured(draft, hit)
    assert found(draft, RULE) == []


def test_the_electrode_may_be_at_its_board_or_at_the_disconnect_before_it() -> None:
    draft = farm("L1 L2 N PE", "absent")
    draft.rate("QP2", detached="yes")
    assert found(draft, RULE) == []
    draft = farm("L1 L2 N PE", "absent", rod=False)
    draft.rate("QP2", detached="yes")
    draft.cut("f")
    draft.part("isolator", "QB1", circuit="split", rating="60 A")
    draft.run("QF1.load", "QB1.line", "f1", size="4 AWG", length="90 ft")
    draft.run("QB1.load", "QP2.feed", "f2", size="4 AWG", length="5 ft")
    assert places(draft, RULE) == {("QP2",)}
    draft.part("electrode", "XE2")
    draft.run("QB1.load", "XE2.ground", "g", poles="PE", size="6 AWG", length="8 ft")
    assert found(draft, RULE) == []


def test_a_single_branch_circuit_needs_none() -> None:
    """250.32(A), exception."""
    draft = farm("L1 L2 N PE", "absent", rod=False)
    draft.rate("QP2", detached="yes")
    draft.remove("QF2")
    assert found(draft, RULE) == []


def test_what_stands_elsewhere_feeds_a_building_of_its_own() -> None:
    draft = farm("L1 L2 N PE", "absent", rod=False)
    draft.rate("QP1", stands="field")
    draft.rate("QP2", stands="building")
    assert places(draft, RULE) == {("QP2",)}
    draft.rate("QP1", stands="building")
    assert found(draft, RULE) == []


def test_a_board_with_a_link_is_told_once() -> None:
    draft = farm(rod=False)
    draft.rate("QP2", detached="yes")
    assert found(draft, RULE) == []
    assert ("QP2",) in places(draft, "link-on-feeder")


def test_a_building_that_a_board_in_the_yard_feeds() -> None:
    """The board of the yard is told nothing: it stands in the place of the design."""
    draft = farm("L1 L2 N PE", "absent", rod=False)
    draft.rate("QP2", stands="building")
    assert found(draft, RULE) == []
    draft.design.apply(change_settings(draft.design, place="field"))
    assert places(draft, RULE) == {("QP2",)}
