"""What the second judge knows of taps, cords, bars, boats and jumpers, each with its source."""

from __future__ import annotations

import pytest

from tests.trial.judge import tables
from tests.trial.judge.label import survey
from tests.trial.rigs.sheet import BOTH, Sheet, dc


def flaws(d: Sheet, check: str) -> dict[str, bool]:
    """Subject -> whether it is too near a limit, of the flaws of one check."""
    return {f.subject: f.near for f in survey(d.design).flaws.values() if f.check == check}


def board_on_bar(place: str, gauge: str = "10", feet: float = 0.5, amps: int = 30) -> Sheet:
    """A battery behind 150 A, a bar, a lead to a fuse for a lamp."""
    d = Sheet(place=place)
    d.battery("GB1", 12, 200, "agm", 4)
    d.class_t("F1", 150)
    d.lead("GB1.dc", "F1.line", "W1", "1/0", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="32 V")
    d.lead("F1.load", "QB1.line", "W2", "1/0", 1, "+")
    d.part("busbar", "WC1", bar="plus", rating="200 A", taps="4")
    d.lead("QB1.load", "WC1.feed", "W3", "1/0", 1, "+")
    d.class_t("F2", amps)
    d.wire("WC1.1", "F2.line", "W4", gauge, feet)
    d.part("lamp", "EL1", power="24 W", **dc("12 V"))
    d.wire("F2.load", "EL1.in", "W5", "10", 6, "+")
    d.wire("GB1.dc", "EL1.in", "W6", "10", 6, "-")
    return d


@pytest.mark.parametrize(
    ("place", "feet", "right"),
    [
        # NFPA 70 240.21(B)(1): 10 ft; 150 A are no more than ten times 30 A
        ("building", 9, True),
        # (B)(2): 25 ft only up to three times
        ("building", 12, False),
        # NFPA 70 552.10(E)(4): 18 in; ABYC E-11: 7 in
        ("vehicle", 1.5, True),
        ("vehicle", 2, False),
        ("boat", 0.5, True),
        ("boat", 1.5, False),
    ],
)
def test_a_tap_that_ends_at_a_small_device(place: str, feet: float, right: bool) -> None:
    assert ("W4" not in flaws(board_on_bar(place, feet=feet), "wire guarded")) is right


def test_a_tap_is_none_where_its_device_is_above_the_wire() -> None:
    assert "W4" in flaws(board_on_bar("building", gauge="12"), "wire guarded")


@pytest.mark.parametrize(
    ("insulation", "size", "amps"), [(60, "6", 80), (75, "10", 40), (90, "10", 55), (105, "4", 160)]
)
def test_ampacity_afloat_is_by_insulation(insulation: int, size: str, amps: float) -> None:
    # 33 CFR 183.425 table 5
    assert tables.afloat(size, insulation, 30.0) == amps


@pytest.mark.parametrize(("amps", "device"), [(55, 60), (40, 40), (10, 10), (245, 250), (5, 7.5)])
def test_the_largest_device_afloat(amps: float, device: float) -> None:
    # ABYC E-11: the next standard rating, not above 150 %
    assert tables.largest_afloat(amps) == device


@pytest.mark.parametrize(
    ("size", "amps", "device"), [("14", 18, 20), ("16", 13, 20), ("18", 10, 10), ("6", 55, 55)]
)
def test_the_largest_device_before_a_cord(size: str, amps: float, device: float) -> None:
    # NFPA 70 240.5(A) and (B)(3); 240.4(B) excepts cords
    assert tables.largest_before_cord(size, amps) == device


def bar_of_two(rating: str, behind: int) -> Sheet:
    """Two batteries of 100 A each on one bar, two circuits from it."""
    d = Sheet(place="field")
    d.part("busbar", "WC1", bar="plus", rating=rating, taps="6")
    d.part("busbar", "WC2", bar="minus", rating="400 A", taps="6")
    for n in (1, 2):
        d.battery(f"GB{n}", 12, 100, "agm", 2)
        d.class_t(f"F{n}", 100)
        d.lead(f"GB{n}.dc", f"F{n}.line", f"W{n}", "2", 0.5, "+")
        d.lead(f"F{n}.load", f"WC1.{n}", f"W{n}1", "2", 1, "+")
        d.lead(f"GB{n}.dc", f"WC2.{n}", f"W{n}2", "2", 1, "-")
        d.class_t(f"F{n + 2}", behind)
        d.lead(f"WC1.{n + 2}", f"F{n + 2}.line", f"W{n}3", "2", 0.5)
        d.part("lamp", f"EL{n}", power="24 W", **dc("12 V"))
        d.lead(f"F{n + 2}.load", f"EL{n}.in", f"W{n}4", "2", 5, "+")
        d.lead(f"WC2.{n + 2}", f"EL{n}.in", f"W{n}5", "2", 5)
    return d


