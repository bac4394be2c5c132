"""voltage-drop-high: advice, working voltage, ten percent; behind the last device and in all."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.codes import resistance, size_of
from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.banks import PLATE, van, with_inverter
from tests.findings.camps import caravan
from tests.findings.told import cured, found, gaps, number, places
from tests.trial.rigs import RIGS

RULE = "voltage-drop-high"
FOOT = 0.3048


def branch(
    length: str,
    power: str = "2400 W",
    size: str = "12 AWG",
    place: str = "building",
    **load: str,
) -> Draft:
    """A stiff supply, a breaker, one run, one load."""
    draft = Draft(place=place)
    draft.part("supply", "GS1", breaker="100 A", prospective="10 kA")
    draft.part("breaker", "QF1", rating="20 A", interrupting="20 kA")
    draft.part("load", "EA1", power=power, **load)
    draft.seat("QF1", "GS1", "1")
    draft.run("QF1.load", "EA1.in", "W1", size=size, length=length)
    return draft


def test_twenty_amperes_over_a_hundred_feet_of_12_awg() -> None:
    # A published exercise: 2 x 12 ohm cmil/ft x 20 A x 100 ft / 6530 cmil = 7.35 V, 6.13 % of
    # 120 V. At 75 C the constant is 12.9 and the load, a resistance, takes a little less.
    draft = branch("100 ft")
    (finding,) = found(draft, RULE)
    assert finding.level is Level.NOTE
    assert finding.subjects == ("EA1", "W1")
    assert number(finding, "voltage drop") == pytest.approx(0.0613, abs=0.002)
    wire = 2 * resistance("12 AWG", "copper", "stranded", 75.0).value * 100 * FOOT
    # contacts of the two breakers are in it, too: at most two watts each at their rating
    assert number(finding, "voltage drop") == pytest.approx(wire / (wire + 6.0), rel=0.03)


def test_fifty_feet_are_silent_and_sixty_are_advice() -> None:
    # 20 A and 12.9 ohm cmil/ft: 3 % of 120 V are reached at 46 ft
    assert not found(branch("45 ft"), RULE)
    (finding,) = found(branch("50 ft"), RULE)
    assert finding.level is Level.NOTE
    assert "behind the last overcurrent device" in finding.message
    assert analyse(branch("50 ft").design).silent


def test_heaters_of_4800_watts_over_fifty_feet_are_under_two_percent() -> None:
    # A forum's case: 240 V, 20 A, 12 AWG
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="100 A", circuit="ac240", voltage="240 V")
    draft.part("breaker", "QF1", rating="20 A", circuit="ac240", voltage="240 V")
    draft.part("load", "EA1", power="4800 W", circuit="ac240", voltage="240 V")
    draft.seat("QF1", "GS1", "1")
    draft.run("QF1.load", "EA1.in", "W1", size="12 AWG", length="50 ft")
    assert not found(draft, RULE)


def feeder(feeder_ft: str, branch_ft: str) -> Draft:
    draft = branch(branch_ft, "1200 W")
    draft.remove("QF1")
    draft.part("panel", "QP1", main="60 A", bond="absent")
    draft.part("breaker", "QF2", rating="20 A", interrupting="20 kA")
    draft.part("load", "EA2", power="2400 W")
    draft.part("breaker", "QF3", rating="20 A", interrupting="20 kA")
    draft.seat("QF2", "QP1", "1")
    draft.seat("QF3", "QP1", "2")
    draft.run("GS1.out", "QP1.feed", "W2", size="8 AWG", length=feeder_ft)
    draft.run("QF2.load", "EA1.in", "W3", size="12 AWG", length=branch_ft)
    draft.run("QF3.load", "EA2.in", "W4", size="10 AWG", length="5 ft")
    return draft


def test_five_percent_in_all_though_each_part_is_within_three() -> None:
    assert not found(feeder("40 ft", "40 ft"), RULE)
    draft = feeder("80 ft", "75 ft")
    (finding,) = found(draft, RULE)
    # by hand: 30 A over 80 ft of 8 AWG, 0.79 ohm per 1000 ft hot, lose 3.8 V, 10 A over 75 ft of
    # 12 AWG 3.0 V: the feeder loses most
    assert finding.subjects == ("EA1", "W2")
    assert "in all" in finding.message
    assert number(finding, "behind the last device") < 0.03
    assert number(finding, "voltage drop") > 0.05
    after = cured(draft, finding)
    assert not [f for f in after.findings if f.rule == RULE]


def test_what_the_feeder_loses_alone_is_advice_too() -> None:
    """30 A over a feeder of 8 AWG: 3 % of 120 V at 75 ft by hand (3.6 V / (2 x 0.79 ohm / 1000 ft x
    30 A), the loads taking a little less); the branches are short."""
    assert not found(feeder("72 ft", "2 ft"), RULE)
    draft = feeder("90 ft", "2 ft")
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("EA2", "W2")
    assert finding.level is Level.NOTE
    assert "before the last overcurrent device" in finding.message
    assert finding.clause == "215.2 (informational)"
    (others,) = (e.note for e in finding.evidence if e.name == "so do")
    assert others == "EA1"
    after = cured(draft, finding)
    assert not [f for f in after.findings if f.rule == RULE]
    # IEC 60364-5-52 annex G has a figure for the whole way only
    other = feeder("90 ft", "2 ft")
    other.design.apply(change_settings(other.design, family="INT"))
    assert not found(other, RULE)


@pytest.mark.parametrize("feet", ["80 ft", "95 ft"])
def test_between_five_and_ten_percent_the_wire_that_loses_most_is_mended(feet: str) -> None:
    draft = branch(feet)
    (finding,) = found(draft, RULE)
    assert finding.level is Level.NOTE
    assert 0.05 < number(finding, "voltage drop") < 0.10
    assert not [f for f in cured(draft, finding).findings if f.rule == RULE]


def test_both_wires_are_thickened_where_both_lose_too_much() -> None:
    draft = feeder("100 ft", "110 ft")
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("EA1", "W2")
    assert finding.mend is not None
    assert "W2" in finding.mend.title
    assert "W3" in finding.mend.title
    assert not [f for f in cured(draft, finding).findings if f.rule == RULE]


def test_over_ten_percent_is_a_warning_and_the_mend_a_thicker_wire() -> None:
    draft = branch("200 ft")
    (finding,) = found(draft, RULE)
    assert finding.level is Level.WARNING
    after = cured(draft, finding)
    assert not [f for f in after.findings if f.rule == RULE]
    size = next(run for run in draft.design.runs).ratings["size"]
    # 13.9 V lost, 3.6 V allowed: a quarter of the resistance, from 12 AWG on six gauges thicker
    assert size == "4 AWG"


def pump(length: str, least: str | None = "10.9 V") -> Draft:
    """A compressor refrigerator of 4 A on 16 AWG, as in a teardrop trailer that a blog tells of."""
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", voltage="12.2 V", capacity="80 Ah", fault_current="3 kA")
    draft.part("fuse", "F1", rating="8 A", type="class_t")
    ratings = {} if least is None else {"least_voltage": least}
    draft.part("motor", "MA1", circuit="dc", power="48 W", voltage="12 V", **ratings)
    draft.seat("F1", "GB1", "post")
    draft.run("F1.load", "MA1.in", "W1", size="16 AWG", length=length)
    return draft


def test_below_the_voltage_at_which_it_works_is_a_warning() -> None:
    # 4 A x 2 x 18 ft x 5 ohm/kft (16 AWG, 75 C) = 0.7 V, and 0.04 V in the fuse (0.07 V at 8 A):
    # 11.46 V while it runs
    (running,) = found(pump("18 ft"), RULE)
    assert running.level is Level.NOTE
    assert number(running, "voltage at it") == pytest.approx(11.46, abs=0.03)
    (stalled,) = found(pump("36 ft"), RULE)
    assert stalled.level is Level.WARNING
    assert "works from 10.9 V on" in stalled.message
    assert found(pump("36 ft", "10 V"), RULE)[0].message != stalled.message


def test_a_load_made_for_another_voltage_is_not_a_question_of_drop() -> None:
    draft = pump("2 ft", None)
    draft.rate("MA1", voltage="24 V", power="20 W")
    assert not found(draft, RULE)


def test_an_outlet_with_nothing_plugged_in_is_judged_at_80_percent() -> None:
    def idle(length: str) -> Draft:
        draft = branch(length)
        draft.remove("EA1")
        draft.part("outlet", "X1", configuration="5-20")
        draft.run("QF1.load", "X1.feed", "W1", size="12 AWG", length=length)
        return draft

    # 16 A x 2 x 0.00198 ohm/ft: 3 % of 120 V at 57 ft
    assert not found(idle("55 ft"), RULE)
    (finding,) = found(idle("60 ft"), RULE)
    assert finding.level is Level.NOTE
    assert finding.subjects == ("X1", "W1")
    # with something plugged in only that counts
    draft = idle("60 ft")
    draft.part("plug_load", "EP1", power="100 W", configuration="5-15")
    draft.seat("EP1", "X1", "face")
    assert not found(draft, RULE)


def test_what_a_site_loses_inside_is_not_the_cables_drop() -> None:
    draft = branch("10 ft")
    draft.rate("GS1", prospective="300 A")  # 0.4 ohm: 8 V at 20 A
    assert not found(draft, RULE)


def test_a_run_of_unknown_length_is_not_judged() -> None:
    draft = branch("200 ft")
    draft.rate_run("W1", length=None)
    assert not found(draft, RULE)
    assert [g.where for g in gaps(draft, "value-missing")] == [("W1",)]


def test_the_return_through_a_chassis_counts() -> None:
    draft = pump("30 ft")
    (cable,) = found(draft, RULE)
    draft.part("body", "XB1", name="frame")
    draft.run_poles("W1", "+")
    draft.run("MA1.in", "XB1.tie", "W2", poles="->body", size="16 AWG", length="2 ft")
    draft.run("GB1.dc", "XB1.tie", "W3", poles="->body", size="4 AWG", length="2 ft")
    (chassis,) = found(draft, RULE)
    assert places(draft, RULE) == {("MA1", "W1")}
    thin, thick = (
        resistance(size, "copper", "stranded", 75.0).value * FOOT for size in ("16 AWG", "4 AWG")
    )
    rest = 3.0 + 12.2 / 3000 + 0.07 / 8  # load, cells, fuse of class T
    for finding, ohm in ((cable, 60 * thin), (chassis, 32 * thin + 2 * thick)):
        expected = 12.2 * 3.0 / (rest + ohm)
        assert number(finding, "voltage at it") == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize(
    ("length", "level"), [("8 ft", None), ("18 ft", "note"), ("40 ft", "warning")]
)
def test_the_cable_of_an_inverter_at_its_full_rating(length: str, level: str | None) -> None:
    """By hand: 600 VA over 88 %, and 12 W, at 12 V are 57.8 A; 4 AWG at 75 C, 0.321 ohm per
    1000 ft, loses 0.67 V over 18 ft out and back: 5.6 %."""
    draft = with_inverter(van())
    draft.cut("W20")
    draft.run("QB1.load", "TB1.dc", "W20", size="4 AWG", length=length, insulation="90")
    hits = [f for f in found(draft, RULE) if f.subjects == ("TB1", "W20")]
    assert [f.level.word for f in hits] == ([level] if level else [])
    if hits:
        feet = float(length.split()[0])
        lost = 2 * resistance("4 AWG", "copper", "stranded", 75.0).value * feet * FOOT * 57.8
        lost += 2 * 2 * resistance("4/0 AWG", "copper", "stranded", 75.0).value * FOOT * 57.8
        assert number(hits[0], "voltage drop") == pytest.approx(lost / 12.0, rel=0.02)


def boat(size: str, feet: float, amps: float, kind: str = "motor", **load: str) -> Draft:
    """A load on a boat's battery, fused at its post; ``feet`` out and back."""
    draft = Draft(place="boat")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("fuse", "F1", rating="300 A", type="class_t")
    draft.seat("F1", "GB1", "post")
    draft.part(kind, "EA1", circuit="dc", power=f"{12 * amps:g} W", **load)
    draft.run("F1.load", "EA1.in", "W1", size=size, length=f"{feet / 2:g} ft", insulation="105")
    return draft


