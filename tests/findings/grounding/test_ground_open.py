"""Touchable metal without a ground wire to its source."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, caravan, house, levels
from tests.findings.told import cured, found, gaps, number

RULE = "ground-open"


def test_a_cut_ground_wire_is_a_danger_on_its_run() -> None:
    draft = camp()
    draft.rate_run("W3", broken="PE")
    hits = found(draft, RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("W3",), Level.DANGER)]
    assert number(hits[0], "metal parts concerned") == 1.0
    assert number(hits[0], "voltage that metal can take") == 120.0


def test_whole_ground_wires_are_silent() -> None:
    assert found(camp(), RULE) == []


def test_a_cable_without_one_is_the_same() -> None:
    draft = camp()
    draft.run_poles("W2", "L N")
    assert levels(draft, RULE) == {("W2",): Level.DANGER}


def test_one_cut_ahead_of_the_board_is_one_finding_for_all_metal_behind() -> None:
    draft = camp()
    draft.rate_run("W1", broken="PE")
    hits = found(draft, RULE)
    assert [hit.subjects for hit in hits] == [("W1",)]
    assert number(hits[0], "metal parts concerned") == 3.0  # board, load, outlet


def test_a_floating_source_is_not_this_rules_question() -> None:
    assert found(camp(neutral="floating"), RULE) == []


def test_a_double_insulated_load_needs_none() -> None:
    draft = camp()
    draft.run_poles("W2", "L N")
    draft.rate("EA1", case="insulated")
    assert found(draft, RULE) == []
    assert analyse(draft.design).silent


def test_what_a_fault_then_does_stands_under_it_and_nothing_else() -> None:
    draft = camp()
    draft.rate_run("W3", broken="PE")
    hit = found(draft, RULE)[0]
    assert [(c.rule, c.subjects) for c in hit.consequences] == [("fault-not-cleared", ("XD1",))]


def two_wire(device: str, marked: str = "no_ground") -> Draft:
    """An old two-wire circuit with an outlet and another behind it."""
    draft = house()
    draft.part("breaker", "QF2", rating="15 A", interrupting="10 kA")
    draft.seat("QF2", "QP1", "2")
    draft.part("outlet", "XD1", configuration="5-15", ground_fault=device, marked=marked)
    draft.part("outlet", "XD2", configuration="5-15", marked=marked)
    draft.run("QF2.load", "XD1.feed", "W3", poles="L N", size="14 AWG", length="50 ft")
    draft.run("XD1.onward", "XD2.feed", "W4", poles="L N", size="14 AWG", length="10 ft")
    return draft


def test_marked_two_wire_outlets_behind_a_gfci_are_a_note() -> None:
    # NFPA 70 406.4(D)(2)
    draft = two_wire("class_a")
    assert set(levels(draft, RULE).values()) == {Level.NOTE}
    assert analyse(draft.design).silent


def test_without_the_gfci_or_the_mark_they_are_a_danger() -> None:
    for draft in (two_wire("none"), two_wire("class_a", marked="none")):
        assert Level.DANGER in levels(draft, RULE).values()


def test_what_is_plugged_into_a_marked_outlet_is_excused_with_it() -> None:
    draft = two_wire("class_a")
    draft.part("plug_load", "EP1", power="200 W", configuration="5-15")
    draft.seat("EP1", "XD2", "face")
    assert set(levels(draft, RULE).values()) == {Level.NOTE}


def test_a_path_by_the_chassis_alone_is_a_warning() -> None:
    # it clears a fault, but a body is no equipment grounding conductor (NFPA 70 250.136)
    draft = caravan()
    draft.cut("W3")
    draft.run("QF3.load", "EA1.in", "W3", poles="L N", size="14 AWG", length="10 ft")
    draft.rate("EA1", case="metal")
    draft.part("junction_box", "XJ1", metal="metal")
    draft.cut("W3")
    draft.run("QF3.load", "XJ1.a", "W3", poles="L N", size="14 AWG", length="5 ft")
    draft.run("XJ1.b", "EA1.in", "W5", size="14 AWG", length="5 ft")
    draft.run("XJ1.c", "XB1.tie", "W6", poles="PE>body", size="8 AWG", length="1 ft")
    assert set(levels(draft, RULE).values()) == {Level.WARNING}


def test_the_mend_joins_a_cut_wire() -> None:
    draft = camp()
    draft.rate_run("W3", broken="PE")
    assert cured(draft, found(draft, RULE)[0]).silent


def test_the_mend_adds_a_missing_one() -> None:
    draft = camp()
    draft.run_poles("W2", "L N")
    assert cured(draft, found(draft, RULE)[0]).silent


def on_a_hill(series: str = "2", place: str = "building") -> Draft:
    """An array of its own with a rod at it, 150 ft from its controller; no wire between them."""
    draft = Draft(place=place)
    draft.part("solar_array", "GP1", voc="49.5 V", isc="10 A", series=series, coldest="0 degC")
    draft.part("solar_controller", "TC1", dc_voltage="48 V", current="60 A", pv_voltage="500 V")
    draft.part("battery", "GB1", voltage="48 V")
    draft.run("GP1.dc", "TC1.pv", "W1", size="10 AWG", length="150 ft")
    draft.run("TC1.dc", "GB1.dc", "W2", size="4 AWG", length="4 ft")
    draft.part("electrode", "XE1")
    draft.run("GP1.frame", "XE1.ground", "W3", size="6 AWG", length="6 ft")
    return draft


@pytest.mark.parametrize(("series", "level"), [("2", "warning"), ("3", "danger")])
def test_frames_on_a_rod_of_their_own(series: str, level: str) -> None:
    """A public thread on an array with its own rod (diysolarforum.com threads 77500, page 3): the
    frames need a ground wire back in any case. Two modules of 49.5 V reach 109 V at freezing
    point, three 163 V: 120 V direct current may stay on metal (IEC 60364-4-41)."""
    draft = on_a_hill(series)
    (hit,) = found(draft, "ground-open")
    assert (hit.subjects, hit.level.word, hit.clause) == (("GP1",), level, "690.43")
    cured(draft, hit)
    (added,) = draft.design.runs_at("TC1", "case")
    assert draft.design.part(added.a.part).kind == "solar_array"


def test_frames_on_a_wire_to_the_controller() -> None:
    draft = on_a_hill()
    draft.run("GP1.frame", "TC1.case", "W4", size="10 AWG", length="150 ft")
    assert found(draft, "ground-open") == []


def test_frames_and_case_that_reach_no_ground_together() -> None:
    draft = on_a_hill()
    draft.run("GP1.frame", "TC1.case", "W4", size="10 AWG", length="150 ft")
    draft.cut("W3")
    (hit,) = found(draft, "ground-open")
    assert hit.subjects == ("GP1",)
    assert "XE1" in hit.message
    draft.remove("XE1")
    assert found(draft, "ground-open") == []


@pytest.mark.parametrize(("series", "told"), [("1", False), ("2", True)])
def test_low_frames_of_a_vehicle_need_none(series: str, told: bool) -> None:
    assert bool(found(on_a_hill(series, "vehicle"), "ground-open")) is told


@pytest.mark.parametrize("joined", [(), ("GP1",), ("GP1", "GP2")])
def test_frames_of_arrays_in_series_are_judged_one_by_one(joined: tuple[str, ...]) -> None:
    """Two of 54.5 V each at freezing point reach 109 V together."""
    draft = on_a_hill("1", "vehicle")
    draft.part("solar_array", "GP2", **draft.design.part("GP1").ratings)
    draft.cut("W1", "W3")
    wire = {"size": "10 AWG", "length": "50 ft"}
    draft.run("GP1.dc", "TC1.pv", "W1", poles="+", **wire)
    draft.run("GP1.dc", "GP2.dc", "W5", poles="->+", **wire)
    draft.run("GP2.dc", "TC1.pv", "W6", poles="-", **wire)
    for n, array in enumerate(joined):
        draft.run(f"{array}.frame", "TC1.case", f"W7{n}", size="8 AWG", length="50 ft")
    draft.run("TC1.case", "XE1.ground", "W8", size="6 AWG", length="6 ft")
    told = {hit.subjects[0] for hit in found(draft, "ground-open")}
    assert told == {"GP1", "GP2"} - set(joined)


@pytest.mark.parametrize(
    ("series", "answer", "asked"),
    [("2", "unknown", False), ("3", "unknown", True), ("3", "no", False), ("3", "yes", False)],
)
def test_what_finds_the_first_fault_of_a_high_array(series: str, answer: str, asked: bool) -> None:
    """NFPA 70 690.41(B); 120 V direct current may stay on metal: two modules reach 109 V."""
    draft = on_a_hill(series)
    draft.run("GP1.frame", "TC1.case", "W4", size="10 AWG", length="150 ft")
    draft.rate("TC1", finds_ground_fault=answer)
    assert bool(gaps(draft, "ground-open")) is asked
    told = {("TC1",): Level.WARNING} if answer == "no" else {}
    assert levels(draft, "ground-open") == told
