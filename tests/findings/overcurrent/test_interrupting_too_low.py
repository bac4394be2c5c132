"""interrupting-too-low: the largest fault through a device against what it can break."""

from __future__ import annotations

import math

import pytest

from linework.codes import resistance
from linework.design import Draft
from linework.kinds import Band
from tests.findings.told import cured, found, gaps, number, places

RULE = "interrupting-too-low"


def bank(fuse: str, amps: Band | str = "7 kA", **ratings: str) -> Draft:
    """A fuse on the post, a cable to a board."""
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", voltage="12.8 V", fault_current=amps)
    draft.part("fuse", "F1", rating="150 A", type=fuse, **ratings)
    draft.part("panel", "QP1", circuit="dc", voltage="12 V", bus="200 A", bond="absent")
    draft.seat("F1", "GB1", "post")
    draft.run("F1.load", "QP1.feed", "W1", size="2/0 AWG", length="3 ft")
    return draft


def test_a_fuse_that_cannot_break_the_fault_of_the_cells_is_dangerous() -> None:
    draft = bank("mega")  # ISO 8820: 2 kA at 32 V
    (finding,) = found(draft, RULE)
    assert finding.level.word == "danger"
    assert finding.subjects == ("F1",)
    assert number(finding, "interrupting rating") == 2000.0
    # only the fuse itself (10 microohm) lies between the cells and its load terminal
    assert number(finding, "largest fault current") == pytest.approx(
        12.8 / (12.8 / 7000 + 10e-6), rel=1e-6
    )
    assert not [f for f in cured(draft, finding).findings if f.rule == RULE]
    assert draft.design.part("F1").ratings["type"] == "class_t"


def test_the_same_bank_behind_a_class_t_fuse_is_silent() -> None:
    assert not found(bank("class_t"), RULE)


def test_a_small_lithium_bank_needs_no_20_ka_fuse() -> None:
    # A reasoned reply in a forum: four cells of 0.75 mohm and three jumpers of 0.25 mohm are
    # 3.75 mohm: 3.7 kA from 14 V, 3.0 to 4.7 kA; a terminal fuse of 10 kA is enough.
    assert not found(bank("mrbf", Band("3 kA", "3.7 kA", "4.7 kA")), RULE)


@pytest.mark.parametrize(("marked", "hit"), [("4.8 kA", False), ("4.6 kA", True)])
def test_withstand_is_judged_with_the_high_figure(marked: str, hit: bool) -> None:
    draft = bank("mrbf", Band("3 kA", "3.7 kA", "4.7 kA"), interrupting=marked)
    assert bool(found(draft, RULE)) is hit


def test_parallel_batteries_add_up() -> None:
    draft = bank("mega", "1.5 kA")
    assert not found(draft, RULE)
    draft.part("battery", "GB2", voltage="12.8 V", fault_current="1.5 kA")
    draft.run("GB2.dc", "GB1.dc", "W2", size="4/0 AWG", length="1 ft")
    (finding,) = found(draft, RULE)
    assert number(finding, "largest fault current") > 2000.0


def mains(length: str, prospective: Band | str) -> Draft:
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="100 A", prospective=prospective, x_over_r="0")
    draft.part("panel", "QP1", main="100 A", bond="absent")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("load", "EA1", power="600 W")
    draft.seat("QF1", "QP1", "1")
    draft.run("GS1.out", "QP1.feed", "W1", size="6 AWG", length=length)
    draft.run("QF1.load", "EA1.in", "W2", size="12 AWG", length="10 ft")
    return draft


def test_an_unmarked_breaker_is_counted_on_for_5_ka() -> None:
    # NFPA 70 240.83(C)
    near = mains("3 ft", Band("500 A", "2 kA", "10 kA"))
    assert {("QF1", "QP1")} == places(near, RULE)  # of one make: one cause, one finding
    assert not found(mains("40 ft", Band("500 A", "2 kA", "10 kA")), RULE)
    near.rate("QF1", interrupting="10 kA")
    assert places(near, RULE) == {("QP1",)}


def test_a_main_is_taken_at_its_mark() -> None:
    near = mains("3 ft", Band("500 A", "2 kA", "10 kA"))
    near.rate("QF1", interrupting="10 kA")
    near.rate("QP1", main_interrupting="10 kA")
    assert not found(near, RULE)
    near.rate("QP1", main_interrupting="6 kA")
    assert places(near, RULE) == {("QP1",)}


