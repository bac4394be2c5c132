"""A load afloat whose minus ends on the hull (ABYC E-11, ISO 13297: two-wire circuits)."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import van
from tests.findings.told import found, number

RULE = "hull-as-return"
WIRE = {"size": "12 AWG", "length": "6 ft"}


def lamp(back: str, place: str = "boat", **body: str) -> Draft:
    """A bank whose minus meets a body once, and a lamp whose minus goes back to ``back``."""
    d = van(place)
    d.rate("XB1", **({"type": "hull", "name": "hull"} | body))
    d.part("lamp", "EL2", circuit="dc", voltage="12 V", power="24 W")
    d.run("F3.load", "EL2.in", "W30", poles="+", **WIRE)
    ends = "->body" if back.endswith("tie") else "-"
    d.run("EL2.in", back, "W31", poles=ends, **WIRE)
    return d


def test_a_lamp_that_returns_by_the_hull() -> None:
    (hit,) = found(lamp("XB1.tie"), RULE)
    assert (hit.subjects, hit.level) == (("W31",), Level.WARNING)
    assert number(hit, "current in the hull") == pytest.approx(2.0)
    assert hit.message.startswith("EL2: the current comes back through XB1 by W31.")


def test_two_wires_are_silent() -> None:
    assert found(lamp("GB1.dc"), RULE) == []


def test_an_engine_block_may_carry_back_what_is_mounted_on_it() -> None:
    draft = lamp("XB1.tie", type="chassis", name="engine")
    draft.part("body", "XB2", name="hull", type="hull")
    draft.run("XB1.tie", "XB2.tie", "W40", size="6 AWG", length="2 ft", installation="jumper")
    assert found(draft, RULE) == []


def test_in_a_land_vehicle_the_chassis_may() -> None:
    assert found(lamp("XB1.tie", "vehicle"), RULE) == []


def test_loads_on_one_wire_to_the_hull_are_one_finding() -> None:
    draft = lamp("XB1.tie")
    draft.part("lamp", "EL3", circuit="dc", voltage="12 V", power="12 W")
    draft.run("F3.load", "EL3.in", "W32", poles="+", **WIRE)
    draft.run("EL2.in", "EL3.in", "W33", poles="-", **WIRE)
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("W31",)
    assert number(hit, "current in the hull") == pytest.approx(3.0)
