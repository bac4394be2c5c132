"""Sets, switches, boards and boats as owners ask about them."""

from __future__ import annotations

import pytest

from tests.cases.asked import Asked, told
from tests.trial.rigs.sheet import BOTH, SPLIT, Sheet


def portable(d: Sheet, n: int, neutral: str, pattern: str = "L5-30", **circuit: str) -> None:
    """Set G1 or G2 with an outlet of 30 A, its cord in an inlet."""
    d.part("generator", f"G{n}", power="6 kVA", neutral=neutral, bond_allowed="yes", **circuit)
    d.breaker(f"QF8{n}", f"G{n}", "1", 30, interrupting="5 kA", **circuit)
    d.outlet_in(f"XD8{n}", f"QF8{n}", "load", pattern, **circuit)
    d.part("plug", f"XP{n}", configuration=pattern, **circuit)
    d.seat(f"XP{n}", f"XD8{n}", "face")
    d.part("inlet", f"XI{n}", configuration=pattern, **circuit)
    d.cord(f"XP{n}.cord", f"XI{n}.outside", f"WS{n}", "10", 30)


def rod(d: Sheet, board: str, n: int = 1) -> None:
    d.part("electrode", f"XE{n}", "rod", resistance="25 ohm")
    d.jumper(f"{board}.ground", f"XE{n}.ground", f"WE{n}", "6", 8)


def branch(d: Sheet, n: int, board: str, place: str, watts: int = 900) -> None:
    """A load on 20 A and 12 AWG."""
    d.breaker(f"QF{n}", board, place, 20)
    d.part("load", f"EA{n}", power=f"{watts} W")
    d.wire(f"QF{n}.load", f"EA{n}.in", f"W{n}", "12", 30)


def two_sets(poles: str) -> Sheet:
    """A cabin on two bonded sets by a switch of three positions."""
    d = Sheet(place="building")
    d.part("transfer_switch", "QC1", rating="30 A", poles=poles)
    for n in (1, 2):
        portable(d, n, "bonded")
        d.wire(f"XI{n}.inside", f"QC1.in{n}", f"WI{n}", "10", 5)
    d.part("panel", "QP1", main="30 A", bus="60 A", bond="absent", places="4")
    d.wire("QC1.load", "QP1.feed", "WF", "10", 10)
    rod(d, "QP1")
    branch(d, 1, "QP1", "1")
    return d


def floating_set(poles: str) -> Sheet:
    """A house on a floating set by a switch."""
    d = Sheet(place="building")
    d.utility("100 A")
    portable(d, 1, "floating", "L14-30", **SPLIT)
    d.breaker("QF1", "QP1", "5", 30, **SPLIT)
    d.part("transfer_switch", "QC1", rating="30 A", poles=poles, **SPLIT)
    d.wire("QF1.load", "QC1.in1", "WI1", "10", 5)
    d.wire("XI1.inside", "QC1.in2", "WI2", "10", 15)
    d.part("panel", "QP2", main="30 A", bus="60 A", bond="absent", places="8", **SPLIT)
    d.wire("QC1.load", "QP2.feed", "WF", "10", 5)
    branch(d, 2, "QP2", "1")
    return d


def shared_neutral(places: tuple[str, str]) -> Sheet:
    """Two heaters on one neutral, their breakers side by side or one below the other."""
    d = Sheet(place="building")
    d.utility("100 A")
    for n, place in enumerate(places, start=1):
        d.breaker(f"QF{n}", "QP1", place, 20, handle="tied")
    d.part("junction_box", "XJ1", **SPLIT)
    d.wire("QF1.load", "XJ1.a", "WM", "12", 15, "L>L1 N PE")
    d.wire("QF2.load", "XJ1.a", "WM2", "12", 15, "L>L2")
    for n, (side, leg) in enumerate((("b", "L1"), ("c", "L2")), 1):
        d.part("heater", f"EH{n}", power="1500 W", continuous="no")
        d.wire(f"XJ1.{side}", f"EH{n}.in", f"W{n}", "12", 5, f"{leg}>L N PE")
    return d


def boat_house(finished: bool) -> Sheet:
    """A board of its own building on four wires; a rod there, and class A on the dock."""
    d = Sheet(place="building")
    d.utility("100 A")
    d.breaker("QF1", "QP1", "5", 40, **SPLIT)
    d.part("panel", "QP2", "boat house", main="40 A", bus="60 A", bond="absent", places="8")
    d.rate("QP2", detached="yes", **SPLIT)
    d.wire("QF1.load", "QP2.feed", "WF", "8", 120)
    d.breaker("QF2", "QP2", "1", 20, ground_fault="class_a" if finished else "none")
    d.part("outlet", "XD1", "dock", configuration="5-20", area="outside")
    d.wire("QF2.load", "XD1.feed", "W2", "12", 20)
    if finished:
        rod(d, "QP2", 2)
    return d


