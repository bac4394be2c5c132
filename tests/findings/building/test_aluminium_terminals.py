"""Aluminium conductors on terminals made for copper."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import house, levels
from tests.findings.told import cured, found, gaps

RULE = "aluminium-terminals"


def feeder(**run: str) -> Draft:
    draft = house()
    draft.rate_run("W1", material="aluminium", size="2/0 AWG", **run)
    return draft


def test_aluminium_on_terminals_for_copper_is_a_danger() -> None:
    draft = feeder(terminal_metal="no")
    assert levels(draft, RULE) == {("W1",): Level.DANGER}
    assert not [f for f in cured(draft, found(draft, RULE)[0]).findings if f.rule == RULE]


def test_terminals_marked_for_both_are_silent() -> None:
    assert found(feeder(terminal_metal="yes"), RULE) == []
    assert gaps(feeder(terminal_metal="yes"), RULE) == []


def test_copper_is_never_asked() -> None:
    draft = house()
    assert found(draft, RULE) == gaps(draft, RULE) == []
    draft.rate_run("W1", terminal_metal="no")
    assert found(draft, RULE) == []


def test_a_feeder_that_says_nothing_is_a_note() -> None:
    assert levels(feeder(), RULE) == {("W1",): Level.NOTE}


def test_thin_branch_wires_that_say_nothing_are_not_checked() -> None:
    draft = house()
    draft.rate_run("W2", material="aluminium", size="10 AWG")
    assert found(draft, RULE) == []
    assert [gap.where for gap in gaps(draft, RULE)] == [("W2",)]
    draft.rate_run("W2", size="8 AWG")
    assert levels(draft, RULE) == {("W2",): Level.NOTE}


def test_a_ground_wire_alone_is_not_looked_at() -> None:
    draft = house()
    draft.part("electrode", "XE1", resistance="10 ohm")
    tie = {"size": "4 AWG", "length": "10 ft", "installation": "jumper", "material": "aluminium"}
    draft.run("QP1.ground", "XE1.ground", "W9", **tie)
    assert found(draft, RULE) == []
