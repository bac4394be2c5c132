"""Something that power passes through, made for less current than it may get."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import change_settings
from linework.findings.model import Level
from tests.findings.camps import camp, caravan, changeover, house, levels
from tests.findings.told import cured, found, gaps, number, praise
from tests.trial.rigs import RIGS

RULE = "rating-exceeded"
DANGER, WARNING = Level.DANGER, Level.WARNING
WIRE = {"size": "10 AWG", "length": "10 ft"}


def circuit(breaker: str, configuration: str, *, outlets: int = 1, faces: str = "1") -> Draft:
    """Outlets of one configuration on one breaker of a camp."""
    d = camp()
    d.cut("W3")
    d.remove("XD1")
    d.rate("QF2", rating=breaker)
    before = "QF2.load"
    for number_of in range(1, outlets + 1):
        name = f"XD{number_of}"
        d.part("outlet", name, configuration=configuration, duplex=faces)
        d.run(before, f"{name}.feed", f"W{9 + number_of}", **WIRE)
        before = f"{name}.onward"
    return d


@pytest.mark.parametrize(
    ("breaker", "configuration", "faces", "level"),
    [
        # NFPA 70 (2023) table 210.21(B)(3): several outlets on one circuit
        ("15 A", "5-15", "2", None),
        ("15 A", "5-20", "2", WARNING),  # never over 15
        ("20 A", "5-15", "2", None),
        ("20 A", "5-20", "2", None),
        ("30 A", "5-15", "2", DANGER),
        ("30 A", "5-20", "2", DANGER),
        ("30 A", "5-30", "2", None),
        # 210.21(B)(1): a single one is not rated below its circuit
        ("15 A", "5-20", "1", None),
        ("20 A", "5-15", "1", WARNING),
        ("20 A", "5-20", "1", None),
        ("30 A", "TT-30", "1", None),
        ("30 A", "5-50", "1", None),
        ("30 A", "5-20", "1", DANGER),
        # a circuit that the table does not have
        ("25 A", "5-20", "2", DANGER),
        ("25 A", "5-30", "2", None),
    ],
)
def test_outlets_by_the_table(
    breaker: str, configuration: str, faces: str, level: Level | None
) -> None:
    d = circuit(breaker, configuration, faces=faces)
    assert levels(d, RULE) == ({} if level is None else {("XD1",): level})


@pytest.mark.parametrize(
    ("breaker", "configuration", "faces", "words"),
    [
        ("20 A", "5-15", "2", "among several outlets"),
        ("30 A", "5-50", "1", "may be larger"),
        ("20 A", "5-20", "2", ""),
        ("30 A", "5-20", "2", ""),
    ],
)
def test_outlets_that_people_doubt(
    breaker: str, configuration: str, faces: str, words: str
) -> None:
    told = praise(circuit(breaker, configuration, faces=faces), RULE)
    assert len(told) == bool(words)
    assert all(item.where == ("XD1",) and words in item.message for item in told)


def test_two_single_outlets_are_several() -> None:
    assert levels(circuit("20 A", "5-15", outlets=2), RULE) == {}
    assert levels(circuit("20 A", "5-15", outlets=1), RULE) == {("XD1",): WARNING}


def test_of_outlets_in_a_row_each_is_told_once_and_the_breaker_mends_it() -> None:
    d = circuit("30 A", "5-20", outlets=2, faces="2")
    hits = found(d, RULE)
    assert hits[0].level is DANGER
    assert number(hits[0], "rating of the device") == 30.0
    assert number(hits[0], "made for") == 20.0
    cured(d, hits[0])
    assert levels(d, RULE) == {}


def test_an_outlet_at_a_set_without_any_device_is_not_checked() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", power="5 kVA", neutral="bonded")
    d.part("outlet", "XD1", configuration="5-20")
    d.seat("XD1", "G1", "1")
    assert levels(d, RULE) == {}
    assert [gap.where for gap in gaps(d, RULE)] == [("XD1",)]


def test_a_set_too_small_to_overload_it_needs_none() -> None:
    """2 kVA at 120 V: 16.7 A, with 115 % for its conductors (445.13) 19.2 A."""
    d = Draft(place="field")
    d.part("generator", "G1", power="2 kVA", neutral="bonded")
    d.part("outlet", "XD1", configuration="5-20")
    d.seat("XD1", "G1", "1")
    assert (levels(d, RULE), gaps(d, RULE)) == ({}, [])


# what plugs in


def adapted(connector: str, breaker: str = "30 A", **adapter: str) -> Draft:
    """A load behind an adapter in the 30 A outlet of a caravan's set."""
    d = caravan()
    d.rate("QF1", rating=breaker)
    d.part("breaker", "QF9", rating=breaker)
    d.part("outlet", "XD9", configuration="TT-30")
    d.part("adapter", "XA1", configuration="TT-30", connector=connector, **adapter)
    d.rate("G1", outlets="3")
    d.seat("QF9", "G1", "3")
    d.seat("XD9", "QF9", "load")
    d.seat("XA1", "XD9", "face")
    return d


