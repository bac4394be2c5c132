"""A ground-fault device that a real fault does not open."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, house, levels
from tests.findings.told import found, number

RULE = "ground-fault-device-cannot-act"


def test_on_a_floating_source_it_is_a_note() -> None:
    draft = camp(neutral="floating")
    draft.rate("QF2", ground_fault="class_a")
    assert levels(draft, RULE) == {("QF2",): Level.NOTE}


def test_on_a_bonded_source_it_is_silent() -> None:
    draft = camp()
    draft.rate("QF2", ground_fault="class_a")
    assert found(draft, RULE) == []


def test_a_link_on_its_load_side_alone_blinds_it() -> None:
    # NFPA 70 445.20: the fault current comes back through it, so nothing is missing in its sum
    draft = camp(neutral="floating")
    draft.cut("W1")
    draft.part("gfci", "QR1", rating="30 A")
    draft.run("G1.out", "QR1.line", "W1", size="10 AWG", length="2 ft")
    draft.run("QR1.load", "QP1.feed", "W9", size="10 AWG", length="20 ft")
    draft.rate("QP1", bond="fitted")
    assert levels(draft, RULE) == {("QR1",): Level.DANGER}
    draft.rate("QP1", bond="absent")
    draft.rate("G1", neutral="bonded")
    assert found(draft, RULE) == []


def test_a_cut_ground_wire_blinds_it_and_explains_it() -> None:
    draft = camp()
    draft.rate("QF2", ground_fault="class_a")
    draft.rate_run("W3", broken="PE")
    cause = found(draft, "ground-open")[0]
    assert RULE in {c.rule for c in cause.consequences}


@pytest.mark.parametrize(("ohm", "blind"), [(19_800, False), (20_300, True)])
def test_the_boundary_is_the_6_milliampere_of_class_a(ohm: int, blind: bool) -> None:
    # UL 943: it must trip from 6 mA on; 120 V through 20 kilohm of soil are 6 mA
    draft = house(electrode="1 ohm")
    draft.rate("QF1", ground_fault="class_a")
    draft.run_poles("W2", "L N")
    draft.part("electrode", "XE1", resistance=f"{ohm} ohm")
    draft.run("EA1.in", "XE1.ground", "W3", poles="PE", size="6 AWG", length="3 ft")
    hits = found(draft, RULE)
    assert [hit.subjects for hit in hits] == ([("QF1",)] if blind else [])
    if blind:
        assert number(hits[0], "residual current of the fault") == pytest.approx(5.91e-3, rel=0.01)


def test_metal_that_nobody_can_touch_does_not_count() -> None:
    draft = camp()
    draft.rate("QF1", ground_fault="class_a")
    draft.run_poles("W2", "L N")
    draft.rate("EA1", case="insulated")
    assert found(draft, RULE) == []


def test_marked_outlets_without_a_ground_do_not_count() -> None:
    draft: Draft = camp()
    draft.rate("XD1", ground_fault="class_a", marked="no_ground")
    draft.run_poles("W3", "L N")
    assert found(draft, RULE) == []


def test_a_plastic_box_on_two_wires_behind_it_has_no_metal_to_act_for() -> None:
    d = house()
    d.part("breaker", "QF9", rating="15 A", interrupting="10 kA", ground_fault="class_a")
    d.seat("QF9", "QP1", "3")
    d.part("junction_box", "XJ1")
    d.run("QF9.load", "XJ1.a", "W9", poles="L N", size="14 AWG", length="40 ft")
    assert found(d, RULE) == []
    d.rate("XJ1", metal="metal")
    assert [hit.subjects for hit in found(d, RULE)] == [("QF9",)]


def test_on_a_floating_set_with_nothing_plugged_in_no_note_is_made() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", power="3 kVA", neutral="floating")
    d.part("breaker", "QF1", rating="20 A")
    d.part("outlet", "XD1", configuration="5-20", ground_fault="class_a")
    d.seat("QF1", "G1", "1")
    d.seat("XD1", "QF1", "load")
    assert found(d, RULE) == found(d, "fault-not-cleared") == found(d, "bond-missing") == []
    d.part("plug_load", "EP1", power="500 W", configuration="5-15")
    d.seat("EP1", "XD1", "face")
    assert levels(d, RULE) == {("XD1",): Level.NOTE}