def test_the_maximum_fault_takes_a_cold_cable() -> None:
    draft = mains("3 ft", "10 kA")
    draft.rate("QP1", main_interrupting="22 kA")
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("QF1",)
    wire = resistance("6 AWG", "copper", "stranded", 20.0).value * 3 * 0.3048
    # out and back, the contacts of GS1, QP1 and QF1; reactance of 6 AWG besides
    ohm = 120.0 / 10000.0 + 2 * wire
    assert number(finding, "largest fault current") == pytest.approx(120.0 / ohm, rel=0.02)
    assert number(finding, "largest fault current") < 120.0 / ohm


def test_the_sites_own_breaker_is_not_judged() -> None:
    draft = mains("3 ft", "22 kA")
    assert ("GS1",) not in places(draft, RULE)


def test_an_unmarked_breaker_on_direct_current_is_not_judged_and_says_so() -> None:
    draft = bank("class_t")
    draft.part("breaker", "QF1", rating="20 A", circuit="dc", voltage="12 V")
    draft.part("lamp", "EL1", power="20 W", circuit="dc", voltage="12 V")
    draft.seat("QF1", "QP1", "1")
    draft.run("QF1.load", "EL1.in", "W2", size="12 AWG", length="10 ft")
    assert ("QF1",) not in places(draft, RULE)
    assert {gap.where for gap in gaps(draft, RULE)} == {("QF1",)}
    draft.rate("QF1", interrupting="10 kA", direct="yes")
    assert not gaps(draft, RULE)


def test_a_fault_fed_through_a_run_of_unknown_length_is_not_judged() -> None:
    draft = mains("3 ft", Band("500 A", "2 kA", "10 kA"))
    draft.rate_run("W1", length=None)
    assert not found(draft, RULE)
    assert [g.where for g in gaps(draft, "value-missing")] == [("W1",)]


def test_a_portable_set_never_reaches_5_ka() -> None:
    draft = Draft(place="field")
    draft.part("generator", "G1", power="5 kVA", neutral="bonded")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("outlet", "X1", configuration="5-20")
    draft.seat("QF1", "G1", "1")
    draft.run("QF1.load", "X1.feed", "W1", size="12 AWG", length="50 ft")
    assert not found(draft, RULE)
    draft.rate("QF1", interrupting="500 A")
    (finding,) = found(draft, RULE)
    # X'' of 0.07 per unit with R = 0.15 X on 41.7 A: 589 A; loaded before, 4.2 % more
    assert number(finding, "largest fault current") == pytest.approx(
        1.042 * 5000 / 120 / 0.07 / math.hypot(1.0, 0.15), rel=0.01
    )


def test_a_breaker_need_not_break_what_it_carries() -> None:
    # A fault of the battery to the frame sends a little direct current round through the bonded
    # neutral and the windings of the supply: less than its rating, nothing to break.
    draft = bank("class_t")
    draft.part("supply", "GS1", breaker="30 A")
    draft.part("panel", "QP2", main="30 A", bond="absent")
    draft.part("inverter_charger", "TB1", power="1 kVA", neutral="relay", charge="30 A")
    draft.part("body", "XB1")
    draft.run("GS1.out", "QP2.feed", "W2", size="10 AWG", length="10 ft")
    draft.run("QP2.feed", "TB1.ac_in", "W3", size="10 AWG", length="3 ft")
    draft.run("QP1.feed", "TB1.dc", "W4", size="2/0 AWG", length="3 ft")
    jumper = {"size": "2/0 AWG", "length": "2 ft", "installation": "jumper"}
    draft.run("QP2.ground", "XB1.tie", "W5", **jumper)
    draft.run("GB1.dc", "XB1.tie", "W6", poles="->body", **jumper)
    assert not gaps(draft, RULE)


def apart(fuse: str, amps: str, lead: str = "6 in", **ratings: str) -> Draft:
    """A fuse in the plus, the minus a cable of its own: none of it lies at the fuse."""
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", voltage="12 V", fault_current=amps)
    draft.part("fuse", "F1", rating="100 A", type=fuse, **ratings)
    draft.part("load", "EA1", circuit="dc", power="120 W")
    draft.run("GB1.dc", "F1.line", "W1", poles="+", size="2 AWG", length=lead)
    draft.run("F1.load", "EA1.in", "W2", poles="+", size="2 AWG", length="12 ft")
    draft.run("GB1.dc", "EA1.in", "W3", poles="-", size="2 AWG", length="12 ft")
    return draft


