"""A device that opens only the return conductor."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, levels
from tests.findings.told import cured, found

RULE = "device-in-grounded-conductor"


@pytest.mark.parametrize(("poles", "told"), [("neutral", True), ("all", False), ("lines", False)])
def test_a_breaker_in_the_neutral_of_a_guarded_circuit(poles: str, told: bool) -> None:
    """NFPA 70 (2023) 240.22: not unless it opens all conductors at once."""
    d = camp()
    d.part("breaker", "QF3", rating="20 A", poles=poles)
    d.cut("W2")
    d.run("QF1.load", "QF3.line", "W2", size="12 AWG", length="20 ft")
    d.run("QF3.load", "EA1.in", "W9", size="12 AWG", length="1 ft")
    assert levels(d, RULE) == ({("QF3",): Level.WARNING} if told else {})


def only_in_the_neutral(poles: str = "neutral") -> Draft:
    """A set whose outlet has one breaker."""
    d = Draft(place="field")
    d.part("generator", "G1", circuit="split", power="7 kVA", neutral="floating")
    d.part("breaker", "QF1", circuit="split", rating="30 A", poles=poles)
    d.part("outlet", "XD1", circuit="split", configuration="L14-30")
    d.seat("QF1", "G1", "1")
    d.seat("XD1", "QF1", "load")
    return d


def test_where_the_live_conductors_have_none_it_is_a_danger_and_mended() -> None:
    d = only_in_the_neutral()
    (hit,) = found(d, RULE)
    assert (hit.subjects, hit.level) == (("QF1",), Level.DANGER)
    cured(d, hit)
    assert levels(d, RULE) == {}


def test_the_same_breaker_in_the_lines_is_silent() -> None:
    assert levels(only_in_the_neutral("lines"), RULE) == {}


def battery(*, bonded: bool, fused: bool) -> Draft:
    """A lamp on a battery with a fuse in its minus."""
    d = Draft(place="vehicle")
    d.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    dc = {"circuit": "dc", "voltage": "12 V"}
    d.part("fuse", "F1", rating="10 A", **dc)
    d.part("fuse", "F2", rating="10 A", **dc)
    d.part("lamp", "EL1", power="20 W", **dc)
    run = {"size": "14 AWG", "length": "5 ft"}
    if fused:
        d.run("GB1.dc", "F2.line", "W1", poles="+", **run)
        d.run("F2.load", "EL1.in", "W2", poles="+", **run)
    else:
        d.run("GB1.dc", "EL1.in", "W1", poles="+", **run)
    d.run("GB1.dc", "F1.line", "W3", poles="->+", **run)
    d.run("F1.load", "EL1.in", "W4", poles="+>-", **run)
    if bonded:
        d.part("body", "XB1", name="chassis")
        d.run("GB1.dc", "XB1.tie", "W5", poles="->body", size="8 AWG", length="1 ft")
    return d


@pytest.mark.parametrize(
    ("bonded", "fused", "level"),
    [
        (True, True, Level.WARNING),
        (True, False, Level.DANGER),
        (False, True, None),  # no conductor is grounded
        (False, False, Level.DANGER),
    ],
)
def test_a_fuse_in_the_minus(bonded: bool, fused: bool, level: Level | None) -> None:
    expected = {} if level is None else {("F1",): level}
    assert levels(battery(bonded=bonded, fused=fused), RULE) == expected


@pytest.mark.parametrize(("poles", "told"), [("all", False), ("neutral", True)])
def test_a_breaker_of_two_poles_whose_line_is_dead_now(poles: str, told: bool) -> None:
    """Shore is away and a set feeds the boat through a switch that leaves the neutral joined: the
    main for shore lies in the set's neutral with one pole, and its other has nothing to open."""
    d = Draft(place="vehicle")
    d.part("supply", "GS1", breaker="30 A", prospective="1 kA")
    d.part("breaker", "QF1", rating="30 A", poles=poles)
    d.run("GS1.out", "QF1.line", "W1", size="10 AWG", length="20 ft")
    d.part("transfer_switch", "QT1", poles="lines")
    d.run("QF1.load", "QT1.in1", "W2", size="10 AWG", length="5 ft")
    d.part("generator", "G1", power="3 kVA", neutral="bonded", breaker="25 A")
    d.run("G1.out", "QT1.in2", "W3", size="10 AWG", length="5 ft")
    d.part("load", "EA1", power="1200 W")
    d.run("QT1.load", "EA1.in", "W4", size="10 AWG", length="5 ft")
    assert ("QF1" in {name for where in levels(d, RULE) for name in where}) is told
