"""Solid wires, aluminium and house cable aboard boats."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import CORD, levels
from tests.findings.told import cured, found

RULE = "wire-not-for-boats"


def boat(place: str = "boat", **run: str) -> Draft:
    """A dock with its own wiring, a cord and inlet, a board aboard."""
    d = Draft(place=place)
    d.part("supply", "GS1", breaker="30 A", prospective="2 kA", outage="no")
    d.part("panel", "QP9", bond="absent")
    d.run("GS1.out", "QP9.feed", "W9", size="6 AWG", length="60 ft", installation="house_cable")
    d.part("breaker", "QF9", rating="30 A")
    d.seat("QF9", "QP9", "1")
    d.part("outlet", "XD1", configuration="L5-30")
    d.run("QF9.load", "XD1.feed", "W8", size="10 AWG", length="10 ft", stranding="solid")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="L5-30")
    d.run("XP1.cord", "XI1.outside", "W1", length="25 ft", **CORD)
    d.part("panel", "QP1", bond="absent", main="30 A")
    d.run("XI1.inside", "QP1.feed", "W2", length="6 ft", **({"size": "10 AWG"} | run))
    return d


@pytest.mark.parametrize(
    ("run", "told"),
    [
        ({}, False),
        ({"stranding": "solid"}, True),
        ({"material": "aluminium"}, True),
        ({"installation": "house_cable"}, True),
    ],
)
def test_what_boats_do_not_stand(run: dict[str, str], told: bool) -> None:
    """ABYC E-11 (from memory); the dock's own wiring, solid too, is not aboard."""
    draft = boat(**run)
    assert levels(draft, RULE) == ({("W2",): Level.WARNING} if told else {})
    for hit in found(draft, RULE):
        assert not [f for f in cured(draft, hit).findings if f.rule == RULE]


def test_a_trailer_may_have_them() -> None:
    assert levels(boat("recreational", stranding="solid"), RULE) == {}
