"""Vans and motor homes: direct current with and without a shore inlet."""

from __future__ import annotations

from tests.trial.rigs.sheet import SPLIT, Sheet, dc


def courier_van() -> Sheet:
    """A courier's van on 12 V with a 400 VA inverter that has an outlet of its own.

    Neutral: the inverter joins it to its case, the case is on the chassis; its only outlet is a
    GFCI. Minus meets the chassis once, at the minus bar, by a jumper as thick as the plus lead.
    Protection: F1 150 A guards 1/0 (150 A at 75 C, NFPA 70 table 310.16); F2 60 A guards 6 AWG
    (65 A at 75 C) and carries 400 VA / 0.88 / 10.5 V = 43 A times 1.25 = 54 A; F3 30 A guards
    10 AWG (30 A at 60 C); F9 15 A guards 10 AWG; blades of at most 15 A guard 14 AWG. Bank at most
    4 kA: F1 breaks 10 kA at 14 V, class T 20 kA, and 12 ft of 10 AWG leave the blades below 1 kA.
    """
    d = Sheet(place="vehicle")
    d.battery("GB1", 12, 100, "agm", 3)
    d.part("fuse", "F1", rating="150 A", type="mrbf", voltage="14 V", interrupting="10 kA")
    d.seat("F1", "GB1", "post")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="32 V")
    d.lead("F1.load", "QB1.line", "W1", "1/0", 1, "+")
    d.part("busbar", "WC1", bar="plus", rating="200 A", taps="4")
    d.part("busbar", "WC2", bar="minus", rating="200 A", taps="5")
    d.lead("QB1.load", "WC1.feed", "W2", "1/0", 1, "+")
    d.lead("GB1.dc", "WC2.feed", "W3", "1/0", 2, "-")
    d.class_t("F2", 60)
    d.lead("WC1.1", "F2.line", "W4", "6", 0.5)
    d.part("inverter", "TB1", power="400 VA", outlets="1", neutral="bonded", bond_allowed="yes")
    d.lead("F2.load", "TB1.dc", "W5", "6", 4, "+")
    d.lead("WC2.1", "TB1.dc", "W6", "6", 4)
    d.outlet_in("XD1", "TB1", "1", "5-15", ground_fault="class_a", duplex="1")
    d.plugged("EP1", "label printer", "XD1", 90, case="insulated")
    d.class_t("F3", 30)
    d.wire("WC1.2", "F3.line", "W7", "10", 0.5)
    d.part("panel", "QP1", "12 V board", bus="50 A", places="6", bond="absent", **dc("12 V"))
    d.wire("F3.load", "QP1.feed", "W8", "10", 12, "+")
    d.wire("WC2.2", "QP1.feed", "W9", "10", 12)
    for n, amps in ((4, 5), (5, 10), (6, 15)):
        d.blade(f"F{n}", "QP1", str(n - 3), amps)
    d.part("lamp", "EL1", "cargo lights", power="24 W", **dc("12 V"))
    d.part("motor", "MA1", "roof fan", power="48 W", start_current="12 A", **dc("12 V"))
    d.part("load", "EA1", "cool box", power="60 W", continuous="yes", **dc("12 V"))
    for n, load in ((4, "EL1"), (5, "MA1"), (6, "EA1")):
        d.wire(f"F{n}.load", f"{load}.in", f"W{n + 6}", "14", 10)
    d.roof(12, 10, ("WC1.3", "WC2.3"))
    _on_chassis(d, "WC2.4", "1/0", "TB1.case", "TC1.case")
    return d


def _on_chassis(d: Sheet, minus: str, gauge: str, *cases: str) -> None:
    """The chassis: minus joined once, and each case by 8 AWG (least in vehicles)."""
    d.part("body", "XB1", name="chassis")
    d.jumper(minus, "XB1.tie", "WB0", gauge, 2, "->body")
    for n, case in enumerate(cases, start=1):
        d.jumper(case, "XB1.tie", f"WB{n}", "8", 3)