@pytest.mark.parametrize(
    ("rating", "behind", "found"),
    [
        # NFPA 70 705.12(B)(3): all devices without the largest that feeds: 100 + 2 x 20 A
        ("150 A", 20, {}),
        ("120 A", 20, {"WC1 120": True}),
        ("120 A", 80, {"WC1 120": False}),
        ("200 A", 100, {}),
    ],
)
def test_a_bar_that_the_devices_behind_it_hold(
    rating: str, behind: int, found: dict[str, bool]
) -> None:
    assert flaws(bar_of_two(rating, behind), "fitting small") == found


@pytest.mark.parametrize(("behind", "near"), [(60, True), (150, False)])
def test_a_switch_that_the_devices_behind_it_hold(behind: int, near: bool) -> None:
    d = board_on_bar("field", gauge="1/0", amps=behind)
    d.rate("QB1", rating="100 A")
    assert flaws(d, "fitting small")["QB1 100"] is near


def test_a_motor_on_direct_current_has_no_device_above_150_percent() -> None:
    # NFPA 70 table 430.52: 150 % for direct current, 250 % for other motors; 900 W at 48 V: 18.75 A
    d = Sheet(place="field")
    d.battery("GB1", 48, 100, "agm", 2)
    d.class_t("F1", 50)
    d.wire("GB1.dc", "F1.line", "W1", "6", 0.5, "+")
    d.part("motor", "MA1", power="900 W", **dc("48 V"))
    d.wire("F1.load", "MA1.in", "W2", "8", 8, "+")
    d.wire("GB1.dc", "MA1.in", "W3", "8", 8, "-")
    assert "W2" in flaws(d, "wire guarded")
    d.rate("F1", rating="30 A")
    d.rate_run("W2", size="10 AWG")
    assert "W2" not in flaws(d, "wire guarded")


@pytest.mark.parametrize(
    ("place", "size", "wrong"),
    [
        # NFPA 70 552.10(C)(4): as thick as the lead; ABYC E-11: one size under
        ("vehicle", "2", True),
        ("vehicle", "1/0", False),
        ("boat", "2", True),
        ("boat", "1", False),
        ("building", "6", False),
    ],
)
def test_the_bond_of_a_minus(place: str, size: str, wrong: bool) -> None:
    d = board_on_bar(place)
    d.part("body", "XB1", name="frame")
    d.jumper("GB1.dc", "XB1.tie", "WB1", size, 2, "->body")
    assert flaws(d, "jumper thin") == ({"WB1": False} if wrong else {})


@pytest.mark.parametrize(
    ("size", "found"), [("8", {}), ("10", {"WB1": True}), ("12", {"WB1": False})]
)
def test_the_bond_of_a_board_afloat_is_a_ground_wire(size: str, found: dict[str, bool]) -> None:
    # NFPA 70 table 250.122: 10 AWG behind 30 A; ABYC E-2: 8 AWG for what is bonded under water
    d = Sheet(place="boat")
    d.shore("L5-30", 30, "10", 25)
    d.part("panel", "QP1", bus="60 A", bond="absent", places="4")
    d.wire("XI1.inside", "QP1.feed", "W1", "10", 5)
    d.part("body", "XB1", name="engine")
    d.jumper("QP1.ground", "XB1.tie", "WB1", size, 4)
    assert flaws(d, "jumper thin") == found


def test_a_leakage_breaker_at_the_inlet_is_no_class_a() -> None:
    d = Sheet(place="boat")
    d.shore("L5-30", 30, "10", 25)
    d.part("breaker", "QF0", rating="30 A", poles="all", ground_fault="rcd_30")
    d.wire("XI1.inside", "QF0.line", "W0", "10", 5)
    d.part("panel", "QP1", bus="60 A", bond="absent", places="4")
    d.wire("QF0.load", "QP1.feed", "W1", "10", 5)
    d.breaker("QF1", "QP1", "1", 20)
    d.part("outlet", "XD1", configuration="5-20", area="kitchen")
    d.wire("QF1.load", "XD1.feed", "W2", "12", 6)
    assert flaws(d, "unprotected outlet") == {"XD1": False}
    d.rate("QF1", ground_fault="class_a")
    assert flaws(d, "unprotected outlet") == {}


