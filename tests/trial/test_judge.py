"""The second judge on circuits of a few parts, each right answer told by hand."""

from __future__ import annotations

import math

import pytest

from tests.trial.judge import tables
from tests.trial.judge.expand import Unreadable, net_of
from tests.trial.judge.flows import Flows
from tests.trial.judge.label import HARMLESS, UNLABELLED, label, survey
from tests.trial.judge.net import Node
from tests.trial.judge.reading import amount, gauge
from tests.trial.judge.standing import Standing, standings
from tests.trial.mistakes.change import mapped, rated, rated_run, tried
from tests.trial.rigs.sheet import SPLIT, Sheet, dc


def checks(d: Sheet) -> set[str]:
    return {flaw.check for flaw in survey(d.design).flaws.values() if not flaw.near}


def only(d: Sheet) -> Standing:
    """The one standing of a drawing in which everything runs."""
    every = list(standings(d.design, net_of(d.design)))
    return max(every, key=lambda s: len(s.sources))


def lamp_on_battery(amps: int = 10, gauge: str = "14", feet: float = 8) -> Sheet:
    """A battery, a fuse at half a foot, a lamp of 24 W."""
    d = Sheet(place="vehicle")
    d.battery("GB1", 12, 100, "agm", 2)
    d.class_t("F1", amps)
    d.part("battery_disconnect", "QB1", rating="100 A", voltage="32 V")
    d.wire("GB1.dc", "F1.line", "W1", gauge, 0.5, "+")
    d.wire("F1.load", "QB1.line", "W2", gauge, 1, "+")
    d.part("lamp", "EL1", power="24 W", **dc("12 V"))
    d.wire("QB1.load", "EL1.in", "W3", gauge, feet, "+")
    d.wire("GB1.dc", "EL1.in", "W4", gauge, feet, "-")
    return d


def set_and_board(neutral: str = "bonded", bond: str = "absent") -> Sheet:
    """A set of 3.6 kVA, a board, a heater of 600 W."""
    d = Sheet(place="vehicle")
    d.part("generator", "G1", power="3.6 kVA", neutral=neutral, breaker="30 A", outlets="0")
    d.part("panel", "QP1", bond=bond, places="4")
    d.wire("G1.out", "QP1.feed", "W1", "10", 10)
    d.breaker("QF1", "QP1", "1", 15)
    d.part("heater", "EH1", power="600 W")
    d.wire("QF1.load", "EH1.in", "W2", "14", 20)
    return d


# reading and tables


@pytest.mark.parametrize(
    ("text", "figure"),
    [("20 A", 20.0), ("1.5 kA", 1500.0), ("10 ft", 3.048), ("-0.3 %", -0.003), ("-25 degC", -25.0)],
)
def test_amounts_are_read(text: str, figure: float) -> None:
    assert amount(text) == pytest.approx(figure)


@pytest.mark.parametrize("text", ["", "A", "20 parsec", "12 AWG"])
def test_what_is_no_amount_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="is no amount"):
        amount(text)


def test_gauges_are_read_and_areas_are_not() -> None:
    assert gauge("4/0 AWG") == "4/0"
    with pytest.raises(ValueError, match="is no gauge"):
        gauge("2.5 mm2")


@pytest.mark.parametrize(
    ("size", "material", "amps", "device"),
    [
        # NFPA 70 240.4(B) and (D): 14 AWG 15 A though it carries 20; 4 AWG of 85 A may have 90
        ("14", "copper", 20.0, 15.0),
        ("12", "copper", 25.0, 20.0),
        ("4", "copper", 85.0, 90.0),
        ("8", "copper", 40.0, 40.0),
        ("12", "aluminium", 20.0, 15.0),
        ("6", "aluminium", 50.0, 50.0),
    ],
)
def test_the_largest_device_of_a_wire(size: str, material: str, amps: float, device: float) -> None:
    assert tables.largest_device(size, material, amps) == device


def test_ampacity_takes_the_terminals_column_and_the_warmth() -> None:
    assert tables.ampacity("10", "copper", 60, 75, 30.0) == 30
    assert tables.ampacity("2", "copper", 75, 90, 30.0) == 115
    # 90 degree insulation at 50 degrees: 40 A x sqrt(40 / 60) = 32.7 A, above the 30 A of 60 C
    assert tables.ampacity("10", "copper", 60, 90, 50.0) == 30
    assert tables.ampacity("10", "copper", 60, 75, 50.0) == pytest.approx(35 * math.sqrt(25 / 45))


