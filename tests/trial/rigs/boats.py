"""Boats: two banks, hulls, shore power with leakage breakers at the inlet."""

from __future__ import annotations

from tests.trial.rigs.sheet import Sheet, dc


def _shore_board(d: Sheet, n: int = 1) -> None:
    """30 A inlet, within 10 ft a two-pole leakage breaker, then a board with its bars apart."""
    d.shore("L5-30", 30, "10", 50, n)
    d.part("breaker", f"QF{n}0", "leakage breaker", rating="30 A", poles="all")
    d.rate(f"QF{n}0", ground_fault="rcd_30", interrupting="5 kA")
    d.wire(f"XI{n}.inside", f"QF{n}0.line", f"WI{n}", "10", 5)
    d.part("panel", f"QP{n}", bus="60 A", bond="absent", places="6")
    d.wire(f"QF{n}0.load", f"QP{n}.feed", f"WJ{n}", "10", 3)


def _under_water(d: Sheet, minus: str, gauge: str, *grounds: str) -> None:
    """The engine block in the water: minus and the boat's ground bars joined to it, once each."""
    d.part("body", "XB1", "engine block", name="engine")
    d.jumper(minus, "XB1.tie", "WB0", gauge, 3, "->body")
    for n, ground in enumerate(grounds, start=1):
        d.jumper(ground, "XB1.tie", f"WB{n}", "8", 5)
    d.part("electrode", "XE1", "shaft in the water", resistance="5 ohm")
    d.jumper("XB1.tie", "XE1.ground", "WE1", "8", 3, "body>PE")


def _direct(d: Sheet, name: str, board: str, place: str, amps: int) -> None:
    """A breaker made for direct current in a place of a board; it breaks 3 kA."""
    marked = {"voltage": "48 V", "direct": "yes", "interrupting": "3 kA"}
    d.breaker(name, board, place, amps, circuit="dc", **marked)


def workboat() -> Sheet:
    """A workboat on 24 V: starting bank, house bank, windlass; shore power for the charger.

    Neutral: at the pedestal only; the boat's ground bar is joined to minus at the engine. Leakage
    breaker of two poles at the inlet. Protection: 30 A guards 10 AWG, 15 A guards 14 AWG; the
    starter's lead has none (exempt); F1 200 A guards the house bank's 3/0 (200 A at 75 C); F2 60 A
    guards 6 AWG of the board; F3 60 A guards 6 AWG of the 40 A charger; windlass 2 kW = 83 A on
    1 AWG (130 A at 75 C) behind F4 125 A.
    """
    d = Sheet(place="boat")
    _shore_board(d)
    d.breaker("QF1", "QP1", "1", 20)
    d.breaker("QF2", "QP1", "2", 20, ground_fault="class_a")
    d.part("charger", "TB1", current="40 A", dc_voltage="24 V")
    d.wire("QF1.load", "TB1.ac_in", "W1", "12", 10)
    d.part("outlet", "XD1", "galley", configuration="5-20", area="kitchen")
    d.wire("QF2.load", "XD1.feed", "W2", "12", 14)
    d.battery("GB1", 24, 150, "flooded", 2.5)
    d.battery("GB2", 24, 300, "agm", 4)
    d.part("battery_disconnect", "QB1", "starting", rating="400 A", voltage="32 V")
    d.part("motor", "MA1", "starter", power="4 kW", duty="starter", **dc("24 V"))
    d.lead("GB1.dc", "QB1.line", "W10", "2/0", 2, "+")
    d.lead("QB1.load", "MA1.in", "W11", "2/0", 5, "+")
    d.part("busbar", "WC2", "minus", bar="minus", rating="400 A", taps="8")
    d.lead("GB1.dc", "WC2.1", "W12", "3/0", 2, "-")
    d.lead("GB2.dc", "WC2.2", "W13", "3/0", 2, "-")
    d.lead("WC2.3", "MA1.in", "W14", "2/0", 5)
    d.class_t("F1", 200)
    d.lead("GB2.dc", "F1.line", "W15", "3/0", 0.5, "+")
    d.part("battery_disconnect", "QB2", "house", rating="250 A", voltage="48 V")
    d.lead("F1.load", "QB2.line", "W16", "3/0", 1, "+")
    d.part("busbar", "WC1", "plus", bar="plus", rating="250 A", taps="4")
    d.lead("QB2.load", "WC1.feed", "W17", "3/0", 1, "+")
    d.class_t("F2", 60)
    d.class_t("F3", 60)
    d.class_t("F4", 125)
    d.lead("WC1.1", "F2.line", "W18", "6", 0.5)
    d.lead("WC1.2", "F3.line", "W19", "6", 0.5)
    d.lead("WC1.3", "F4.line", "W20", "1", 0.5)
    d.part("panel", "QP2", "24 V board", bus="100 A", places="4", bond="absent", **dc("24 V"))
    d.lead("F2.load", "QP2.feed", "W21", "6", 12, "+")
    d.lead("WC2.4", "QP2.feed", "W22", "6", 12)
    d.lead("F3.load", "TB1.dc", "W23", "6", 5, "+")
    d.lead("WC2.5", "TB1.dc", "W24", "6", 5)
    d.part("motor", "MA2", "windlass", power="2000 W", duty="brief", **dc("24 V"))
    d.rate("MA2", start_current="150 A")
    d.lead("F4.load", "MA2.in", "W25", "1", 18, "+")
    d.lead("WC2.6", "MA2.in", "W26", "1", 18)
    loads = (("EL1", "lamp", "50 W"), ("MA3", "motor", "100 W"), ("EA1", "load", "60 W"))
    for n, (name, kind, power) in enumerate(loads, start=1):
        _direct(d, f"F{n + 4}", "QP2", str(n), 15)
        d.part(kind, name, power=power, critical="yes", **dc("24 V"))
        d.wire(f"F{n + 4}.load", f"{name}.in", f"W{n + 30}", "12", 10)
    _under_water(d, "WC2.7", "3/0", "QP1.ground", "TB1.case")
    return d