def camper_van() -> Sheet:
    """A camper van with a 30 A inlet, a 45 A charger, a lithium battery and a 12 V board.

    Neutral: joined at the pedestal only; the board keeps its bars apart, its ground bar is on the
    chassis by 8 AWG. Protection: the pedestal's 30 A guards the 10 AWG cord and wire; 15 and 20 A
    breakers guard 14 and 12 AWG (240.4(D)); F1 100 A guards 2 AWG (115 A at 75 C); F2 60 A guards
    the charger's 6 AWG (65 A at 75 C), the charger itself gives no more than 45 A times 1.25 =
    56 A; F3 40 A guards 8 AWG (40 A at 60 C). Lithium up to 5 kA: class T everywhere at the bank.
    """
    d = Sheet(place="recreational")
    d.shore("TT-30", 30, "10", 25)
    d.part("panel", "QP1", main="30 A", bus="60 A", bond="absent", places="4")
    d.wire("XI1.inside", "QP1.feed", "W1", "10", 6)
    d.breaker("QF1", "QP1", "1", 15)
    d.breaker("QF2", "QP1", "2", 20, ground_fault="class_a")
    d.breaker("QF3", "QP1", "3", 15)
    d.part("charger", "TB1", current="45 A", dc_voltage="12 V")
    d.wire("QF1.load", "TB1.ac_in", "W2", "14", 6)
    d.part("outlet", "XD1", "galley", configuration="5-20", area="sink")
    d.wire("QF2.load", "XD1.feed", "W3", "12", 10)
    d.plugged("EP1", "kettle", "XD1", 1000)
    d.part("heater", "EH1", "water heater", power="600 W")
    d.wire("QF3.load", "EH1.in", "W4", "14", 12)
    d.battery("GB1", 12, 200, "lithium", 5)
    d.class_t("F1", 100)
    d.lead("GB1.dc", "F1.line", "W10", "2", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="150 A", voltage="32 V")
    d.lead("F1.load", "QB1.line", "W11", "2", 1, "+")
    d.part("busbar", "WC1", bar="minus", rating="150 A", taps="4")
    d.lead("GB1.dc", "WC1.feed", "W12", "2", 1, "-")
    d.class_t("F2", 60)
    d.lead("QB1.load", "F2.line", "W13", "6", 0.5, "+")
    d.lead("F2.load", "TB1.dc", "W14", "6", 5, "+")
    d.lead("WC1.1", "TB1.dc", "W15", "6", 5)
    d.class_t("F3", 40)
    d.wire("QB1.load", "F3.line", "W16", "8", 0.5, "+")
    d.part("panel", "QP2", "12 V board", bus="60 A", places="4", bond="absent", **dc("12 V"))
    d.wire("F3.load", "QP2.feed", "W17", "8", 20, "+")
    d.wire("WC1.2", "QP2.feed", "W18", "8", 20)
    loads = (("EL1", "lamp", "30 W", 5), ("MA1", "motor", "60 W", 10), ("EA1", "load", "36 W", 7.5))
    for n, (name, kind, power, amps) in enumerate(loads, start=1):
        d.blade(f"F{n + 3}", "QP2", str(n), amps)
        d.part(kind, name, power=power, **dc("12 V"))
        d.wire(f"F{n + 3}.load", f"{name}.in", f"W{n + 20}", "14", 8)
    _on_chassis(d, "WC1.3", "2", "QP1.ground", "TB1.case")
    return d