def test_resistance_agrees_with_the_table() -> None:
    # NFPA 70 chapter 9 table 8: 12 AWG 1.98 ohm for 1000 ft
    assert tables.ohm("12", 304.8) == pytest.approx(1.98, rel=0.01)


@pytest.mark.parametrize(("device", "size"), [(15, "14"), (20, "12"), (30, "10"), (61, "8")])
def test_ground_wires(device: float, size: str) -> None:
    assert tables.ground_wire(device) == size


# conductors and states


def test_a_lamp_gets_its_voltage() -> None:
    standing = only(lamp_on_battery())
    (use,) = standing.uses
    assert standing.fed(use) == pytest.approx(1.0)
    assert use.amps == pytest.approx(2.0)


def test_two_blocks_in_series_add_up() -> None:
    d = Sheet(place="vehicle")
    for n in (1, 2):
        d.battery(f"GB{n}", 12, 100, "agm", 2)
    d.lead("GB1.dc", "GB2.dc", "W1", "2", 1, "->+")
    d.part("lamp", "EL1", power="24 W", **dc("24 V"))
    d.wire("GB1.dc", "EL1.in", "W2", "14", 4, "+")
    d.wire("GB2.dc", "EL1.in", "W3", "14", 4, "-")
    standing = only(d)
    assert standing.volts(Node("EL1", "in", "+"), Node("EL1", "in", "-")) == pytest.approx(24.0)


def test_two_legs_stand_240_volt_apart() -> None:
    d = Sheet(place="building")
    d.utility()
    standing = only(d)
    hots = Node("QP1", "bus", "L1"), Node("QP1", "bus", "L2")
    assert abs(standing.volts(*hots) or 0.0) == pytest.approx(240.0)


def test_an_automatic_switch_goes_where_it_prefers_and_else_where_it_is_live() -> None:
    d = Sheet(place="building")
    d.part("supply", "GS1", breaker="30 A")
    d.part("generator", "G1", power="3 kVA", neutral="bonded", breaker="30 A")
    d.part("transfer_automatic", "QA1", rating="30 A")
    d.wire("GS1.out", "QA1.in1", "W1", "10", 10)
    d.wire("G1.out", "QA1.in2", "W2", "10", 10)
    d.part("heater", "EH1", power="600 W")
    d.wire("QA1.load", "EH1.in", "W3", "10", 10)
    stands = {
        (s.positions["GS1", "supply"], s.positions["G1", "set"]): s.positions["QA1", "lever"]
        for s in standings(d.design, net_of(d.design))
    }
    assert stands["live", "running"] == "1"
    assert stands["off", "running"] == "2"
    assert stands["off", "off"] == "1"


def test_what_it_does_not_know_is_unreadable() -> None:
    d = lamp_on_battery()
    d.rate_run("W3", size="2.5 mm2")
    with pytest.raises(Unreadable):
        net_of(d.design)


# flows


def test_two_fuses_on_one_lead_add_up() -> None:
    d = Sheet(place="vehicle")
    d.part("busbar", "WC1", bar="plus", rating="300 A", taps="4")
    for n in (1, 2):
        d.battery(f"GB{n}", 12, 100, "agm", 2)
        d.class_t(f"F{n}", 100)
        d.lead(f"GB{n}.dc", f"F{n}.line", f"W{n}", "2", 0.5, "+")
        d.lead(f"F{n}.load", f"WC1.{n}", f"W{n}1", "2", 1, "+")
    d.part("load", "EA1", power="1 kW", **dc("12 V"))
    d.lead("WC1.3", "EA1.in", "W9", "2", 5, "+")
    flows = Flows(only(d))
    assert flows.into(Node("EA1", "in", "+")) == 200.0
    told = [f for f in survey(d.design).flaws.values() if f.check == "wire guarded"]
    assert [f.subject for f in told] == ["W9"]


def test_a_main_holds_what_its_sources_could_bring() -> None:
    flows = Flows(only(set_and_board()))
    assert flows.into(Node("QP1", "bus", "L")) == 30.0
    assert flows.into(Node("EH1", "in", "L")) == 15.0


# flaws, each with a near miss that has none


def test_a_sound_battery_circuit_and_a_sound_board_have_none() -> None:
    assert checks(lamp_on_battery()) == set()
    assert checks(set_and_board()) == set()


