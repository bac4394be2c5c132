"""A live neutral that meets ground nowhere."""

from __future__ import annotations

from linework.advice import proven
from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import OneOf
from tests.findings.camps import camp, caravan, house, levels
from tests.findings.told import cured, found, number
from tests.trial.rigs import RIGS

RULE = "bond-missing"


def test_a_floating_set_that_feeds_fixed_wiring_is_a_danger() -> None:
    hits = found(camp(neutral="floating"), RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("G1",), Level.DANGER)]
    assert number(hits[0], "{neutral_ground_link}s in circuit") == 0.0


def test_the_same_set_with_its_link_is_silent() -> None:
    assert found(camp(neutral="bonded"), RULE) == []


def test_a_link_by_a_relay_counts_while_the_set_runs() -> None:
    assert found(camp(neutral="relay"), RULE) == []


def test_a_fault_to_metal_is_told_as_the_consequence() -> None:
    hit = found(camp(neutral="floating"), RULE)[0]
    assert {c.rule for c in hit.consequences} == {"fault-not-cleared"}


def test_an_earth_rod_is_no_link() -> None:
    draft = camp(neutral="floating")
    draft.part("electrode", "XE1", resistance="5 ohm")
    draft.run("QP1.ground", "XE1.ground", "W9", size="6 AWG", length="10 ft")
    assert levels(draft, RULE) == {("G1",): Level.DANGER}


def test_a_vehicle_that_a_floating_set_feeds_by_cord_is_a_warning() -> None:
    # 250.34 leaves a portable set free to float; the vehicle's wiring expects a bonded source
    hits = [hit for hit in found(caravan(neutral="floating"), RULE) if hit.level > Level.NOTE]
    assert [(hit.subjects, hit.level) for hit in hits] == [(("G1",), Level.WARNING)]
    assert hits[0].states == ("G1=running XP1=XD1",)


def test_cord_and_plug_loads_straight_from_the_set_are_a_note() -> None:
    draft = Draft(place="field")  # NFPA 70 250.34(A): only its own outlets
    draft.part("generator", "G1", power="3 kVA", neutral="floating")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("outlet", "XD1", configuration="5-20")
    draft.part("plug_load", "EP1", power="500 W", configuration="5-15")
    draft.seat("QF1", "G1", "1")
    draft.seat("XD1", "QF1", "load")
    draft.seat("EP1", "XD1", "face")
    assert levels(draft, RULE) == {("G1",): Level.NOTE}
    # an outlet in fixed wiring makes it what 250.20(B) speaks of
    draft.part("outlet", "XD2", configuration="5-20")
    draft.run("XD1.onward", "XD2.feed", "W1", size="12 AWG", length="30 ft")
    assert levels(draft, RULE) == {("G1",): Level.DANGER}
    # by a flexible cord it stays cord-and-plug
    draft.rate_run("W1", installation="cord")
    assert levels(draft, RULE) == {("G1",): Level.NOTE}


def test_a_supply_without_a_link_is_a_danger() -> None:
    assert levels(house(neutral="floating"), RULE) == {("GS1",): Level.DANGER}


def test_an_unknown_neutral_is_judged_both_ways_and_the_finding_says_so() -> None:
    hits = found(camp(neutral=OneOf(("bonded", "floating"))), RULE)
    assert [hit.cases for hit in hits] == [("G1 neutral: floating",)]
    assert "measure" in hits[0].message
    assert hits[0].mend is None


def test_the_mend_bonds_a_set_whose_maker_accepts_it() -> None:
    draft = camp(neutral="floating", bond_allowed="yes")
    assert cured(draft, found(draft, RULE)[0]).silent


def test_no_link_is_offered_where_the_maker_has_not_said_yes() -> None:
    for answer, words in (("unknown", "Ask the maker"), ("no", "forbids a link")):
        draft = camp(neutral="floating", bond_allowed=answer)
        hit = found(draft, RULE)[0]
        assert proven(draft.design, analyse(draft.design), hit) is None
        assert words in hit.message


def test_sources_that_share_a_neutral_get_one_link_where_both_have_it() -> None:
    """One at each, as each finding by itself would say, closes a ring: 250.30(A), 250.6."""
    draft = RIGS["cabin_on_one_hot"]()
    draft.rate("QP1", bond="absent")
    hits = found(draft, RULE)
    assert {hit.subjects for hit in hits} == {("G1",), ("TB1",)}
    for hit in hits:
        assert "one link for all of them in QP1, not one at each" in hit.message
        assert cured(draft, hit).silent
        draft.rate("QP1", bond="absent")
    draft.rate("G1", neutral="bonded")
    draft.rate("TB1", neutral="added")
    assert [hit.level for hit in found(draft, "bond-doubled")] == [Level.DANGER]