def barn_on_two_wires(wires: str) -> Sheet:
    """A fan in a barn with a rod of its own."""
    d = Sheet(place="building")
    d.utility("100 A")
    d.breaker("QF1", "QP1", "5", 30)
    d.part("panel", "QP2", "barn", main="30 A", bus="60 A", bond="absent", places="4")
    d.rate("QP2", detached="yes")
    d.wire("QF1.load", "QP2.feed", "WF", "10", 100, wires)
    rod(d, "QP2", 2)
    branch(d, 2, "QP2", "1")
    return d


def hybrid(neutral: str) -> Sheet:
    """A hybrid inverter that passes the neutral of a service board through."""
    d = Sheet(place="building")
    d.utility("100 A")
    d.breaker("QF1", "QP1", "5", 50, **SPLIT)
    d.part("hybrid_inverter", "TB1", power="6 kVA", dc_voltage="48 V", charge="60 A", **SPLIT)
    d.rate("TB1", transfer="50 A", neutral=neutral, bond_allowed="yes", current="100 A")
    d.rate("TB1", neutral_through="common", pv_voltage="500 V", pv_current="18 A")
    d.wire("QF1.load", "TB1.ac_in", "WI", "6", 10)
    d.part("panel", "QP2", main="50 A", bus="100 A", bond="absent", places="8", **SPLIT)
    d.wire("TB1.ac_out", "QP2.feed", "WF", "6", 6)
    branch(d, 2, "QP2", "1")
    bank(d, 200, "3/0")
    return d


def bank(d: Sheet, amps: int, gauge: str) -> None:
    """48 V behind a fuse and a switch on TB1."""
    d.battery("GB1", 48, 200, "lithium", 5)
    d.class_t("F1", amps)
    d.lead("GB1.dc", "F1.line", "W10", gauge, 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="250 A", voltage="80 V")
    d.lead("F1.load", "QB1.line", "W11", gauge, 1, "+")
    d.lead("QB1.load", "TB1.dc", "W12", gauge, 4, "+")
    d.lead("GB1.dc", "TB1.dc", "W13", gauge, 5, "-")


def pump_on_one_hot() -> Sheet:
    """One hot on both legs of a cabin's board, and a pump of 240 V."""
    d = Sheet(place="building")
    d.part("inverter", "TB1", power="3 kVA", dc_voltage="48 V", neutral="floating")
    d.rate("TB1", bond_allowed="yes")
    bank(d, 125, "1")
    d.part("panel", "QP1", main="30 A", bus="100 A", bond="fitted", places="8", **SPLIT)
    d.part("junction_box", "XJ1")
    d.wire("TB1.ac_out", "XJ1.a", "W1", "10", 4)
    d.wire("XJ1.b", "QP1.feed", "W2", "10", 2, "L>L1 N PE")
    d.wire("XJ1.c", "QP1.feed", "W3", "10", 2, "L>L2")
    rod(d, "QP1")
    d.breaker("QF9", "QP1", "1", 15, **BOTH)
    d.part("motor", "MA1", "well pump", power="700 W", start_current="20 A", **BOTH)
    d.wire("QF9.load", "MA1.in", "W4", "14", 60)
    branch(d, 5, "QP1", "2")
    return d


def two_wire_inverter(neutral: str) -> Sheet:
    """An inverter of 240 V on two wires, a core that makes the middle, a board with its link."""
    d = Sheet(place="building")
    d.part("inverter", "TB1", power="5 kVA", voltage="240 V", dc_voltage="48 V", neutral=neutral)
    d.rate("TB1", bond_allowed="yes")
    bank(d, 200, "3/0")
    d.part("breaker", "QF0", rating="25 A", interrupting="10 kA", **BOTH)
    d.wire("TB1.ac_out", "QF0.line", "W1", "10", 2, "L>L1 N>L2 PE")
    d.part("autotransformer", "TA1", form="balance", power="5 kVA")
    d.wire("QF0.load", "TA1.primary", "W2", "10", 3)
    d.part("panel", "QP1", main="30 A", bus="100 A", bond="fitted", places="8", **SPLIT)
    d.wire("TA1.secondary", "QP1.feed", "W3", "10", 5)
    rod(d, "QP1")
    branch(d, 4, "QP1", "1")
    return d


