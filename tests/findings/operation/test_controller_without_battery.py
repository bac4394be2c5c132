"""controller-without-battery: makers' manuals want the array opened before the battery (from
memory)."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import PLATE
from tests.findings.camps import interlock
from tests.findings.told import found

RULE = "controller-without-battery"
WIRE = {"size": "10 AWG", "length": "3 ft"}
LEAD = {"size": "2 AWG", "length": "3 ft"}


def boat(onto: str = "QB1.load") -> Draft:
    """A module, its switch and controller, a battery behind a selector with a position off, a lamp
    on the selector's load side; ``onto``: where the controller's plus goes."""
    d = Draft(place="boat")
    d.part("battery", "GB1", voltage="12 V", chemistry="agm", capacity="90 Ah")
    d.part("fuse", "F1", rating="100 A", type="class_t", interrupting="20 kA")
    d.part("battery_selector", "QB1", rating="200 A")
    d.run("GB1.dc", "F1.line", "W1", poles="+", **LEAD)
    d.run("F1.load", "QB1.battery1", "W2", **LEAD)
    d.part("solar_array", "GP1", **PLATE)
    d.part("isolator", "QB2", circuit="dc", rating="16 A", voltage="150 V", direct="yes")
    d.part("solar_controller", "TC1", current="10 A", pv_voltage="50 V", pv_current="10 A")
    d.run("GP1.dc", "QB2.line", "W3", **WIRE)
    d.run("QB2.load", "TC1.pv", "W4", **WIRE)
    d.part("fuse", "F2", rating="15 A", type="class_t", interrupting="20 kA")
    d.run("TC1.dc", "F2.load", "W5", poles="+", **WIRE)
    d.run("F2.line", onto, "W6", poles="+", **WIRE)
    d.run("TC1.dc", "GB1.dc", "W7", poles="-", **WIRE)
    d.part("fuse", "F3", rating="5 A", type="class_t", interrupting="20 kA")
    d.part("lamp", "EL1", circuit="dc", voltage="12 V", power="20 W")
    d.run("QB1.load", "F3.line", "W8", poles="+", **WIRE)
    d.run("F3.load", "EL1.in", "W9", poles="+", **WIRE)
    d.run("GB1.dc", "EL1.in", "W10", poles="-", **WIRE)
    return d


def test_a_selector_with_off_between_them_is_told() -> None:
    (hit,) = found(boat(), RULE)
    assert hit.subjects == ("TC1",)
    assert hit.level is Level.WARNING
    assert hit.standing is not None
    assert "off" in " ".join(hit.states)


def test_on_the_battery_s_side_of_the_switch_it_is_silent() -> None:
    assert found(boat("F1.load"), RULE) == []


@pytest.mark.parametrize(("word", "told"), [("bears", False), ("harmed", True), ("unknown", True)])
def test_the_manual_decides(word: str, told: bool) -> None:
    d = boat()
    d.rate("TC1", without_battery=word)
    assert bool(found(d, RULE)) is told


def test_a_switch_of_the_array_that_opens_with_it_is_enough() -> None:
    d = boat()
    interlock(d, ("QB2", "switch", "closed"), ("QB1", "lever", "off"))
    interlock(d, ("QB2", "switch", "closed"), ("QB1", "lever", "2"))
    assert found(d, RULE) == []


def test_a_controller_that_reaches_no_battery_at_all_is_another_finding() -> None:
    d = boat()
    d.cut("W2")
    assert found(d, RULE) == []
    assert found(d, "load-never-fed")