def test_a_link_that_is_one_too_many_while_others_feed_must_open_then() -> None:
    draft = RIGS["homestead"]()
    draft.rate("TB1", neutral_through="switched")
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("TB1",)
    assert "it must close only while TB1 feeds" in hit.message
    draft.rate("TB1", neutral="added")
    assert [h.level for h in found(draft, "bond-doubled")] == [Level.DANGER]
    draft.rate("TB1", neutral="floating")
    assert cured(draft, hit).silent


def service(bond: str = "absent", **run: str) -> Draft:
    """A house on a supply that brings two hots and a neutral, its rod at the board."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="split", breaker="100 A", prospective="4 kA", outage="no")
    draft.part("panel", "QP1", circuit="split", bond=bond)
    poles = {"poles": "L1 L2 N"} | run
    draft.run("GS1.out", "QP1.feed", "u", size="1/0 AWG", length="40 ft", **poles)
    draft.part("electrode", "XE1")
    draft.run("QP1.ground", "XE1.ground", size="6 AWG", length="10 ft", installation="jumper")
    draft.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    draft.seat("QF1", "QP1", "1")
    draft.part("outlet", "XD1", configuration="5-15")
    draft.run("QF1.load", "XD1.feed", size="14 AWG", length="30 ft")
    return draft


def test_a_house_whose_first_board_lacks_the_link() -> None:
    """NFPA 70 250.24(B): a service brings no ground wire, its board joins neutral and ground."""
    (hit,) = found(service(), RULE)
    assert (hit.subjects, hit.level, hit.clause) == (("QP1",), Level.DANGER, "250.24(B)")
    under = {c.rule for c in hit.consequences}
    assert {"fault-not-cleared", "rod-as-return", "electrode-not-tied"} <= under
    draft = service()
    assert found(draft, "ground-open") == []
    assert cured(draft, hit).silent


def test_with_the_link_or_a_ground_wire_it_does_not() -> None:
    assert found(service("fitted"), RULE) == []
    assert found(service(poles="L1 L2 N PE"), RULE) == []


def test_a_board_further_on_needs_the_ground_wire() -> None:
    draft = service("fitted")
    draft.part("panel", "QP2", circuit="split", bond="absent")
    draft.part("breaker", "QF2", circuit="split", rating="60 A", interrupting="10 kA")
    draft.seat("QF2", "QP1", "2")
    draft.run("QF2.load", "QP2.feed", "f", poles="L1 L2 N", size="6 AWG", length="50 ft")
    assert found(draft, RULE) == []
    assert [h.subjects for h in found(draft, "ground-open")] == [("f",)]


def test_an_inverter_that_feeds_what_is_plugged_into_its_own_front() -> None:
    """As a portable set: cord-and-plug loads alone may float (250.34); a wired outlet may not."""
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1")
    draft.part("inverter", "TB1", power="1 kVA", neutral="floating", outlets="1")
    draft.run("GB1.dc", "TB1.dc", size="1/0 AWG", length="1 ft")
    draft.part("outlet", "XD1", configuration="5-15")
    draft.seat("XD1", "TB1", "1")
    draft.part("plug_load", "EP1", power="200 W", configuration="5-15")
    draft.seat("EP1", "XD1", "face")
    assert levels(draft, RULE) == {("TB1",): Level.NOTE}
    draft.part("outlet", "XD2", configuration="5-15")
    draft.run("XD1.onward", "XD2.feed", size="14 AWG", length="10 ft")
    assert levels(draft, RULE) == {("TB1",): Level.DANGER}


def van(**inverter: str) -> Draft:
    """An inverter wired to one outlet in a vehicle."""
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1")
    draft.part("inverter", "TB1", power="1 kVA", neutral="floating", **inverter)
    draft.run("GB1.dc", "TB1.dc", size="1/0 AWG", length="1 ft")
    draft.part("outlet", "XD1", configuration="5-15")
    draft.run("TB1.ac_out", "XD1.feed", size="14 AWG", length="10 ft")
    return draft


def test_a_single_outlet_of_an_inverter_that_must_float_is_a_note() -> None:
    """One appliance on a separated source is its accepted use, and a link would destroy it."""
    assert levels(van(), RULE) == {("TB1",): Level.DANGER}
    assert levels(van(bond_allowed="no"), RULE) == {("TB1",): Level.NOTE}
    draft = van(bond_allowed="no")
    draft.part("outlet", "XD2", configuration="5-15")
    draft.run("XD1.onward", "XD2.feed", size="14 AWG", length="10 ft")
    assert levels(draft, RULE) == {("TB1",): Level.DANGER}


def test_a_tool_of_any_kind_on_a_cord_with_a_plug_is_cord_and_plug() -> None:
    draft = Draft(place="field")
    draft.part("generator", "G1", power="3 kVA", neutral="floating")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("outlet", "XD1", configuration="5-20")
    draft.seat("QF1", "G1", "1")
    draft.seat("XD1", "QF1", "load")
    draft.part("plug", "XP1", configuration="5-15")
    draft.seat("XP1", "XD1", "face")
    draft.part("motor", "M1", power="300 W")
    draft.run("XP1.cord", "M1.in", "W1", size="14 AWG", length="25 ft", installation="cord")
    assert levels(draft, RULE) == {("G1",): Level.NOTE}
    draft.rate_run("W1", installation="conduit_pvc")
    assert levels(draft, RULE) == {("G1",): Level.DANGER}


def test_a_charger_on_a_cord_with_a_plug_is_cord_and_plug_though_what_it_charges_is_wired() -> None:
    draft = Draft(place="field")
    draft.part("generator", "G1", power="2 kVA", neutral="floating")
    draft.part("outlet", "XD1", configuration="5-15")
    draft.seat("XD1", "G1", "1")
    draft.part("plug", "XP1", configuration="5-15")
    draft.seat("XP1", "XD1", "face")
    draft.part("charger", "TB1", current="25 A")
    draft.run("XP1.cord", "TB1.ac_in", "W1", size="14 AWG", length="15 ft", installation="cord")
    draft.part("battery", "GB1")
    draft.run("TB1.dc", "GB1.dc", "W2", size="8 AWG", length="3 ft")
    assert levels(draft, RULE) == {("G1",): Level.NOTE}
    draft.rate_run("W1", installation="conduit_pvc")
    assert levels(draft, RULE) == {("G1",): Level.DANGER}


def test_an_inverter_that_feeds_a_vehicle_by_its_cord_is_as_a_small_set() -> None:
    station = Draft(place="recreational")
    station.part("battery", "GB1")
    station.part("inverter", "TB1", power="2 kVA", neutral="floating", outlets="1")
    station.run("GB1.dc", "TB1.dc", size="2/0 AWG", length="1 ft")
    station.part("outlet", "XD1", configuration="5-20")
    station.seat("XD1", "TB1", "1")
    station.part("plug", "XP1", configuration="5-20")
    station.seat("XP1", "XD1", "face")
    station.part("inlet", "XI1", configuration="5-20")
    station.run("XP1.cord", "XI1.outside", size="12 AWG", length="25 ft", installation="cord")
    station.part("panel", "QP1", bond="absent", main="20 A")
    station.run("XI1.inside", "QP1.feed", size="12 AWG", length="5 ft")
    station.part("breaker", "QF3", rating="15 A")
    station.seat("QF3", "QP1", "1")
    station.part("load", "EA1", power="400 W")
    station.run("QF3.load", "EA1.in", size="14 AWG", length="10 ft")
    assert max(hit.level for hit in found(station, RULE)) is Level.WARNING


def test_what_leads_to_nothing_but_a_converter_that_is_off_is_silent() -> None:
    """A set on the input of an inverter-charger that parts the neutrals: on, it feeds the board,
    whose link serves both; off, no more than the way to it is live."""
    draft = Draft(place="building")
    draft.part("generator", "G1", power="4 kVA", neutral="floating", breaker="30 A")
    draft.part(
        "inverter_charger", "TB1", power="3 kVA", neutral="floating", neutral_through="switched"
    )
    draft.run("G1.out", "TB1.ac_in", "W1", size="10 AWG", length="25 ft")
    draft.part("panel", "QP1", bond="fitted")
    draft.run("TB1.ac_out", "QP1.feed", "W2", size="10 AWG", length="6 ft")
    draft.part("battery", "GB1")
    draft.run("GB1.dc", "TB1.dc", "W3", size="4/0 AWG", length="2 ft")
    assert levels(draft, RULE) == {}
    draft.rate("QP1", bond="absent")
    assert levels(draft, RULE)[("G1",)] is Level.DANGER