def vehicle_into_a_house() -> Sheet:
    """A vehicle's outlet, bonded aboard and of class A, on a service board by an interlock."""
    d = Sheet(place="building")
    d.utility("100 A")
    d.part("power_station", "GB9", "vehicle", power="7.2 kVA", neutral="bonded", **SPLIT)
    d.rate("GB9", bond_allowed="yes", outlets="1")
    d.outlet_in("XD9", "GB9", "1", "L14-30", ground_fault="class_a", **SPLIT)
    d.part("plug", "XP1", configuration="L14-30", **SPLIT)
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="L14-30", **SPLIT)
    d.cord("XP1.cord", "XI1.outside", "WS1", "10", 20)
    d.breaker("QF2", "QP1", "1", 30, **SPLIT)
    d.wire("XI1.inside", "QF2.load", "W9", "10", 20)
    d.lock(("QP1", "main", "closed"), ("QF2", "breaker", "closed"))
    branch(d, 3, "QP1", "5")
    return d


def boat(transformer: str = "", poles: str = "") -> Sheet:
    """A boat on 30 A with an inverter-charger whose relay makes the link; behind an isolation
    transformer (its secondary: ``transformer``), or beside a bonded set on a selector."""
    d = Sheet(place="boat")
    d.shore("L5-30", 30, "10", 40)
    d.part("breaker", "QF10", rating="30 A", poles="all", ground_fault="rcd_30")
    d.rate("QF10", interrupting="5 kA")
    d.wire("XI1.inside", "QF10.line", "WI1", "10", 4)
    d.part("body", "XB1", "engine block", name="engine")
    start = "QF10.load"
    if transformer:
        d.part("transformer", "TA1", power="3.6 kVA", ground="shield", breaker="30 A")
        d.rate("TA1", neutral=transformer)
        d.wire(start, "TA1.primary", "WI2", "10", 4)
        d.jumper("TA1.case", "XB1.tie", "WB3", "8", 5)
        start = "TA1.secondary"
    if poles:
        d.part("generator", "G1", power="3.5 kVA", neutral="bonded", breaker="30 A", outlets="0")
        d.rate("G1", bond_allowed="yes", indoors="compartment")
        d.part("transfer_switch", "QC1", rating="30 A", poles=poles)
        d.wire(start, "QC1.in1", "WI3", "10", 3)
        d.wire("G1.out", "QC1.in2", "WI4", "10", 8)
        d.jumper("G1.frame", "XB1.tie", "WB4", "8", 3)
        start = "QC1.load"
    d.part("inverter_charger", "TB1", power="2 kVA", dc_voltage="24 V", charge="40 A")
    d.rate("TB1", transfer="30 A", neutral="relay", bond_allowed="no", neutral_through="switched")
    d.wire(start, "TB1.ac_in", "WI5", "10", 4)
    d.part("panel", "QP1", main="30 A", bus="60 A", bond="absent", places="4")
    d.wire("TB1.ac_out", "QP1.feed", "WF", "10", 4)
    branch(d, 1, "QP1", "1")
    d.battery("GB1", 24, 200, "lithium", 4)
    d.class_t("F1", 125)
    d.lead("GB1.dc", "F1.line", "W10", "1", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="48 V")
    d.lead("F1.load", "QB1.line", "W11", "1", 1, "+")
    d.lead("QB1.load", "TB1.dc", "W12", "1", 4, "+")
    d.lead("GB1.dc", "TB1.dc", "W13", "1", 5, "-")
    d.jumper("GB1.dc", "XB1.tie", "WB0", "1", 3, "->body")
    d.jumper("QP1.ground", "XB1.tie", "WB1", "8", 5)
    d.jumper("TB1.case", "XB1.tie", "WB2", "2", 5)
    return d


def class_a_and_a_shared_neutral() -> Sheet:
    """The lamp of the other leg comes back on the load side of a ground-fault outlet."""
    d = Sheet(place="building")
    d.utility("100 A")
    d.breaker("QF1", "QP1", "5", 20, **SPLIT)
    for n in (1, 2):
        d.part("junction_box", f"XJ{n}", **SPLIT)
    d.wire("QF1.load", "XJ1.a", "W1", "12", 30)
    d.part("outlet", "XD1", configuration="5-20", ground_fault="class_a", area="kitchen")
    d.wire("XJ1.b", "XD1.feed", "W2", "12", 3, "L1>L N PE")
    d.wire("XJ1.c", "XJ2.a", "W3", "12", 10, "L2 PE")
    d.wire("XD1.onward", "XJ2.b", "W4", "12", 10, "L>L1 N")
    for n, (side, leg) in enumerate((("c", "L2"), ("d", "L1")), start=1):
        d.part("lamp", f"EL{n}", power="100 W")
        d.wire(f"XJ2.{side}", f"EL{n}.in", f"W{n + 4}", "12", 10, f"{leg}>L N PE")
    return d


