"""A chassis that carries AC equipment and hangs on no ground wire."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import THICK, van
from tests.findings.camps import camp, caravan, levels
from tests.findings.told import cured, found, gaps, number, places

RULE = "chassis-unbonded"


def loose(**generator: str) -> Draft:
    draft = caravan(**generator)
    draft.cut("W4")
    return draft


def test_a_loose_chassis_is_a_danger_while_ac_comes_on_board() -> None:
    hits = found(loose(), RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("XB1",), Level.DANGER)]
    assert hits[0].states == ("G1=running XP1=XD1",)
    assert number(hits[0], "voltage that it can take") == 120.0


def test_a_jumper_to_the_board_makes_it_silent() -> None:
    assert found(caravan(), RULE) == []


def test_a_set_that_is_not_plugged_in_does_not_concern_the_chassis() -> None:
    draft = loose()
    draft.rate("XD2", ground_fault="class_a")
    assert "G1=running XP1=unplugged" not in found(draft, RULE)[0].states


def test_a_house_behind_the_plug_does_not_concern_it_either() -> None:
    draft = Draft(place="recreational")
    draft.part("supply", "GS1", breaker="60 A", outage="no")
    draft.part("panel", "QP9", bond="absent")
    draft.run("GS1.out", "QP9.feed", "W8", size="4 AWG", length="30 ft", terminals="75")
    draft.part("breaker", "QF9", rating="30 A")
    draft.seat("QF9", "QP9", "1")
    draft.part("outlet", "XD9", configuration="TT-30")
    draft.run("QF9.load", "XD9.feed", "W9", size="10 AWG", length="20 ft")
    draft.part("plug", "XP1", configuration="TT-30")
    draft.seat("XP1", "XD9", "face")
    draft.part("panel", "QP1", bond="absent")
    draft.run("XP1.cord", "QP1.feed", "W1", size="10 AWG", length="25 ft", installation="cord")
    draft.part("body", "XB1")
    draft.run("QP1.ground", "XB1.tie", "W2", size="8 AWG", length="2 ft", installation="jumper")
    assert found(draft, RULE) == []
    draft.cut("W2")
    assert found(draft, RULE)[0].states == ("XP1=XD9",)


def test_a_set_built_in_concerns_it_whatever_it_feeds() -> None:
    # NFPA 70 250.34(B): the frame of a vehicle-mounted set is bonded to the vehicle's
    draft = Draft(place="vehicle")
    draft.part("generator", "G1", power="3 kVA", neutral="bonded", indoors="compartment")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("outlet", "XD1", configuration="5-20", ground_fault="class_a")
    draft.seat("QF1", "G1", "1")
    draft.seat("XD1", "QF1", "load")
    draft.part("body", "XB1")
    assert levels(draft, RULE) == {("XB1",): Level.DANGER}
    draft.run("G1.frame", "XB1.tie", "W1", size="8 AWG", length="2 ft", installation="jumper")
    assert found(draft, RULE) == []


def test_an_inverter_on_a_bank_is_no_portable_set() -> None:
    # NFPA 70 250.34 exempts portable sets; this one is fixed in the vehicle with its battery
    draft = van()
    draft.part("inverter", "TB1", power="600 VA", neutral="bonded", outlets="1")
    draft.run("QB1.load", "TB1.dc", "W20", length="2 ft", **THICK)
    draft.part("outlet", "XD1", ground_fault="class_a")
    draft.seat("XD1", "TB1", "1")
    assert levels(draft, RULE) == {("XB1",): Level.DANGER}
    cured(draft, found(draft, RULE)[0])
    joined = [run for run in draft.design.runs_at("TB1") if run.b.part == "XB1"]
    assert [(run.a.terminal, run.ratings["size"]) for run in joined] == [("case", "8 AWG")]
    assert found(draft, RULE) == []


def test_one_in_the_hand_on_a_cord_is() -> None:
    draft = van()
    draft.part("inverter", "TB1", power="150 VA", neutral="bonded", outlets="1")
    draft.run("QB1.load", "TB1.dc", "W20", size="10 AWG", length="2 ft", installation="cord")
    draft.part("outlet", "XD1", ground_fault="class_a")
    draft.seat("XD1", "TB1", "1")
    assert found(draft, RULE) == []


def test_a_vehicle_without_a_chassis_on_the_sheet_is_not_checked() -> None:
    draft = caravan()
    draft.remove("XB1")
    assert found(draft, RULE) == []
    assert len(gaps(draft, RULE)) == 1


def test_elsewhere_no_body_need_be_drawn() -> None:
    assert gaps(camp(), RULE) == []


def test_a_ground_wire_cut_ahead_of_the_board_explains_it() -> None:
    draft = caravan()
    draft.rate_run("W1", broken="PE")
    cause = found(draft, "ground-open")[0]
    assert RULE in {c.rule for c in cause.consequences}


def test_the_mend_joins_it_to_the_only_board() -> None:
    draft = loose()
    assert cured(draft, found(draft, RULE)[0]).silent


def test_a_cord_that_leads_nowhere_brings_nothing_on_board() -> None:
    draft = loose()
    draft.cut("W1")
    assert found(draft, RULE) == []


def test_two_symbols_of_one_body_are_one_finding() -> None:
    draft = caravan()
    draft.cut("W4")
    draft.part("body", "XB2", name="chassis")
    assert places(draft, "chassis-unbonded") == {("XB1",)}


def test_a_lead_that_lies_on_the_ground_with_nothing_plugged_in_is_not_aboard() -> None:
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker="30 A", prospective="2 kA", outage="no")
    d.part("outlet", "XD1", configuration="TT-30")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP0", configuration="TT-30")
    d.seat("XP0", "XD1", "face")
    d.part("outlet", "XD2", configuration="TT-30")  # at the end of the first lead
    d.run("XP0.cord", "XD2.feed", size="10 AWG", length="25 ft", installation="cord")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD2", "face")
    d.part("panel", "QP1", bond="absent", main="30 A")
    d.run("XP1.cord", "QP1.feed", size="10 AWG", length="25 ft", installation="cord")
    d.part("body", "XB1", name="chassis")
    d.run("QP1.ground", "XB1.tie", "s", size="8 AWG", length="2 ft", installation="jumper")
    assert found(d, RULE) == []
    d.cut("s")
    assert [hit.states for hit in found(d, RULE)] == [("XP0=XD1 XP1=XD2",)]


def test_a_cord_in_an_outlet_aboard_puts_nothing_on_shore() -> None:
    """The set and its board stay aboard while a cord hangs in one of their outlets."""
    draft = camp("vehicle")
    draft.part("body", "XB9")
    assert ("XB9",) in places(draft, RULE)
    draft.part("cord_set", "WX1", size="12 AWG", length="25 ft")
    draft.seat("WX1", "XD1", "face")
    assert ("XB9",) in places(draft, RULE)


def row(*frames: int) -> Draft:
    """A board in a field whose two outlets feed a stall each by cord and inlet; the frames of
    ``frames`` are joined to the ground bars of their stalls."""
    d = Draft(place="field")
    d.part("supply", "GS1", breaker="30 A", prospective="2 kA", outage="no", outlets="0")
    d.part("panel", "QP9", bond="absent")
    d.run("GS1.out", "QP9.feed", "W9", size="10 AWG", length="20 ft")
    for n in (1, 2):
        d.part("breaker", f"QF{n}", rating="20 A")
        d.seat(f"QF{n}", "QP9", str(n))
        d.part("outlet", f"XD{n}", configuration="5-20", area="outside", ground_fault="class_a")
        d.seat(f"XD{n}", f"QF{n}", "load")
        d.part("plug", f"XP{n}", configuration="5-20")
        d.seat(f"XP{n}", f"XD{n}", "face")
        d.part("inlet", f"XI{n}", configuration="5-20")
        d.run(f"XP{n}.cord", f"XI{n}.outside", size="12 AWG", length="30 ft", installation="cord")
        d.part("panel", f"QP{n}", bond="absent")
        d.run(f"XI{n}.inside", f"QP{n}.feed", size="12 AWG", length="2 ft")
        d.part("body", f"XB{n}", name=f"frame {n}", type="structure")
        if n in frames:
            d.run(f"QP{n}.ground", f"XB{n}.tie", size="8 AWG", length="2 ft", installation="jumper")
    return d


def test_the_next_stall_in_a_row_is_no_concern_of_what_feeds_only_the_first() -> None:
    assert found(row(1, 2), RULE) == []


def test_a_frame_of_the_row_that_hangs_on_nothing_is_told() -> None:
    # which frame is whose no wire tells then, so that the other counts for both stalls
    assert ("XB2",) in places(row(1), RULE)
    assert places(row(), RULE) == {("XB1",), ("XB2",)}


def test_a_frame_on_the_ground_of_one_inlet_is_not_bonded_to_the_other() -> None:
    """One frame, two inlets with a board each: on the second nothing joins it."""
    d = row(1)
    d.remove("XB2")
    assert places(d, RULE) == {("XB1",)}