def sailing_boat() -> Sheet:
    """A sailing boat without shore power: two banks on 12 V, sun, a 300 VA inverter.

    Neutral: the inverter joins it to its case, the case is on the minus bar; one GFCI outlet. Two
    batteries with a 100 A fuse each on 2 AWG (115 A at 75 C) meet on bars of 250 A; behind them F3
    40 A guards 8 AWG, F4 50 A guards 6 AWG (300 VA / 0.88 / 10.5 V = 32 A times 1.25 = 41 A), F9
    15 A guards 10 AWG. Minus meets the engine once.
    """
    d = Sheet(place="boat")
    d.part("busbar", "WC1", bar="plus", rating="250 A", taps="6")
    d.part("busbar", "WC2", bar="minus", rating="250 A", taps="7")
    for n in (1, 2):
        d.battery(f"GB{n}", 12, 100, "agm", 3)
        d.class_t(f"F{n}", 100)
        d.part("battery_disconnect", f"QB{n}", rating="150 A", voltage="32 V")
        d.lead(f"GB{n}.dc", f"F{n}.line", f"W{n}0", "2", 0.5, "+")
        d.lead(f"F{n}.load", f"QB{n}.line", f"W{n}1", "2", 1, "+")
        d.lead(f"QB{n}.load", f"WC1.{n}", f"W{n}2", "2", 1, "+")
        d.lead(f"GB{n}.dc", f"WC2.{n}", f"W{n}3", "2", 2, "-")
    d.class_t("F3", 40)
    d.class_t("F4", 50)
    d.wire("WC1.3", "F3.line", "W30", "8", 0.5)
    d.wire("WC1.4", "F4.line", "W31", "6", 0.5)
    d.part("panel", "QP1", "12 V board", bus="60 A", places="6", bond="absent", **dc("12 V"))
    d.wire("F3.load", "QP1.feed", "W32", "8", 8, "+")
    d.wire("WC2.3", "QP1.feed", "W33", "8", 8)
    loads = (
        ("EL1", "lamp", "25 W", "running lights"),
        ("EA1", "load", "40 W", "instruments"),
        ("MA1", "motor", "50 W", "bilge pump"),
        ("EL2", "lamp", "30 W", "cabin lights"),
    )
    for n, (name, kind, power, title) in enumerate(loads, start=1):
        _direct(d, f"F{n + 4}", "QP1", str(n), 10)
        d.part(kind, name, title, power=power, **dc("12 V"))
        d.rate(name, critical="no" if n == 4 else "yes")
        d.wire(f"F{n + 4}.load", f"{name}.in", f"W{n + 40}", "12", 10)
    d.part("inverter", "TB1", power="300 VA", outlets="1", neutral="bonded", bond_allowed="yes")
    d.wire("F4.load", "TB1.dc", "W34", "6", 5, "+")
    d.wire("WC2.4", "TB1.dc", "W35", "6", 5)
    d.outlet_in("XD1", "TB1", "1", "5-15", ground_fault="class_a", duplex="1")
    d.roof(12, 10, ("WC1.5", "WC2.5"))
    _under_water(d, "WC2.6", "2", "TB1.case", "TC1.case")
    return d