@pytest.mark.parametrize(("hours", "volts", "asked"), [(60, 12, False), (100, 12, True)])
def test_a_switch_is_asked_of_banks_above_a_kilowatt_hour(
    hours: int, volts: int, asked: bool
) -> None:
    # NFPA 70 706.1: from 1 kWh on
    d = board_on_bar("field")
    d.rate("GB1", capacity=f"{hours} Ah", voltage=f"{volts} V")
    facts = {
        f.subject: f.level for f in survey(d.design).facts.values() if f.name == "switched off"
    }
    assert facts == {"GB1": "warning" if asked else "near"}


@pytest.mark.parametrize(("amps", "found"), [(40, {"F2": False}), (45, {}), (60, {})])
def test_a_fuse_below_what_a_charger_gives(amps: int, found: dict[str, bool]) -> None:
    d = Sheet(place="vehicle")
    d.battery("GB1", 12, 200, "lithium", 5)
    d.class_t("F2", amps)
    d.lead("GB1.dc", "F2.line", "W1", "6", 0.5, "+")
    d.part("charger", "TB1", current="45 A", dc_voltage="12 V")
    d.lead("F2.load", "TB1.dc", "W2", "6", 5, "+")
    d.lead("GB1.dc", "TB1.dc", "W3", "6", 5, "-")
    assert flaws(d, "device loaded") == found


@pytest.mark.parametrize(("feet", "found"), [(8, {}), (60, {"MA1": True})])
def test_a_start_that_takes_a_fifth_of_the_voltage_is_left_open(
    feet: float, found: dict[str, bool]
) -> None:
    # 40 A over 2 x 60 ft of 10 AWG (1.24 ohm for 1000 ft): 5.9 V of 24 V
    d = Sheet(place="vehicle")
    d.battery("GB1", 24, 200, "agm", 4)
    d.class_t("F1", 30)
    d.wire("GB1.dc", "F1.line", "W1", "10", 0.5, "+")
    d.part("motor", "MA1", power="120 W", start_current="40 A", **dc("24 V"))
    d.wire("F1.load", "MA1.in", "W2", "10", feet, "+")
    d.wire("GB1.dc", "MA1.in", "W3", "10", feet, "-")
    assert flaws(d, "start weak") == found


def test_ashore_a_jumper_beside_another_way_may_be_thin() -> None:
    d = Sheet(place="field")
    d.part("supply", "GS1", breaker="30 A")
    d.part("panel", "QP1", bond="absent", bus="60 A")
    d.wire("GS1.out", "QP1.feed", "W1", "10", 10)
    d.part("body", "XB1", name="mast", type="structure")
    d.jumper("QP1.ground", "XB1.tie", "WB1", "14", 4)
    assert flaws(d, "jumper thin") == {"WB1": False}
    d.jumper("QP1.ground", "XB1.tie", "WB2", "8", 4)
    assert flaws(d, "jumper thin") == {}


def test_a_load_with_both_hots_on_one_leg_divides_nothing() -> None:
    d = Sheet(place="building")
    d.utility()
    d.breaker("QF1", "QP1", "1", 20, circuit="ac240")
    d.part("heater", "EH1", power="1 kW", circuit="ac240", voltage="240 V")
    d.wire("QF1.load", "EH1.in", "W1", "12", 20)
    d.breaker("QF2", "QP1", "5", 20, circuit="ac240")
    d.part("heater", "EH2", power="1 kW", circuit="ac240", voltage="240 V")
    d.wire("QF2.load", "EH2.in", "W2", "12", 20, "L1>L1 L1>L2 PE")
    assert flaws(d, "neutral open") == {}


@pytest.mark.parametrize(("gauge", "wrong"), [("10", False), ("14", True)])
def test_a_minus_of_its_own_is_held_by_what_comes_into_the_plus(gauge: str, wrong: bool) -> None:
    d = board_on_bar("field")
    d.rate_run("W6", size=f"{gauge} AWG")
    assert ("W6" in flaws(d, "wire guarded")) is wrong


@pytest.mark.parametrize(
    ("neutral", "bond", "slow"), [("floating", "fitted", 0), ("bonded", "absent", 1)]
)
def test_metal_is_touched_against_the_link(neutral: str, bond: str, slow: int) -> None:
    # 800 ft of 10 AWG, 1 ohm each way: half of 120 V lies on the ground wire from the set's link
    d = Sheet(place="vehicle")
    d.part("generator", "G1", power="6 kVA", neutral=neutral, breaker="30 A", outlets="0")
    d.part("panel", "QP1", bond=bond, places="4", bus="60 A")
    d.wire("G1.out", "QP1.feed", "W1", "10", 800)
    d.breaker("QF1", "QP1", "1", 30)
    d.part("heater", "EH1", power="600 W")
    d.wire("QF1.load", "EH1.in", "W2", "10", 3)
    told = {f.subject for f in survey(d.design).flaws.values() if f.check.startswith("fault")}
    assert ("EH1" in told) is bool(slow)