def test_a_fuse_above_its_wire() -> None:
    assert checks(lamp_on_battery(amps=15)) == set()
    assert "wire guarded" in checks(lamp_on_battery(amps=20))


def test_a_fuse_below_its_load() -> None:
    d = lamp_on_battery(amps=10)
    d.rate("EL1", power="150 W")
    assert checks(d) == {"device loaded"}


def test_voltage_lost_on_a_long_wire() -> None:
    # 2 A over 2 x 60 ft of 14 AWG (3.14 ohm for 1000 ft): 0.75 V of 12 V; over 160 ft 2.0 V
    assert "voltage lost" not in checks(lamp_on_battery(feet=60))
    assert "voltage lost" in checks(lamp_on_battery(feet=160))


def test_no_link_one_link_two_links() -> None:
    assert "no link" in checks(set_and_board("floating", "absent"))
    assert checks(set_and_board("floating", "fitted")) == set()
    assert "two links" in checks(set_and_board("bonded", "fitted"))


def test_a_ground_wire_left_out() -> None:
    d = set_and_board()
    d.run_poles("W2", "L N")
    assert "not grounded" in checks(d)


def test_a_rod_is_no_ground_wire() -> None:
    d = set_and_board()
    d.run_poles("W1", "L N")
    for n, end in ((1, "G1.frame"), (2, "QP1.ground")):
        d.part("electrode", f"XE{n}", resistance="25 ohm")
        d.jumper(end, f"XE{n}.ground", f"WE{n}", "6", 6)
    assert "rod only" in checks(d)


def test_metal_on_a_hot_conductor() -> None:
    d = set_and_board()
    d.run_poles("W2", "L>PE N PE>L")
    assert {"metal live"} <= checks(d)


def test_load_current_in_ground_wires() -> None:
    d = set_and_board()
    d.run_poles("W2", "L N>PE PE>N")
    assert "returns by ground" in checks(d)


def test_an_open_neutral_between_two_legs() -> None:
    d = Sheet(place="building")
    d.utility()
    d.breaker("QF1", "QP1", "1", 20, **SPLIT)
    d.part("junction_box", "XJ1", **SPLIT)
    d.wire("QF1.load", "XJ1.a", "W1", "12", 20)
    for n, leg in ((1, "L1"), (2, "L2")):
        d.part("load", f"EA{n}", power="400 W")
        d.wire("XJ1.b", f"EA{n}.in", f"W{n + 1}", "12", 8, f"{leg}>L N PE")
    assert checks(d) == set()
    d.rate_run("W1", broken="N")
    assert "neutral open" in checks(d)


def test_two_hots_of_one_leg_on_one_neutral() -> None:
    d = Sheet(place="building")
    d.utility()
    d.part("junction_box", "XJ1", **SPLIT)
    for n, place in ((1, "1"), (2, "2")):
        d.breaker(f"QF{n}", "QP1", place, 20)
    d.wire("QF1.load", "XJ1.a", "W1", "12", 20, "L>L1 N PE")
    d.wire("QF2.load", "XJ1.a", "W2", "12", 20, "L>L2")
    assert {"neutral summed", "no common trip"} <= checks(d)


def test_sources_meet_without_an_interlock() -> None:
    d = Sheet(place="building")
    d.utility()
    d.part("generator", "G1", power="6 kVA", neutral="floating", **SPLIT)
    d.breaker("QF1", "QP1", "1", 30, **SPLIT)
    d.wire("G1.out", "QF1.load", "W1", "10", 20)
    assert {"sources meet", "backfeed"} <= checks(d)
    d.lock(("QP1", "main", "closed"), ("QF1", "breaker", "closed"))
    assert not {"sources meet", "backfeed"} & checks(d)


def test_pins_that_are_live_from_behind() -> None:
    d = set_and_board()
    d.part("plug", "XP1")
    d.breaker("QF2", "QP1", "2", 15)
    d.wire("QF2.load", "XP1.cord", "W3", "14", 6)
    assert "pins live" in checks(d)


def test_a_turned_battery_beside_another() -> None:
    d = lamp_on_battery()
    d.battery("GB2", 12, 100, "agm", 2)
    d.lead("GB2.dc", "QB1.load", "W5", "2", 0.5, "->+")
    d.lead("GB2.dc", "EL1.in", "W6", "2", 0.5, "+>-")
    assert "sources differ" in checks(d)