def test_a_15_a_mouth_behind_30_a() -> None:
    assert levels(adapted("5-15"), RULE) == {("XA1",): DANGER}
    assert levels(adapted("L5-30"), RULE) == {}


@pytest.mark.parametrize(("main", "level"), [("30 A", Level.NOTE), ("50 A", DANGER)])
def test_the_main_of_a_coach_bounds_what_an_adapter_carries(main: str, level: Level) -> None:
    """A 30 A coach on a 50 A post: its main keeps the load, nothing keeps a fault in the cord."""
    d = Draft(place="recreational")
    split = {"circuit": "split"}
    d.part("supply", "GS1", breaker="50 A", prospective="4 kA", **split)
    d.part("outlet", "XD1", configuration="14-50", **split)
    d.seat("XD1", "GS1", "1")
    ends = {"configuration": "14-50", "connector": "TT-30", "outlet_circuit": "ac"}
    d.part("adapter", "XA1", **split, **ends)
    d.seat("XA1", "XD1", "face")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XA1", "face")
    d.part("panel", "QP1", main=main, bus="100 A", bond="absent")
    d.run("XP1.cord", "QP1.feed", "W1", size="10 AWG", length="25 ft", installation="cord")
    d.part("load", "EA1", power="600 W")
    d.part("breaker", "QF1", rating="15 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.run("QF1.load", "EA1.in", "W2", size="14 AWG", length="10 ft")
    assert levels(d, RULE) == {("XA1",): level}


def test_a_breaker_in_the_adapter_cures_it() -> None:
    assert levels(adapted("5-15", breaker="30 A"), RULE) == {("XA1",): DANGER}
    d = adapted("5-15")
    d.rate("XA1", breaker="15 A")
    assert levels(d, RULE) == {}


def test_what_is_plugged_into_a_mouth_too_small_is_not_told_again() -> None:
    d = adapted("5-15")
    d.part("cord_set", "WX1", size="14 AWG", length="25 ft")
    d.seat("WX1", "XA1", "face")
    assert levels(d, RULE) == {("XA1",): DANGER}


@pytest.mark.parametrize(
    ("size", "marked", "level"),
    [
        # NFPA 70 (2023) 240.5(B): from 16 AWG on a circuit of 20 A
        ("12 AWG", None, None),
        ("16 AWG", None, None),
        ("18 AWG", None, DANGER),
        ("16 AWG", "10 A", None),
    ],
)
def test_cord_sets_on_a_circuit_of_20_a(size: str, marked: str | None, level: Level | None) -> None:
    d = caravan()
    d.part("cord_set", "WX1", size=size, length="25 ft", **({"marked": marked} if marked else {}))
    d.seat("WX1", "XD2", "face")
    assert levels(d, RULE) == ({} if level is None else {("WX1",): level})


@pytest.mark.parametrize(("watts", "told"), [("1500 W", False), ("1600 W", True)])
def test_the_current_of_a_load_in_a_cord_set(watts: str, told: bool) -> None:
    """Table 400.5(A)(1): two conductors of 16 AWG carry 13 A, 1,560 W at 120 V."""
    d = caravan()
    d.part("cord_set", "WX1", size="16 AWG", length="1 ft")
    d.seat("WX1", "XD2", "face")
    d.part("plug_load", "EP1", power=watts)
    d.seat("EP1", "WX1", "face")
    hits = found(d, RULE)
    assert [(h.subjects, h.level) for h in hits] == ([(("WX1",), DANGER)] if told else [])
    if told:
        assert number(hits[0], "current") == pytest.approx(13.3, abs=0.1)


@pytest.mark.parametrize(
    ("size", "length", "marked", "level"),
    [
        # makers mark 16 AWG for 13 A up to 50 ft and for 10 A at 100 ft (from memory)
        ("16 AWG", "100 ft", None, Level.WARNING),
        ("16 AWG", "50 ft", None, None),
        ("16 AWG", "100 ft", "13 A", None),
        ("16 AWG", "100 ft", "10 A", DANGER),
        ("14 AWG", "100 ft", None, None),
    ],
)
def test_a_long_thin_cord_counts_with_what_makers_mark(
    size: str, length: str, marked: str | None, level: Level | None
) -> None:
    """By hand: 12.5 A in 100 ft of 16 AWG, out and back 1.0 ohm at 75 C, are some 150 W."""
    d = caravan()
    mark = {} if marked is None else {"marked": marked}
    d.part("cord_set", "WX1", size=size, length=length, **mark)
    d.seat("WX1", "XD2", "face")
    d.part("plug_load", "EP1", power="1500 W")
    d.seat("EP1", "WX1", "face")
    assert levels(d, RULE) == ({} if level is None else {("WX1",): level})
    if level is not None:
        (hit,) = found(d, RULE)
        assert number(hit, "heat along it") == pytest.approx(135.0, rel=0.1)


# what is built in


@pytest.mark.parametrize(("rating", "level"), [("30 A", None), ("15 A", DANGER)])
def test_a_transfer_switch_below_the_breaker_before_it(rating: str, level: Level | None) -> None:
    d = changeover()
    d.rate("QT1", rating=rating)
    assert levels(d, RULE) == ({} if level is None else {("QT1",): level})


def test_the_main_behind_it_bounds_its_load_but_no_fault() -> None:
    d = changeover()
    d.rate("QT1", rating="20 A")
    d.rate("QP1", main="20 A")
    assert levels(d, RULE) == {("QT1",): WARNING}


def test_a_rating_that_is_only_assumed_is_not_checked() -> None:
    d = changeover()
    d.rate("GS1", breaker="60 A")
    assert levels(d, RULE) == {}
    assert ("QT1", "GS1") in {gap.where for gap in gaps(d, RULE)}


@pytest.mark.parametrize(("bus", "level"), [("30 A", None), ("25 A", DANGER)])
def test_a_bus_below_the_device_before_it(bus: str, level: Level | None) -> None:
    """NFPA 70 (2023) 408.36."""
    d = camp()
    d.rate("QP1", bus=bus)
    assert levels(d, RULE) == ({} if level is None else {("QP1",): level})


def test_of_several_in_a_row_the_first_is_told() -> None:
    d = caravan()
    d.rate("QF1", rating="50 A")
    assert levels(d, RULE) == {("XD1",): DANGER}


@pytest.mark.parametrize(("breaker", "told"), [("30 A", False), ("50 A", True)])
def test_more_load_than_an_inlet_stands_behind_a_device_that_opens_first(
    breaker: str, told: bool
) -> None:
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker=breaker, prospective="2 kA")
    d.part("inlet", "XI1", configuration="TT-30")
    d.run("GS1.out", "XI1.outside", size="6 AWG", length="10 ft")
    d.part("load", "EA1", power="4800 W")
    d.run("XI1.inside", "EA1.in", size="6 AWG", length="10 ft")
    assert bool([f for f in found(d, RULE) if f.subjects == ("XI1",)]) is told
    assert bool(found(d, "device-below-load")) is not told


