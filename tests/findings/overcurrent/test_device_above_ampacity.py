"""device-above-ampacity: what a device lets a conductor carry for good."""

from __future__ import annotations

import pytest

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Finding, Level
from linework.kinds import OneOf
from tests.findings.banks import van
from tests.findings.camps import house
from tests.findings.told import cured, found, gaps, number, places, praise, ways
from tests.study.ways.test_bounds import bars

RULE = "device-above-ampacity"
DC = {"circuit": "dc", "voltage": "12 V"}


def branch(size: str, breaker: str, **run: str) -> Draft:
    """A supply, one breaker, one run to a fixed load."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="200 A", circuit="ac")
    draft.part("breaker", "QF1", rating=breaker)
    draft.part("load", "EA1", power="600 W")
    draft.seat("QF1", "GS1", "1")
    draft.run("QF1.load", "EA1.in", "W1", size=size, length="20 ft", **run)
    return draft


@pytest.mark.parametrize(
    ("size", "breaker", "hit"),
    [
        # NFPA 70 240.4(D): 14 AWG 15 A, 12 AWG 20 A, 10 AWG 30 A
        ("14 AWG", "15 A", False),
        ("14 AWG", "20 A", True),
        ("12 AWG", "20 A", False),
        ("12 AWG", "25 A", True),
        ("10 AWG", "30 A", False),
        ("10 AWG", "35 A", True),
        # 240.4(B): 6 AWG carries 55 A at 60 C, the next standard rating is 60 A
        ("6 AWG", "60 A", False),
        ("6 AWG", "70 A", True),
    ],
)
def test_the_largest_device_of_a_fixed_conductor(size: str, breaker: str, hit: bool) -> None:
    assert places(branch(size, breaker), RULE) == ({("W1", "QF1")} if hit else set())


@pytest.mark.parametrize(
    ("size", "breaker", "run", "hit"),
    [
        # NFPA 70 334.80: 90 C wires, but at most the 60 C column (6 AWG 55 A), whatever the marks
        ("6 AWG", "60 A", {"terminals": "75"}, False),
        ("6 AWG", "70 A", {"terminals": "75"}, True),
        ("6 AWG", "70 A", {"terminals": "75", "installation": "cable"}, False),  # 65 A
        # nine wires together: 0.7 x 30 A; ten: 0.5 x 30 A; from the 75 C column 0.7 x 25 A
        ("12 AWG", "20 A", {"grouped": "9"}, False),
        ("12 AWG", "20 A", {"grouped": "10"}, True),
        ("12 AWG", "20 A", {"grouped": "10", "installation": "cable"}, True),
    ],
)
def test_house_cable_derates_from_90_and_ends_at_60(
    size: str, breaker: str, run: dict[str, str], hit: bool
) -> None:
    laid = {"installation": "house_cable"} | run
    assert bool(found(branch(size, breaker, **laid), RULE)) is hit


def test_what_is_not_known_of_a_wire_is_judged_each_way() -> None:
    # NFPA 70 240.4(D)(4) and (5): 12 AWG of aluminium 15 A, of copper 20 A
    draft = branch("12 AWG", "20 A")
    draft.rate_run("W1", material=OneOf(("copper", "aluminium")))
    assert not gaps(draft, "not-analysed")
    (finding,) = found(draft, RULE)
    assert finding.cases == ("W1 material: aluminium",)
    draft.rate_run("W1", material="copper")
    assert not found(draft, RULE)


def test_it_says_what_decided_and_offers_the_largest_breaker() -> None:
    draft = branch("14 AWG", "20 A")
    (finding,) = found(draft, RULE)
    assert finding.level.word == "danger"
    assert number(finding, "largest allowed") == 15.0
    assert finding.clause.startswith("240.4")
    assert not [f for f in cured(draft, finding).findings if f.rule == RULE]
    assert draft.design.part("QF1").ratings["rating"] == "15 A"


def test_where_the_load_needs_the_device_the_mend_is_a_thicker_wire() -> None:
    draft = branch("14 AWG", "20 A")
    draft.rate("EA1", power="2100 W")
    (finding,) = found(draft, RULE)
    cured(draft, finding)
    assert next(run for run in draft.design.runs).ratings["size"] == "12 AWG"


def test_small_conductors_are_capped_whatever_their_insulation_carries() -> None:
    # 12 AWG at 75 C carries 25 A by table 310.16; 240.4(D)(5) allows 20 A
    draft = branch("12 AWG", "25 A", terminals="75")
    (finding,) = found(draft, RULE)
    assert number(finding, "ampacity as installed") == 25.0
    assert number(finding, "largest allowed") == 20.0
    assert finding.clause == "240.4(D)"


def test_hot_surroundings_lower_the_ampacity() -> None:
    # A training article's example: 10 AWG THHN at 120 F: 40 A x 0.82 = 32.8 A; 240.4(D) 30 A
    draft = branch("10 AWG", "35 A", insulation="90", terminals="75", ambient="120 degF")
    (finding,) = found(draft, RULE)
    assert number(finding, "ampacity as installed") == pytest.approx(32.8, abs=0.05)
    assert number(finding, "largest allowed") == 30.0
    draft.rate("QF1", rating="30 A")
    assert not found(draft, RULE)


def outlets(duplex: str, count: int) -> Draft:
    draft = branch("6 AWG", "60 A")
    draft.remove("EA1")
    for n in range(count):
        draft.part("outlet", f"X{n}", configuration="5-20", duplex=duplex)
        before = "QF1.load" if n == 0 else f"X{n - 1}.onward"
        draft.run(before, f"X{n}.feed", f"W{n + 2}", size="6 AWG", length="20 ft")
    return draft


def test_several_outlets_take_no_rounding_up() -> None:
    # 240.4(B)(1): not for a branch circuit that supplies more than one outlet for cords and plugs
    assert not found(outlets("1", 1), RULE)
    assert places(outlets("1", 2), RULE) == {("W2", "QF1"), ("W3", "QF1")}
    assert places(outlets("2", 1), RULE) == {("W2", "QF1")}


def test_a_feeder_to_a_board_with_outlets_may_be_rounded_up() -> None:
    draft = outlets("2", 0)
    draft.part("panel", "QP1", bond="absent")
    draft.part("breaker", "QF2", rating="20 A")
    draft.part("outlet", "X1", configuration="5-20")
    draft.seat("QF2", "QP1", "1")
    draft.run("QF1.load", "QP1.feed", "W1", size="6 AWG", length="20 ft")
    draft.run("QF2.load", "X1.feed", "W2", size="12 AWG", length="20 ft")
    assert not found(draft, RULE)


@pytest.mark.parametrize(
    ("size", "breaker", "hit"),
    [
        # table 400.5(A)(1), two counted conductors: 12 AWG 25 A, 10 AWG 30 A; no rounding up
        ("12 AWG", "25 A", False),
        ("12 AWG", "30 A", True),
        ("10 AWG", "30 A", False),
        # 240.5(B): 16 AWG and thicker on circuits of 20 A
        ("16 AWG", "20 A", False),
        ("16 AWG", "25 A", True),
        ("18 AWG", "20 A", True),
        ("18 AWG", "10 A", False),
    ],
)
def test_cords(size: str, breaker: str, hit: bool) -> None:
    assert bool(found(branch(size, breaker, installation="cord"), RULE)) is hit


def direct(place: str, size: str, fuse: str, **run: str) -> Draft:
    draft = Draft(place=place)
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("fuse", "F1", rating=fuse, type="class_t")
    draft.part("lamp", "EL1", power="20 W", **DC)
    draft.seat("F1", "GB1", "post")
    draft.run("F1.load", "EL1.in", "W1", size=size, length="6 ft", **run)
    return draft


@pytest.mark.parametrize(
    ("place", "size", "fuse", "hit"),
    [
        # table 552.10(E)(1): 18 AWG 6 A, 16 AWG 8 A, 14 AWG 15 A, 12 AWG 20 A, 10 AWG 30 A
        ("recreational", "18 AWG", "6 A", False),
        ("recreational", "18 AWG", "10 A", True),
        ("vehicle", "16 AWG", "8 A", False),
        ("vehicle", "16 AWG", "10 A", True),
        ("vehicle", "10 AWG", "30 A", False),
        ("vehicle", "10 AWG", "40 A", True),
        # thicker: the table for boats, 75 C: 4/0 360 A, the next standard rating is 400 A
        ("vehicle", "4/0 AWG", "400 A", False),
        ("vehicle", "4/0 AWG", "450 A", True),
        # afloat 33 CFR 183.425, 75 C: 16 AWG 15 A, 12 AWG 25 A
        ("boat", "16 AWG", "15 A", False),
        ("boat", "16 AWG", "20 A", True),
        ("boat", "12 AWG", "25 A", False),
    ],
)
def test_low_voltage_aboard(place: str, size: str, fuse: str, hit: bool) -> None:
    assert bool(found(direct(place, size, fuse), RULE)) is hit


def test_the_fuse_that_a_maker_asks_for_may_be_too_large_for_the_cable() -> None:
    # A boating magazine: a 1000 W inverter on 4 AWG by voltage drop, its maker asks for 175 A.
    # 33 CFR 183.425: 4 AWG at 75 C 125 A, at 105 C 160 A, whose next standard rating is 175 A.
    (finding,) = found(direct("boat", "4 AWG", "175 A"), RULE)
    assert number(finding, "ampacity as installed") == 125.0
    assert not found(direct("boat", "4 AWG", "175 A", insulation="105"), RULE)
    assert not found(direct("boat", "2 AWG", "175 A"), RULE)


def motor(breaker: str, size: str = "10 AWG", **ratings: str) -> Draft:
    """5 hp, 230 V, single phase: 28 A by table 430.248."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", breaker="200 A", circuit="ac240", voltage="230 V")
    draft.part("breaker", "QF1", rating=breaker, circuit="ac240", voltage="230 V")
    answers = {"power": "5152 W", "power_factor": "0.8"} | ratings
    draft.part("motor", "MA1", circuit="ac240", voltage="230 V", **answers)
    draft.seat("QF1", "GS1", "1")
    draft.run("QF1.load", "MA1.in", "W1", size=size, length="20 ft", terminals="75")
    return draft


