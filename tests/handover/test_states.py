"""The state table tells everything that is live: people lock out by it."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from reportlab.lib.units import mm

from linework.analysis import analyse
from linework.design import Draft
from linework.handover.content import Content
from linework.handover.sheets import Room
from linework.handover.states import _fed, _in_order, _tester, state_pages
from linework.handover.styles import WIDE, table
from linework.study.report import StateReport
from tests.handover.test_schedules import content as sample
from tests.handover.test_schedules import words

DATE = datetime.date(2026, 3, 1)
SAMPLES = Path(__file__).resolve().parents[2] / "samples"
WIRE = {"size": "10 AWG", "length": "3 m"}


def van() -> Draft:
    """A board on the shore cord, a second one on an inverter of its own; a set that feeds none."""
    drawn = Draft()
    drawn.part("supply", "GS1", title="shore")
    drawn.part("outlet", "XD1", configuration="5-15")
    drawn.part("plug", "XP1", configuration="5-15")
    drawn.seat("XP1", "XD1", "face")
    drawn.part("panel", "QP1", places="2")
    drawn.part("generator", "G1", power="2 kVA")
    drawn.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    drawn.part("inverter", "TB1", power="1000 VA", title="inverter")
    drawn.part("panel", "QP2", places="2")
    drawn.run("GS1.out", "XD1.feed", "W1", **WIRE)
    drawn.run("XP1.cord", "QP1.feed", "W2", installation="cord", **WIRE)
    drawn.run("GB1.dc", "TB1.dc", "W3", size="2 AWG", length="1 m")
    drawn.run("TB1.ac_out", "QP2.feed", "W4", **WIRE)
    return drawn


@pytest.fixture(scope="module")
def content() -> Content:
    design = van().design
    return Content(design, analyse(design), DATE)


def state(content: Content, *words: str) -> StateReport:
    found = [r for r in content.reports if all(word in r.key for word in words)]
    assert found, [r.key for r in content.reports]
    return found[0]


def test_a_state_in_which_an_inverter_feeds_a_board_is_not_called_dead(content: Content) -> None:
    r = state(content, "TB1=on", "XP1=unplugged")
    assert r.title.startswith("QP1 dead, QP2 on inverter")
    assert "TB1: QP2" in _fed(content, r)


def test_a_bank_and_a_set_that_feed_no_board_are_told_as_live(content: Content) -> None:
    r = state(content, "G1=stopped", "TB1=off", "XP1=unplugged")
    assert r.title == "QP1 dead, GB1 and shore live"
    assert "GB1: only its own terminals and wires" in _fed(content, r)
    assert "G1, GB1: only their own terminals and wires" in _fed(
        content, state(content, "G1=running")
    )


def test_every_source_that_is_live_is_told_in_every_state(content: Content) -> None:
    for r in content.reports:
        live = {owner for owners in r.live.values() for owner in owners}
        assert live
        told = _fed(content, r)
        assert {owner for owner in live if content.name(owner) not in told} == set(), r.key
        assert "nothing" not in told


def test_an_outlet_that_is_live_is_told_with_the_boards(content: Content) -> None:
    assert "XD1" in _fed(content, state(content, "XP1=unplugged"))


def test_outlets_that_show_the_same_are_told_together() -> None:
    made = sample("vaccination-trailer")
    told = {_tester(made, r) for r in made.reports}
    assert "XD4 118/119/1 V correct; XD2, XD3 120/120/0 V correct" in told


def test_on_narrow_paper_the_positions_stand_over_what_holds_in_them(content: Content) -> None:
    """So that no column of the annex is a few words wide: 178 mm on letter."""
    narrow, wide = (state_pages(content, Room(w * mm, 700.0))[0].content[-1] for w in (178, 380))
    assert [len(row) for row in narrow._cellvalues] == [2] * (1 + len(_in_order(content)))
    assert len(wide._cellvalues[0]) > 4
    for made in (narrow, wide):
        told = words([made])
        for r in content.reports:
            assert f"{r.title}: {r.spoken}" in told
    assert narrow.wrap(178 * mm, 1e5)[1] < _as_columns(content)


def _as_columns(content: Content) -> float:
    """How high the table is where each state is a row of columns on the narrow paper."""
    made = state_pages(content, Room(WIDE + 1, 700.0))[0].content[-1]
    heads = [words([cell]) for cell in made._cellvalues[0]]
    rows = [[words([cell]) for cell in row] for row in made._cellvalues[1:]]
    return float(table(heads, rows, 178 * mm).wrap(178 * mm, 1e5)[1])
