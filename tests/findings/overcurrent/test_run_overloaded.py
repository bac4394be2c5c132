"""A conductor beyond its ampacity."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import house, levels
from tests.findings.told import cured, found, gaps, number

RULE = "run-overloaded"


def hot(amps: float, size: str = "10 AWG", **run: str) -> Draft:
    """A load behind 1 ft of wire with 90 C insulation and terminals at 120 F (49 C)."""
    draft = house()
    draft.rate("EA1", power=f"{amps * 120.0:.1f} W")
    draft.rate("QF1", rating="30 A")
    laid = {"size": size, "length": "1 ft", "ambient": "49 degC", "insulation": "90"}
    draft.rate_run("W2", **(laid | {"terminals": "90"} | run))
    return draft


@pytest.mark.parametrize(("amps", "told"), [(32.8, False), (33.1, True)])
def test_10_awg_thhn_at_120_f_carries_32_8_a(amps: float, told: bool) -> None:
    # 40 A x 0.82 (code training article, stallcupeducation.learnworlds.com/blog/
    # applying-correction-factors-article)
    draft = hot(amps)
    assert (levels(draft, RULE) == {("W2",): Level.WARNING}) is told
    if told:
        assert number(found(draft, RULE)[0], "ampacity as installed") == pytest.approx(32.8)


def test_four_conductors_in_one_raceway_carry_less() -> None:
    # with the 80 % for four to six conductors 26.24 A
    draft = hot(26.5, grouped="4")
    assert number(found(draft, RULE)[0], "ampacity as installed") == pytest.approx(26.24)
    assert found(hot(26.2, grouped="4"), RULE) == []


def test_a_device_that_is_too_small_explains_it() -> None:
    (cause,) = found(hot(33.1), "device-below-load")
    assert (RULE, ("W2",)) in {(c.rule, c.where) for c in cause.consequences}


def test_a_thin_neutral_of_its_own_size() -> None:
    draft = house()
    draft.rate_run("W2", neutral_size="14 AWG", length="1 ft")
    draft.rate("EA1", power="2160 W")  # 18 A; 14 AWG carries 15 A at 60 C
    (hit,) = found(draft, RULE)
    assert number(hit, "current") == pytest.approx(18.0, rel=0.01)
    assert cured(draft, hit).silent


def test_a_ground_wire_is_not_judged_by_it() -> None:
    draft = house()
    draft.rate_run("W2", ground_size="18 AWG")
    assert found(draft, RULE) == []


def test_what_no_table_has_is_not_checked() -> None:
    draft = hot(20.0, size="600 kcmil", installation="cord")
    assert [gap.where for gap in gaps(draft, RULE)] == [("W2",)]


@pytest.mark.parametrize(
    ("amps", "level"), [(240.0, None), (280.0, Level.NOTE), (290.0, Level.WARNING)]
)
def test_what_runs_for_minutes_may_take_a_little_more(amps: float, level: Level | None) -> None:
    # 1 AWG of 105 C afloat: 245 A (33 CFR 183.425 table 5); over 85 % of it, 288 A
    draft = Draft(place="boat")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("fuse", "F1", rating="250 A", type="anl")
    draft.seat("F1", "GB1", "post")
    thruster = {"circuit": "dc", "duty": "brief", "power": f"{12 * amps:g} W"}
    draft.part("motor", "MA1", **thruster)
    draft.run("F1.load", "MA1.in", "W1", size="1 AWG", insulation="105", length="5 ft")
    assert levels(draft, RULE) == ({} if level is None else {("W1",): level})
    draft.rate("MA1", duty="motor")
    assert levels(draft, RULE) == ({} if level is None else {("W1",): Level.WARNING})


def charging(watts: str, size: str = "6 AWG", **run: str) -> Draft:
    """A charging station for cars: hours on end, behind a 60 A breaker in house cable."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="ac240", breaker="100 A", prospective="4 kA")
    draft.part("breaker", "QF1", circuit="ac240", rating="60 A", interrupting="10 kA")
    draft.seat("QF1", "GS1", "1")
    draft.part("load", "EA1", circuit="ac240", power=watts, continuous="yes")
    draft.run("QF1.load", "EA1.in", "W1", size=size, length="20 ft", **run)
    return draft