def test_a_motor_may_have_a_breaker_of_250_percent() -> None:
    # An electricians' course: conductors 35 A (10 AWG at 75 C), largest breaker 70 A
    draft = motor("70 A")
    assert not found(draft, RULE)
    (item,) = praise(draft, RULE)
    assert item.clause == "430.52, 240.4(G)"
    assert places(motor("80 A"), RULE) == {("W1", "QF1")}
    assert places(motor("70 A", "12 AWG"), RULE) == {("W1", "QF1")}  # 25 A, less than 35 A


def test_a_motor_does_not_excuse_what_feeds_an_outlet_too() -> None:
    draft = motor("70 A")
    draft.part("junction_box", "XJ1", circuit="ac240")
    draft.cut("W1")
    run = {"size": "10 AWG", "length": "20 ft", "terminals": "75"}
    draft.run("QF1.load", "XJ1.a", "W2", **run)
    draft.run("XJ1.b", "MA1.in", "W3", **run)
    assert not found(draft, RULE)
    draft.part("outlet", "X1", circuit="ac240", configuration="6-20")
    draft.run("XJ1.c", "X1.feed", "W4", **run)
    assert places(draft, RULE) == {("W2", "QF1"), ("W4", "QF1")}


def test_the_nameplate_of_an_air_conditioner_decides() -> None:
    plate = {"duty": "hermetic", "largest_device": "45 A", "least_ampacity": "30 A"}
    running = {"power": "4400 W", "power_factor": "0.85"}  # 22.5 A
    draft = motor("45 A", **plate, **running)
    assert not found(draft, RULE)
    assert [item.clause for item in praise(draft, RULE)] == ["440.22, 240.4(G)"]
    assert found(motor("50 A", **plate, **running), RULE)
    assert found(motor("45 A", "12 AWG", **plate, **running), RULE)


