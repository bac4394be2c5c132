"""battery-turned: in a string, beside another, before its loads."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.banks import THICK, van
from tests.findings.told import found
from tests.trial.rigs import RIGS

RULE = "battery-turned"


def string(number: int, turned: int = 0, load: bool = True) -> Draft:
    """Batteries of 12 V in series behind a fuse and a switch, two loads across all; the one with
    this number turned round."""
    d = Draft(place="building")
    posts = {n: ("-", "+") if n == turned else ("+", "-") for n in range(1, number + 1)}
    for n in posts:
        d.part("battery", f"GB{n}", fault_current="3 kA")
    for n in range(1, number):
        poles = f"{posts[n][1]}>{posts[n + 1][0]}"
        d.run(f"GB{n}.dc", f"GB{n + 1}.dc", f"link{n}", poles=poles, length="1 ft", **THICK)
    d.part("fuse", "F1", rating="60 A", type="class_t")
    d.run("GB1.dc", "F1.line", "top", poles=f"{posts[1][0]}>+", length="1 ft", **THICK)
    for n in (1, 2) if load else ():
        volts = f"{12 * number} V"
        d.part("load", f"EA{n}", circuit="dc", voltage=volts, power="100 W")
        size = {"size": "6 AWG", "length": "3 ft"}
        d.run("F1.load", f"EA{n}.in", f"p{n}", poles="+", **size)
        d.run(f"GB{number}.dc", f"EA{n}.in", f"m{n}", poles=f"{posts[number][1]}>-", **size)
    return d


def at(draft: Draft) -> set[tuple[str, ...]]:
    return {f.subjects for f in found(draft, RULE)}


@pytest.mark.parametrize("number", [2, 3, 4])
def test_each_of_a_string(number: int) -> None:
    assert at(string(number)) == set()
    for turned in range(1, number + 1):
        assert at(string(number, turned)) == {(f"GB{turned}",)}


def test_the_rest_stands_under_it() -> None:
    (first, *others) = analyse(string(4, 2).design).findings
    assert (first.rule, first.level) == (RULE, Level.DANGER)
    assert "voltage-wrong" not in {f.rule for f in others}


def test_where_nothing_tells_which_of_two_both_are_named() -> None:
    d = string(2, 2, load=False)
    for name, end in (("GB3", "GB1"), ("GB4", "GB2")):
        d.part("battery", name, fault_current="3 kA")
        d.run(f"{name}.dc", f"{end}.dc", f"to {name}", poles="->+", length="1 ft", **THICK)
    d.part("load", "EA1", circuit="dc", voltage="24 V", power="100 W")
    d.run("GB3.dc", "EA1.in", "p1", poles="+", size="6 AWG", length="3 ft")
    d.run("GB4.dc", "EA1.in", "m1", poles="+>-", size="6 AWG", length="3 ft")
    assert ("GB1", "GB2") in at(d)


def beside(turned: bool) -> Draft:
    """The van with a second battery beside the first, on its posts."""
    d = van()
    d.part("battery", "GB2", capacity="100 Ah", chemistry="agm", fault_current="3 kA")
    poles = ("->+", "+>-") if turned else ("+>+", "->-")
    for n, pair in enumerate(poles):
        d.run("GB2.dc", "GB1.dc", f"W3{n}", poles=pair, length="0.5 ft", **THICK)
    return d


def test_beside_another_it_shorts_it() -> None:
    assert at(beside(turned=False)) == set()
    (finding,) = found(beside(turned=True), RULE)
    assert finding.subjects == ("GB2",)
    assert "drives all it has" in finding.message


def test_a_battery_before_several_loads() -> None:
    d = string(1)
    assert at(d) == set()
    d = string(1, 1)
    assert at(d) == {("GB1",)}


def test_one_load_that_is_wired_wrongly_is_not_the_battery() -> None:
    d = string(1)
    d.cut("p2", "m2")
    size = {"size": "6 AWG", "length": "3 ft"}
    d.run("F1.load", "EA2.in", "p2", poles="+>-", **size)
    d.run("GB1.dc", "EA2.in", "m2", poles="->+", **size)
    assert at(d) == set()
    assert found(d, "polarity-reversed")


def test_two_banks_with_one_chassis_as_minus_are_sound() -> None:
    d = van()
    d.part("battery", "GB2", capacity="100 Ah", chemistry="agm", fault_current="3 kA")
    tie = {"size": "4/0 AWG", "length": "1 ft", "installation": "jumper"}
    d.run("GB2.dc", "XB1.tie", "W31", poles="->body", **tie)
    d.part("lamp", "EL2", circuit="dc", voltage="12 V", power="40 W")
    d.run("GB2.dc", "EL2.in", "W32", poles="+", size="12 AWG", length="3 ft")
    d.run("EL2.in", "XB1.tie", "W33", poles="->body", size="12 AWG", length="3 ft")
    assert at(d) == set()


def two_strings(turned: int = 0) -> Draft:
    """Two strings of four behind a fuse each on two bars, a switch, an inverter; of the second
    string one battery may be turned round."""
    d = Draft(place="building")
    wire = {"size": "2/0 AWG", "length": "1 ft"}
    for bar in ("plus", "minus"):
        d.part("busbar", bar, bar=bar, rating="300 A", taps="4")
    for row in (1, 2):
        posts = {n: ("-", "+") if (row, n) == (2, turned) else ("+", "-") for n in range(1, 5)}
        for n in posts:
            d.part("battery", f"GB{row}{n}", fault_current="2 kA")
        for n in range(1, 4):
            poles = f"{posts[n][1]}>{posts[n + 1][0]}"
            d.run(f"GB{row}{n}.dc", f"GB{row}{n + 1}.dc", f"k{row}{n}", poles=poles, **wire)
        d.part("fuse", f"F{row}", rating="125 A", type="class_t", voltage="125 V")
        d.run(f"GB{row}1.dc", f"F{row}.line", f"a{row}", poles=f"{posts[1][0]}>+", **wire)
        d.run(f"F{row}.load", f"plus.{row}", f"b{row}", poles="+", **wire)
        d.run(f"GB{row}4.dc", f"minus.{row}", f"c{row}", poles=f"{posts[4][1]}>-", **wire)
    d.part("battery_disconnect", "QB1", rating="250 A", voltage="60 V")
    d.run("plus.feed", "QB1.line", "d", poles="+", **wire)
    d.part("inverter", "TB1", power="3 kVA", dc_voltage="48 V", neutral="bonded")
    d.run("QB1.load", "TB1.dc", "e", poles="+", **wire)
    d.run("minus.feed", "TB1.dc", "f", poles="-", **wire)
    return d


def test_strings_beside_each_other_are_right_also_while_nothing_hangs_on_them() -> None:
    """With the switch open only like posts meet on the bars."""
    assert at(two_strings()) == set()


@pytest.mark.parametrize("number", [2, 3])
def test_what_a_loaded_state_tells_counts_in_all(number: int) -> None:
    """Without a load nothing tells which of the ring of batteries it is."""
    assert at(two_strings(number)) == {(f"GB2{number}",)}


def test_what_a_turned_battery_drives_is_not_told_besides() -> None:
    """Its short comes back through the fuse at its other post, and it is in series with nothing
    once it is right."""
    draft = RIGS["ketch"]()
    draft.run_poles("W20", "->+")
    draft.run_poles("W22", "+>-")
    told = {f.rule for f in analyse(draft.design).findings if f.level > Level.NOTE}
    assert found(draft, RULE)
    assert not told & {"run-unprotected", "bank-tapped"}
    # without that fuse nothing ends it
    draft.remove("F2")
    draft.run("GB2.dc", "QB1.battery2", "W21", poles="->+", size="2/0 AWG", length="3 ft")
    assert "W34" in {s for hit in found(draft, "run-unprotected") for s in hit.subjects}