@pytest.mark.parametrize(
    ("watts", "size", "run", "hit"),
    [
        # 210.19(A)(1): 125 % of 48 A are 60 A; 6 AWG at 60 C is good for 55 A, at 75 C for 65 A,
        # 4 AWG at 60 C for 70 A (table 310.16). 55 / 1.25 = 44 A, 10560 W.
        ("11520 W", "6 AWG", {}, True),
        ("11520 W", "4 AWG", {}, False),
        ("11520 W", "6 AWG", {"insulation": "90", "terminals": "75"}, False),
        ("10560 W", "6 AWG", {}, False),
        ("10600 W", "6 AWG", {}, True),
        # corrections count against the plain current only: 70 A x 0.71 at 45 C
        ("11520 W", "4 AWG", {"ambient": "45 degC"}, False),
    ],
)
def test_what_runs_for_hours_needs_125_percent_of_its_conductor(
    watts: str, size: str, run: dict[str, str], hit: bool
) -> None:
    draft = charging(watts, size, **run)
    assert levels(draft, RULE) == ({("W1",): Level.WARNING} if hit else {})
    if hit:
        (finding,) = found(draft, RULE)
        assert finding.clause.startswith("210.19(A)(1)")
        assert number(finding, "ampacity before corrections") == pytest.approx(55.0)
        assert not found(draft, "device-above-ampacity")  # the next rating up is open to it
        assert cured(draft, finding).silent


def test_the_same_load_for_an_hour_needs_no_more_than_its_current() -> None:
    draft = charging("11520 W")
    draft.rate("EA1", continuous="no")
    assert not found(draft, RULE)


def driven(size: str, breaker: str = "20 A", **motor: str) -> Draft:
    """A motor of 240 V on wires of its own, terminals marked for 75 C."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="ac240", breaker="100 A", prospective="4 kA")
    d.part("breaker", "QF1", circuit="ac240", rating=breaker, interrupting="10 kA")
    d.seat("QF1", "GS1", "1")
    d.part("motor", "MA1", circuit="ac240", **({"power_factor": "0.8"} | motor))
    d.run("QF1.load", "MA1.in", "W1", size=size, length="20 ft", terminals="75")
    return d


@pytest.mark.parametrize(
    ("size", "motor", "needed"),
    [
        # NFPA 70 table 430.248: 3 hp at 230 V take 17 A, 125 % are 21.25 A; 14 AWG has 20 A at 75 C
        ("14 AWG", {"power": "3 hp"}, 21.25),
        ("12 AWG", {"power": "3 hp"}, None),
        # by its watts it takes 16 A, 125 % are 20 A: exactly what 14 AWG has
        ("14 AWG", {"power": "3072 W"}, None),
        ("14 AWG", {"power": "3100 W"}, 20.18),
        # the nameplate decides, whatever 125 % would be
        ("14 AWG", {"power": "2304 W", "duty": "hermetic", "least_ampacity": "22 A"}, 22.0),
        ("14 AWG", {"power": "3100 W", "duty": "hermetic", "least_ampacity": "20 A"}, None),
    ],
)
def test_the_wires_of_a_motor_behind_a_device_that_they_allow(
    size: str, motor: dict[str, str], needed: float | None
) -> None:
    draft = driven(size, breaker="15 A", **motor)
    hits = [f for f in found(draft, RULE) if f.subjects == ("W1",)]
    assert [f.level for f in hits] == [Level.WARNING] * (needed is not None)
    if needed is not None:
        assert number(hits[0], "ampacity needed") == pytest.approx(needed, rel=0.001)
        assert not found(draft, "device-above-ampacity")


def shop(place: str = "building", load: str = "2400 W", **motor: str) -> Draft:
    """A motor of 10 A and a load of 20 A behind one feeder."""
    d = Draft(place=place)
    d.part("supply", "GS1", breaker="30 A", prospective="4 kA")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("GS1.out", "QP1.feed", "f", size="10 AWG", length="20 ft")
    for n, kind in ((1, "motor"), (2, "load")):
        d.part("breaker", f"QF{n}", rating="20 A", interrupting="10 kA")
        d.seat(f"QF{n}", "QP1", str(n))
        ratings = {"power": "960 W", "power_factor": "0.8"} | motor if n == 1 else {"power": load}
        d.part(kind, f"E{n}", **ratings)
        d.run(f"QF{n}.load", f"E{n}.in", f"m{n}", size="12 AWG", length="5 ft")
    return d


def test_a_feeder_needs_a_quarter_of_its_largest_motor_on_top() -> None:
    """NFPA 70 430.24: 20 A and 10 A of power factor 0.8, 28.6 A together, are within 30 A, with
    2.5 A more not; 430.22 asks 12.5 A of the motor's own wires."""
    draft = shop()
    (finding,) = found(draft, RULE)
    assert finding.subjects == ("f",)
    assert number(finding, "ampacity needed") == pytest.approx(31.14, abs=0.05)
    assert finding.clause == "430.24, 215.2(A)(1)"
    assert not found(shop(load="2100 W"), RULE)


def test_a_motor_that_runs_for_hours_is_not_counted_twice_on_its_feeder() -> None:
    # 17 A and 125 % of 10 A, by their power factors 28 A
    assert not found(shop(load="2040 W", continuous="yes"), RULE)


def test_aboard_a_board_is_sized_by_its_circuits() -> None:
    assert not found(shop("recreational"), RULE)