@pytest.mark.parametrize(
    ("breaker", "size", "words", "mended"),
    [
        # its nameplate asks for 30 A, 12 AWG at 75 C has 25: never a smaller breaker
        (
            "45 A",
            "12 AWG",
            "too thin for MA1, which needs wires for 30 A",
            ("W1", "size", "10 AWG"),
        ),
        ("50 A", "10 AWG", "its nameplate allows 45 A at the most", ("QF1", "rating", "45 A")),
        ("50 A", "12 AWG", "its nameplate allows 45 A at the most", ("W1", "size", "10 AWG")),
    ],
)
def test_what_is_wrong_at_a_compressor_is_told_by_its_nameplate(
    breaker: str, size: str, words: str, mended: tuple[str, str, str]
) -> None:
    plate = {"duty": "hermetic", "largest_device": "45 A", "least_ampacity": "30 A"}
    draft = motor(breaker, size, **plate, power="4400 W", power_factor="0.85")
    (finding,) = found(draft, RULE)
    assert words in finding.message
    assert finding.clause == ("440.32" if "thin" in words else "440.22")
    after = cured(draft, finding)
    assert not [f for f in after.findings if f.rule in (RULE, "run-overloaded")]
    where, key, answer = mended
    assert draft.design.get(where).ratings[key] == answer


def test_wires_that_stand_more_than_the_nameplate_allows_do_not_excuse_the_device() -> None:
    plate = {"duty": "hermetic", "largest_device": "30 A", "least_ampacity": "20 A"}
    draft = motor("40 A", "8 AWG", **plate, power="2900 W", power_factor="0.85")
    (finding,) = found(draft, RULE)
    assert finding.level is Level.WARNING
    assert finding.subjects == ("QF1", "MA1")
    assert "its nameplate allows 30 A at the most" in finding.message
    assert not found(motor("30 A", "8 AWG", **plate, power="2900 W", power_factor="0.85"), RULE)


def test_horsepower_means_the_current_of_the_table() -> None:
    """NFPA 70 table 430.248: 5 hp at 230 V take 28 A, 35 A of wire, 70 A at the most before it; by
    its 3730 W it would be 20.3 A, with 60 A at the most."""
    assert not found(motor("70 A", power="5 hp"), RULE)
    assert found(motor("80 A", power="5 hp"), RULE)
    (thin,) = found(motor("70 A", "12 AWG", power="5 hp"), RULE)
    assert "needs wires for 35 A" in thin.message
    (large,) = found(motor("70 A", power="3730 W"), RULE)
    assert "it may have 60 A at the most" in large.message