@pytest.mark.parametrize(
    ("fuse", "amps", "hit"),
    [("anl", "12 kA", True), ("anl", "5 kA", False), ("mega", "5 kA", True)],
)
def test_a_short_at_a_fuse_apart_from_the_minus(fuse: str, amps: str, hit: bool) -> None:
    draft = apart(fuse, amps)
    assert places(draft, RULE) == ({("F1",)} if hit else set())
    if hit:
        (finding,) = found(draft, RULE)
        cable = 0.5 * 0.3048 * resistance("2 AWG", "copper", "stranded", 20.0).value
        ohm = 12.0 / (1000 * float(amps.split()[0])) + 2 * (cable + 10e-6)
        assert number(finding, "largest fault current") == pytest.approx(12.0 / ohm, rel=1e-3)


def test_a_long_lead_lowers_it() -> None:
    # 12 ft out and as far back: 3.8 mohm, 2.5 kA with the cells' 1 mohm
    assert not found(apart("anl", "12 kA", lead="12 ft"), RULE)


def test_it_is_not_judged_behind_a_lead_of_unknown_length() -> None:
    draft = apart("anl", "12 kA")
    draft.rate_run("W1", length=None)
    assert not found(draft, RULE)


def test_a_fuse_of_unknown_type_is_not_judged_and_says_so() -> None:
    draft = apart("anl", "5 kA")
    draft.rate("F1", type=None)
    assert not found(draft, RULE)
    assert any("type of F1 is not given" in gap.reason for gap in gaps(draft, RULE))
    draft.rate("F1", interrupting="2 kA")
    assert places(draft, RULE) == {("F1",)}


@pytest.mark.parametrize(("cells", "hit"), [(None, False), ("28 kA", True), ("20 kA", False)])
def test_a_fuse_of_20_ka_is_enough_unless_the_cells_are_known_to_give_more(
    cells: str | None, hit: bool
) -> None:
    # ABYC E-11: the maker's figure, or 20 kA at 125 V where that is above 10 kA
    draft = apart("class_t", "20 kA", lead="1 in")
    draft.rate("GB1", fault_current=cells, capacity="400 Ah", chemistry="lithium")
    assert places(draft, RULE) == ({("F1",)} if hit else set())
    told = any("short-circuit current of the cells" in gap.reason for gap in gaps(draft, RULE))
    assert told is (cells is None)


def test_a_fuse_of_less_is_judged_by_the_usual_cells() -> None:
    draft = apart("anl", "5 kA")
    draft.rate("GB1", fault_current=None, capacity="200 Ah", chemistry="lithium")
    assert places(draft, RULE) == {("F1",)}


def blades(number: int, rating: str = "10 A", place: str = "vehicle") -> Draft:
    """Blade fuses on short leads from the posts of a bank behind a main fuse of class T."""
    draft = Draft(place=place)
    draft.part("battery", "GB1", capacity="100 Ah", chemistry="agm", fault_current="3 kA")
    draft.part("fuse", "F9", rating="150 A", type="class_t", interrupting="20 kA")
    draft.seat("F9", "GB1", "post")
    wire = {"size": "4 AWG", "length": "0.5 ft"}
    for n in range(1, number + 1):
        draft.part("fuse", f"F{n}", rating=rating, type="maxi" if rating == "40 A" else "ato")
        draft.part("lamp", f"EL{n}", power="20 W", circuit="dc", voltage="12 V")
        draft.run("F9.load", f"F{n}.line", f"a{n}", **wire)
        draft.run(f"F{n}.load", f"EL{n}.in", f"b{n}", size="12 AWG", length="6 ft")
    return draft


def test_fuses_of_one_make_are_one_finding() -> None:
    (finding,) = found(blades(3), RULE)
    assert finding.subjects == ("F1", "F2", "F3")
    assert number(finding, "interrupting rating") == 1000.0
    (alone,) = found(blades(1), RULE)
    assert alone.subjects == ("F1",)


def test_all_of_them_are_mended_at_once_where_such_a_fuse_is_made() -> None:
    draft = blades(2, "40 A")
    (finding,) = found(draft, RULE)
    cured(draft, finding)
    assert {draft.design.part(f"F{n}").ratings["type"] for n in (1, 2)} == {"class_t"}


