"""array-turned: a module the wrong way round takes its voltage off that of its string.

Sums by hand: of n modules of 22 V with one turned round (n - 2) x 22 V are left. That its bypass
diodes do not help: its cells conduct forward, as a diode under its photocurrent does, and its
terminals keep their sign (the model of a cell in textbooks of semiconductors).
"""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import PLATE, van
from tests.findings.told import cured, flat, found, number

RULE = "array-turned"
WIRE = {"size": "10 AWG", "length": "10 ft"}


def row(*turned: int, count: int = 3) -> Draft:
    """The van with modules drawn one by one in series, some of them turned round."""
    d = van(series="1")
    d.rate("TC1", pv_voltage="150 V")
    d.cut("W1")
    d.run("GP1.dc", "QB2.line", "W60", poles="->+" if 1 in turned else "+", **WIRE)
    for n in range(2, count + 1):
        d.part("solar_array", f"GP{n}", **PLATE)
        poles = ("+" if n - 1 in turned else "-") + ">" + ("-" if n in turned else "+")
        d.run(f"GP{n - 1}.dc", f"GP{n}.dc", f"W6{n}", poles=poles, **WIRE)
        frame = {"size": "8 AWG", "length": "3 ft", "installation": "jumper"}
        d.run(f"GP{n - 1}.frame", f"GP{n}.frame", f"W7{n}", **frame)
    last = "+>-" if count in turned else "-"
    d.run(f"GP{count}.dc", "QB2.line", "W69", poles=last, **WIRE)
    return d


@pytest.mark.parametrize("count", [1, 2, 3])
def test_a_string_that_is_right_is_silent(count: int) -> None:
    assert analyse(row(count=count).design).silent


@pytest.mark.parametrize(
    ("count", "turned", "volts"),
    [(2, 1, 0.0), (2, 2, 0.0), (3, 1, 22.0), (3, 2, 22.0), (3, 3, 22.0), (4, 3, 44.0)],
)
def test_one_that_is_turned_round_is_named(count: int, turned: int, volts: float) -> None:
    (hit,) = found(row(turned, count=count), RULE)
    assert hit.subjects == (f"GP{turned}",)
    assert hit.level is Level.WARNING
    assert number(hit, "open voltage of the string") == pytest.approx(volts)
    assert number(hit, "with all the right way round") == pytest.approx(22.0 * count)
    assert "bypass diodes" in hit.message


def test_it_is_the_only_finding_and_its_mend_cures_all() -> None:
    draft = row(2)
    (finding,) = analyse(draft.design).open_findings
    assert finding.rule == RULE
    assert {c.rule for c in flat(finding.consequences)} <= {"load-never-fed"}
    assert cured(draft, finding).silent


def test_several_of_one_string_are_one_finding() -> None:
    (hit,) = found(row(2, 3, count=4), RULE)
    assert hit.subjects == ("GP2", "GP3")
    assert number(hit, "open voltage of the string") == pytest.approx(0.0)


def test_a_whole_string_that_is_turned_is_the_other_rule_s() -> None:
    draft = row(1, 2, count=2)
    assert found(draft, RULE) == []
    (hit,) = found(draft, "polarity-reversed")
    assert hit.level is Level.DANGER


def test_a_pair_exchanged_before_the_controller_is_told() -> None:
    """Of modules drawn one by one as of one symbol."""
    draft = row(count=2)
    draft.cut("W2")
    draft.run("QB2.load", "TC1.pv", "W2", poles="+>- ->+", size="10 AWG", length="2 ft")
    (hit,) = found(draft, "polarity-reversed")
    assert hit.subjects == ("W2",)
    assert hit.level is Level.DANGER


@pytest.mark.parametrize("poles", ["all", "lines"])
def test_like_posts_of_modules_side_by_side_may_meet(poles: str) -> None:
    """Their switch open, nothing else lies where plus meets plus."""
    draft = van()
    draft.rate("QB2", poles=poles)
    draft.part("solar_array", "GP2", **(PLATE | {"series": "2", "strings": "1"}))
    draft.run("GP2.dc", "QB2.line", "W60", **WIRE)
    assert found(draft, RULE) == []


def test_two_controllers_with_a_common_minus_are_no_string() -> None:
    draft = van()
    draft.part("solar_array", "GP2", **(PLATE | {"series": "2", "strings": "1"}))
    draft.part("solar_controller", "TC2", current="20 A", pv_voltage="100 V", pv_current="30 A")
    draft.run("GP2.dc", "TC2.pv", "W60", poles="+", **WIRE)
    draft.run("GP2.dc", "GP1.dc", "W61", poles="-", **WIRE)
    draft.run("GP1.dc", "TC2.pv", "W62", poles="-", **WIRE)
    draft.run("TC2.dc", "F2.load", "W63", **WIRE)
    assert found(draft, RULE) == []