@pytest.mark.parametrize(("gauge", "wrong"), [("1/0", False), ("4", True)])
def test_a_first_lead_is_held_by_the_device_at_its_end(gauge: str, wrong: bool) -> None:
    # F1 150 A; 4 AWG carries 85 A at 75 degrees, the next standard rating is 90 A
    d = board_on_bar("field")
    d.rate_run("W1", size=f"{gauge} AWG")
    assert ("W1" in flaws(d, "wire guarded")) is wrong


@pytest.mark.parametrize(
    ("watts", "amps", "found"),
    [
        # NFPA 70 422.11(E): 2.5 kW at 240 V are 10.4 A, 20 A the most; 5 kW are 20.8 A, times 1.5
        # 31.3 A, the next standard rating 35 A
        ("2.5 kW", 20, {}),
        ("2.5 kW", 30, {"EH1": False}),
        ("5 kW", 35, {}),
        ("5 kW", 40, {"EH1": False}),
    ],
)
def test_the_largest_device_before_a_single_appliance(
    watts: str, amps: int, found: dict[str, bool]
) -> None:
    d = Sheet(place="building")
    d.utility()
    d.breaker("QF1", "QP1", "1", amps, **BOTH)
    d.part("heater", "EH1", power=watts, continuous="no", **BOTH)
    d.wire("QF1.load", "EH1.in", "W1", "8", 20)
    assert flaws(d, "appliance guarded") == found


@pytest.mark.parametrize(("place", "found"), [("vehicle", {"W3": False}), ("field", {})])
def test_in_a_vehicle_a_small_motor_wire_has_no_larger_device(
    place: str, found: dict[str, bool]
) -> None:
    # NFPA 70 552.10(E)(1) has no exception for motors as 430.52 is one from 240.4
    d = Sheet(place=place)
    d.battery("GB1", 12, 90, "flooded", 1.6)
    d.class_t("F1", 10)
    d.wire("GB1.dc", "F1.line", "W1", "14", 0.5, "+")
    d.part("motor", "MA1", power="30 W", **dc("12 V"))
    d.wire("GB1.dc", "MA1.in", "W2", "14", 4, "-")
    d.wire("F1.load", "MA1.in", "W3", "18", 4, "+")
    assert flaws(d, "wire guarded") == found


@pytest.mark.parametrize(("feet", "told"), [(20, "6"), (9, "9"), (5, "12")])
def test_what_a_chassis_lets_through_is_left_open(feet: float, told: str) -> None:
    # 1 kA at 12 V are 12 mohm, 10 AWG has 1.02 ohm for 1000 ft when cold: 370, 566 and 702 A
    d = Sheet(place="vehicle")
    d.battery("GB1", 12, 90, "flooded", 1)
    d.part("fuse", "F1", type="ato", rating="30 A", voltage="32 V", interrupting="600 A")
    d.wire("GB1.dc", "F1.line", "W1", "10", feet, "+")
    found = {"F1": True} if feet < 20 else {}
    assert flaws(d, f"breaks too little by chassis, {told} tenths") == found


@pytest.mark.parametrize(
    ("size", "amps", "found"),
    [("16", 8, {}), ("16", 10, {"W3": False}), ("18", 6, {}), ("18", 7, {"W3": False})],
)
def test_low_voltage_wires_in_a_vehicle_have_a_table_of_their_own(
    size: str, amps: int, found: dict[str, bool]
) -> None:
    # NFPA 70 table 552.10(E)(1): 6 A before 18 AWG, 8 A before 16 AWG
    d = Sheet(place="vehicle")
    d.battery("GB1", 12, 90, "flooded", 1.6)
    d.class_t("F1", amps)
    d.wire("GB1.dc", "F1.line", "W1", "14", 0.5, "+")
    d.part("lamp", "EL1", power="30 W", **dc("12 V"))
    d.wire("GB1.dc", "EL1.in", "W2", "14", 4, "-")
    d.wire("F1.load", "EL1.in", "W3", size, 4, "+")
    assert flaws(d, "wire guarded") == found


