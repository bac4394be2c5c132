"""A ground-fault device that trips without a fault."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, levels
from tests.findings.told import found, number

RULE = "gfci-trips-in-use"


def guarded(device: str, watts: float = 600.0, link: str = "fitted") -> Draft:
    """The set behind a ground-fault device; a second link, or none, in the board after it."""
    draft = camp()
    draft.cut("W1")
    draft.part("gfci", "QR1", ground_fault=device, rating="30 A")
    draft.run("G1.out", "QR1.line", "W1", size="10 AWG", length="2 ft")
    draft.run("QR1.load", "QP1.feed", "W9", size="10 AWG", length="20 ft")
    draft.rate("QP1", bond=link)
    draft.rate("EA1", power=f"{watts:.6g} W")
    return draft


def test_a_second_link_behind_it_trips_it_by_its_residual() -> None:
    hits = found(guarded("class_a"), RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("QR1",), Level.WARNING)]
    assert number(hits[0], "residual current in use") > 1.0


def test_it_is_told_as_the_consequence_of_the_second_link() -> None:
    top = next(f for f in analyse(guarded("class_a").design).findings if f.rule == "bond-doubled")
    assert RULE in {c.rule for c in top.consequences}


def test_one_link_ahead_of_it_is_silent() -> None:
    assert found(guarded("class_a", link="absent"), RULE) == []


def test_a_second_link_ahead_of_it_is_silent_too() -> None:
    draft = camp()
    draft.rate("QP1", bond="fitted")
    draft.rate("QF1", ground_fault="class_a")
    assert found(draft, RULE) == []


def test_class_a_finds_the_link_without_any_load() -> None:
    # UL 943: a grounded neutral on the load side trips it, loaded or not
    draft = guarded("class_a")
    draft.remove("EA1")
    hits = found(draft, RULE)
    assert [hit.subjects for hit in hits] == [("QR1",)]
    assert "without a load" in hits[0].message


@pytest.mark.parametrize(("link", "told"), [("fitted", [("QP1",)]), ("absent", [])])
def test_a_link_on_the_bars_behind_a_ground_fault_main_trips_it(link: str, told: list) -> None:
    draft = camp()
    draft.rate("QP1", bond=link, main="30 A", ground_fault="rcd_30")
    assert [hit.subjects for hit in found(draft, RULE)] == told


@pytest.mark.parametrize(("link", "told"), [("fitted", [("GS1",)]), ("absent", [])])
def test_a_link_aboard_trips_the_device_of_the_dock(link: str, told: list) -> None:
    """555.35 asks for it there; a second link aboard sends part of the current back by ground."""
    draft = Draft(place="boat")
    draft.part("supply", "GS1", breaker="30 A", ground_fault="rcd_30", outage="no")
    draft.part("panel", "QP1", bond=link, main="30 A")
    draft.run("GS1.out", "QP1.feed", "W1", size="10 AWG", length="25 ft", installation="cord")
    draft.part("breaker", "QF1", rating="15 A")
    draft.seat("QF1", "QP1", "1")
    draft.part("load", "EA1", power="900 W")
    draft.run("QF1.load", "EA1.in", "W2", size="14 AWG", length="10 ft")
    assert [hit.subjects for hit in found(draft, RULE)] == told


def test_an_iec_device_does_not() -> None:
    draft = guarded("rcd_30")
    draft.remove("EA1")
    assert found(draft, RULE) == []


@pytest.mark.parametrize(("milliampere", "trips"), [(14.5, False), (15.5, True)])
def test_the_boundary_is_half_the_rated_residual_current(milliampere: float, trips: bool) -> None:
    # IEC 61008-1: below half of 30 mA it must not trip; what leaves rises with the load's current
    at_600_w = number(found(guarded("rcd_30"), RULE)[0], "residual current in use")
    draft = guarded("rcd_30", 600.0 * milliampere / 1000.0 / at_600_w)
    assert levels(draft, RULE) == ({("QR1",): Level.WARNING} if trips else {})


def test_on_a_floating_source_the_same_link_closes_no_loop() -> None:
    draft = guarded("class_a")
    draft.rate("G1", neutral="floating")
    assert found(draft, RULE) == []


@pytest.mark.parametrize(("filters", "trips"), [("80 nF", False), ("95 nF", True)])
def test_the_filters_of_electronic_loads_add_up_to_a_trip(filters: str, trips: bool) -> None:
    """By hand: 2 pi 60 Hz C 120 V; 4 mA, the least at which class A may trip (UL 943), pass
    through 88 nF."""
    draft = guarded("class_a", link="absent")
    draft.remove("EA1")
    draft.part("electronic_load", "EE1", power="100 W", filter=filters)
    draft.run("QF1.load", "EE1.in", "W2", size="12 AWG", length="20 ft")
    assert levels(draft, RULE) == ({("QR1",): Level.WARNING} if trips else {})
