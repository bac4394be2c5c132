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
from linework.handover.locking import actions
from linework.handover.positions import positions
from linework.handover.schedules import DEVICES, RUNS
from linework.handover.sheets import Room
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