@pytest.mark.parametrize(("relay", "level"), [("30 A", DANGER), ("50 A", None)])
def test_the_relay_of_an_inverter_charger(relay: str, level: Level | None) -> None:
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker="50 A", prospective="4 kA")
    d.part("inverter_charger", "TB1", power="2 kVA", transfer=relay)
    d.run("GS1.out", "TB1.ac_in", "W1", size="6 AWG", length="10 ft")
    d.part("panel", "QP1", bond="absent", bus="60 A")
    d.run("TB1.ac_out", "QP1.feed", "W2", size="6 AWG", length="10 ft")
    d.part("load", "EA1", power="600 W")
    d.part("breaker", "QF1", rating="20 A", interrupting="10 kA")
    d.part("breaker", "QF2", rating="20 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.seat("QF2", "QP1", "2")
    d.run("QF1.load", "EA1.in", "W3", size="12 AWG", length="10 ft")
    assert levels(d, RULE) == ({} if level is None else {("TB1",): level})


@pytest.mark.parametrize(("rating", "level"), [("20 A", None), ("15 A", DANGER)])
def test_an_isolator(rating: str, level: Level | None) -> None:
    d = camp()
    d.cut("W3")
    d.part("isolator", "QS1", rating=rating)
    d.run("QF2.load", "QS1.line", "W3", size="12 AWG", length="10 ft")
    d.run("QS1.load", "XD1.feed", "W8", size="12 AWG", length="10 ft")
    assert levels(d, RULE) == ({} if level is None else {("QS1",): level})


@pytest.mark.parametrize(("breaker", "level"), [("16 A", None), ("20 A", DANGER)])
def test_elsewhere_an_outlet_is_not_rated_below_its_device(
    breaker: str, level: Level | None
) -> None:
    """IEC 60364-4-43 433.1: the device is not larger than what it protects."""
    d = camp("recreational")
    elsewhere = {"family": "INT", "voltage": "230 V", "frequency": "50 Hz"}
    d.design.apply(change_settings(d.design, **elsewhere))
    d.rate("XD1", configuration="CEE7-3")
    d.rate("QF2", rating=breaker)
    assert levels(d, RULE) == ({} if level is None else {("XD1",): level})


@pytest.mark.parametrize("others", [0, 1])
def test_a_post_with_several_outlets_has_breakers_that_are_not_drawn(others: int) -> None:
    """With one outlet the breaker at the supply is its own; with two there are more in truth."""
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker="50 A", prospective="4 kA")
    d.part("outlet", "XD1", configuration="TT-30")
    d.seat("XD1", "GS1", "1")
    if others:
        d.part("outlet", "XD2", configuration="5-20")
        d.seat("XD2", "GS1", "2")
    assert levels(d, RULE) == ({} if others else {("XD1",): DANGER})
    assert {gap.where for gap in gaps(d, RULE)} == ({("XD1",), ("XD2",)} if others else set())


