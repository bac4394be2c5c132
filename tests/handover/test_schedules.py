"""Schedules say of each board, run and device what the design and its analysis say."""

from __future__ import annotations

import datetime
import io
import math
import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.evidence import value_text
from linework.handover.assumed_pages import assumed_pages
from linework.handover.circuits import (
    Branch,
    branches,
    free_spans,
    leg_amps,
    most_faults,
    run_faults,
)
from linework.handover.conductors import conductor_schedule
from linework.handover.content import Content
from linework.handover.devices import in_use
from linework.handover.diagram import DIAGRAM
from linework.handover.document import pages_bytes
from linework.handover.ends import end_text
from linework.handover.faults import NO_FAULT, at_part, fault_table, metal_v, span_text
from linework.handover.loads_pages import load_calculation
from linework.handover.one_line import board_lines
from linework.handover.schedules import DEVICES, RUNS
from linework.handover.sheets import Room
from linework.handover.sources_pages import source_data
from linework.handover.testing import TESTS
from linework.sheet.parts.captions import system_of
from tests.handover.drawn import plain as content

ROOM = Room(1080.0, 640.0)
SAMPLES = Path(__file__).parents[2] / "samples"


def of(draft: Draft) -> Content:
    return Content(draft.design, analyse(draft.design), datetime.date(2026, 3, 1))


def words(flowables: Sequence[object]) -> str:
    """All text of flowables; tables, bands and what is kept together opened."""
    found: list[str] = []
    waiting = list(flowables)
    while waiting:
        here = waiting.pop(0)
        if isinstance(here, list | tuple):
            waiting[:0] = here
        elif hasattr(here, "_cellvalues"):
            waiting[:0] = here._cellvalues
        elif hasattr(here, "getPlainText"):
            found.append(here.getPlainText())
        elif hasattr(here, "content"):
            waiting[:0] = [*getattr(here, "head", ()), *here.content]
    return " | ".join(found)


def test_a_board_lists_each_place_with_what_hangs_on_it() -> None:
    made = content("vaccination-trailer")
    rows = [b for b in branches(made, "QP1") if isinstance(b, Branch)]
    assert [row.places for row in rows] == [("1",), ("2",), ("3",), ("4",)]
    assert [row.device and row.device.designation for row in rows] == ["QF3", "QF4", None, None]
    assert [[part.designation for part in row.fed] for row in rows[:2]] == [["MA1"], ["TB1"]]
    assert [row.run and row.run.designation for row in rows[:2]] == ["W6", "W7"]
    *_, free = free_spans(rows)
    assert free == ("3", "4")


def test_the_load_of_an_outlet_is_what_is_plugged_into_it() -> None:
    made = content("vaccination-trailer")
    (outlets,) = [b for b in branches(made, "QP2") if b.device and b.device.designation == "QF6"]
    assert [part.designation for part in outlets.fed] == ["XD4"]
    assert outlets.va == pytest.approx(189, abs=2)  # 180 W at a power factor of 0.95


def test_legs_of_a_board_add_up_state_by_state() -> None:
    made = content("vaccination-trailer")
    (taken,) = leg_amps(made, branches(made, "QP1")).values()
    most = max(sum(r.run_a.get((run, "L"), 0.0) for run in ("W6", "W7")) for r in made.reports)
    assert taken == pytest.approx(most)
    feeder = max(r.run_a.get(("W5", "L"), 0.0) for r in made.reports)
    assert taken == pytest.approx(feeder, rel=1e-3)


def test_a_breaker_of_two_poles_takes_two_places_and_both_legs() -> None:
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", breaker="60 A")
    d.part("panel", "QP1", circuit="split", bond="fitted")
    d.run("GS1.out", "QP1.feed", "W1", size="6 AWG", length="30 ft")
    d.part("breaker", "QF8", rating="20 A", circuit="ac240")
    d.seat("QF8", "QP1", "1")
    d.part("heater", "EH1", circuit="ac240", power="3 kW")
    d.run("QF8.load", "EH1.in", "W2", size="12 AWG", length="20 ft")
    rows = {b.device.designation: b for b in branches(of(d), "QP1") if b.device}
    assert rows["QF8"].places == ("1", "3")
    assert [str(leg) for leg in rows["QF8"].legs] == ["L1", "L2"]


def test_every_run_and_every_device_of_a_sample_is_listed() -> None:
    made = content("mountain-hut")
    told = words(RUNS.make(made, ROOM))
    for run in made.design.runs:
        assert f"{made.name(run.id)} |" in told
    for part in made.design.parts:
        if made.design.kind(part).board:
            assert made.full_name(part.id) in told
    devices = words(DEVICES.make(made, ROOM))
    for part in made.design.parts:
        if made.design.kind(part).melts:
            assert made.full_name(part.id) in devices


def test_the_fault_at_a_board_counts_faults_to_metal() -> None:
    made = content("vaccination-trailer")
    of_metal = [
        f.strong_a for r in made.reports for f in r.faults if f.part == "QP3" and f.kind == "metal"
    ]
    span = at_part(made, "QP3")
    assert span is not None
    assert span[1] == pytest.approx(max(of_metal))
    assert at_part(made, "EL9") is None


