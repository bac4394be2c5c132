"""sources-share-box: two sources live in one box that nothing opens together."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import interlock, levels
from tests.findings.told import found, number

RULE = "sources-share-box"
WIRE = {"size": "14 AWG", "length": "12 ft"}


def trailer(tabs: str = "both", split: bool = True) -> Draft:
    """A cord's outlet from the board of a trailer, and one from a small inverter; ``split``: the
    halves of one outlet, else two outlets."""
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker="15 A", prospective="2 kA", outage="no")
    d.part("panel", "QP1", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size="10 AWG", length="10 ft")
    d.part("breaker", "QF1", rating="15 A")
    d.seat("QF1", "QP1", "1")
    d.part("battery", "GB1", capacity="100 Ah")
    d.part("fuse", "F1", rating="60 A", type="class_t", interrupting="20 kA")
    d.part("inverter", "TB1", power="400 VA", neutral="floating")
    d.run("GB1.dc", "F1.line", "W2", size="6 AWG", length="0.5 ft")
    d.run("F1.load", "TB1.dc", "W3", size="6 AWG", length="3 ft")
    if split:
        d.part("split_outlet", "XD1", tabs=tabs)
        d.run("QF1.load", "XD1.feed", "W4", **WIRE)
        d.run("TB1.ac_out", "XD1.feed_2", "W5", **WIRE)
    else:
        d.part("outlet", "XD1")
        d.part("outlet", "XD2")
        d.run("QF1.load", "XD1.feed", "W4", **WIRE)
        d.run("TB1.ac_out", "XD2.feed", "W5", **WIRE)
    return d


def test_halves_on_two_sources_are_told() -> None:
    """120 V of two sources that do not run in step: up to 240 V between them."""
    (hit,) = found(trailer(), RULE)
    assert (hit.subjects, hit.level) == (("XD1",), Level.WARNING)
    assert number(hit, "most voltage between the two") == pytest.approx(240.0)


def test_with_the_neutral_tab_left_the_sources_share_a_neutral_and_are_told_too() -> None:
    assert levels(trailer("hot"), RULE) == {("XD1",): Level.WARNING}


def test_two_outlets_in_boxes_of_their_own_are_silent() -> None:
    assert found(trailer(split=False), RULE) == []


def test_two_outlets_that_share_a_box_are_told() -> None:
    d = trailer(split=False)
    for outlet in ("XD1", "XD2"):
        d.rate(outlet, shared_box="galley")
    assert levels(d, RULE) == {("XD1", "XD2"): Level.WARNING}
    d.rate("XD2", shared_box="door")
    assert found(d, RULE) == []


def test_one_source_at_a_time_is_silent() -> None:
    d = trailer()
    d.part("isolator", "QB1", rating="20 A")
    d.cut("W5")
    d.run("TB1.ac_out", "QB1.line", "W5", **WIRE)
    d.run("QB1.load", "XD1.feed_2", "W6", **WIRE)
    assert levels(d, RULE) == {("XD1",): Level.WARNING}
    interlock(d, ("QF1", "breaker", "closed"), ("QB1", "switch", "closed"))
    assert found(d, RULE) == []


def test_halves_on_two_circuits_of_one_source_are_not_two_sources() -> None:
    d = trailer()
    d.part("breaker", "QF2", rating="15 A")
    d.seat("QF2", "QP1", "2")
    d.cut("W5")
    d.run("QF2.load", "XD1.feed_2", "W5", **WIRE)
    assert found(d, RULE) == []


def test_one_switch_that_opens_both_is_silent() -> None:
    d = trailer()
    d.part("isolator", "QB1", circuit="split", rating="20 A")
    d.cut("W4", "W5")
    d.run("QF1.load", "QB1.line", "W4", poles="L>L1 N PE", **WIRE)
    d.run("TB1.ac_out", "QB1.line", "W5", poles="L>L2", **WIRE)
    d.run("QB1.load", "XD1.feed", "W6", poles="L1>L N PE", **WIRE)
    d.run("QB1.load", "XD1.feed_2", "W7", poles="L2>L", **WIRE)
    assert found(d, RULE) == []
    d.cut("W4", "W6")
    d.run("QF1.load", "XD1.feed", "W4", **WIRE)
    assert levels(d, RULE) == {("XD1",): Level.WARNING}