@pytest.mark.parametrize(("gauge", "found"), [("1/0", {}), ("8", {"W4": True})])
def test_the_only_minus_lead_of_a_battery_carries_what_its_fuse_lets_out(
    gauge: str, found: dict[str, bool]
) -> None:
    d = Sheet(place="field")
    d.battery("GB1", 12, 90, "flooded", 1.6)
    d.class_t("F1", 110)
    d.part("busbar", "WC2", bar="minus", rating="200 A", taps="2")
    d.lead("GB1.dc", "F1.line", "W1", "1/0", 0.5, "+")
    d.part("load", "EA1", power="600 W", **dc("12 V"))
    d.lead("F1.load", "EA1.in", "W2", "1/0", 4, "+")
    d.lead("WC2.1", "EA1.in", "W3", "1/0", 4, "-")
    d.lead("GB1.dc", "WC2.feed", "W4", gauge, 2, "-")
    assert flaws(d, "wire guarded") == found


@pytest.mark.parametrize(("battery", "found"), [(True, {"F2": False}), (False, {"F2": True})])
def test_a_converter_without_a_battery_takes_what_its_loads_ask_for(
    battery: bool, found: dict[str, bool]
) -> None:
    # 30 A x 13.5 V / 0.9 / 24 V = 19 A; the lamp behind asks for 2 A
    d = Sheet(place="field")
    d.battery("GB1", 24, 200, "agm", 4)
    d.class_t("F2", 15)
    d.wire("GB1.dc", "F2.line", "W1", "10", 0.5, "+")
    d.part("dc_charger", "TB2", in_voltage="24 V", dc_voltage="12 V", current="30 A")
    d.wire("F2.load", "TB2.dc_in", "W2", "10", 4, "+")
    d.wire("GB1.dc", "TB2.dc_in", "W3", "10", 4, "-")
    d.part("lamp", "EL1", power="24 W", **dc("12 V"))
    d.wire("TB2.dc", "EL1.in", "W4", "10", 4)
    if battery:
        d.battery("GB2", 12, 100, "agm", 2)
        d.class_t("F3", 60)
        d.lead("GB2.dc", "F3.line", "W5", "6", 0.5, "+")
        d.lead("F3.load", "TB2.dc", "W6", "6", 4, "+")
        d.lead("GB2.dc", "TB2.dc", "W7", "6", 4, "-")
    assert flaws(d, "device loaded") == found


@pytest.mark.parametrize(("gauge", "found"), [("10", {}), ("14", {"WI4": False})])
def test_a_ground_wire_that_runs_alone_goes_by_the_device(
    gauge: str, found: dict[str, bool]
) -> None:
    # NFPA 70 table 250.122: 10 AWG behind 30 A
    d = Sheet(place="field")
    d.part("supply", "GS1", breaker="30 A")
    d.part("panel", "QP1", bond="absent", bus="60 A")
    d.wire("GS1.out", "QP1.feed", "W1", "10", 10, "L N")
    d.wire("GS1.out", "QP1.ground", "WI4", gauge, 10, "PE")
    assert flaws(d, "ground wire thin") == found


@pytest.mark.parametrize("lever", [True, False])
def test_a_lead_without_a_device_that_also_starts_an_engine_is_left_open(lever: bool) -> None:
    d = Sheet(place="boat")
    d.battery("GB1", 12, 100, "flooded", 2)
    d.part("battery_selector", "QB1", rating="500 A")
    d.lead("GB1.dc", "QB1.battery1", "W1", "2/0", 3, "+")
    duty = "starter" if lever else "motor"
    d.part("motor", "MA1", "starter", power="1.5 kW", duty=duty, **dc("12 V"))
    d.lead("QB1.load", "MA1.in", "W2", "2/0", 4, "+")
    d.lead("GB1.dc", "MA1.in", "W3", "2/0", 4, "-")
    assert flaws(d, "wire guarded").get("W1") is lever


@pytest.mark.parametrize(("gauge", "found"), [("1/0", {}), ("8", {"W4": False})])
def test_so_does_one_that_leads_to_a_single_part(gauge: str, found: dict[str, bool]) -> None:
    d = Sheet(place="field")
    d.battery("GB1", 12, 90, "flooded", 1.6)
    d.class_t("F1", 110)
    d.lead("GB1.dc", "F1.line", "W1", "1/0", 0.5, "+")
    d.part("load", "EA1", power="600 W", **dc("12 V"))
    d.lead("F1.load", "EA1.in", "W2", "1/0", 4, "+")
    d.lead("GB1.dc", "EA1.in", "W4", gauge, 4, "-")
    assert flaws(d, "wire guarded") == found