def motor_home() -> Sheet:
    """A large motor home: 50 A shore or a set, changed over by itself; inverter on one leg.

    Neutral: on shore joined at the pedestal, on the set at the set (the switch moves the neutral
    too), on the inverter by its relay; the boards keep their bars apart. Protection: pedestal 50 A
    guards 6 AWG (cord listed for it; wire 55 A at 60 C); the set's 30 A guards 10 AWG; 30 A to the
    inverter-charger guards 10 AWG; 20 A guards 12 AWG, 15 A guards 14 AWG. Two batteries of 12 V,
    each with 100 A on 2 AWG (115 A), together 200 A on 3/0 (200 A); behind it F3 150 A guards 1/0
    (150 A) and carries 1000 VA / 0.9 / 10.5 V = 106 A times 1.25 = 132 A; F4 30 A guards 10 AWG.
    """
    d = Sheet(place="recreational")
    d.shore("14-50", 50, "6", 30, **SPLIT)
    d.rate_run("WS1", ground_size="8 AWG")
    d.part("generator", "G1", power="7 kVA", neutral="bonded", bond_allowed="yes", **SPLIT)
    d.rate("G1", breaker="30 A", outlets="0", excitation="auxiliary", indoors="compartment")
    d.part("transfer_automatic", "QA1", rating="50 A", poles="all", **SPLIT)
    d.rate("QA1", first="shore", second="generator", prefers="1")
    d.wire("XI1.inside", "QA1.in1", "W1", "6", 8)
    d.wire("G1.out", "QA1.in2", "W2", "10", 12)
    d.part("panel", "QP1", main="50 A", bus="100 A", bond="absent", places="8", **SPLIT)
    d.wire("QA1.load", "QP1.feed", "W3", "6", 4)
    d.breaker("QF1", "QP1", "1", 20)
    d.breaker("QF2", "QP1", "3", 30)
    d.breaker("QF3", "QP1", "5", 20, ground_fault="class_a")
    d.part("motor", "MA1", "air conditioner", power="1300 W", power_factor="0.9", duty="hermetic")
    d.rate("MA1", start_current="45 A", least_ampacity="16 A", largest_device="25 A")
    d.wire("QF1.load", "MA1.in", "W4", "12", 20)
    d.part("inverter_charger", "TB1", power="1000 VA", dc_voltage="12 V", charge="50 A")
    d.rate("TB1", transfer="30 A", neutral="relay", bond_allowed="no", neutral_through="switched")
    d.wire("QF2.load", "TB1.ac_in", "W5", "10", 8)
    d.part("outlet", "XD1", "bath", configuration="5-20", area="bath")
    d.wire("QF3.load", "XD1.feed", "W6", "12", 18)
    d.part("panel", "QP2", "inverter board", main="30 A", bus="60 A", bond="absent", places="4")
    d.wire("TB1.ac_out", "QP2.feed", "W7", "10", 6)
    d.breaker("QF4", "QP2", "1", 15)
    d.breaker("QF5", "QP2", "2", 20, ground_fault="class_a")
    d.part("load", "EA1", "refrigerator", power="180 W", power_factor="0.85")
    d.wire("QF4.load", "EA1.in", "W8", "14", 15)
    d.part("outlet", "XD2", "table", configuration="5-20")
    d.wire("QF5.load", "XD2.feed", "W9", "12", 15)
    d.plugged("EP1", "computer", "XD2", 120, case="insulated")
    d.part("busbar", "WC1", bar="plus", rating="300 A", taps="4")
    d.part("busbar", "WC2", bar="minus", rating="300 A", taps="5")
    for n in (1, 2):
        d.battery(f"GB{n}", 12, 200, "lithium", 5)
        d.class_t(f"F{n}", 100)
        d.lead(f"GB{n}.dc", f"F{n}.line", f"W{n}0", "2", 0.5, "+")
        d.lead(f"F{n}.load", f"WC1.{n}", f"W{n}1", "2", 1, "+")
        d.lead(f"GB{n}.dc", f"WC2.{n}", f"W{n}2", "2", 1.5, "-")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="32 V")
    d.class_t("F3", 150)
    d.lead("WC1.3", "QB1.line", "W30", "3/0", 1, "+")
    d.lead("QB1.load", "F3.line", "W31", "1/0", 0.5, "+")
    d.lead("F3.load", "TB1.dc", "W32", "1/0", 4, "+")
    d.lead("WC2.3", "TB1.dc", "W33", "1/0", 4)
    d.class_t("F4", 30)
    d.wire("QB1.load", "F4.line", "W34", "10", 0.5, "+")
    d.part("lamp", "EL1", power="60 W", **dc("12 V"))
    d.wire("F4.load", "EL1.in", "W35", "10", 10, "+")
    d.wire("WC2.4", "EL1.in", "W36", "10", 10)
    _on_chassis(d, "WC2.5", "3/0", "QP1.ground", "TB1.case", "G1.frame")
    return d


def workshop_trailer() -> Sheet:
    """A workshop trailer: 30 A shore, 24 V bank of two blocks in series, 2 kVA inverter-charger.

    Neutral: at the pedestal on shore, by the relay while it inverts. Protection: 30 A guards
    10 AWG; 20 A guards 12 AWG; F1 150 A guards 1/0 (150 A at 75 C) and carries 2000 VA / 0.9 /
    21 V = 106 A times 1.25 = 132 A; F2 20 A guards 12 AWG of the 24 V lamps. F9 30 A guards 8 AWG.
    Bank and sun together bring 150 + 25 A to the 2/0 between bar and inverter (175 A).
    """
    d = Sheet(place="vehicle")
    d.shore("L5-30", 30, "10", 40)
    d.part("inverter_charger", "TB1", power="2 kVA", dc_voltage="24 V", charge="35 A")
    d.rate("TB1", transfer="30 A", neutral="relay", bond_allowed="no", neutral_through="switched")
    d.rate("TB1", surge="4.8 kVA")
    d.wire("XI1.inside", "TB1.ac_in", "W1", "10", 8)
    d.part("panel", "QP1", main="30 A", bus="60 A", bond="absent", places="4")
    d.wire("TB1.ac_out", "QP1.feed", "W2", "10", 5)
    for n in (1, 2):
        d.breaker(f"QF{n}", "QP1", str(n), 20, ground_fault="class_a")
        d.part("outlet", f"XD{n}", configuration="5-20")
        d.wire(f"QF{n}.load", f"XD{n}.feed", f"W{n + 2}", "12", 15)
    d.breaker("QF3", "QP1", "3", 20)
    d.part("motor", "MA1", "dust fan", power="450 W", power_factor="0.75", start_current="20 A")
    d.wire("QF3.load", "MA1.in", "W5", "12", 12)
    d.plugged("EP1", "grinder", "XD1", 900)
    d.plugged("EP2", "battery chargers", "XD2", 300, case="insulated")
    for n in (1, 2):
        d.battery(f"GB{n}", 12, 200, "agm", 4)
    d.lead("GB1.dc", "GB2.dc", "W10", "1/0", 0.7, "->+")
    d.class_t("F1", 150)
    d.lead("GB1.dc", "F1.line", "W11", "1/0", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="48 V")
    d.lead("F1.load", "QB1.line", "W12", "1/0", 1, "+")
    d.part("busbar", "WC1", bar="plus", rating="250 A", taps="3")
    d.part("busbar", "WC2", bar="minus", rating="250 A", taps="4")
    d.lead("QB1.load", "WC1.feed", "W13", "1/0", 1, "+")
    d.lead("GB2.dc", "WC2.feed", "W14", "1/0", 2, "-")
    d.lead("WC1.1", "TB1.dc", "W15", "2/0", 4)
    d.lead("WC2.1", "TB1.dc", "W16", "2/0", 4)
    d.class_t("F2", 20)
    d.wire("WC1.2", "F2.line", "W17", "12", 0.5)
    d.part("lamp", "EL1", power="100 W", **dc("24 V"))
    d.wire("F2.load", "EL1.in", "W18", "12", 15, "+")
    d.wire("WC2.2", "EL1.in", "W19", "12", 15)
    d.roof(24, 20, ("WC1.3", "WC2.3"), series=2)
    _on_chassis(d, "WC2.4", "1/0", "QP1.ground", "TB1.case", "TC1.case")
    return d


