"""A solar array straight on a battery (NFPA 70 690.72: 3 % of the capacity in an hour)."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import Answer
from tests.findings.banks import PLATE, one_by_one, van
from tests.findings.told import found, gaps, number

RULE = "array-uncontrolled"
WIRE = {"size": "10 AWG", "length": "4 ft"}


def bare(capacity: str | None = "40 Ah", **array: Answer) -> Draft:
    """A module of 6 A behind a fuse on a battery of 12 V that feeds a lamp."""
    d = Draft(place="vehicle")
    d.part("solar_array", "GP1", **(PLATE | array))
    d.part("battery", "GB1", voltage="12 V", chemistry="agm", fault_current="1 kA")
    d.rate("GB1", capacity=capacity)
    d.part("fuse", "F1", rating="15 A", type="class_t", interrupting="20 kA")
    d.run("GB1.dc", "F1.line", "W1", poles="+", **WIRE)
    d.run("F1.load", "GP1.dc", "W2", poles="+", **WIRE)
    d.run("GB1.dc", "GP1.dc", "W3", poles="-", **WIRE)
    d.part("lamp", "EL1", circuit="dc", voltage="12 V", power="20 W")
    d.run("F1.load", "EL1.in", "W4", poles="+", **WIRE)
    d.run("GB1.dc", "EL1.in", "W5", poles="-", **WIRE)
    return d


def test_a_strong_module_on_a_small_battery_is_a_danger() -> None:
    (hit,) = found(bare(), RULE)
    assert hit.subjects == ("GP1",)
    assert hit.level is Level.DANGER
    assert number(hit, "current of the array") == pytest.approx(6.0)
    assert number(hit, "borne by a full battery") == pytest.approx(1.2)  # 3 % of 40 Ah
    # that its open voltage lies on the lamp is said under it
    assert {c.rule for c in hit.consequences} == {"string-voltage-high"}


@pytest.mark.parametrize(("isc", "level"), [("1.2 A", Level.NOTE), ("1.21 A", Level.DANGER)])
def test_what_a_full_battery_bears(isc: str, level: Level) -> None:
    (hit,) = found(bare(isc=isc, imp="1 A"), RULE)
    assert hit.level is level


def test_a_module_that_stops_by_itself() -> None:
    """Open at 25 degC no higher than lead takes at the end of charging, 14.4 V."""
    assert found(bare(voc="14.4 V", vmp="12 V"), RULE) == []


def test_without_the_capacity_it_is_asked_for() -> None:
    draft = bare(None)
    assert found(draft, RULE) == []
    (gap,) = gaps(draft, RULE)
    assert "without a charge controller" in gap.reason


def test_behind_a_controller_it_is_sound() -> None:
    assert found(van(), RULE) == []


def test_a_wire_past_a_controller_that_joins_plus_through() -> None:
    draft = van()
    draft.rate("TC1", common="plus", type="pwm")
    assert found(draft, RULE) == []
    draft.run("QB2.load", "GB1.dc", "W30", poles="-", size="10 AWG", length="6 ft")
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("GP1",)


def test_modules_in_series_on_a_string_of_batteries() -> None:
    draft = one_by_one()
    draft.run("QB2.load", "QB1.load", "W30", size="10 AWG", length="6 ft")
    (hit,) = found(draft, RULE)
    assert hit.subjects == ("GP1", "GP2")
    assert number(hit, "current of the array") == pytest.approx(6.0)


def test_it_gives_its_current_and_no_more() -> None:
    """5.5 A at its greatest power, 6 A shorted: the battery holds it far below its open voltage,
    and what the straight line between both would give there, 10 A, no module can."""
    (report,) = (r for r in analyse(bare().design).reports if "day" in r.key)
    assert report.run_a["W2", "+"] == pytest.approx(5.5)


@pytest.mark.parametrize(
    ("onto", "chemistry", "told"),
    [
        ("GB1.dc", "agm", False),
        ("F1.load", "agm", True),  # the battery's fuse leaves lamp and array together
        ("GB1.dc", "lithium", True),  # and so does a battery that cuts itself out
    ],
)
def test_a_small_module_whose_voltage_the_battery_holds_down(
    onto: str, chemistry: str, told: bool
) -> None:
    """0.3 A behind a fuse of its own: the lamp gets the open 22 V where one thing that opens leaves
    it on the module alone."""
    draft = bare(isc="0.3 A", imp="0.28 A")
    draft.rate("GB1", chemistry=chemistry)
    draft.cut("W2")
    draft.part("fuse", "F2", rating="3 A", type="class_t", interrupting="20 kA")
    draft.run(onto, "F2.line", "W20", poles="+", **WIRE)
    draft.run("F2.load", "GP1.dc", "W2", poles="+", **WIRE)
    assert bool(found(draft, "string-voltage-high")) is told
    assert number(found(draft, RULE)[0], "current of the array") == pytest.approx(0.3)
