"""The cautions that a drawing calls for; they are printed with the set and never accepted away."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.design.edits import accept_finding, change_settings
from linework.findings.model import Level
from linework.findings.registry import rules
from tests.findings.camps import camp, caravan, house, levels
from tests.findings.told import found, number

CAUTIONS = ("alarms", "cord-use", "surge-and-lightning", "working-space")


@pytest.mark.parametrize(
    ("place", "told"),
    [
        ("recreational", True),
        ("boat", True),
        ("building", True),
        ("vehicle", False),
        ("field", False),
    ],
)
def test_alarms_where_people_sleep(place: str, told: bool) -> None:
    assert levels(camp(place), "alarms") == ({("G1",): Level.NOTE} if told else {})


def test_alarms_need_an_engine_or_a_battery() -> None:
    assert levels(house(), "alarms") == {}


def test_cords_are_named_once_for_all() -> None:
    (note,) = found(caravan(), "cord-use")
    assert (note.subjects, note.level) == (("W1",), Level.NOTE)
    assert levels(camp(), "cord-use") == {}
    d = caravan()
    d.part("cord_set", "WX1", size="12 AWG", length="25 ft")
    assert "WX1" in found(d, "cord-use")[0].message
    assert "into heat" not in found(d, "cord-use")[0].message


def test_the_heat_of_the_hottest_cord_is_told() -> None:
    """By hand: 12.5 A in 50 ft of 16 AWG, out and back 0.5 ohm at 75 C, are 78 W."""
    d = caravan()
    d.part("cord_set", "WX1", size="16 AWG", length="50 ft")
    d.seat("WX1", "XD2", "face")
    d.part("plug_load", "EP1", power="1500 W")
    d.seat("EP1", "WX1", "face")
    (note,) = found(d, "cord-use")
    assert "W into heat in WX1" in note.message
    assert number(note, "heat along it") == pytest.approx(75.0, rel=0.1)
    d.rate("EP1", power="500 W")
    assert "into heat" not in found(d, "cord-use")[0].message


@pytest.mark.parametrize(
    ("place", "told"), [("building", True), ("field", True), ("vehicle", False)]
)
def test_surges_come_in_by_a_line(place: str, told: bool) -> None:
    d = house()
    d.design.apply(change_settings(d.design, place=place))
    assert levels(d, "surge-and-lightning") == ({("GS1",): Level.NOTE} if told else {})


def test_without_a_way_in_no_surge() -> None:
    assert levels(camp("building"), "surge-and-lightning") == {}


@pytest.mark.parametrize(
    ("place", "clause", "depth"),
    [("building", "110.26(A)", "3 ft"), ("recreational", "551.45(B)", "30 in deep")],
)
def test_room_before_boards(place: str, clause: str, depth: str) -> None:
    (note,) = found(camp(place), "working-space")
    assert (note.subjects, note.clause) == (("QP1",), clause)
    assert depth in note.message


def test_a_board_of_direct_current_needs_no_such_room() -> None:
    d = Draft(place="vehicle")
    d.part("panel", "QP1", circuit="dc")
    assert levels(d, "working-space") == {}


@pytest.mark.parametrize("rule", CAUTIONS)
def test_they_are_never_accepted_away(rule: str) -> None:
    assert rules()[rule].always_printed
    d = house() if rule == "surge-and-lightning" else caravan()
    (note,) = found(d, rule)
    marks = (note.rule, note.subjects, note.fingerprint)
    d.design.apply(accept_finding(d.design, *marks, reason="known", by="me", date="2026-01-01"))
    (after,) = [f for f in analyse(d.design).findings if f.rule == rule]
    assert after.accepted is None