def test_without_a_nameplate_a_sealed_compressor_is_not_judged_and_says_so() -> None:
    draft = motor("45 A", duty="hermetic", power="4400 W", power_factor="0.85")
    assert not found(draft, RULE)
    (gap,) = gaps(draft, RULE)
    assert "nameplate of MA1" in gap.reason
    # no nameplate could allow this: 225 % of 22.5 A is 50.6 A
    assert found(motor("60 A", duty="hermetic", power="4400 W", power_factor="0.85"), RULE)


def test_what_a_source_cannot_exceed_for_good_needs_no_smaller_device() -> None:
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("fuse", "F1", rating="225 A", type="class_t")
    draft.part("inverter_charger", "TB1", power="2 kVA", neutral="relay", charge="30 A")
    draft.part("breaker", "QF1", rating="30 A")
    draft.part("load", "EA1", power="500 W")
    draft.seat("F1", "GB1", "post")
    draft.run("F1.load", "TB1.dc", "W1", size="4/0 AWG", length="3 ft")
    draft.run("TB1.ac_out", "QF1.line", "W2", size="10 AWG", length="3 ft")
    draft.run("QF1.load", "EA1.in", "W3", size="12 AWG", length="10 ft")
    assert not found(draft, RULE)  # 2 kVA: 16.7 A for good
    # the same wire on shore, which the inverter passes through behind 30 A
    draft.part("supply", "GS1", breaker="30 A")
    draft.run("GS1.out", "TB1.ac_in", "W4", size="10 AWG", length="10 ft")
    (finding,) = found(draft, RULE)
    assert finding.subjects[0] == "W3"
    assert finding.states
    assert all("GS1=live" in s or "GS1" not in s for s in finding.states)


def test_the_ground_wire_is_not_sized_by_ampacity() -> None:
    assert not found(branch("6 AWG", "60 A", ground_size="10 AWG"), RULE)


@pytest.mark.parametrize("twelve", ["15 A", "20 A"])
def test_common_circuits_are_silent(twelve: str) -> None:
    # Forum and magazine cases: a 50 A outlet alone on 30 A and 10 AWG; 4,800 W of heaters on 20 A
    # and 12 AWG; 1,800 W mixed on 20 A; 15 A duplex outlets on 20 A (210.21(B)(3))
    draft = branch("12 AWG", twelve)
    draft.part("breaker", "QF2", rating="20 A")
    draft.part("outlet", "X1", configuration="5-15")
    draft.seat("QF2", "GS1", "2")
    draft.run("QF2.load", "X1.feed", "W2", size="12 AWG", length="50 ft")
    assert not found(draft, RULE)
    plasma = Draft(place="building")
    plasma.part("supply", "GS1", breaker="100 A", circuit="ac240")
    plasma.part("breaker", "QF1", rating="30 A", circuit="ac240")
    plasma.part("outlet", "X1", configuration="6-50", circuit="ac240", duplex="1")
    plasma.seat("QF1", "GS1", "1")
    plasma.run("QF1.load", "X1.feed", "W1", size="10 AWG", length="40 ft")
    assert not found(plasma, RULE)


def test_a_size_in_no_table_is_not_judged_and_says_so() -> None:
    draft = branch("2.5 mm2", "20 A")
    assert not found(draft, RULE)
    (gap,) = gaps(draft, RULE)
    assert gap.where == ("W1",)
    assert not analyse(draft.design).sound


def test_without_a_size_the_value_is_missing() -> None:
    draft = branch("14 AWG", "20 A")
    draft.rate_run("W1", size=None)
    assert not found(draft, RULE)
    assert [g.where for g in gaps(draft, "value-missing")] == [("W1",)]


@pytest.mark.parametrize(("size", "breaker"), [("16 AWG", "15 A"), ("18 AWG", "15 A")])
def test_wires_thinner_than_the_tables_still_have_their_limit(size: str, breaker: str) -> None:
    # 240.4(D)(1) and (2): 18 AWG 7 A, 16 AWG 10 A
    assert places(branch(size, breaker), RULE) == {("W1", "QF1")}
    assert found(branch(size, breaker), RULE)[0].clause.startswith("240.4(D)")


def test_behind_a_small_enough_device_they_are_not_checked() -> None:
    draft = branch("16 AWG", "10 A")
    assert not found(draft, RULE)
    assert [gap.where for gap in gaps(draft, RULE)] == [("W1",)]


# returns by themselves