def test_the_one_line_tells_the_same_fault_as_the_schedule_of_the_board() -> None:
    made = content("beekeepers-trailer")
    span = at_part(made, "QP1")
    assert span is not None
    _, line = board_lines(made)["QP1"]
    assert line == f"fault {span_text(made, *span)}"
    assert span_text(made, 417.0, 960.0) == "417 to 960 A"  # the unit once
    assert span_text(made, 417.0, 3150.0) == "417 A to 3.15 kA"


def test_a_short_is_told_by_its_latest_end_in_any_state() -> None:
    """An inverter gives up after 5 s; a fuse before it ends a short on its other side at once."""
    told = words(fault_table(content("weather-station"), ROOM))
    # 7.5 A of the inverter to its metal, and 2.7 kA of the battery
    assert "| TB1 AC out | to metal | 7.5 A | 15 A |" in told
    assert "source gives up | 5 s |" in told
    assert "| TB1 DC | to metal | 1.25 kA | 2.7 kA | 2.88 V | F3 | 10 ms |" in told
    hut = words(fault_table(content("mountain-hut"), ROOM))
    assert "| MA1 | to metal | 37.5 A | 228 A | 44.5 V | QF3 or source | 12.3 s" in hut


def test_what_goes_through_a_device_is_found_where_its_plug_is() -> None:
    made = content("vaccination-trailer")
    cord = max(r.run_a["W1", "L"] for r in made.reports)
    assert in_use(made, "GS1") == pytest.approx(cord, rel=1e-5)


def test_terminals_are_called_as_the_switch_is_labelled() -> None:
    design = content("vaccination-trailer").design
    ends = {
        end_text(content("vaccination-trailer"), e) for run in design.runs for e in (run.a, run.b)
    }
    assert {"QT1 shore", "QT1 generator", "TB1 AC in", "TB1 AC out", "QP1 ground"} <= ends
    assert not [end for end in ends if "_" in end]


def test_a_letter_stands_once_for_what_several_runs_share() -> None:
    told = words(conductor_schedule(content("vaccination-trailer"), ROOM))
    assert told.count("Table value 35 A; Terminals ≤ 30 A") == 1
    assert told.count("30 A b") > 1
    assert "30 A a" in told


def _two_legs() -> Content:
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", breaker="60 A")
    d.part("panel", "QP1", circuit="split", bond="fitted")
    d.run("GS1.out", "QP1.feed", "W1", size="6 AWG", length="30 ft")
    for place, watts in (("1", "1200 W"), ("3", "600 W")):
        d.part("breaker", f"QF{place}", rating="20 A")
        d.seat(f"QF{place}", "QP1", place)
        d.part("heater", f"EH{place}", power=watts)
        d.run(f"QF{place}.load", f"EH{place}.in", f"W{place}1", size="12 AWG", length="20 ft")
    return of(d)


def test_a_breaker_of_one_pole_lies_on_one_leg() -> None:
    made = _two_legs()
    rows = {b.device.designation: b for b in branches(made, "QP1") if b.device}
    assert [str(leg) for leg in rows["QF1"].legs] == ["L1"]
    assert [str(leg) for leg in rows["QF3"].legs] == ["L2"]
    taken = leg_amps(made, branches(made, "QP1"))
    # 1200 W and 600 W on 120 V: 10 A and 5 A, less what the wires lose
    assert taken["L1"] == pytest.approx(10.0, rel=0.05)
    assert taken["L2"] == pytest.approx(5.0, rel=0.05)


def test_a_board_of_two_legs_has_both_voltages() -> None:
    told = words(RUNS.make(_two_legs(), ROOM))
    assert "Voltage 120/240 V" in told or "Voltage [120/240 V]" in told
    assert "| VA |" in told
    assert "| W |" in words(RUNS.make(content("beekeepers-trailer"), ROOM))


def test_legs_on_one_hot_wire_are_not_said_to_be_apart() -> None:
    made = content("cabin_on_one_hot")
    told = words(RUNS.make(made, ROOM))
    assert "120 V, both legs on one hot" in told
    assert "240" not in told


def test_an_empty_table_of_faults_says_so() -> None:
    d = Draft(place="vehicle")
    d.part("load", "EA1", power="600 W")
    told = words(fault_table(of(d), ROOM))
    assert NO_FAULT in told
    assert "least |" not in told


def test_the_most_on_metal_is_what_findings_say_of_it() -> None:
    """There "at most" is the higher of the weakest and the strongest source."""
    made = content("mountain-hut")
    late = [f for f in made.analysis.findings if f.rule == "fault-slow"]
    told = [e.value for f in late for e in f.evidence if e.name == "voltage on metal"]
    assert told
    faults = [f for r in made.reports for f in r.faults if f.kind == "metal"]
    most = max(v for v in map(metal_v, faults) if not math.isnan(v))
    assert max(told) <= most * 1.001
    assert f"| {value_text(most, 'voltage')} |" in words(fault_table(made, ROOM))


