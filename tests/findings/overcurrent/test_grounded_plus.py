"""A battery whose plus is on the ground, as in telephony (-48 V): its minus is the live conductor.

NFPA 70 (2023) 240.22: no device in a grounded conductor alone; 240.21: one in each ungrounded.
"""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import levels
from tests.findings.told import gaps

WIRE = {"size": "6 AWG", "terminals": "75"}


def exchange(fuse: str = "-") -> Draft:
    """A radio on 48 V, plus on a rod; the fuse in the minus, in the plus, or left out."""
    d = Draft(place="building")
    d.part("battery", "GB1", voltage="48 V", capacity="15 Ah", chemistry="agm")
    d.part("load", "EA1", circuit="dc", voltage="48 V", power="300 W")
    d.part("electrode", "XE1", resistance="5 ohm")
    tie = {"size": "6 AWG", "length": "6 ft", "installation": "jumper"}
    d.run("GB1.dc", "XE1.ground", "WE1", poles="+>PE", **tie)
    if fuse:
        d.part("fuse", "F1", rating="30 A", type="class_t", voltage="125 V", interrupting="20 kA")
        d.run("GB1.dc", "F1.line", "W1", poles=f"{fuse}>+", length="0.5 ft", **WIRE)
        d.run("F1.load", "EA1.in", "W2", poles=f"+>{fuse}", length="8 ft", **WIRE)
    for pole in {"+", "-"} - {fuse}:
        d.run("GB1.dc", "EA1.in", f"W{pole}", poles=pole, length="8 ft", **WIRE)
    return d


def dangers(draft: Draft) -> set[tuple[str, ...]]:
    return {
        where
        for rule in ("run-unprotected", "device-in-grounded-conductor")
        for where, level in levels(draft, rule).items()
        if level > Level.NOTE
    }


def test_a_fuse_in_the_minus_is_right_there() -> None:
    assert dangers(exchange("-")) == set()
    assert [gap.where for gap in gaps(exchange("-"), "not-analysed")] == [("GB1",)]


def test_a_fuse_in_the_plus_leaves_the_live_minus_without() -> None:
    assert levels(exchange("+"), "device-in-grounded-conductor") == {("F1",): Level.WARNING}
    assert levels(exchange("+"), "run-unprotected") == {("GB1",): Level.DANGER}


def test_no_fuse_at_all_is_a_danger() -> None:
    assert dangers(exchange("")) == {("GB1",)}


def test_with_the_minus_grounded_nothing_has_changed() -> None:
    draft = exchange("-")
    draft.cut("WE1")
    draft.run("GB1.dc", "XE1.ground", "WE1", poles="->PE", size="6 AWG", length="6 ft")
    assert levels(draft, "device-in-grounded-conductor") == {("F1",): Level.DANGER}
    assert ("W+",) in levels(draft, "run-unprotected")