def test_a_minus_that_runs_apart_must_stand_the_fuse_before_its_load() -> None:
    draft = bars()
    draft.rate_run("back", size="6 AWG")
    draft.rate_run("r2", size="14 AWG")
    hits = [hit for hit in found(draft, RULE) if "r2" in hit.subjects]
    assert [(hit.subjects, hit.level) for hit in hits] == [(("r2", "F12"), Level.DANGER)]
    assert cured(draft, hits[0]) is not None
    assert [hit for hit in found(draft, RULE) if "r2" in hit.subjects] == []


@pytest.mark.parametrize(("size", "told"), [("10 AWG", True), ("6 AWG", False)])
def test_the_minus_of_a_charger_must_stand_the_fuse_in_its_plus(size: str, told: bool) -> None:
    # 240.4: broken, the charger draws from the bank what the fuse lets pass, by both conductors
    draft = bars()
    for bar in ("WC1", "WC2"):
        draft.rate(bar, taps="3")
    draft.rate_run("back", size="4 AWG")
    draft.part("charger", "TB1", current="45 A", dc_voltage="12 V")
    draft.part("fuse", "F19", rating="60 A", type="class_t")
    draft.run("WC1.3", "F19.line", "p4", size="6 AWG", length="0.5 ft")
    draft.run("F19.load", "TB1.dc", "q4", poles="+", size="6 AWG", length="5 ft")
    draft.run("WC2.3", "TB1.dc", "r4", size=size, length="5 ft")
    draft.part("supply", "GS1", breaker="15 A")
    draft.run("GS1.out", "TB1.ac_in", "w1", size="14 AWG", length="10 ft")
    hits = [hit for hit in found(draft, RULE) if hit.subjects[0] == "r4"]
    assert ["60 A" in hit.message for hit in hits] == [True] * told


def test_a_minus_of_the_size_of_its_plus_is_silent() -> None:
    draft = bars()
    draft.rate_run("back", size="6 AWG")
    assert [hit for hit in found(draft, RULE) if hit.subjects[0] in ("r1", "r2", "back")] == []


def test_a_thin_neutral_beside_its_hot_conductor() -> None:
    draft = house()
    draft.rate_run("W2", neutral_size="14 AWG")
    assert [hit.subjects for hit in found(draft, RULE)] == [("W2", "QF1")]
    assert number(found(draft, RULE)[0], "largest allowed") == 15.0  # 240.4(D)
    draft.rate_run("W2", neutral_size="12 AWG")
    assert found(draft, RULE) == []