def test_what_a_source_gives_is_told_in_watt_beside_its_current() -> None:
    told = words(load_calculation(content("vaccination-trailer"), ROOM))
    assert "| % | W | in the state" in told


def test_a_figure_of_ours_in_brackets_is_among_the_values_assumed() -> None:
    made = content("vaccination-trailer")
    told = words(source_data(made, ROOM))
    listed = words(assumed_pages(made, ROOM))
    assert "[14.4 V]" in told
    assert "| Highest charging voltage | [14.4 V] | GB1 |" in listed
    assert "| Interrupting rating of its breaker | [5 kA] | QP1 |" in listed
    # that of the design was given
    assert "[120 V]" not in told
    assert system_of(made.design, made.design.part("QP1")) == "120 V AC L N"


def test_degrees_are_written_with_their_sign() -> None:
    made = content("vaccination-trailer")
    assert "\N{MINUS SIGN}30 °C" in words(source_data(made, ROOM))
    assert "[30 °C]" in words(assumed_pages(made, ROOM))


def test_the_body_is_told_in_words() -> None:
    told = words(conductor_schedule(content("vaccination-trailer"), ROOM))
    assert "| PE to frame 8 AWG |" in told
    assert "body" not in told


def test_the_sides_of_what_takes_and_gives_current_are_points_of_their_own() -> None:
    """Nothing ends 18.2 A of an array; a fuse ends what the battery drives behind it."""
    told = words(fault_table(content("weather-station"), ROOM))
    assert "TC1 solar | plus to minus | 8.8 A | 18.2 A |  | nothing | never |" in told
    assert "TC1 DC | plus to minus |" in told
    assert "1.61 kA |  | F2 |" in told


def test_the_schedule_of_devices_tells_the_fault_that_each_was_judged_by() -> None:
    for name in ("mountain-hut", "beekeepers-trailer", "weather-station"):
        made = content(name)
        most = most_faults(made)
        judged = {
            part: re.fullmatch(r".* at the most (.*) through it\.", praise.message)
            for praise in made.analysis.praise
            for part in praise.where
            if "through it" in praise.message
        }
        assert len(judged) > 4
        for part, match in judged.items():
            assert match is not None
            owner = made.design.by_designation(part).id
            assert value_text(most[owner], "current") == match[1], (name, part)


def test_a_run_that_one_conductor_leaves_has_its_fault_current() -> None:
    """Between a fuse and a switch of the plus alone: at the least what flows at the far end of the
    wire behind, at the most what flows at the posts."""
    made = content("mountain-hut")
    spans = {run.designation: run_faults(made, run) for run in made.design.runs}
    behind, between, before = spans["W16"], spans["W15"], spans["W14"]
    assert behind is not None
    assert between is not None
    assert before is not None
    assert 0.0 < between[0] <= behind[0]
    assert behind[1] <= between[1] <= before[1]
    assert all(amps for name, amps in spans.items() if name != "W21")  # to the ground rods


def test_factors_of_one_are_not_told() -> None:
    told = words(conductor_schedule(content("mountain-hut"), ROOM))
    assert "× 1;" not in told
    assert "Terminals ≤ 40 A" in told
    assert "\N{MINUS SIGN} to + 3/0 AWG" in told


def test_what_a_string_gives_is_told_of_all_that_are_named() -> None:
    """Four batteries of 12 V in series give 114 A: by hand 4 x 11.7 V x 114 A, what the inverter
    gives over its efficiency."""
    told = words(DEVICES.make(content("mountain-hut"), ROOM))
    (watts,) = re.findall(r"GB1, GB2, GB3, GB4 \| cells \| 114 \|[^0-9]*\| (\d+) \|", told)
    assert 4 * 11.5 * 114 < int(watts) < 4 * 12.0 * 114


def test_the_test_sheet_leads_to_the_page_on_which_the_device_schedule_begins() -> None:
    made = replace(content("beekeepers-trailer"), paper="A4")
    data = pages_bytes(made, [DIAGRAM, RUNS, DEVICES, TESTS])
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages]
    (told,) = re.findall(r"as sheet (\d+)", " ".join(" ".join(pages).split()))
    assert [n for n, page in enumerate(pages, start=1) if "Device schedule" in page] == [int(told)]
    first = next(n for n, page in enumerate(pages, start=1) if "Source data" in page)
    assert first < int(told)  # its sheet begins before


def test_what_rests_on_a_row_stands_in_its_natural_order() -> None:
    lines = content("mountain-hut").analysis.unconfirmed
    (told,) = [line for line in lines if "12 AWG" in line]
    assert told.startswith("W6, W7, W9, W18, W19, W20: ")


def test_a_voltage_below_one_is_not_told_as_none() -> None:
    found = content("weather-station").analysis.findings
    (late,) = [f for f in found if f.rule == "fault-slow"]
    assert "leaves at most 0.23 V on it" in late.message
