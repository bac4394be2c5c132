"""Load calculation, motor starting and source data say what the analysis and the cards say."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.handover.banks import beside, devices_at, disconnects_at, string_of
from linework.handover.circuits import Branch, branches, free_spans, leg_amps, unbalance
from linework.handover.dwelling_pages import dwellings
from linework.handover.loads_pages import load_calculation
from linework.handover.panels import guards, panel_schedules
from linework.handover.sources_pages import source_data
from linework.handover.starting_pages import motor_starting
from tests.handover.drawn import plain
from tests.handover.test_schedules import ROOM, content, of, words


def board(**supply: str) -> Draft:
    """A dwelling's board with a heater for hours, a motor, a lamp and a guarded outlet."""
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", breaker="100 A", **supply)
    d.part("panel", "QP1", circuit="split", bond="fitted", main="100 A", bus="100 A", places="8")
    d.run("GS1.out", "QP1.feed", "W1", size="4 AWG", length="1 ft")
    for place, device in (
        ("1", {"rating": "20 A"}),
        ("2", {"rating": "20 A"}),
        ("3", {"rating": "15 A", "arc_fault": "combination"}),
        ("4", {"rating": "20 A", "arc_fault": "combination", "ground_fault": "class_a"}),
    ):
        d.part("breaker", f"QF{place}", **device)
        d.seat(f"QF{place}", "QP1", place)
    d.part("heater", "EH1", power="1200 W", continuous="yes", dwelling_use="heating")
    d.part("motor", "MA1", power="480 W", power_factor="1", start_current="24 A")
    d.part("lamp", "EL1", power="120 W")
    d.part("outlet", "XD1", ground_fault="class_a")
    for place, end in (("1", "EH1.in"), ("2", "MA1.in"), ("3", "EL1.in"), ("4", "XD1.feed")):
        d.run(f"QF{place}.load", end, f"W1{place}", size="12 AWG", length="1 ft")
    return d


# panels


def test_what_guards_a_circuit_beside_its_overcurrent_device() -> None:
    made = of(board())
    told = {
        b.device.designation: guards(made, b.device, b.fed)
        for b in branches(made, "QP1")
        if b.device is not None
    }
    assert told == {"QF1": "", "QF2": "", "QF3": "AFCI", "QF4": "GFCI + AFCI, GFCI at XD1"}


def test_long_loads_count_125_percent_on_their_leg() -> None:
    made = of(board())
    listed = branches(made, "QP1")
    # places 1 and 2 lie on L1, 3 and 4 on L2: 10 A for hours beside 4 A, and 1 A
    plain, counted = leg_amps(made, listed), leg_amps(made, listed, 0.25)
    assert plain["L1"] == pytest.approx(14.0, rel=0.01)
    assert counted["L1"] == pytest.approx(16.5, rel=0.01)
    assert counted["L2"] == pytest.approx(plain["L2"])
    assert unbalance(made, listed) == pytest.approx(13.0, rel=0.01)
    told = words(panel_schedules(made, ROOM))
    assert "16.4 A with long loads at 125 %" in told
    assert "of the main of 100 A" in told


def test_a_circuit_that_brings_power_is_no_load_of_its_board() -> None:
    made = plain("house_with_interlock")
    listed = branches(made, "QP1")
    (inlet,) = [b for b in listed if b.device and b.device.designation == "QF7"]
    assert inlet.feeds_in
    assert [part.designation for part in inlet.fed] == ["XI1"]
    # on the set nothing but the loads counts: no leg carries more than it gives
    most = {
        leg: max(
            sum(
                max(r.run_a.get((b.run.id, str(p)), 0.0) for p in ("L", "L1", "L2"))
                for b in listed
                if b.run is not None and leg in map(str, b.legs) and b is not inlet
            )
            for r in made.reports
        )
        for leg in ("L1", "L2")
    }
    assert leg_amps(made, listed) == pytest.approx(most)
    assert "feeds the board: XI1" in words(panel_schedules(made, ROOM))


def test_loads_of_a_board_further_on_count_with_those_of_the_first() -> None:
    made = plain("house_with_barn")
    total = sum(b.va for b in branches(made, "QP2"))
    (barn,) = [b for b in branches(made, "QP1") if b.device and b.device.designation == "QF4"]
    assert total > 1000.0
    assert barn.va == pytest.approx(total)