@pytest.mark.parametrize("given", [True, False])
def test_a_bus_that_carries_more_than_it_is_made_for(given: bool) -> None:
    """By hand: 13 kW at 120 V take some 108 A; a bus of which nobody says anything may have 100."""
    d = camp(power="40 kVA")
    d.rate("G1", breaker=None)
    d.rate("QP1", bus="100 A" if given else None)
    d.rate_run("W1", size="4/0 AWG")
    d.rate("QF1", rating="125 A")
    d.rate_run("W2", size="4/0 AWG")
    d.rate("EA1", power="13 kW")
    assert levels(d, RULE) == ({("QP1",): DANGER} if given else {})
    assert (("QP1",) in {gap.where for gap in gaps(d, RULE)}) is not given


@pytest.mark.parametrize(
    ("breaker", "configuration", "hit"),
    [("15 A", "5-20", False), ("20 A", "5-20", False), ("30 A", "5-20", True)],
)
def test_the_outlet_of_a_set_behind_its_own_breaker(
    breaker: str, configuration: str, hit: bool
) -> None:
    """A maker may fit a duplex outlet of 20 A behind 15 A; elsewhere the table asks for 15 A."""
    d = Draft(place="vehicle")
    d.part("generator", "G1", power="4 kVA", neutral="bonded")
    d.part("breaker", "QF1", rating=breaker)
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", configuration=configuration, duplex="2")
    d.seat("XD1", "QF1", "load")
    assert bool(found(d, RULE)) is hit
    assert bool(found(circuit("15 A", "5-20", faces="2"), RULE))
    assert ("both are built into the source" in " ".join(p.message for p in praise(d, RULE))) == (
        breaker == "15 A"
    )


