"""The sound designs on direct current are sound: no danger, no warning, nothing unjudged."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import motorhome, van, with_inverter
from tests.findings.told import places

SOUND = [
    pytest.param(van, id="van"),
    pytest.param(lambda: van("building"), id="cabin"),
    pytest.param(lambda: van("field"), id="field station"),
    pytest.param(lambda: with_inverter(van()), id="van with inverter"),
    pytest.param(motorhome, id="motorhome"),
]


@pytest.mark.parametrize("drawn", SOUND)
def test_it_is_silent(drawn: Callable[[], Draft]) -> None:
    found = analyse(drawn().design)
    assert [(f.rule, f.where) for f in found.findings if f.level > Level.NOTE] == []
    assert found.gaps == ()
    assert found.sound


def test_the_charger_of_the_motorhome_behind_its_switch_goes_round() -> None:
    draft = motorhome()
    draft.cut("W42")
    draft.part("junction_box", "XJ1")
    draft.cut("W49")
    draft.run("QT1.load", "XJ1.a", "W49", size="12 AWG", length="6 ft")
    draft.run("XJ1.b", "XD1.feed", "W53", size="12 AWG", length="4 ft")
    draft.run("XJ1.c", "TB2.ac_in", "W42", size="12 AWG", length="4 ft")
    assert places(draft, "charger-loop") == {("TB2",)}


def test_a_bonded_inverter_that_shares_the_neutral_with_shore() -> None:
    draft = motorhome()
    draft.rate("QT1", poles="lines")
    assert places(draft, "bond-doubled") == {("TB1",)}