def test_plus_and_minus_exchanged() -> None:
    d = lamp_on_battery()
    d.run_poles("W3", "+>-")
    d.run_poles("W4", "->+")
    assert "poles exchanged" in checks(d)


def test_a_fuse_that_cannot_break_its_bank() -> None:
    d = lamp_on_battery()
    d.rate("F1", type="ato", voltage="32 V", interrupting="1 kA")
    assert "breaks too little" in checks(d)
    d.rate("F1", interrupting="5 kA")
    assert "breaks too little" not in checks(d)


def test_a_fuse_marked_below_its_bank() -> None:
    d = lamp_on_battery()
    d.rate("GB1", voltage="48 V")
    d.rate("EL1", voltage="48 V")
    d.rate("QB1", voltage="80 V")
    assert checks(d) == set()
    d.rate("F1", voltage="32 V")
    assert checks(d) == {"marked low"}


def test_a_long_weak_loop_moves_no_breaker() -> None:
    d = Sheet(place="field")
    d.part("supply", "GS1", breaker="20 A", prospective="500 A")
    d.part("heater", "EH1", power="200 W")
    d.wire("GS1.out", "EH1.in", "W1", "12", 100)
    assert "fault stays" not in checks(d)
    # 2 x 1200 ft of 12 AWG: 4.75 ohm and 0.24 of the supply, 24 A on 20 A
    d.rate_run("W1", length="1200 ft")
    assert "fault stays" in checks(d)


def test_plugs_that_do_not_mate() -> None:
    d = set_and_board()
    d.part("outlet", "XD1", configuration="5-20")
    d.breaker("QF2", "QP1", "2", 20)
    d.wire("QF2.load", "XD1.feed", "W3", "12", 6)
    d.plugged("EP1", "lamp", "XD1", 60)
    assert checks(d) == set()
    d.rate("EP1", configuration="TT-30")
    assert checks(d) == {"does not mate"}


def test_an_outlet_at_a_sink() -> None:
    d = set_and_board()
    d.part("outlet", "XD1", configuration="5-20", area="sink")
    d.breaker("QF2", "QP1", "2", 20)
    d.wire("QF2.load", "XD1.feed", "W3", "12", 6)
    assert checks(d) == {"unprotected outlet"}
    d.rate("QF2", ground_fault="class_a")
    assert checks(d) == set()


def test_a_string_too_long_for_its_controller() -> None:
    d = lamp_on_battery(amps=15)
    d.part("busbar", "WC2", bar="minus", rating="100 A", taps="4")
    d.wire("GB1.dc", "WC2.feed", "W7", "10", 1, "-")
    d.roof(12, 10, ("QB1.load", "WC2.1"), series=3)
    assert "string high" not in checks(d)
    # four times 24 V x (1 + 0.003 x 50) = 110 V on 100 V
    d.rate("GP1", series="4")
    assert "string high" in checks(d)


# labels


def test_what_changes_nothing_is_harmless() -> None:
    d = set_and_board()
    (made,) = tried(d.design, ("W2",), rated_run("W2", size="12 AWG"))
    assert label(d.design, made.design, survey(d.design)).word == HARMLESS


def test_what_hurts_is_danger_and_names_its_place() -> None:
    d = set_and_board()
    run = next(r for r in d.design.runs if r.designation == "W2")
    (made,) = tried(d.design, ("W2",), mapped(run, (("L", "L"), ("N", "N"))))
    told = label(d.design, made.design, survey(d.design))
    assert told.word == "danger"
    assert "EH1" in told.subjects


def test_what_starves_a_load_is_a_warning() -> None:
    d = set_and_board()
    (made,) = tried(d.design, ("W2",), rated_run("W2", broken="L"))
    told = label(d.design, made.design, survey(d.design))
    assert (told.word, told.reason) == ("warning", "G1 no longer feeds EH1")


def test_what_the_judge_does_not_read_has_no_label() -> None:
    d = set_and_board()
    (made,) = tried(d.design, ("W2",), rated_run("W2", hidden="hidden"))
    assert label(d.design, made.design, survey(d.design)).word == UNLABELLED


def test_what_is_near_a_limit_has_no_label() -> None:
    d = lamp_on_battery(amps=15)
    d.rate("EL1", power="24 W")
    (made,) = tried(d.design, ("EL1",), rated("EL1", power="185 W"))
    assert label(d.design, made.design, survey(d.design)).word == UNLABELLED
