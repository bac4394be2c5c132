"""A portable power station: cords and a tool, a caravan's inlet; sound, and with one mistake."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import Answer
from tests.cases.judged import Judged
from tests.findings.banks import PLATE
from tests.findings.test_enumeration import assert_as_enumerated
from tests.findings.test_windings import told
from tests.findings.told import found, gaps, number

CORD = {"size": "12 AWG", "installation": "cord"}


def on_a_tool(load: str = "900 W", neutral: str = "floating") -> Draft:
    """A tool on a cord in one of its outlets."""
    d = Draft(place="field")
    d.part("power_station", "GB1", power="1.8 kVA", neutral=neutral)
    d.part("outlet", "XD1", configuration="5-15")
    d.seat("XD1", "GB1", "1")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", "XD1", "face")
    d.part("load", "EA1", power=load)
    d.run("XP1.cord", "EA1.in", "c", length="25 ft", **CORD)
    return d


def on_a_caravan(neutral: str = "bonded", second: str = "absent") -> Draft:
    """A caravan's cord in its outlet."""
    d = Draft(place="recreational")
    d.part("power_station", "GB1", power="3.6 kVA", neutral=neutral)
    d.part("outlet", "XD1", configuration="TT-30")
    d.seat("XD1", "GB1", "1")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="TT-30")
    d.run("XP1.cord", "XI1.outside", "c", length="25 ft", size="10 AWG", installation="cord")
    d.part("panel", "QP1", main="30 A", bond=second)
    d.run("XI1.inside", "QP1.feed", "f", size="10 AWG", length="3 ft")
    d.part("body", "XB1", name="chassis")
    d.run("QP1.ground", "XB1.tie", "s", size="8 AWG", length="2 ft", installation="jumper")
    d.part("breaker", "QF1", rating="15 A")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="700 W")
    d.run("QF1.load", "EA1.in", "m", size="14 AWG", length="15 ft")
    return d


def test_a_tool_on_a_floating_station_is_sound() -> None:
    assert told(on_a_tool()) == set()
    notes = found(on_a_tool(), "bond-missing")
    assert [f.level for f in notes] == [Level.NOTE]


def test_a_load_above_its_rating() -> None:
    assert ("source-overloaded", ("GB1",)) in told(on_a_tool("2400 W"))


def test_a_caravan_on_a_bonded_station_is_sound() -> None:
    assert told(on_a_caravan()) == set()


def test_a_caravan_on_a_floating_station_has_no_link() -> None:
    assert ("bond-missing", ("GB1",)) in told(on_a_caravan("floating"))


def test_a_second_link_in_the_caravan() -> None:
    assert "bond-doubled" in {rule for rule, _ in told(on_a_caravan(second="fitted"))}


def in_a_camper(outlet: str = "XD9", load: str = "700 W", **station: Answer) -> Draft:
    """One that a site, a module on the roof and the vehicle's socket charge, a kettle on it and a
    cool box in its socket of 12 V."""
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker="20 A", prospective="1 kA", outage="no")
    d.part("outlet", "XD9", configuration="5-20")
    d.seat("XD9", "GS1", "1")
    own: dict[str, Answer] = {"power": "1.8 kVA", "neutral": "floating", "charge_power": "600 W"}
    own |= {"pv_voltage": "60 V", "pv_current": "12 A", "dc_current": "10 A"}
    d.part("power_station", "GB1", **(own | station))
    d.part("outlet", "XD1", configuration="5-15")
    d.seat("XD1", "GB1", "1")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", outlet, "face")
    d.run("XP1.cord", "GB1.ac_in", "c", length="6 ft", **CORD)
    if outlet == "XD9":
        d.part("plug_load", "EP1", power=load, configuration="5-15")
        d.seat("EP1", "XD1", "face")
    d.part("plug", "XP2", circuit="dc", configuration="12V socket")
    d.seat("XP2", "GB1", "dc_out")
    d.part("load", "EA1", circuit="dc", power="60 W", voltage="12 V")
    d.run("XP2.cord", "EA1.in", "e", length="6 ft", size="14 AWG", installation="cord")
    d.part("solar_array", "GP1", **(PLATE | {"series": "1", "strings": "1"}))
    d.run("GP1.dc", "GB1.pv", "s", length="15 ft", size="10 AWG")
    _vehicle(d)
    return d


def _vehicle(d: Draft) -> None:
    d.part("battery", "GB2", capacity="70 Ah", chemistry="flooded", fault_current="2 kA")
    d.part("fuse", "F1", rating="15 A", type="mrbf", interrupting="10 kA", voltage="14 V")
    d.part("outlet", "XD3", circuit="dc", configuration="12V socket")
    d.run("GB2.dc", "F1.line", "v1", length="0.5 ft", size="12 AWG")
    d.run("F1.load", "XD3.feed", "v2", length="8 ft", size="12 AWG")
    d.part("plug", "XP3", circuit="dc", configuration="12V socket")
    d.seat("XP3", "XD3", "face")
    d.run("XP3.cord", "GB1.dc_in", "v3", length="6 ft", size="14 AWG", installation="cord")


def test_one_in_a_camper_is_sound() -> None:
    assert told(in_a_camper()) == set()


