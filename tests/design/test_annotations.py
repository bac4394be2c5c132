from __future__ import annotations

import pytest

from linework.design import Design, PlaceKind
from linework.design.edits import (
    accept_finding,
    add_interlock,
    add_note,
    change_note,
    change_settings,
    drop_element,
)
from linework.design.integrity import flaws_of
from linework.design.settings import SHEETS
from linework.words import FAMILIES
from tests.design.sketches import done, refused, shed, untouched


@pytest.fixture
def design() -> Design:
    return shed().design


@pytest.mark.parametrize(
    ("answers", "stands"),
    [
        ({"voltage": "230 V"}, {"voltage": "230 V"}),
        ({"voltage": "0,23 kV"}, {"voltage": "230 V"}),
        ({"frequency": "50Hz"}, {"frequency": "50 Hz"}),
        ({"wet": True, "job": "pump"}, {"wet": True, "job": "pump"}),
        *(({"family": family}, {"family": family}) for family in FAMILIES),
        *(({"place": place}, {"place": place}) for place in PlaceKind),
        *(({"sheet": sheet}, {"sheet": sheet}) for sheet in SHEETS),
    ],
)
def test_settings_are_changed(answers: dict, stands: dict) -> None:
    design = shed().design
    with untouched(design):
        change = change_settings(design, **answers)
    after = done(design, change)
    assert {name: getattr(after.settings, name) for name in stands} == stands
    assert flaws_of(after) == []


@pytest.mark.parametrize(
    ("answers", "reason"),
    [
        ({"volts": "1"}, "no setting 'volts'; did you mean 'voltage'"),
        ({"id": "x"}, "no setting 'id'"),
        ({"voltage": "230"}, "voltage: '230' has no unit"),
        ({"voltage": "0 V"}, "voltage: '0 V' is outside"),
        ({"voltage": "20 kV"}, "voltage: '20 kV' is outside"),
        ({"voltage": 230}, "'voltage' cannot be 230"),
        ({"frequency": "fast"}, "frequency: "),
        ({"family": "EU"}, "family: 'EU' is not among NA, INT"),
        ({"place": "trailer"}, "place: 'trailer' is not among"),
        ({"sheet": "A5"}, "sheet: 'A5' is not among A3, A4"),
        ({"wet": "yes"}, "'wet' cannot be 'yes'"),
    ],
)
def test_a_setting_is_refused(design: Design, answers: dict, reason: str) -> None:
    with refused(design, reason):
        change_settings(design, **answers)


def test_unchanged_settings_are_no_change(design: Design) -> None:
    assert not change_settings(design)
    assert not change_settings(design, voltage="120 V")


def test_positions_are_interlocked(design: Design) -> None:
    items = [("G1", "set", "running"), ("QP1", "main", "closed"), ("XP1", "plug", "XD1")]
    with untouched(design):
        change = add_interlock(design, items, "kirk key")
    (lock,) = done(design, change).interlocks
    assert (lock.excludes, lock.title) == (tuple(items), "kirk key")


@pytest.mark.parametrize(
    ("items", "reason"),
    [
        ([], "at least two positions"),
        ([("G1", "set", "running")], "at least two positions"),
        ([("G1", "set", "running")] * 2, "each named once"),
        ([("G1", "set", "running"), ("nobody", "x", "y")], "no longer there"),
        ([("G1", "set", "running"), ("EA1", "x", "y")], "EA1 has no position 'y' of 'x'"),
        ([("G1", "set", "runing"), ("QP1", "main", "closed")], "no position 'runing'"),
        ([("XP1", "plug", "QP1"), ("QP1", "main", "closed")], "no position 'QP1'"),
    ],
)
def test_an_interlock_is_refused(design: Design, items, reason: str) -> None:
    with refused(design, reason):
        add_interlock(design, items)


def test_a_note_is_written_and_changed(design: Design) -> None:
    change = add_note(design, "mind the step", (25, 50), sheet=2)
    after = done(design, change)
    (note,) = after.notes
    assert (note.text, note.x, note.y, note.sheet) == ("mind the step", 25, 50, 2)
    again = done(after, change_note(after, note.id, "mind both steps"))
    assert [n.text for n in again.notes] == ["mind both steps"]
    assert again.notes[0].id == note.id
    with refused(after, "this note is no longer there"):
        change_note(after, "G1", "x")
    for make in (lambda: add_note(after, " ", (0, 0)), lambda: change_note(after, note.id, "")):
        with refused(after, "write the text"):
            make()


def test_a_finding_is_accepted_for_a_reason(design: Design) -> None:
    said = {"by": "A. Person", "date": "2025-04-01"}
    with refused(design, "write the reason"):
        accept_finding(design, "bond-missing", ("G1",), "f", reason=" ", **said)
    change = accept_finding(design, "bond-missing", ("G1",), "f", reason=" small set ", **said)
    assert change.title == "accept bond-missing"
    (found,) = done(design, change).accepted
    assert (found.rule, found.subjects, found.fingerprint) == ("bond-missing", ("G1",), "f")
    assert (found.reason, found.by, found.date) == ("small set", "A. Person", "2025-04-01")


def test_an_acceptance_takes_the_place_of_the_one_that_is_named_and_of_no_other(
    design: Design,
) -> None:
    said = {"reason": "because", "by": "A. Person", "date": "2025-04-01"}
    for mark in ("1", "2"):  # one rule may find two things at one place
        design.apply(accept_finding(design, "rule", ("G1",), mark, **said))
    first = next(item for item in design.accepted if item.fingerprint == "1")
    design.apply(accept_finding(design, "rule", ("G1",), "3", **said, instead_of=(first.id,)))
    assert {item.fingerprint for item in design.accepted} == {"2", "3"}
    design.apply(accept_finding(design, "rule", ("G1",), "3", **said))
    assert len(design.accepted) == 2, "the same is not accepted twice"


def test_what_lies_beside_is_taken_away(design: Design) -> None:
    change = add_note(design, "x", (0, 0))
    design.apply(change)
    note_id = next(iter(change.pairs))
    assert done(design, drop_element(design, note_id)).notes == []
    for other in ("G1", "W1", "settings", "nothing"):
        with refused(design, "nothing to take away"):
            drop_element(design, other)