@pytest.mark.parametrize("breaker", ["15 A", "20 A"])
def test_the_adapter_of_a_coach_at_the_outlet_of_a_house(breaker: str) -> None:
    """What the breaker of the house lets through is no more than the adapter's plug is made for
    (15 A belong on circuits of 20 A too), whatever its mouth and the main of the coach say."""
    d = house()
    d.cut("W2")
    d.remove("EA1")
    d.rate("QF1", rating=breaker)
    d.part("outlet", "XD1", configuration="5-15", ground_fault="class_a")
    d.run("QF1.load", "XD1.feed", "W2", size="12 AWG", length="20 ft")
    d.part("adapter", "XA1", configuration="5-15", connector="TT-30")
    d.seat("XA1", "XD1", "face")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XA1", "face")
    d.part("panel", "QP2", main="30 A", bus="100 A", bond="absent")
    d.run("XP1.cord", "QP2.feed", "c", size="10 AWG", length="25 ft", installation="cord")
    d.part("breaker", "QF2", rating="15 A", interrupting="10 kA")
    d.seat("QF2", "QP2", "1")
    d.part("load", "EA2", power="1200 W")
    d.run("QF2.load", "EA2.in", "W3", size="14 AWG", length="10 ft")
    assert levels(d, RULE) == {}


@pytest.mark.parametrize(
    ("main", "outlet", "told"),
    [("30 A", True, True), ("15 A", True, False), ("30 A", False, False)],
)
def test_an_inlet_of_15_a_on_a_circuit_of_20_a(main: str, outlet: bool, told: bool) -> None:
    """One charger behind it takes what its plug may carry; several outlets may take more."""
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker="20 A", outage="no")
    d.part("outlet", "XD1", configuration="5-20")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="5-15")
    d.run("XP1.cord", "XI1.outside", "W1", size="12 AWG", length="25 ft", installation="cord")
    d.part("panel", "QP1", main=main, bond="absent")
    d.run("XI1.inside", "QP1.feed", "W2", size="12 AWG", length="4 ft")
    d.part("breaker", "QF1", rating="15 A")
    d.seat("QF1", "QP1", "1")
    if outlet:
        d.part("outlet", "XD2", configuration="5-15")
        d.run("QF1.load", "XD2.feed", "W3", size="14 AWG", length="10 ft")
    else:
        d.part("charger", "TB1", current="20 A")
        d.run("QF1.load", "TB1.ac_in", "W3", size="14 AWG", length="10 ft")
    assert (("XI1",) in levels(d, RULE)) is told


def test_a_board_that_a_converter_overloads_past_no_device() -> None:
    # TB2 gives 30 A and 25 % over; the board's two fuses of 10 A let 20 A on
    draft = RIGS["expedition_truck"]()
    assert found(draft, RULE) == []
    draft.rate("QP2", bus="15 A")
    (only,) = found(draft, RULE)
    assert (only.subjects, only.level) == (("QP2",), Level.DANGER)
    assert "TB2 gives it up to 37.5 A past no device" in only.message
    draft.rate("QP2", bus="20 A")
    assert found(draft, RULE) == []


def coach(bus: str | None, **fuse: str) -> Draft:
    """A board of 12 V that a converter feeds past no device, its circuits behind 10 A each."""
    draft = RIGS["expedition_truck"]()
    draft.rate("QP2", bus=bus)
    if fuse:
        draft.rate("TB2", current="200 A")
        draft.rate("F11", **fuse)
    return draft


def test_a_board_that_a_converter_overloads_past_all_devices() -> None:
    """30 A and what is let through beyond, against two fuses of 10 A behind the board."""
    (only,) = found(coach("15 A"), "rating-exceeded")
    assert (only.subjects, only.level) == (("QP2",), Level.DANGER)
    assert "past no device" in only.message
    assert not found(coach("25 A"), "rating-exceeded")


def test_one_whose_rating_nobody_gave_is_left_open_and_told() -> None:
    assert not gaps(coach(None), "rating-exceeded")
    told = gaps(coach(None, rating="150 A"), "rating-exceeded")
    assert any(
        "QP2 is not given" in each.reason and "past no device" in each.reason for each in told
    )