@pytest.mark.parametrize(
    ("size", "feet", "amps", "critical", "hit"),
    [
        # Published: 10 A, 21 ft out and back, 3 % of 12 V: 12 AWG suffices, 12 SAE does not
        ("12 AWG", 21.0, 10.0, "yes", False),
        ("14 AWG", 21.0, 10.0, "yes", True),
        ("14 AWG", 21.0, 10.0, "no", False),
        # Published: 45 A, 40 ft out and back, 10 % of 12 V: 8 AWG
        ("8 AWG", 40.0, 45.0, "no", False),
        ("10 AWG", 40.0, 45.0, "no", True),
        # 10.75 x 167 A x 65 ft / 105600 cmil = 1.105 V, 9.2 %; with 80 ft 1.36 V, 11.3 %
        ("1/0 AWG", 65.0, 167.0, "no", False),
        ("1/0 AWG", 80.0, 167.0, "no", True),
    ],
)
def test_afloat_by_the_formula_of_abyc_e_11(
    size: str, feet: float, amps: float, critical: str, hit: bool
) -> None:
    hits = found(boat(size, feet, amps, critical=critical), RULE)
    assert [(f.level, f.subjects, f.clause) for f in hits] == (
        [(Level.WARNING, ("EA1", "W1"), "ABYC E-11")] if hit else []
    )
    if hit:
        share = 10.75 * amps * feet / float(size_of(size).cmil) / 12.0
        assert number(hits[0], "voltage drop") == pytest.approx(share, rel=1e-3)