def test_a_site_gives_what_it_charges_with_and_what_it_passes_on() -> None:
    # 600 W at a power factor of 0.95 and 700 W: 1300 W, less what the cord loses
    draft = in_a_camper()
    report = Judged(draft).report("GB1=on", "XP1=XD9", "XP2=GB1")
    given = {s.part: s.watts for s in report.sources if s.part == "GS1"}
    assert given["GS1"] == pytest.approx(1300.0, rel=0.03)


def test_one_that_does_not_pass_it_on_gives_itself_what_hangs_on_it() -> None:
    report = Judged(in_a_camper(through="no")).report("GB1=on", "XP1=XD9", "XP2=GB1")
    given = {s.part: s.watts for s in report.sources if s.name.startswith(("source", "inverter"))}
    assert given["GS1"] == pytest.approx(600.0, rel=0.03)
    assert given["GB1"] == pytest.approx(700.0, rel=0.03)


def test_it_charges_and_passes_on_more_than_the_outlet_of_the_site_gives() -> None:
    rules = told(in_a_camper(load="900 W", charge_power="1800 W"))
    assert {("source-overloaded", ("GS1",)), ("rating-exceeded", ("XP1",))} <= rules


def test_modules_in_a_row_beyond_the_voltage_of_its_input() -> None:
    draft = in_a_camper()
    draft.rate("GP1", series="3")
    (finding,) = found(draft, "string-voltage-high")
    assert (finding.level, finding.subjects) == (Level.DANGER, ("GP1", "GB1"))


@pytest.mark.parametrize(
    ("missing", "rule"),
    [("pv_voltage", "string-voltage-high"), ("pv_current", "controller-overcurrent")],
)
def test_what_nobody_says_of_its_solar_input_is_not_checked(missing: str, rule: str) -> None:
    draft = in_a_camper()
    assert gaps(draft, rule) == []
    draft.rate("GB1", **{missing: None})
    assert [gap.where for gap in gaps(draft, rule)] == [("GB1",)]
    draft.remove("GP1")
    assert gaps(draft, rule) == []


def test_more_than_its_socket_of_12_v_gives() -> None:
    draft = in_a_camper()
    draft.rate("EA1", power="180 W")
    (finding,) = found(draft, "source-overloaded")
    assert finding.where == ("GB1",)
    assert number(finding, "rated") == 10.0


def test_it_takes_more_than_the_fuse_of_the_vehicles_socket_carries() -> None:
    draft = in_a_camper()
    draft.rate("F1", rating="7.5 A")
    assert ("device-below-load", ("F1",)) in told(draft)


@pytest.mark.parametrize(("neutral", "doubled"), [("bonded", True), ("relay", False)])
def test_a_link_that_stays_while_the_site_is_passed_on(neutral: str, doubled: bool) -> None:
    assert ("bond-doubled" in {rule for rule, _ in told(in_a_camper(neutral=neutral))}) is doubled
    fixed = told(in_a_camper(neutral=neutral, through="no"))
    assert "bond-doubled" not in {rule for rule, _ in fixed}


def test_one_that_is_plugged_into_itself_charges_nothing() -> None:
    rules = told(in_a_camper("XD1"))
    assert {("load-never-fed", ("GB1",)), ("charger-loop", ("GB1",))} <= rules


@pytest.mark.parametrize("draw", [on_a_caravan, in_a_camper])
def test_its_live_circuits_are_those_of_all_states(draw: Callable[[], Draft]) -> None:
    assert_as_enumerated(draw().design)


def test_of_its_cells_nobody_is_told() -> None:
    """Switched off it is no source, whatever charges it."""
    draft = in_a_camper()
    off = Judged(draft).report("GB1=off", "XP1=XD9", "XP3=XD3", "GP1=day")
    assert "GB1" not in off.title
    assert {s.part for s in off.sources} == {"GS1", "GB2", "GP1"}
    assert not any("GB1" in owners for owners in off.live.values())
    assert sorted(round(x.volts, -1) for x in off.loads if x.part == "GB1") == [10.0, 20.0, 120.0]
    on = Judged(draft).report("GB1=on", "XP1=unplugged", "XP2=GB1")
    assert {s.name for s in on.sources if s.part == "GB1"} == {"inverter", "socket"}


def on_a_board(onto: str) -> Draft:
    """Its output of 12 V on a lamp, beside a battery or before a charger of that battery."""
    d = Draft(place="vehicle")
    d.part("power_station", "GB1", power="1.8 kVA", neutral="floating", dc_current="10 A")
    d.part("battery", "GB2", voltage="12 V", capacity="60 Ah", fault_current="2 kA")
    d.part("dc_charger", "TB2", current="5 A")
    d.part("lamp", "EL1", circuit="dc", voltage="12 V", power="20 W")
    wire = {"size": "10 AWG", "length": "4 ft"}
    d.run("GB1.dc_out", "EL1.in", "a", **wire)
    d.run("EL1.in", onto, "b", **wire)
    d.run("TB2.dc", "GB2.dc", "c", **wire)
    return d


def test_its_output_of_twelve_volts_does_not_belong_on_a_battery() -> None:
    (hit,) = found(on_a_board("GB2.dc"), "sources-meet")
    assert (hit.subjects, hit.level) == (("GB1",), Level.WARNING)
    assert found(on_a_board("TB2.dc_in"), "sources-meet") == []