def test_a_main_of_which_nobody_told_the_interrupting_rating_is_marked() -> None:
    told = words(panel_schedules(of(board()), ROOM))
    assert "main [5 kA]" in told
    draft = board()
    draft.rate("QP1", main_interrupting="10 kA")
    assert "main 10 kA" in words(panel_schedules(of(draft), ROOM))


def test_a_device_that_interrupts_less_than_the_fault_is_marked() -> None:
    draft = board(prospective="20 kA")
    draft.rate("QP1", main_interrupting="5 kA")
    assert "main 5 kA (less than the fault)" in words(panel_schedules(of(draft), ROOM))


def test_what_a_circuit_of_two_poles_carries_counts_on_each_leg_by_itself() -> None:
    """An inverter that is fed with two hot conductors takes more on one than on the other."""
    made = content("mountain-hut")
    taken = leg_amps(made, branches(made, "QP1"))
    gives = {
        s.name: max(x.amps for r in made.reports for x in r.sources if x.name == s.name)
        for r in made.reports
        for s in r.sources
        if s.part == "G1"
    }
    assert taken["L1"] == pytest.approx(gives["winding L1"], rel=5e-3)
    assert taken["L2"] == pytest.approx(gives["winding L2"], rel=5e-3)
    apart = unbalance(made, branches(made, "QP1"))
    assert apart == pytest.approx(gives["winding L2"] - gives["winding L1"], abs=0.1)


def test_a_circuit_that_goes_on_in_an_inverter_takes_what_flows_in_it() -> None:
    """Not what the inverter takes from its battery."""
    made = content("mountain-hut")
    rows = {b.device.designation: b for b in branches(made, "QP1") if b.device}
    # both legs of the set on its worst state, 120 V each
    assert rows["QF1"].va == pytest.approx(120.0 * (32.93 + 33.61), rel=0.01)
    # the way past the inverter: 19.8 and 20.5 A
    assert rows["QF2"].va == pytest.approx(120.0 * (19.81 + 20.45), rel=0.01)
    trailer = content("vaccination-trailer")
    (fed,) = [b for b in branches(trailer, "QP1") if b.device and b.device.designation == "QF4"]
    assert fed.va == pytest.approx(120.0 * fed.amps, rel=1e-3)


def test_free_places_are_parted_by_what_takes_the_place_between() -> None:
    made = content("mountain-hut")
    free = [item for item in free_spans(branches(made, "QP2")) if not isinstance(item, Branch)]
    assert free == [("8",), ("10",), ("12",)]


# load calculation


def test_what_a_battery_is_charged_with_is_not_what_it_gives() -> None:
    told = words(load_calculation(content("vaccination-trailer"), ROOM))
    # on the inverter: 429 VA at 90 % and the 12 V board; on shore by day: 60 and 30 A less 8.7
    assert "| GB1 | cells | 50 |" in told
    assert "| GB1 | charged with | 81.3 |" in told


def test_what_counts_is_explained_only_where_something_counts() -> None:
    assert "430.24" not in words(load_calculation(content("weather-station"), ROOM))
    assert "430.24" in words(load_calculation(content("mountain-hut"), ROOM))


def test_a_source_counts_long_loads_and_its_largest_motor_with_a_quarter_more() -> None:
    made = of(board())
    needed = {
        (s.part, s.name): s.needed for r in made.reports for s in r.sources if s.needed.amps > 0.1
    }
    leg = needed["GS1", "source L1"]
    assert (leg.amps, leg.long_a, leg.motor_a) == pytest.approx((14.0, 10.0, 4.0), rel=0.01)
    assert leg.motor == "MA1"
    told = words(load_calculation(made, ROOM))
    # 14 + 2.5 + 1 A, of the 100 A of its own breaker
    assert "| 13.9 | 10 | 4 MA1 | 17.5 | 100 | 18 |" in told
    assert "NFPA 70 (2023) 430.24" in told


def test_a_dwelling_is_calculated_line_by_line() -> None:
    made = of(board(serves="dwelling", floor_area="1000 ft2"))
    told = words(dwellings(made, ROOM))
    # 3000 + 4500 VA: 3000 + 0.35 x 4500; the heater besides, the motor in full and a quarter more
    assert "lighting and outlets, 1000 ft² | 3000 |" in told
    assert "of these the next 117000 VA | 4500 | 1575 | Table 220.45 (not confirmed)" in told
    assert "heating: EH1 | 1200 | 1200 |" in told
    assert "in full, use not said: MA1 | 480 | 480 |" in told
    assert f"| {3000 + 1575 + 1200 + 480 + 120:.0f} |" in told
    assert "service of one dwelling 100 A at least (230.79(C))" in told
    assert "Optional method, 220.82" in told