def test_the_mend_afloat_is_the_size_of_the_formula() -> None:
    draft = boat("14 AWG", 21.0, 10.0, critical="yes")
    cured(draft, found(draft, RULE)[0])
    assert next(run for run in draft.design.runs).ratings["size"] == "12 AWG"


def test_afloat_the_loads_on_one_cable_add_up() -> None:
    draft = boat("10 AWG", 40.0, 20.0)  # 10.75 x 20 x 40 / 10380 = 0.83 V, 6.9 %
    assert not found(draft, RULE)
    draft.part("load", "EA2", circuit="dc", power="120 W")  # half as much again: 10.4 %
    draft.run("EA1.in", "EA2.in", "W2", size="10 AWG", length="1 in")
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("EA2", "W1")
    assert [e.note for e in finding.evidence if e.name == "so do"] == ["EA1"]


def test_on_alternating_current_afloat_it_is_advice_as_ashore() -> None:
    (finding,) = found(branch("60 ft", place="boat"), RULE)
    assert finding.level is Level.NOTE


@pytest.mark.parametrize(("length", "hit"), [("11 ft", False), ("21 ft", True)])
def test_a_starter_at_its_cranking_current(length: str, hit: bool) -> None:
    # 300 A, 22 ft of 1/0 AWG out and back: 0.67 V, 5.6 %; 42 ft: 1.28 V, 10.7 %
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", fault_current="3 kA")
    motor = {"circuit": "dc", "duty": "starter", "power": "1800 W", "start_current": "300 A"}
    draft.part("motor", "MA1", **motor)
    draft.run("GB1.dc", "MA1.in", "W1", size="1/0 AWG", length=length)
    assert places(draft, RULE) == ({("MA1", "W1")} if hit else set())


