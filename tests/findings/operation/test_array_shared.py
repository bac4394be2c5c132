"""array-shared: makers' manuals want an array for each controller (from memory)."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import PLATE, van
from tests.findings.told import found, gaps

RULE = "array-shared"


def two(kind: str = "mppt", onto: str = "QB2.load") -> Draft:
    """The van with a second controller on its battery; ``onto``: where its solar input hangs."""
    d = van()
    d.rate("TC1", type=kind)
    d.part("solar_controller", "TC2", type=kind, current="20 A", pv_voltage="100 V")
    d.rate("TC2", pv_current="30 A")
    if onto == "GP2.dc":
        d.part("solar_array", "GP2", **(PLATE | {"series": "2", "strings": "1"}))
        d.run("GP2.frame", "TC2.case", "W64", size="8 AWG", length="9 ft", installation="jumper")
    d.run(onto, "TC2.pv", "W60", size="10 AWG", length="3 ft")
    d.part("fuse", "F9", rating="30 A", type="class_t", interrupting="20 kA")
    d.run("TC2.dc", "F9.load", "W61", size="8 AWG", length="4 ft")
    d.run("F9.line", "QB1.load", "W62", size="8 AWG", length="1 ft")
    d.run("TC2.case", "XB1.tie", "W63", size="8 AWG", length="3 ft", installation="jumper")
    return d


@pytest.mark.parametrize("kind", ["mppt", "pwm"])
def test_an_array_on_two_controllers_is_told_once(kind: str) -> None:
    (hit,) = found(two(kind), RULE)
    assert hit.subjects == ("TC1", "TC2")
    assert hit.level is Level.WARNING
    assert "GP1" in hit.message


@pytest.mark.parametrize("kind", ["mppt", "pwm"])
def test_what_flows_is_worked_out_all_the_same(kind: str) -> None:
    """It was "not solved": both asked for all that the array gives. Together they take no more than
    its current at its greatest power, 5.5 A."""
    draft = two(kind)
    assert gaps(draft, "not-analysed") == []
    report = next(r for r in analyse(draft.design).reports if "day" in r.key)
    assert 0.5 * 5.5 <= report.run_a["W1", "+"] <= 5.5 * 1.01


def test_an_array_for_each_is_silent() -> None:
    draft = two(onto="GP2.dc")
    assert found(draft, RULE) == []
    assert gaps(draft, "not-analysed") == []