def test_the_optional_method_begins_at_100_a() -> None:
    draft = board(serves="dwelling", floor_area="1000 ft2")
    draft.rate("GS1", breaker="60 A")
    told = words(dwellings(of(draft), ROOM))
    assert "Not by the optional method: it begins at 100 A" in told
    assert "Optional method, 220.82" not in told


def test_without_a_floor_area_it_is_said_that_no_method_was_used() -> None:
    told = words(dwellings(of(board(serves="dwelling")), ROOM))
    assert "they need the floor area, which the card of GS1 does not give" in told
    assert "VA" not in told


def test_nothing_is_said_of_a_dwelling_where_nobody_said_that_it_is_one() -> None:
    assert dwellings(of(board(floor_area="1000 ft2")), ROOM) == []


def test_a_boat_is_not_counted_by_rules_for_buildings() -> None:
    told = words(load_calculation(plain("ketch"), ROOM))
    assert "NFPA" not in told
    assert "counts A" not in told
    assert "ABYC E-11" in told


def test_on_direct_current_alone_nothing_is_said_of_what_is_added() -> None:
    told = words(load_calculation(content("beekeepers-trailer"), ROOM))
    assert "All drawn loads on together" in told
    assert "largest motor" not in told


def test_a_vehicle_needs_a_supply_by_its_circuits() -> None:
    told = words(load_calculation(plain("tiny_house"), ROOM))
    assert "4 on alternating current ask for a supply of 30 A at least; inlets: XI1 30 A" in told


# motor starting


def test_a_motor_takes_voltage_from_itself_and_from_the_lamps() -> None:
    draft = board(prospective="400 A", x_over_r="0.5")
    made = of(draft)
    (start,) = {s for r in made.reports for s in r.starts}
    assert (start.motor, start.source, start.start_a) == ("MA1", "GS1", 24.0)
    assert start.surge_a is None
    # the lamp lies on the other leg: its voltage does not fall with that of the motor
    assert start.lights_v is not None
    assert start.motor_v < 0.98 * start.lights_v
    told = words(motor_starting(made, ROOM))
    assert "MA1 | 24 | GS1" in told
    assert "see voltage" in told


def test_batteries_in_series_start_a_motor_together() -> None:
    told = words(motor_starting(plain("orchard_pump"), ROOM))
    assert told.count("MA1 pump") == 1
    assert "| GB1, GB2, GB3, GB4 |" in told


def test_a_lamp_on_the_same_leg_falls_with_the_motor() -> None:
    draft = board(prospective="400 A")
    draft.part("breaker", "QF5", rating="15 A")
    draft.seat("QF5", "QP1", "5")
    draft.part("lamp", "EL2", power="60 W")
    draft.run("QF5.load", "EL2.in", "W15", size="12 AWG", length="1 ft")
    (start,) = {s for r in of(draft).reports for s in r.starts}
    # place 5 lies on L1: all that both share is lost to both
    assert start.lights_v == pytest.approx(start.motor_v, rel=0.01)


def test_an_inverter_that_does_not_hold_is_told() -> None:
    d = Draft(place="vehicle")
    d.part("battery", "GB1", capacity="300 Ah", fault_current="5 kA")
    d.part("fuse", "F1", rating="200 A", type="class_t")
    d.part("inverter", "TB1", power="1000 VA", neutral="bonded", surge="2000 VA")
    d.run("GB1.dc", "F1.line", "W1", size="4/0 AWG", length="1 ft")
    d.run("F1.load", "TB1.dc", "W2", size="4/0 AWG", length="1 ft")
    d.part("motor", "MA1", power="400 W", start_current="20 A")
    d.run("TB1.ac_out", "MA1.in", "W3", size="12 AWG", length="3 ft")
    told = words(motor_starting(of(d), ROOM))
    assert "| TB1 |" in told
    assert "| 16.7 | no |" in told  # 2000 VA at 120 V
    d.rate("TB1", surge="3000 VA")
    assert "| 25 | yes |" in words(motor_starting(of(d), ROOM))


