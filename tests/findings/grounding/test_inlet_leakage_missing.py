"""A boat's shore inlet without a device that opens on leakage."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.camps import CORD, levels
from tests.findings.told import cured, found

RULE = "inlet-leakage-missing"


def boat(place: str = "boat", **breaker: str) -> Draft:
    """A dock, a cord, an inlet, a main breaker of the ratings given, a board with a heater and an
    outlet."""
    d = Draft(place=place)
    d.part("supply", "GS1", "dock", breaker="30 A", prospective="2 kA")
    d.part("outlet", "XD1", configuration="L5-30")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="L5-30")
    d.run("XP1.cord", "XI1.outside", length="25 ft", **CORD)
    d.part("breaker", "QF1", rating="30 A", **({"poles": "all"} | breaker))
    d.run("XI1.inside", "QF1.line", size="10 AWG", length="6 ft")
    d.part("panel", "QP1", bond="absent")
    d.run("QF1.load", "QP1.feed", size="10 AWG", length="3 ft")
    d.part("breaker", "QF2", rating="15 A")
    d.seat("QF2", "QP1", "1")
    d.part("heater", "EH1", power="1 kW")
    d.run("QF2.load", "EH1.in", "W9", size="14 AWG", length="10 ft")
    return d


def test_a_main_breaker_that_knows_no_leakage_is_a_warning() -> None:
    """ABYC E-11 (from memory): 30 mA at the shore inlet."""
    draft = boat()
    (hit,) = found(draft, RULE)
    assert (hit.subjects, hit.level) == (("XI1",), Level.WARNING)
    assert "EH1" in hit.message
    assert "XD1" not in hit.message  # the outlet of the dock
    cured(draft, hit)
    assert found(draft, RULE) == []


@pytest.mark.parametrize(
    ("device", "told"), [("rcd_30", False), ("class_a", False), ("rcd_100", True)]
)
def test_it_must_open_at_30_milliampere(device: str, told: bool) -> None:
    assert bool(found(boat(ground_fault=device), RULE)) is told


def test_one_that_leaves_the_neutral_is_told_so() -> None:
    (hit,) = found(boat(ground_fault="rcd_30", poles="lines"), RULE)
    assert "both poles" in hit.message
    assert "leaves the neutral joined" in hit.message


def test_a_load_before_it_is_told() -> None:
    draft = boat(ground_fault="rcd_30")
    draft.part("load", "EA1", power="300 W")
    draft.run("XI1.inside", "EA1.in", "W10", size="10 AWG", length="3 ft")
    (hit,) = found(draft, RULE)
    assert "EA1" in hit.message
    assert "EH1" not in hit.message


@pytest.mark.parametrize("place", ["recreational", "vehicle", "field"])
def test_elsewhere_none_is_asked_for(place: str) -> None:
    assert found(boat(place), RULE) == []


def test_abroad_the_family_of_standards_asks_too() -> None:
    draft = boat()
    draft.design.apply(change_settings(draft.design, family="INT"))
    assert levels(draft, RULE) == {("XI1",): Level.WARNING}


def test_what_else_is_plugged_in_on_the_dock_is_not_aboard() -> None:
    draft = boat(ground_fault="rcd_30")
    draft.part("plug", "XP9", configuration="L5-30")
    draft.seat("XP9", "XD1", "face")
    draft.part("outlet", "XD9", configuration="L5-30")
    cord = {"size": "10 AWG", "length": "25 ft", "installation": "cord"}
    draft.run("XP9.cord", "XD9.feed", "lead", **cord)
    assert found(draft, RULE) == []


@pytest.mark.parametrize(
    ("kind", "rated", "told"),
    [
        ("transformer", {"secondary": "ac240", "ground": "shield", "neutral": "floating"}, False),
        ("autotransformer", {"form": "up"}, True),
    ],
)
def test_an_autotransformer_isolates_nothing(kind: str, rated: dict[str, str], told: bool) -> None:
    draft = boat()
    draft.remove("QP1", "QF2", "EH1")
    draft.part(kind, "TA1", power="3.6 kVA", **rated)
    draft.run("QF1.load", "TA1.primary", size="10 AWG", length="3 ft")
    draft.part("heater", "EH1", circuit="ac240", power="1 kW")
    draft.run("TA1.secondary", "EH1.in", size="10 AWG", length="3 ft")
    hits = found(draft, RULE)
    assert bool(hits) is told
    for hit in hits:
        assert "Nothing behind XI1" in hit.message
