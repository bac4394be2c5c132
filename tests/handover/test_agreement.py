"""A figure that stands on two sheets is the same on both, and the worst where it says so."""

from __future__ import annotations

import datetime
import io
import re
from functools import cache

import pypdf
import pytest

from linework.analysis import analyse
from linework.findings.evidence import value_text
from linework.handover.circuits import most_faults, run_devices
from linework.handover.content import Content
from linework.handover.cover import cover, verdict
from linework.handover.diagram import DIAGRAM
from linework.handover.document import content_of, pages_bytes
from linework.handover.faults import fault_table
from linework.handover.findings_pages import FINDINGS
from linework.handover.grounding.bars import grounds
from linework.handover.grounding.naming import run_name
from linework.handover.locking import actions, circuits_of
from linework.handover.materials import bill_of
from linework.handover.measurements import Block, measurements
from linework.handover.operator import OPERATOR
from linework.handover.placards.inlets import inlets
from linework.handover.placards.strips import strips
from linework.handover.positions import positions
from linework.handover.schedules import DEVICES, RUNS
from linework.handover.sheets import Room, Sheet
from linework.handover.states import STATES
from linework.handover.testing import TESTS
from tests.handover.test_schedules import words
from tests.trial.rigs import RIGS

ROOM = Room(1080.0, 640.0)


@cache
def rig(name: str) -> Content:
    design = RIGS[name]().design
    return Content(design, analyse(design), datetime.date(2026, 3, 1))


def test_a_run_between_two_batteries_names_the_device_of_each() -> None:
    """W21 leaves the fuse F2 of GB2 for the bar: F2 stands before it from GB2, F1 from GB1, and F3
    from the charger. W10 leaves the post of GB1 bare, and F1 stands before it from the others."""
    made = rig("motor_home")
    found = {made.name(run.id): run_devices(made, run) for run in made.design.runs}
    assert found["W21"] == found["W11"] == ["F1", "F2", "F3"]
    assert found["W10"] == ["F1", "none"]
    assert found["W20"] == ["F2", "none"]


@pytest.mark.parametrize("name", ["orchard_pump", "motor_home"])
def test_what_a_device_has_to_break_is_what_its_rating_was_held_against(name: str) -> None:
    made = rig(name)
    most = most_faults(made)
    breaks = r"(\S+) can break .*; a fault behind it drives at the most (.+) through it"
    told = [m for p in made.analysis.praise if (m := re.match(breaks, p.message))]
    assert len(told) >= 3
    parts = {made.name(part.id): part.id for part in made.design.parts}
    for m in told:
        assert value_text(most[parts[m[1]]], "current") == m[2], m[0]


def test_the_most_on_metal_is_that_of_the_strongest_source() -> None:
    """As the findings tell it of the service board: a strong supply puts more on its metal."""
    made = rig("house_with_trailer")
    (late,) = [f for f in made.analysis.findings if f.rule == "fault-slow"]
    (volts,) = [e.value for e in late.evidence if e.quantity == "voltage" and e.value is not None]
    rows = words(fault_table(made, ROOM)).split(" | ")
    here = [n for n, word in enumerate(rows) if word == "QP1" and rows[n + 1] == "to metal"]
    assert rows[here[0] + 4] == value_text(volts, "voltage")


def test_the_test_sheet_leads_to_the_page_of_the_device_schedule() -> None:
    """Which stands pages behind the loads that share its sheet."""
    held = rig("orchard_pump")
    made = content_of(held.design, held.date, held.analysis, "A4")
    data = pages_bytes(made, (FINDINGS, DIAGRAM, RUNS, DEVICES, TESTS))
    reader = pypdf.PdfReader(io.BytesIO(data))
    pages = [page.extract_text() for page in reader.pages]
    (there,) = [n for n, page in enumerate(pages, 1) if "Device schedule" in page]
    (told,) = [m for page in pages if (m := re.search(r"as sheet (\d+)", page))]
    assert int(told[1]) == there


def test_moments_of_changing_over_are_no_combinations_of_switches() -> None:
    made = rig("clinic_with_own_neutral")
    told = words(cover(made, ROOM))
    assert "4 states that differ of 4 combinations of switches" in told
    assert "1 moment in which a switch changes over" in told
    assert "10 notes" in told


def test_always_printed_notes_are_not_said_to_be_nothing() -> None:
    assert "Nothing found under the values assumed but what" in verdict(rig("ketch"))


def test_a_board_behind_its_open_main_is_proven_dead_at_its_bus() -> None:
    """What comes to the main of the service board stays live; its bus is what one works at."""
    *_, proof = actions(rig("house_with_trailer"))
    assert proof.how.endswith("at QP1, QP5.")


def test_what_a_supply_brings_back_by_itself_is_not_called_dead() -> None:
    titles = [each.title for each in positions(rig("house_with_trailer"))]
    assert "Supply gone" in titles
    assert not any("dead" in title for title in titles)


def test_no_meter_is_put_to_an_outlet_that_a_cord_fills() -> None:
    """The trailer's stand has one face, and the trailer's cord is in it; a pedestal's outlet is
    measured where its supply is."""
    lines = [m for m in measurements(rig("house_with_trailer")) if m.block is Block.LIVE]
    stand = [m.what for m in lines if m.key.startswith(("outlet:XD5", "loop:XD5"))]
    assert stand
    assert all("XP5 pulled out" in what for what in stand)
    keys = {m.key.split(":")[0] for m in measurements(rig("ketch"))}
    assert "outlet" not in keys
    assert "supply" in keys


def test_the_outlet_of_a_pedestal_is_not_bought() -> None:
    bill = bill_of(rig("motor_home").design)
    assert "XD91" in {name for line in bill.there for name in line.where}
    assert "XD91" not in {name for line in bill.plugs for name in line.where}
    assert not any("XD91" in words for words in bill.undrawn)


def test_strips_name_the_circuit_as_the_schedule_does() -> None:
    """A breaker of two poles has both its places, and its circuit ends behind the junction box."""
    ((_, one), (_, two)) = strips(rig("clinic_with_own_neutral"))
    assert [(s.place, s.feeds) for s in one] == [("1, 3", "QA1")]
    assert ("5, 7", "XD2, XD3") in [(s.place, s.feeds) for s in two]


def test_an_inlet_on_a_cord_from_a_board_has_its_voltage() -> None:
    (sign,) = inlets(rig("house_with_trailer"))
    assert sign.big.startswith("120 V")


@pytest.mark.parametrize("sheet", [OPERATOR, STATES, TESTS])
def test_direct_current_alone_has_no_words_of_an_outlet_tester(sheet: Sheet) -> None:
    told = words(sheet.make(rig("orchard_pump"), ROOM))
    assert "correct" not in told
    assert "outlet" not in told


def test_figures_that_nobody_gave_are_in_brackets_on_the_bill_too() -> None:
    bill = bill_of(rig("motor_home").design)
    (battery,) = [line for line in bill.parts if "GB1" in line.where]
    assert "Highest charging voltage: [14.4 V]" in battery.detail


def test_an_isolator_stands_in_the_way_that_it_is_in() -> None:
    made = rig("ketch")
    found = grounds(made.design, circuits_of(made.design, made.design.revision))
    over = [[made.name(owner) for owner in way.over] for way in found.ways]
    assert ["WS1", "WI2", "RB1", "WI4"] in over
    runs = {run.designation: run_name(made, run) for run in made.design.runs}
    assert runs["WI2"] == runs["WI4"] == "equipment grounding conductor"
    assert runs["WB1"] == "bonding conductor to the engine"