def food_truck() -> Sheet:
    """A food truck on 50 A shore or a portable set of 9 kVA, by a hand switch of three poles.

    Neutral: at the pedestal, or at the set; the switch moves it, the truck's board keeps its bars
    apart. Protection: pedestal 50 A guards 6 AWG; the set's 30 A guards the 10 AWG cord; griddle
    4.5 kW at 240 V: 18.8 A, 30 A on 10 AWG; 20 A on 12 AWG, 15 A on 14 AWG;
    main 50 A. Outlets at the sink and outside are ground-fault protected.
    """
    d = Sheet(place="vehicle")
    d.shore("14-50", 50, "6", 25, **SPLIT)
    d.part("generator", "G1", power="9 kVA", neutral="bonded", bond_allowed="yes", **SPLIT)
    d.rate("G1", excitation="auxiliary", outlets="2")
    d.breaker("QF9", "G1", "1", 30, **SPLIT)
    d.outlet_in("XD9", "QF9", "load", "L14-30", **SPLIT)
    d.part("plug", "XP2", "set's cord", configuration="L14-30", **SPLIT)
    d.seat("XP2", "XD9", "face")
    d.part("inlet", "XI2", configuration="L14-30", expects="bonded", **SPLIT)
    d.cord("XP2.cord", "XI2.outside", "WS2", "10", 30)
    d.part("transfer_switch", "QT1", rating="60 A", poles="all", **SPLIT)
    d.rate("QT1", first="shore", second="set")
    d.wire("XI1.inside", "QT1.in1", "W1", "6", 5)
    d.wire("XI2.inside", "QT1.in2", "W2", "10", 6)
    d.part("panel", "QP1", main="50 A", bus="100 A", bond="absent", places="12", **SPLIT)
    d.wire("QT1.load", "QP1.feed", "W3", "6", 4)
    d.breaker("QF1", "QP1", "1", 30, circuit="ac240")
    d.part("heater", "EH1", "griddle", power="4500 W", circuit="ac240", voltage="240 V")
    d.rate("EH1", continuous="no")
    d.wire("QF1.load", "EH1.in", "W4", "10", 12)
    d.breaker("QF2", "QP1", "5", 20)
    d.part("motor", "MA1", "hood fan", power="370 W", power_factor="0.7", start_current="25 A")
    d.wire("QF2.load", "MA1.in", "W5", "12", 10)
    d.breaker("QF3", "QP1", "6", 20, ground_fault="class_a")
    d.part("outlet", "XD1", "sink", configuration="5-20", area="sink")
    d.wire("QF3.load", "XD1.feed", "W6", "12", 14)
    d.plugged("EP1", "blender", "XD1", 700)
    d.breaker("QF4", "QP1", "7", 15)
    d.part("lamp", "EL1", power="150 W")
    d.wire("QF4.load", "EL1.in", "W7", "14", 20)
    d.breaker("QF5", "QP1", "8", 20)
    d.part("load", "EA1", "refrigerator", power="500 W", power_factor="0.85")
    d.wire("QF5.load", "EA1.in", "W8", "12", 15)
    d.breaker("QF6", "QP1", "9", 20, ground_fault="class_a")
    d.part("outlet", "XD2", "serving side", configuration="5-20", area="outside")
    d.wire("QF6.load", "XD2.feed", "W9", "12", 8)
    d.part("body", "XB1", name="chassis")
    d.jumper("QP1.ground", "XB1.tie", "WB1", "8", 3)
    return d