def test_a_long_cord_set_is_named_and_thickened() -> None:
    """By hand: 1,000 W (14.4 ohm) behind 60 ft of 16 AWG, 4.99 ohm per 1000 ft at 75 C (NFPA 70
    chapter 9 table 8), and two contacts of 1 milliohm, lose 4.0 %."""
    d = caravan(power="6 kVA")
    d.part("cord_set", "WX1", configuration="5-20", size="16 AWG", length="60 ft")
    d.seat("WX1", "XD2", "face")
    d.part("plug_load", "EP1", power="1000 W")
    d.seat("EP1", "WX1", "face")
    hit = next(h for h in found(d, RULE) if h.subjects == ("EP1", "WX1"))
    assert number(hit, "voltage drop") == pytest.approx(0.6008 / (14.4 + 0.6008), rel=0.03)
    cured(d, hit)
    assert ("EP1", "WX1") not in {h.subjects for h in found(d, RULE)}


@pytest.mark.parametrize(("feet", "hit"), [(20.0, False), (30.0, True)])
def test_the_main_of_a_board_afloat_may_lose_three_percent(feet: float, hit: bool) -> None:
    # 40 A on 6 AWG: 10.75 x 40 x 20 / 26240 = 0.328 V, 2.7 %; 30 ft: 0.49 V, 4.1 %
    draft = boat("6 AWG", feet, 1.0)
    draft.cut("W1")
    draft.remove("EA1")
    draft.part("panel", "QP1", circuit="dc", bus="100 A")
    draft.run("F1.load", "QP1.feed", "W1", size="6 AWG", length=f"{feet / 2:g} ft")
    for n in (1, 2):  # 20 A each behind a breaker of the board
        draft.part("breaker", f"QF{n}", circuit="dc", rating="30 A", direct="yes")
        draft.seat(f"QF{n}", "QP1", str(n))
        draft.part("load", f"EA{n}", circuit="dc", power="240 W")
        draft.run(f"QF{n}.load", f"EA{n}.in", f"W{n + 1}", size="8 AWG", length="1 ft")
    hits = [f for f in found(draft, RULE) if f.level is Level.WARNING]
    assert [(f.subjects, f.clause) for f in hits] == ([(("QP1", "W1"), "ABYC E-11")] if hit else [])


