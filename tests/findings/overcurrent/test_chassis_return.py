"""Current that comes back through a chassis: what leads it there and back is a conductor."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import levels
from tests.findings.told import cured, found, number

OVER, ABOVE = "run-overloaded", "device-above-ampacity"
LEAD = {"insulation": "105", "terminals": "75"}


def van(back: str, bond: str = "4 AWG", *, from_body: bool = False) -> Draft:
    """480 W on 12 V behind 50 A, back through the chassis to the battery's jumper."""
    d = Draft(place="vehicle")
    d.part("battery", "GB1", voltage="12 V", capacity="100 Ah", fault_current="2 kA")
    d.part("fuse", "F1", rating="50 A", type="class_t", interrupting="20 kA")
    d.run("GB1.dc", "F1.line", "w1", poles="+", size="6 AWG", length="0.5 ft", **LEAD)
    d.part("load", "EA1", circuit="dc", voltage="12 V", power="480 W")
    d.run("F1.load", "EA1.in", "w2", poles="+", size="6 AWG", length="6 ft", **LEAD)
    d.part("body", "XB1", name="chassis")
    ends, poles = ("EA1.in", "XB1.tie"), "->body"
    if from_body:
        ends, poles = ends[::-1], "body>-"
    d.run(*ends, "w3", poles=poles, size=back, length="3 ft", **LEAD)
    jumper = {"size": bond, "length": "2 ft", "installation": "jumper"}
    d.run("GB1.dc", "XB1.tie", "w4", poles="->body", **jumper)
    return d


@pytest.mark.parametrize("from_body", [False, True])
def test_a_thin_wire_to_the_chassis_is_too_thin(from_body: bool) -> None:
    draft = van("16 AWG", from_body=from_body)
    (over,) = found(draft, OVER)
    assert (over.subjects, over.level) == (("w3",), Level.WARNING)
    # by hand: 480 W take 40 A at 12 V
    assert number(over, "current") == pytest.approx(40.0, rel=0.01)
    (above,) = found(draft, ABOVE)
    assert (above.subjects, above.level) == (("w3", "F1"), Level.DANGER)
    assert number(above, "device") == 50.0


@pytest.mark.parametrize("from_body", [False, True])
def test_one_as_thick_as_the_plus_is_silent(from_body: bool) -> None:
    draft = van("6 AWG", from_body=from_body)
    assert found(draft, OVER) == found(draft, ABOVE) == []


def test_the_jumper_of_the_battery_carries_it_too() -> None:
    draft = van("6 AWG", bond="14 AWG")
    assert levels(draft, ABOVE) == {("w4", "F1"): Level.DANGER}
    assert ("w4",) in levels(draft, OVER)


def test_a_minus_beside_the_chassis_leaves_the_jumper_without_a_bound() -> None:
    draft = van("16 AWG", bond="14 AWG")
    draft.run("EA1.in", "GB1.dc", "w5", poles="-", size="6 AWG", length="6 ft", **LEAD)
    assert {hit.subjects for hit in found(draft, ABOVE)} == set()


def test_the_mend_makes_it_as_thick_as_the_fuse_asks() -> None:
    draft = van("16 AWG")
    cured(draft, found(draft, ABOVE)[0])
    assert found(draft, OVER) == []


def test_what_is_lost_there_is_in_the_report() -> None:
    """By hand: 3 ft of 16 AWG have 12 milliohm at 20 C; 15 at 75 C, by 38 A half a volt."""
    report = analyse(van("16 AWG").design).reports[0]
    amps = report.run_a["w3", "-"]
    assert amps == pytest.approx(38.0, abs=3.0)
    assert report.run_drop_v["w3"] == pytest.approx(amps * 0.0146, rel=0.05)


# An inverter, whose whole current the metal of a chassis is not made for (makers' manuals, from
# memory; NFPA 70 (2023) 552.10(B) lets a chassis be the return of low voltage)


@pytest.mark.parametrize("minus", [False, True])
def test_an_inverter_that_returns_by_the_chassis_alone(minus: bool) -> None:
    draft = van("6 AWG")
    draft.remove("EA1")
    draft.part("inverter", "TB1", power="400 VA", neutral="floating", outlets="1")
    draft.run("F1.load", "TB1.dc", "w2", poles="+", size="6 AWG", length="6 ft", **LEAD)
    draft.run("TB1.dc", "XB1.tie", "w3", poles="->body", size="6 AWG", length="1 ft", **LEAD)
    if minus:
        draft.run("TB1.dc", "GB1.dc", "w5", poles="-", size="6 AWG", length="6 ft", **LEAD)
    told = levels(draft, "chassis-as-return")
    assert told == ({} if minus else {("TB1", "w3"): Level.WARNING})


def test_a_lamp_may_return_by_the_chassis() -> None:
    assert found(van("6 AWG"), "chassis-as-return") == []