@pytest.mark.parametrize(
    ("cranking", "main", "branch"),
    # ABYC E-11 table V-A: up to 650 A 1.5 kA for a first device and 750 A behind one; up to 1100 A
    # 3 kA and 1.5 kA; above 5 kA and 2.5 kA
    [("650 A", "1.5 kA", "750 A"), ("651 A", "3 kA", "1.5 kA"), ("1101 A", "5 kA", "2.5 kA")],
)
def test_lead_batteries_afloat_by_their_cranking_amperes(
    cranking: str, main: str, branch: str
) -> None:
    draft = blades(1, place="boat")
    draft.rate("GB1", fault_current=None, cranking_amperes=cranking)
    draft.rate("F9", interrupting=main)
    draft.rate("F1", interrupting=branch)
    assert not found(draft, RULE)
    draft.rate("F9", interrupting=f"{float(main.split()[0]) - 0.01} kA")
    draft.rate("F1", interrupting="749 A")
    assert places(draft, RULE) == {("F9",), ("F1",)}


def test_the_table_of_cranking_amperes_holds_afloat_alone_and_not_beside_a_given_current() -> None:
    draft = blades(1)
    draft.rate("GB1", fault_current=None, cranking_amperes="600 A")
    assert places(draft, RULE) == {("F1",)}
    afloat = blades(1, place="boat")
    afloat.rate("GB1", cranking_amperes="600 A")
    assert places(afloat, RULE) == {("F1",)}
    afloat.rate("GB1", fault_current=None)
    assert not found(afloat, RULE)


def test_cranking_amperes_of_batteries_beside_each_other_add_up() -> None:
    draft = blades(1, place="boat")
    draft.rate("GB1", fault_current=None, cranking_amperes="600 A")
    draft.part("battery", "GB2", chemistry="agm", cranking_amperes="600 A")
    draft.run("GB2.dc", "GB1.dc", "beside", size="4/0 AWG", length="0.5 ft")
    assert places(draft, RULE) == {("F1",)}  # 1 kA, and 2.5 kA are asked for above 1100 A


def behind(main: str, *small: tuple[str, str]) -> Draft:
    """A bank of 15 kA behind a fuse of a type on its post, two bars, lamps behind small fuses."""
    d = Draft(place="field", voltage="12 V")
    d.part("battery", "GB1", fault_current="15 kA", capacity="400 Ah")
    d.part("fuse", "F1", rating="200 A", type=main, voltage="125 V")
    d.seat("F1", "GB1", "post")
    for bar, run, start in (("WC1", "+", "F1.load"), ("WC2", "-", "GB1.dc")):
        d.part("busbar", bar, bar="plus" if run == "+" else "minus", rating="300 A", taps="6")
        d.run(start, f"{bar}.feed", f"to {bar}", poles=run, size="2/0 AWG", length="1 ft")
    wire = {"size": "8 AWG", "length": "6 in"}
    for n, (sort, amps) in enumerate(small, 1):
        d.part("fuse", f"F1{n}", rating=amps, type=sort)
        d.run(f"WC1.{n}", f"F1{n}.line", f"a{n}", poles="+", **wire)
        d.part("lamp", f"EL{n}", circuit="dc", voltage="12 V", power="12 W")
        d.run(f"F1{n}.load", f"EL{n}.in", f"b{n}", poles="+", **wire)
        d.run(f"WC2.{n}", f"EL{n}.in", f"c{n}", poles="-", **wire)
    return d


def test_small_fuses_of_one_figure_behind_one_fuse_are_one_finding() -> None:
    """ATO and MIDI may be counted on for 1 kA each; what class T lets through is not known."""
    draft = behind("class_t", ("ato", "10 A"), ("midi", "40 A"))
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("F11", "F12")
    assert "F1 before it may cut off sooner is not counted on" in finding.message
    cured(draft, finding)
    assert found(draft, RULE) == []


def test_a_fuse_that_does_not_limit_current_is_not_spoken_of() -> None:
    draft = behind("class_t", ("ato", "10 A"))
    draft.rate("F1", type="anl", voltage=None)
    texts = {f.subjects: f.message for f in found(draft, RULE)}
    assert "cut off" not in texts["F11",]


def test_no_fuse_is_offered_that_is_not_made() -> None:
    """Class T begins at 1 A and leaves out 2 A and 7.5 A (the ratings of 240.6(A))."""
    draft = behind("class_t", ("mini", "2 A"), ("ato", "10 A"))
    by_subject = {f.subjects: f.mend for f in found(draft, RULE)}
    assert by_subject["F11",] is None
    assert by_subject["F12",] is not None