@pytest.mark.parametrize(
    ("length", "level"), [("20 ft", None), ("60 ft", "note"), ("120 ft", "warning")]
)
def test_from_a_solar_array_to_its_controller(length: str, level: str | None) -> None:
    """By hand: two modules in series, 36 V and 5.5 A; 10 AWG at 75 C, 1.24 ohm per 1000 ft:
    14 AWG 3.14 ohm: over 60 ft out and back, and 2 ft of 10 AWG, 2.1 V are lost, 5.9 %."""
    draft = van()
    draft.cut("W1")
    draft.run("GP1.dc", "QB2.line", "W1", size="14 AWG", length=length)
    hits = [f for f in found(draft, RULE) if f.subjects == ("TC1", "W1")]
    assert [f.level.word for f in hits] == ([level] if level else [])
    if hits:
        feet = float(length.split()[0])
        lost = 2 * resistance("14 AWG", "copper", "stranded", 75.0).value * feet * FOOT * 5.5
        lost += 2 * resistance("10 AWG", "copper", "stranded", 75.0).value * 2 * FOOT * 5.5
        assert number(hits[0], "voltage drop") == pytest.approx(lost / 36.0, rel=0.01)


@pytest.mark.parametrize(("second", "told"), [(False, False), (True, True)])
def test_of_several_arrays_the_common_wire_carries_all(second: bool, told: bool) -> None:
    """By hand: 5.5 A and 36 V each; 30 ft of 14 AWG, 3.14 ohm per 1000 ft at 75 C, out and back
    lose 1.0 V with one array, 2.9 %, and 2.1 V with two, 5.8 %."""
    draft = van()
    draft.cut("W1")
    draft.part("junction_box", "XJ1", circuit="dc")
    draft.run("XJ1.a", "QB2.line", "W1", size="14 AWG", length="29 ft")
    draft.run("GP1.dc", "XJ1.b", "W41", size="10 AWG", length="1 ft")
    if second:
        draft.part("solar_array", "GP2", **PLATE, series="2")
        draft.run("GP2.dc", "XJ1.c", "W42", size="10 AWG", length="1 ft")
    hits = [f for f in found(draft, RULE) if f.subjects == ("TC1", "W1")]
    assert bool(hits) is told
    if told:
        assert number(hits[0], "voltage drop") == pytest.approx(0.058, abs=0.002)


def test_a_load_on_a_dead_short_is_told_and_asks_for_no_wire() -> None:
    d = RIGS["lake_cabin"]()
    d.run_poles("WS2", "L1>L2 L2>L1 N PE")  # two sets side by side, half a turn apart
    assert [gap.reason for gap in gaps(d, "voltage-drop-high")] == []
    assert found(d, "sources-meet")
    assert [hit.mend for hit in found(d, "voltage-drop-high") if hit.mend is not None] == []


def test_a_lamp_and_an_inverter_on_one_thin_cable_are_one_finding() -> None:
    """Two uses of the run that loses most, one cause: the lighter stands under the graver."""
    d = Draft(place="vehicle")
    d.part("battery", "GB1", voltage="12 V", capacity="200 Ah", fault_current="2 kA")
    d.part("fuse", "F1", rating="60 A", type="class_t", interrupting="20 kA")
    lead = {"size": "6 AWG", "insulation": "105", "terminals": "75"}
    d.run("GB1.dc", "F1.line", "W1", poles="+", length="0.5 ft", **lead)
    d.part("busbar", "WC1", bar="plus", rating="100 A", taps="3")
    d.part("busbar", "WC2", bar="minus", rating="100 A", taps="3")
    d.run("F1.load", "WC1.feed", "W2", poles="+", length="60 ft", **lead)
    d.run("GB1.dc", "WC2.feed", "W3", poles="-", length="20 ft", **lead)
    d.part("inverter", "TB1", power="500 VA", neutral="floating", outlets="1")
    d.run("WC1.1", "TB1.dc", "W4", poles="+", length="1 ft", **lead)
    d.run("WC2.1", "TB1.dc", "W5", poles="-", length="1 ft", **lead)
    d.part("load", "EA1", circuit="dc", voltage="12 V", power="360 W")
    d.run("WC1.2", "EA1.in", "W6", poles="+", length="1 ft", **lead)
    d.run("WC2.2", "EA1.in", "W7", poles="-", length="1 ft", **lead)
    drops = [f for f in analyse(d.design).findings if f.rule == RULE]
    assert [f.subjects[-1] for f in drops] == ["W2"]
    assert [f.subjects[-1] for f in drops[0].consequences if f.rule == RULE] == ["W2"]