# source data


def test_source_data_of_a_sample() -> None:
    told = words(source_data(content("vaccination-trailer"), ROOM))
    assert "generator | continuous | voltage | neutral | outlets" in told
    assert "G1 generator | 5 kVA | 120 V" in told
    # two of 24.3 V in series, 0.4 % more for each of 55 degrees below 25
    assert "2 in series × 1" in told
    assert "GB1 | lithium iron phosphate | 12 V | 300 Ah" in told
    assert "| F1 | QB1" in told


def test_a_supply_stands_among_the_sources_with_the_fault_that_was_assumed() -> None:
    told = words(source_data(content("vaccination-trailer"), ROOM))
    assert "supply | voltage | breaker | short circuit | X / R | neutral | outlets" in told
    assert "GS1 shore | 120 V | 30 A | [500 A / 2 kA / 10 kA] | [0.5] |" in told


def test_fuel_and_seconds_are_printed_where_they_are_given() -> None:
    d = Draft(place="field")
    d.part("generator", "G1", power="3 kVA", neutral="floating")
    told = words(source_data(of(d), ROOM))
    assert "fuel" not in told
    d.rate("G1", fuel="diesel", surge="3500 VA", surge_time="10 s")
    told = words(source_data(of(d), ROOM))
    assert "3.5 kVA | 10 s" in told or "3500 VA | 10 s" in told
    assert "diesel" in told


def bank(second_on: str) -> Draft:
    d = Draft(place="vehicle")
    d.part("battery", "GB1", capacity="100 Ah")
    d.part("battery", "GB2", capacity="100 Ah")
    d.part("fuse", "F1", rating="100 A", type="class_t")
    d.part("battery_disconnect", "QB1")
    d.part("load", "EA1", circuit="dc", voltage="12 V", power="48 W")
    d.run("GB1.dc", "F1.line", "W1", size="2 AWG", length="1 ft")
    d.run("F1.load", "QB1.line", "W2", size="2 AWG", length="1 ft")
    d.run("QB1.load", "EA1.in", "W3", size="10 AWG", length="3 ft")
    d.run("GB2.dc", second_on, "W4", size="2 AWG", length="1 ft")
    return d


def test_batteries_in_parallel_by_their_wires_not_by_their_voltage() -> None:
    made = of(bank("GB1.dc"))
    assert beside(made, ("GB1",)) == "in parallel with GB2"
    assert devices_at(made, ("GB1",)) == ["F1"]
    assert disconnects_at(made, ("GB1",)) == ["QB1"]
    # a boat's two batteries, of which a lever takes one or both, are no bank
    boat = plain("ketch")
    assert beside(boat, string_of(boat, boat.design.part("GB1"))) == ""


def test_a_fuse_on_the_post_of_a_battery_is_its_fuse() -> None:
    made = content("beekeepers-trailer")
    assert devices_at(made, ("GB1",)) == ["F1"]
    assert disconnects_at(made, ("GB1",)) == ["QB1"]


def test_batteries_in_series() -> None:
    d = Draft(place="vehicle")
    d.part("battery", "GB1", capacity="100 Ah")
    d.part("battery", "GB2", capacity="100 Ah")
    d.part("fuse", "F1", rating="100 A", type="class_t")
    d.part("load", "EA1", circuit="dc", voltage="24 V", power="48 W")
    d.run("GB1.dc", "F1.line", "W1", size="2 AWG", length="1 ft", poles="+>+")
    d.run("F1.load", "EA1.in", "W2", size="10 AWG", length="3 ft", poles="+>+")
    d.run("GB1.dc", "GB2.dc", "W3", size="2 AWG", length="1 ft", poles="->+")
    d.run("GB2.dc", "EA1.in", "W4", size="10 AWG", length="3 ft", poles="->-")
    made = of(d)
    string = string_of(made, made.design.part("GB2"))
    assert string == ("GB1", "GB2")
    assert beside(made, string) == "2 in series"
    # what protects the string lies at the plus of its first
    assert devices_at(made, string) == ["F1"]
    told = words(source_data(made, ROOM))
    assert "GB1, GB2 |" in told
    assert "| 2 in series |" in told
    d.rate("GB2", capacity="120 Ah")
    other = of(d)
    assert beside(other, ("GB1",)) == "in series with GB2"
