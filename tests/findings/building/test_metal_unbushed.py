"""A cable through bare sheet metal."""

from __future__ import annotations

from linework.findings.model import Level
from tests.findings.camps import caravan, levels
from tests.findings.told import cured, found

RULE = "metal-unbushed"


def test_a_cable_through_a_bare_hole_is_told() -> None:
    draft = caravan()
    draft.rate_run("W2", passes="bare_metal")
    assert levels(draft, RULE) == {("W2",): Level.WARNING}
    assert cured(draft, found(draft, RULE)[0]).silent


def test_a_bushing_makes_it_silent_and_so_does_saying_nothing() -> None:
    draft = caravan()
    assert found(draft, RULE) == []
    draft.rate_run("W2", passes="bushed")
    assert found(draft, RULE) == []


def test_a_bonding_jumper_may_touch_the_metal() -> None:
    draft = caravan()
    draft.rate_run("W4", passes="bare_metal")
    assert found(draft, RULE) == []