def charger_on_a_dock(ground: str) -> Sheet:
    """A metal charger for a small boat on an extension with or without a ground wire."""
    d = Sheet(place="boat")
    d.part("supply", "GS1", "dock", breaker="20 A", prospective="1 kA")
    d.outlet_in("XD9", "GS1", "1", "5-20", area="outside", ground_fault="class_a")
    d.part("cord_set", "WX1", configuration="5-15", connector="5-15", ground=ground)
    d.rate("WX1", size="12 AWG", length="50 ft")
    d.seat("WX1", "XD9", "face")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", "WX1", "face")
    d.part("charger", "TB1", current="20 A", dc_voltage="12 V")
    d.cord("XP1.cord", "TB1.ac_in", "W9", "14", 6)
    d.battery("GB1", 12, 90, "flooded", 2)
    d.class_t("F1", 30)
    d.wire("GB1.dc", "F1.line", "W1", "10", 0.5, "+")
    d.wire("F1.load", "TB1.dc", "W2", "10", 4, "+")
    d.wire("GB1.dc", "TB1.dc", "W3", "10", 4, "-")
    d.part("body", "XB1", "engine", name="engine")
    d.jumper("GB1.dc", "XB1.tie", "WB0", "8", 3, "->body")
    d.jumper("TB1.case", "XB1.tie", "WB1", "8", 3)
    return d


ASKED: dict[str, Asked] = {
    "two sets, neutral switched": (lambda: two_sets("all"), set()),
    "two sets, neutral solid": (lambda: two_sets("lines"), {("bond-doubled", "danger", "G1")}),
    "floating set, neutral solid": (lambda: floating_set("lines"), set()),
    "floating set, neutral switched": (
        lambda: floating_set("all"),
        {("bond-missing", "danger", "G1")},
    ),
    "shared neutral on two legs": (lambda: shared_neutral(("5", "7")), set()),
    "shared neutral on one leg": (
        lambda: shared_neutral(("5", "6")),
        {
            ("neutral-overloaded", "danger", "WM"),
            ("handle-not-common", "warning", "QF1"),
            ("run-overloaded", "warning", "WM"),
        },
    ),
    "boat house": (lambda: boat_house(True), set()),
    "boat house as found": (
        lambda: boat_house(False),
        {("electrode-missing", "warning", "QP2"), ("gfci-missing", "warning", "XD1")},
    ),
    "barn on three wires": (lambda: barn_on_two_wires("L N PE"), set()),
    "barn on two wires": (lambda: barn_on_two_wires("L N"), {("ground-open", "danger", "WF")}),
    "hybrid without a link": (lambda: hybrid("floating"), set()),
    "hybrid with a relay": (lambda: hybrid("relay"), {("bond-doubled", "danger", "QP1")}),
    "240 V pump on one hot": (pump_on_one_hot, {("load-never-fed", "warning", "MA1")}),
    "two-wire inverter, floating": (lambda: two_wire_inverter("floating"), set()),
    "two-wire inverter, bonded": (
        lambda: two_wire_inverter("bonded"),
        {("conductors-shorted", "danger", "TA1")},
    ),
    "vehicle into a house": (vehicle_into_a_house, {("bond-doubled", "danger", "QP1")}),
    "boat": (boat, set()),
    "boat behind a bonded transformer": (lambda: boat("bonded"), set()),
    "boat behind a floating one": (
        lambda: boat("floating"),
        {("bond-missing", "danger", "TA1")},
    ),
    "boat's set, both poles": (lambda: boat(poles="all"), set()),
    "boat's set, hots only": (
        lambda: boat(poles="lines"),
        {("bond-doubled", "danger", "G1")},
    ),
    "shared neutral behind class A": (
        class_a_and_a_shared_neutral,
        {("gfci-trips-in-use", "warning", "XD1"), ("neutral-lost-danger", "warning", "XD1")},
    ),
    "dock charger on three wires": (lambda: charger_on_a_dock("through"), set()),
    "dock charger on two wires": (
        lambda: charger_on_a_dock("none"),
        {("ground-open", "danger", "TB1"), ("ground-open", "danger", "WX1")},
    ),
}


@pytest.mark.parametrize("name", ASKED)
def test_what_an_expert_would_tell_and_no_more(name: str) -> None:
    draw, expected = ASKED[name]
    assert told(draw()) == expected