def service(main: str, size: str, metal: str = "copper") -> Draft:
    """Service conductors on terminals for 75 C, behind the site's own device."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="split", breaker=main, prospective="4 kA")
    draft.part("panel", "QP1", circuit="split", main=main, bus="200 A", bond="fitted")
    laid = {"material": metal, "insulation": "90", "terminals": "75", "length": "60 ft"}
    draft.run("GS1.out", "QP1.feed", "W1", poles="L1 L2 N", size=size, **laid)
    return draft


@pytest.mark.parametrize(
    ("main", "size", "metal", "hit", "asked"),
    [
        # Table 310.16 at 75 C: 4 AWG 85, 2/0 175, 2 AWG aluminium 90, 1/0 copper 150; 310.12: 83 %
        ("100 A", "4 AWG", "copper", False, True),
        ("100 A", "2 AWG", "aluminium", False, True),
        ("200 A", "2/0 AWG", "copper", False, True),
        ("200 A", "3/0 AWG", "copper", False, False),
        ("100 A", "6 AWG", "copper", True, False),
        ("200 A", "1/0 AWG", "copper", True, False),
        ("90 A", "6 AWG", "copper", True, False),  # 310.12 begins at 100 A
    ],
)
def test_the_service_of_a_dwelling_may_be_thinner(
    main: str, size: str, metal: str, hit: bool, asked: bool
) -> None:
    draft = service(main, size, metal)
    assert places(draft, RULE) == ({("W1", "GS1")} if hit else set())
    assert bool([g for g in gaps(draft, RULE) if "one dwelling" in g.reason]) is asked


@pytest.mark.parametrize(("serves", "hit"), [("dwelling", False), ("other", True)])
def test_what_a_supply_feeds_can_be_said(serves: str, hit: bool) -> None:
    draft = service("200 A", "2/0 AWG")
    draft.rate("GS1", serves=serves)
    assert places(draft, RULE) == ({("W1", "GS1")} if hit else set())
    assert not [g for g in gaps(draft, RULE) if "one dwelling" in g.reason]
    assert ("310.12" in {p.clause for p in praise(draft, RULE)}) is not hit
    # a dwelling allows no more than it allows
    thin = service("200 A", "1/0 AWG")
    thin.rate("GS1", serves="dwelling")
    assert places(thin, RULE) == {("W1", "GS1")}


def test_a_feeder_of_a_part_of_it_may_not() -> None:
    draft = service("100 A", "4 AWG")
    draft.part("outlet", "XD1", configuration="5-15")
    draft.part("breaker", "QF1", rating="20 A")
    draft.seat("QF1", "GS1", "1")
    draft.run("QF1.load", "XD1.feed", "W2", size="12 AWG", length="6 ft")
    assert places(draft, RULE) == {("W1", "GS1")}


@pytest.mark.parametrize(("size", "thin"), [("10 AWG", True), ("1 AWG", False)])
def test_the_lead_of_a_battery_before_its_fuse(size: str, thin: bool) -> None:
    """A foot of wire up to a fuse of 100 A carries what that lets through."""
    draft = van()
    draft.cut("W3")
    draft.run("GB1.dc", "F1.line", "W3", size=size, length="1 ft", insulation="90")
    assert places(draft, RULE) == ({("W3", "F1")} if thin else set())


def led_to_a_main(main: str, length: str, size: str = "10 AWG", **laid: str) -> Draft:
    """A 60 A device, a conductor that ends at the main of a board, nothing between."""
    d = Draft(place="building")
    d.part("supply", "GS1", breaker="60 A", prospective="4 kA", outage="no")
    d.part("panel", "QP1", main=main, bus="100 A", bond="absent")
    d.run("GS1.out", "QP1.feed", "W1", size=size, length=length, **laid)
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="500 W")
    d.run("QF1.load", "EA1.in", "W2", size="14 AWG", length="10 ft")
    return d


@pytest.mark.parametrize(
    ("main", "length", "size", "allowed"),
    [
        # NFPA 70 240.21(B)(2): 25 ft and a third of the device; (B)(1): 10 ft and a tenth.
        ("30 A", "25 ft", "10 AWG", True),
        ("30 A", "26 ft", "10 AWG", False),
        ("15 A", "25 ft", "14 AWG", False),
        ("15 A", "10 ft", "14 AWG", True),
        ("40 A", "10 ft", "10 AWG", False),
    ],
)
def test_a_tap_that_ends_at_a_device_small_enough(
    main: str, length: str, size: str, allowed: bool
) -> None:
    draft = led_to_a_main(main, length, size)
    assert bool(found(draft, RULE)) is not allowed
    told = [item for item in praise(draft, RULE) if "at its end" in item.message]
    assert bool(told) is allowed


def test_the_cord_of_a_coach_ends_at_its_main() -> None:
    """A 30 A coach on a 50 A post, by an adapter: its main keeps the load."""
    (hit,) = found(led_to_a_main("30 A", "36 ft", installation="cord"), RULE)
    assert (hit.subjects, hit.level) == (("W1", "GS1"), Level.NOTE)
    (hit,) = found(led_to_a_main("50 A", "36 ft", installation="cord"), RULE)
    assert hit.level is Level.DANGER


def twins(fuse: str, size: str, second: str | None = "4 ft") -> Draft:
    """Two cables side by side from a fuse at the battery to a load."""
    draft = Draft(place="vehicle")
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("fuse", "F1", rating=fuse, type="class_t")
    draft.seat("F1", "GB1", "post")
    draft.part("load", "EA1", power="1200 W", **DC)
    for name, length in (("W1", "4 ft"), ("W2", second)):
        if length is not None:
            draft.run("F1.load", "EA1.in", name, size=size, length=length, insulation="105")
    return draft


@pytest.mark.parametrize(
    ("fuse", "size", "second", "hit"),
    [
        # 2/0 AWG of 105 C carries 330 A (33 CFR 183.425 table 5), two together 660 A
        ("400 A", "2/0 AWG", "4 ft", False),
        ("700 A", "2/0 AWG", "4 ft", False),
        ("800 A", "2/0 AWG", "4 ft", True),
        ("400 A", "2/0 AWG", None, True),
        ("400 A", "2/0 AWG", "5 ft", True),  # of unequal length they do not share alike
        ("400 A", "2 AWG", "4 ft", True),  # 310.10(G): not below 1/0 AWG
    ],
)
def test_equal_conductors_in_parallel(fuse: str, size: str, second: str | None, hit: bool) -> None:
    runs = {("W1", "F1"), ("W2", "F1")} if second else {("W1", "F1")}
    assert places(twins(fuse, size, second), RULE) == (runs if hit else set())


def welder(breaker: str, size: str = "10 AWG", duplex: str = "1", **plate: str | None) -> Draft:
    """A welder of 40 A that works a fifth of the time, in an outlet of its own."""
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="ac240", breaker="200 A", prospective="4 kA")
    draft.part("breaker", "QF1", circuit="ac240", rating=breaker, interrupting="10 kA")
    draft.seat("QF1", "GS1", "1")
    draft.part("outlet", "XD1", circuit="ac240", configuration="6-50", duplex=duplex)
    draft.run("QF1.load", "XD1.feed", "W1", size=size, length="20 ft")
    told = {"least_ampacity": "18 A", "largest_device": "60 A"} | plate
    ratings = {key: answer for key, answer in told.items() if answer is not None}
    draft.part("plug_load", "EP1", circuit="ac240", power="9600 W", configuration="6-50", **ratings)
    draft.seat("EP1", "XD1", "face")
    return draft


@pytest.mark.parametrize(
    ("breaker", "size", "duplex", "plate", "hit"),
    [
        # NFPA 70 630.11(A): 40 A x 0.45 for a fifth of the time are 18 A; 630.12: a device up to
        # 200 % of the wires' ampacity, 10 AWG at 60 C 30 A, 12 AWG 20 A, 14 AWG 15 A
        ("50 A", "10 AWG", "1", {}, False),
        ("60 A", "10 AWG", "1", {}, False),
        ("50 A", "12 AWG", "1", {}, True),
        ("40 A", "12 AWG", "1", {}, False),
        ("30 A", "14 AWG", "1", {}, True),  # 15 A are less than 18 A
        ("50 A", "10 AWG", "2", {}, True),  # not its own outlet
        ("60 A", "10 AWG", "1", {"largest_device": "50 A"}, True),
        # without a largest device on its plate twice its own 40 A (630.12(A))
        ("60 A", "10 AWG", "1", {"largest_device": None}, False),
        ("90 A", "6 AWG", "1", {"largest_device": None}, True),
    ],
)
def test_a_welder_in_an_outlet_of_its_own(
    breaker: str, size: str, duplex: str, plate: dict[str, str | None], hit: bool
) -> None:
    draft = welder(breaker, size, duplex, **plate)
    assert places(draft, RULE) == ({("W1", "QF1")} if hit else set())
    if not hit:
        (item,) = (p for p in praise(draft, RULE) if "the welder EP1" in p.message)
        assert item.clause == "630.11, 630.12, 240.4(G)"
        assert not found(draft, "run-overloaded")


def test_a_welder_gets_thicker_wires_where_a_smaller_device_would_open() -> None:
    """It takes 40 A: 14 AWG carries its effective 14 A, and allows 30 A before it."""
    draft = welder("50 A", "14 AWG", least_ampacity="14 A")
    (finding,) = found(draft, RULE)
    assert finding.mend is not None
    assert finding.mend.title == "Make W1 10 AWG"  # 30 A, twice that is enough for 50 A
    assert not found_after(draft, finding)
    (small,) = found(welder("50 A", "12 AWG"), RULE)
    assert small.mend is not None
    assert small.mend.title == "Make QF1 40 A"


def found_after(draft: Draft, finding: Finding) -> list[Finding]:
    return [f for f in cured(draft, finding).findings if f.rule == RULE]


def test_what_is_no_welder_has_no_such_rule() -> None:
    draft = welder("50 A", least_ampacity="18 A")
    draft.rate("EP1", least_ampacity=None, largest_device=None)
    assert places(draft, RULE) == {("W1", "QF1")}


@pytest.mark.parametrize(
    ("place", "length", "hit"),
    [("vehicle", "18 in", False), ("vehicle", "3 ft", True), ("boat", "7 in", False),
     ("boat", "10 in", True)],
)  # fmt: skip
def test_a_tap_aboard_may_not_be_as_long_as_one_of_a_feeder(
    place: str, length: str, hit: bool
) -> None:
    # 552.10(E)(4): 18 in; ABYC E-11: 7 in; the 10 ft of 240.21(B)(1) are for feeders
    draft = Draft(place=place)
    draft.part("battery", "GB1", fault_current="3 kA")
    draft.part("fuse", "F1", rating="150 A", type="class_t")
    draft.seat("F1", "GB1", "post")
    draft.part("busbar", "WC1", bar="plus", rating="200 A")
    draft.run("F1.load", "WC1.feed", "W1", poles="+", size="2/0 AWG", length="3 ft")
    draft.part("fuse", "F2", rating="30 A", type="anl")
    draft.run("WC1.1", "F2.line", "W2", poles="+", size="10 AWG", length=length)
    draft.part("load", "EA1", power="120 W", **DC)
    draft.run("F2.load", "EA1.in", "W3", poles="+", size="10 AWG", length="6 ft")
    draft.run("GB1.dc", "EA1.in", "W4", poles="-", size="10 AWG", length="9 ft")
    assert (("W2", "F1") in places(draft, RULE)) is hit


@pytest.mark.parametrize(("poles", "hit"), [("L1>L L2>N PE", False), ("L1>N N>L PE", True)])
def test_a_neutral_that_a_mistake_makes_a_second_leg_is_not_sized(poles: str, hit: bool) -> None:
    """A 30 A outlet of 120 V wired with both legs: what follows on the trailer's neutrals is told
    by the voltage. Hot and neutral exchanged leave loads as they are, and the neutral of 12 AWG
    behind 30 A is told."""
    draft = Draft(place="recreational")
    draft.part("supply", "GS1", circuit="split", breaker="30 A", prospective="4 kA")
    draft.part("outlet", "XD1", configuration="TT-30")
    draft.run("GS1.out", "XD1.feed", "W1", poles=poles, size="10 AWG", length="30 ft")
    draft.part("plug", "XP1", configuration="TT-30")
    draft.seat("XP1", "XD1", "face")
    draft.part("panel", "QP2", main="30 A", bond="absent")
    draft.run("XP1.cord", "QP2.feed", "c", size="10 AWG", length="25 ft", installation="cord")
    draft.part("breaker", "QF2", rating="20 A")
    draft.seat("QF2", "QP2", "1")
    draft.part("load", "EA1", power="1200 W")
    draft.run("QF2.load", "EA1.in", "W2", size="12 AWG", length="10 ft")
    assert ("W2" in {place[0] for place in places(draft, RULE)}) == hit
    assert bool(found(draft, "voltage-wrong")) != hit


@pytest.mark.parametrize(
    ("watts", "breaker", "ratings", "told"),
    [
        # NFPA 70 422.11(E): 150 % of 18.75 A, the next rating above
        ("4500 W", "30 A", {}, False),
        ("4500 W", "40 A", {}, True),
        ("4500 W", "40 A", {"largest_device": "40 A"}, False),
        ("1200 W", "20 A", {}, False),
        ("1200 W", "30 A", {}, True),
    ],
)
def test_a_single_appliance_bounds_its_device(
    watts: str, breaker: str, ratings: dict[str, str], told: bool
) -> None:
    draft = Draft(place="building")
    draft.part("supply", "GS1", circuit="ac240", breaker="200 A", prospective="4 kA")
    draft.part("breaker", "QF1", circuit="ac240", rating=breaker, interrupting="10 kA")
    draft.seat("QF1", "GS1", "1")
    kind = "load" if ratings else "heater"
    draft.part(kind, "EA1", circuit="ac240", power=watts, **ratings)
    draft.run("QF1.load", "EA1.in", "W1", size="8 AWG", length="20 ft")
    assert places(draft, RULE) == ({("QF1", "EA1")} if told else set())
    if told:
        (finding,) = found(draft, RULE)
        assert (finding.level, finding.clause) == (Level.WARNING, "422.11(E)")
        assert not [f for f in cured(draft, finding).findings if f.rule == RULE]


def test_what_is_drawn_as_a_load_of_no_kind_may_stand_for_several() -> None:
    assert not found(branch("10 AWG", "30 A"), RULE)


def two_runs(second: str, breaker: str = "30 A") -> Draft:
    """A breaker, a run of 12 AWG to a box, a second run to the load."""
    d = branch("12 AWG", breaker)
    d.cut("W1")
    d.part("junction_box", "XJ1")
    d.run("QF1.load", "XJ1.a", "W1", size="12 AWG", length="20 ft")
    d.run("XJ1.b", "EA1.in", "W2", size=second, length="20 ft")
    return d


@pytest.mark.parametrize(
    ("second", "first", "below"), [("14 AWG", "W2", "W1"), ("12 AWG", "W1", "W2")]
)
def test_one_device_too_large_for_several_runs_is_one_finding(
    second: str, first: str, below: str
) -> None:
    draft = two_runs(second)
    shown = [f for f in analyse(draft.design).findings if f.rule == RULE]
    assert [f.subjects for f in shown] == [(first, "QF1")]
    assert [under.subjects for under in shown[0].consequences] == [(below, "QF1")]
    assert RULE not in {f.rule for f in cured(draft, shown[0]).findings}


def thin_lamp_wire(watts: str = "40 W") -> Draft:
    """The van's lamp on 18 AWG, which 6 A may protect (NFPA 70 table 552.10(E)(1)), behind a blade
    fuse; 6 A is no rating in which these are made: 5, 4, 3 A."""
    d = van()
    d.rate("F3", type="ato", rating="30 A", interrupting="20 kA")
    d.rate_run("W8", size="18 AWG", length="3 ft")
    d.rate("EL1", power=watts)
    return d


def test_a_fuse_that_nobody_makes_is_not_proposed_and_the_next_smaller_is() -> None:
    draft = thin_lamp_wire()
    (finding,) = found(draft, RULE)
    titles = [tried.mend.title for tried in ways(draft, finding)]
    assert titles[0] == "Make F3 5 A"
    assert "Make F3 6 A" not in titles
    assert not found_after(draft, finding)


def test_where_no_smaller_fuse_carries_the_load_it_is_a_thicker_wire() -> None:
    """5.5 A of lamps: more than the 5 A that is made, less than the 6 A that is not."""
    draft = thin_lamp_wire("66 W")
    (finding,) = found(draft, RULE)
    assert not [t for t in ways(draft, finding) if t.mend.title.startswith("Make F3")]
    assert not found_after(draft, finding)
