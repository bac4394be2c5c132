"""What a transformer takes when it is switched on, against the device before it."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import levels
from tests.findings.told import found, gaps, number, praise

RULE = "transformer-inrush"


def shed(power: str = "1 kVA", device: str = "15 A", fuse: str = "", **breaker: str) -> Draft:
    """A transformer of 120 V behind a breaker, or a fuse of a class, in a shed."""
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="100 A", prospective="4 kA")
    d.part("panel", "QP1", bond="absent", bus="100 A")
    d.run("GS1.out", "QP1.feed", "u", size="3 AWG", length="20 ft")
    d.part("breaker", "QF1", rating=device, interrupting="10 kA", **breaker)
    d.seat("QF1", "QP1", "1")
    feed = "QF1.load"
    if fuse:
        d.part("fuse", "F1", rating=device, type=fuse, voltage="250 V", circuit="ac")
        d.run(feed, "F1.line", "f", size="10 AWG", length="3 ft")
        feed = "F1.load"
    d.part("transformer", "TA1", power=power, neutral="bonded")
    d.run(feed, "TA1.primary", "p", size="10 AWG", length="4 ft")
    d.part("load", "EA1", power="300 W")
    d.run("TA1.secondary", "EA1.in", "m", size="12 AWG", length="20 ft")
    return d


def test_a_breaker_whose_magnetic_release_is_reached_may_open() -> None:
    """1 kVA on 120 V: 8.33 A, twelve times that 100 A, 6.7 times 15 A; typical breakers may open at
    once from five times on."""
    (hit,) = found(shed(), RULE)
    assert (hit.subjects, hit.level) == (("TA1", "QF1"), Level.NOTE)
    assert number(hit, "current when it is switched on") == pytest.approx(100.0)
    assert "assumed" in hit.message
    assert gaps(shed(), "transformer-unprotected") == []


def test_a_larger_or_slower_one_holds_and_it_is_said_why() -> None:
    """Below five times 25 A, 125 A, typical breakers take more than a second."""
    for draft in (shed(device="25 A"), shed(magnetic="200 A")):
        assert found(draft, RULE) == []
        assert [p.subjects for p in praise(draft, RULE) if "QF1" in p.subjects]


def test_a_fuse_far_below_opens_for_certain() -> None:
    """3.6 kVA: 30 A, eight times that is 240 A, 80 times a fuse of 3 A."""
    told = levels(shed("3.6 kVA", "3 A", "class_cc"), RULE)
    assert told["TA1", "F1"] is Level.WARNING


def test_a_small_set_may_drop_out() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", power="2 kVA", neutral="bonded", excitation="electronic")
    d.part("transformer", "TA1", power="1.5 kVA", neutral="bonded")
    d.run("G1.out", "TA1.primary", "p", size="10 AWG", length="4 ft")
    d.part("load", "EA1", power="300 W")
    d.run("TA1.secondary", "EA1.in", "m", size="12 AWG", length="20 ft")
    assert levels(d, RULE)["TA1", "G1"] is Level.NOTE
    assert "drop out" in found(d, RULE)[0].message


def test_without_a_transformer_nothing_is_said() -> None:
    d = shed()
    d.remove("TA1")
    assert found(d, RULE) == []
    assert not [p for p in analyse(d.design).praise if p.rule == RULE]