def cruiser_with_two_cords() -> Sheet:
    """A motor cruiser with two 30 A inlets, each with its board; an inverter-charger on one.

    Neutral: at each pedestal; the inverter-charger's relay joins it aboard while it inverts. The
    two boards share no conductor but the ground wires, joined to minus at the engine. Protection:
    30 A leakage breakers guard 10 AWG; 20 A guards 12 AWG and 15 A 14 AWG; the 20 A breaker before
    the inverter-charger guards its 10 AWG; F1 150 A guards 1/0 (150 A at 75 C), 1000 VA on 12 V.
    """
    d = Sheet(place="boat")
    _shore_board(d, 1)
    _shore_board(d, 2)
    d.breaker("QF1", "QP1", "1", 20)
    d.part("heater", "EH1", "water heater", power="1200 W")
    d.wire("QF1.load", "EH1.in", "W1", "12", 16)
    d.breaker("QF2", "QP1", "2", 20)
    d.part("motor", "MA1", "air conditioner", power="1100 W", power_factor="0.9", duty="hermetic")
    d.rate("MA1", start_current="40 A", least_ampacity="13 A", largest_device="20 A")
    d.wire("QF2.load", "MA1.in", "W2", "12", 20)
    d.breaker("QF3", "QP2", "1", 20)
    d.part("inverter_charger", "TB1", power="1000 VA", dc_voltage="12 V", charge="50 A")
    d.rate("TB1", transfer="30 A", neutral="relay", bond_allowed="no", neutral_through="switched")
    d.wire("QF3.load", "TB1.ac_in", "W3", "10", 8)
    d.part("panel", "QP3", "inverter board", main="30 A", bus="60 A", bond="absent", places="4")
    d.wire("TB1.ac_out", "QP3.feed", "W4", "10", 5)
    for n, where in ((1, "kitchen"), (2, "dry")):
        d.breaker(f"QF{n + 3}", "QP3", str(n), 20, ground_fault="class_a")
        d.part("outlet", f"XD{n}", configuration="5-20", area=where)
        d.wire(f"QF{n + 3}.load", f"XD{n}.feed", f"W{n + 4}", "12", 15)
    d.plugged("EP1", "coffee maker", "XD1", 800)
    d.battery("GB1", 12, 300, "lithium", 6)
    d.class_t("F1", 150)
    d.lead("GB1.dc", "F1.line", "W10", "1/0", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="32 V")
    d.lead("F1.load", "QB1.line", "W11", "1/0", 1, "+")
    d.lead("QB1.load", "TB1.dc", "W12", "1/0", 4, "+")
    d.part("busbar", "WC2", bar="minus", rating="250 A", taps="4")
    d.lead("GB1.dc", "WC2.feed", "W13", "1/0", 2, "-")
    d.lead("WC2.1", "TB1.dc", "W14", "1/0", 4)
    d.class_t("F2", 20)
    d.wire("QB1.load", "F2.line", "W15", "12", 0.5, "+")
    d.part("motor", "MA2", "bilge pump", power="80 W", critical="yes", **dc("12 V"))
    d.rate("MA2", start_current="20 A")
    d.wire("F2.load", "MA2.in", "W16", "12", 8, "+")
    d.wire("WC2.2", "MA2.in", "W17", "12", 8)
    _under_water(d, "WC2.3", "1/0", "QP1.ground", "QP2.ground", "TB1.case", "QP3.ground")
    d.rate_run("WB3", size="1 AWG")  # the case of what hangs on 1/0: one size under its plus
    return d


def tender() -> Sheet:
    """A steel tender on 12 V: one starting battery, a small board, no alternating current.

    The hull is joined to minus once, at the battery; every circuit has two wires (none returns
    by the hull). F1 40 A guards 8 AWG (40 A at 60 C); blades guard 14 AWG. The starter's lead has
    no fuse (exempt).
    """
    d = Sheet(place="boat")
    d.battery("GB1", 12, 80, "flooded", 1.5)
    d.part("battery_disconnect", "QB1", rating="300 A", voltage="32 V", poles="both")
    d.lead("GB1.dc", "QB1.line", "W1", "1/0", 2)
    d.part("motor", "MA1", "starter", power="1.5 kW", duty="starter", **dc("12 V"))
    d.lead("QB1.load", "MA1.in", "W2", "1/0", 4)
    d.part("fuse", "F1", rating="40 A", type="mrbf", voltage="32 V", interrupting="5 kA")
    d.wire("QB1.load", "F1.line", "W3", "8", 0.5, "+")
    d.part("panel", "QP1", "12 V board", bus="50 A", places="6", bond="absent", **dc("12 V"))
    d.wire("F1.load", "QP1.feed", "W4", "8", 6, "+")
    d.wire("QB1.load", "QP1.feed", "W5", "8", 7, "-")
    loads = (
        ("EL1", "lamp", "20 W", "running lights"),
        ("MA2", "motor", "60 W", "bilge pump"),
        ("EA1", "load", "25 W", "radio"),
        ("EL2", "lamp", "20 W", "deck light"),
    )
    for n, (name, kind, power, title) in enumerate(loads, start=1):
        d.blade(f"F{n + 1}", "QP1", str(n), 10 if kind == "motor" else 5)
        d.part(kind, name, title, power=power, **dc("12 V"))
        d.rate(name, critical="yes")
        d.wire(f"F{n + 1}.load", f"{name}.in", f"W{n + 10}", "14", 6)
    d.part("body", "XB1", "hull", name="hull", type="hull")
    d.jumper("GB1.dc", "XB1.tie", "WB0", "1/0", 2, "->body")
    return d
