"""Rigs of shapes that owners ask about: two sets by hand, a hybrid, converters, a dogbone."""

from __future__ import annotations

from tests.trial.rigs.sheet import BOTH, SPLIT, Sheet, dc


def _bank(d: Sheet, amps: int, gauge: str, taps: str = "8") -> None:
    """A battery of 24 V: GB1, its fuse F1, switch QB1, minus bar WC2."""
    d.battery("GB1", 24, 200, "lithium", 4)
    d.class_t("F1", amps)
    d.lead("GB1.dc", "F1.line", "W10", gauge, 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="48 V")
    d.lead("F1.load", "QB1.line", "W11", gauge, 1, "+")
    d.part("busbar", "WC2", bar="minus", rating="250 A", taps=taps)
    d.lead("GB1.dc", "WC2.feed", "W12", gauge, 2, "-")


def _converter(d: Sheet, plus: str, taps: tuple[str, str]) -> None:
    """TB2 from 24 to 12 V and 30 A behind F2, and the board QP2 that hangs on it alone."""
    d.class_t("F2", 30)
    d.wire(plus, "F2.line", "W20", "10", 0.5, "+")
    d.part("dc_charger", "TB2", "converter", in_voltage="24 V", dc_voltage="12 V", current="30 A")
    d.wire("F2.load", "TB2.dc_in", "W21", "10", 4, "+")
    d.wire(taps[0], "TB2.dc_in", "W22", "10", 4, "-")
    d.part("panel", "QP2", "12 V board", bus="60 A", places="4", bond="absent", **dc("12 V"))
    d.wire("TB2.dc", "QP2.feed", "W23", "8", 3, "+")
    d.wire(taps[1], "QP2.feed", "W24", "8", 3, "-")
    for n, (name, kind, power) in enumerate((("EL1", "lamp", "25 W"), ("EA1", "load", "60 W")), 1):
        d.blade(f"F{n + 10}", "QP2", str(n), 10)
        d.part(kind, name, power=power, **dc("12 V"))
        d.wire(f"F{n + 10}.load", f"{name}.in", f"W{n + 50}", "12", 8)


def narrow_boat() -> Sheet:
    """A steel narrow boat: isolation transformer, inverter-charger behind it, 24 V, 12 V by a
    converter without a battery.

    Neutral: ashore at the pedestal; aboard at the transformer on shore, and by the relay of the
    inverter-charger while it inverts; its transfer switches the neutral. The shore's ground wire
    ends at the shield; the hull is joined to minus once. Protection: 30 A guards 10 AWG; 20 A
    guards 12 AWG, 15 A 14 AWG; F1 125 A guards 1 AWG (130 A at 75 C), 2000 VA / 0.9 / 21 V =
    106 A; F2 30 A guards 10 AWG of the converter, whose 30 A go by 8 AWG (40 A).
    """
    d = Sheet(place="boat")
    d.shore("L5-30", 30, "10", 40)
    d.part("breaker", "QF10", "leakage breaker", rating="30 A", poles="all")
    d.rate("QF10", ground_fault="rcd_30", interrupting="5 kA")
    d.wire("XI1.inside", "QF10.line", "WI1", "10", 4)
    d.part("transformer", "TA1", power="3.6 kVA", ground="shield", neutral="bonded", breaker="30 A")
    d.wire("QF10.load", "TA1.primary", "WI2", "10", 4)
    d.part("inverter_charger", "TB1", power="2 kVA", dc_voltage="24 V", charge="40 A")
    d.rate("TB1", transfer="30 A", neutral="relay", bond_allowed="no", neutral_through="switched")
    d.wire("TA1.secondary", "TB1.ac_in", "WI3", "10", 4)
    d.part("panel", "QP1", main="30 A", bus="60 A", bond="absent", places="4")
    d.wire("TB1.ac_out", "QP1.feed", "WI4", "10", 4)
    d.breaker("QF1", "QP1", "1", 20, ground_fault="class_a")
    d.part("outlet", "XD1", "galley", configuration="5-20", area="kitchen")
    d.wire("QF1.load", "XD1.feed", "W1", "12", 12)
    d.breaker("QF2", "QP1", "2", 15)
    d.part("heater", "EH1", "immersion heater", power="1000 W", continuous="no")
    d.wire("QF2.load", "EH1.in", "W2", "14", 8)
    _bank(d, 125, "1")
    d.lead("QB1.load", "TB1.dc", "W13", "1", 4, "+")
    d.lead("WC2.1", "TB1.dc", "W14", "1", 4)
    _converter(d, "QB1.load", ("WC2.2", "WC2.3"))
    d.part("body", "XB1", "hull", name="hull", type="hull")
    d.jumper("WC2.4", "XB1.tie", "WB0", "1", 3, "->body")
    cases = (("QP1.ground", "8"), ("TB1.case", "2"), ("TA1.case", "8"), ("TB2.case", "8"))
    for n, (ground, gauge) in enumerate(cases, start=1):
        d.jumper(ground, "XB1.tie", f"WB{n}", gauge, 5)
    return d


def expedition_truck() -> Sheet:
    """An expedition truck on 24 V: two alternators straight on the bank, a converter, an inverter.

    Minus meets the chassis once. Each alternator of 80 A has a fuse of 100 A of its own at the
    battery, before the switch, so that no hand parts it; F2, F3 guard 2 AWG (115 A at 75 C). F1
    150 A guards 1/0; F4 100 A guards 2 AWG of the inverter, 1200 / 0.88 / 21 V = 65 A times 1.25;
    F2 30 A guards 10 AWG.
    """
    d = Sheet(place="vehicle")
    _bank(d, 150, "1/0", "10")
    d.rate("GB1", chemistry="agm")
    for n in (1, 2):
        d.part("alternator", f"G{n}", current="80 A", dc_voltage="24 V")
        d.class_t(f"F{n + 4}", 100)
        d.lead("GB1.dc", f"F{n + 4}.line", f"W6{n}", "2", 0.5, "+")
        d.lead(f"F{n + 4}.load", f"G{n}.dc", f"W7{n}", "2", 8, "+")
        d.lead(f"WC2.{n}", f"G{n}.dc", f"W8{n}", "2", 8)
    d.part("busbar", "WC1", bar="plus", rating="250 A", taps="4")
    d.lead("QB1.load", "WC1.feed", "W13", "1/0", 1, "+")
    d.class_t("F4", 100)
    d.lead("WC1.1", "F4.line", "W14", "2", 0.5)
    d.part("inverter", "TB1", power="1.2 kVA", dc_voltage="24 V", outlets="1", neutral="bonded")
    d.rate("TB1", bond_allowed="yes")
    d.lead("F4.load", "TB1.dc", "W15", "2", 4, "+")
    d.lead("WC2.3", "TB1.dc", "W16", "2", 4)
    d.outlet_in("XD1", "TB1", "1", "5-15", ground_fault="class_a", duplex="1")
    d.plugged("EP1", "laptop", "XD1", 90, case="insulated")
    _converter(d, "WC1.2", ("WC2.4", "WC2.5"))
    d.part("body", "XB1", name="chassis")
    d.jumper("WC2.6", "XB1.tie", "WB0", "1/0", 2, "->body")
    for n, case in enumerate(("TB1.case", "TB2.case"), 1):
        d.jumper(case, "XB1.tie", f"WB{n}", "4", 2)
    return d


def workshop_on_two_sets() -> Sheet:
    """A workshop off the grid on one of two bonded sets, by a switch of three positions; a shed.

    Neutral: joined at the set in use; the switch takes it along, the boards keep their bars apart.
    A rod at each building. Protection: each set's 30 A guards its 10 AWG; 20 A guards 12 AWG, the
    saw's and that to the shed too; 15 A guards 14 AWG.
    """
    d = Sheet(place="building")
    for n, power in ((1, "6 kVA"), (2, "7 kVA")):
        d.part("generator", f"G{n}", power=power, neutral="bonded", bond_allowed="yes", **SPLIT)
        d.breaker(f"QF8{n}", f"G{n}", "1", 30, **SPLIT)
        d.outlet_in(f"XD8{n}", f"QF8{n}", "load", "L14-30", **SPLIT)
        d.part("plug", f"XP{n}", configuration="L14-30", **SPLIT)
        d.seat(f"XP{n}", f"XD8{n}", "face")
        d.part("inlet", f"XI{n}", configuration="L14-30", expects="bonded", **SPLIT)
        d.cord(f"XP{n}.cord", f"XI{n}.outside", f"WS{n}", "10", 30)
    d.part("transfer_switch", "QC1", rating="30 A", poles="all", **SPLIT)
    for n in (1, 2):
        d.wire(f"XI{n}.inside", f"QC1.in{n}", f"WI{n}", "10", 5)
    d.part("panel", "QP1", "workshop", main="30 A", bus="100 A", bond="absent", places="12")
    d.rate("QP1", **SPLIT)
    d.wire("QC1.load", "QP1.feed", "WF", "10", 6)
    d.part("electrode", "XE1", "rod", resistance="25 ohm")
    d.jumper("QP1.ground", "XE1.ground", "WE1", "6", 8)
    d.breaker("QF1", "QP1", "1", 20, ground_fault="class_a")
    d.part("outlet", "XD1", "bench", configuration="5-20", area="garage")
    d.wire("QF1.load", "XD1.feed", "W1", "12", 20)
    d.breaker("QF2", "QP1", "2", 15)
    d.part("lamp", "EL1", power="200 W")
    d.wire("QF2.load", "EL1.in", "W2", "14", 30)
    d.breaker("QF3", "QP1", "5", 20, **BOTH)
    d.part("motor", "MA1", "saw", power="1.1 kW", start_current="30 A", **BOTH)
    d.wire("QF3.load", "MA1.in", "W3", "12", 25)
    d.breaker("QF4", "QP1", "6", 20, **SPLIT)
    d.part("panel", "QP2", "shed", main="20 A", bus="60 A", bond="absent", places="4")
    d.rate("QP2", detached="yes", **SPLIT)
    d.wire("QF4.load", "QP2.feed", "W4", "12", 60)
    d.part("electrode", "XE2", "rod of the shed", resistance="25 ohm")
    d.jumper("QP2.ground", "XE2.ground", "WE2", "6", 8)
    d.breaker("QF5", "QP2", "1", 15)
    d.part("lamp", "EL2", power="60 W")
    d.wire("QF5.load", "EL2.in", "W5", "14", 15)
    return d


def homestead() -> Sheet:
    """A house whose backed circuits hang on a hybrid inverter; before it utility or a fixed set.

    Neutral: joined in the service board alone; hybrid and set float, the switch of two poles and
    the hybrid pass it through for good. One string of seven, 347 V and 390 V in the cold, on 500 V
    and a switch for 600 V; the hybrid finds its first fault. Protection: 50 A guards 6 AWG (55 A
    at 60 C), the set's 40 A 8 AWG; 20 A guards 12 AWG; F1 200 A guards 3/0 (200 A at 75 C):
    6000 / 0.9 / 42 = 159 A times 1.25.
    """
    d = Sheet(place="building")
    d.utility("100 A")
    d.breaker("QF1", "QP1", "5", 50, **SPLIT)
    d.part("generator", "G1", power="8 kVA", neutral="floating", bond_allowed="yes", **SPLIT)
    d.rate("G1", breaker="40 A", outlets="0")
    d.part("transfer_automatic", "QC1", rating="50 A", poles="lines", **SPLIT)
    d.wire("QF1.load", "QC1.in1", "W1", "6", 5)
    d.wire("G1.out", "QC1.in2", "W2", "8", 30)
    d.part("hybrid_inverter", "TB1", power="6 kVA", dc_voltage="48 V", charge="60 A", **SPLIT)
    d.rate("TB1", transfer="50 A", neutral="floating", bond_allowed="yes", current="100 A")
    d.rate("TB1", neutral_through="common", pv_voltage="500 V", pv_current="18 A")
    d.rate("TB1", finds_ground_fault="yes")
    d.wire("QC1.load", "TB1.ac_in", "W3", "6", 8)
    d.part("panel", "QP2", "backed board", main="50 A", bus="100 A", bond="absent", places="8")
    d.rate("QP2", **SPLIT)
    d.wire("TB1.ac_out", "QP2.feed", "W4", "6", 6)
    d.breaker("QF2", "QP2", "1", 20)
    d.part("load", "EA1", "refrigerator", power="900 W")
    d.wire("QF2.load", "EA1.in", "W5", "12", 30)
    d.breaker("QF3", "QP2", "5", 20, **BOTH)
    d.part("motor", "MA1", "well pump", power="750 W", start_current="25 A", **BOTH)
    d.wire("QF3.load", "MA1.in", "W6", "12", 80)
    d.breaker("QF4", "QP2", "2", 20, ground_fault="class_a")
    d.part("outlet", "XD1", "kitchen", configuration="5-20", area="kitchen")
    d.wire("QF4.load", "XD1.feed", "W7", "12", 25)
    d.battery("GB1", 48, 200, "lithium", 5)
    d.class_t("F1", 200)
    d.lead("GB1.dc", "F1.line", "W10", "3/0", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="250 A", voltage="80 V")
    d.lead("F1.load", "QB1.line", "W11", "3/0", 1, "+")
    d.lead("QB1.load", "TB1.dc", "W12", "3/0", 4, "+")
    d.lead("GB1.dc", "TB1.dc", "W13", "3/0", 5, "-")
    d.part("solar_array", "GP1", voc="49.5 V", isc="10 A", vmp="41 V", imp="9.5 A", series="7")
    d.rate("GP1", strings="1", voc_per_degree="-0.28 %", coldest="-20 degC", largest_fuse="20 A")
    d.part("isolator", "QB9", circuit="dc", rating="32 A", voltage="600 V", direct="yes")
    d.wire("GP1.dc", "QB9.line", "WR1", "10", 60, insulation="90", ambient="50 degC")
    d.wire("QB9.load", "TB1.pv", "WR2", "10", 4, insulation="90", ambient="50 degC")
    d.jumper("GP1.frame", "TB1.case", "WR3", "8", 60)
    return d


def trailer_on_a_dogbone() -> Sheet:
    """A large trailer made for 50 A on two legs, in a park on 30 A of one by an adapter.

    Neutral: at the park; no two circuits share one aboard, so that both legs in step add up in the
    main neutral alone, which the park's 30 A guard. The surge device stands 150 V for good. 50 A
    guards 6 AWG; 20 A guards 12 AWG, 15 A 14 AWG; F1 60 A guards 4 AWG, F2 60 A 6 AWG (65 A at
    75 C) of the 45 A converter, F3 30 A 10 AWG. Minus meets the frame once.
    """
    d = Sheet(place="recreational")
    d.part("supply", "GS1", "park", breaker="30 A", prospective="1.5 kA")
    d.outlet_in("XD9", "GS1", "1", "TT-30", area="outside")
    d.part("adapter", "XA1", configuration="TT-30", connector="14-50", outlet_circuit="split")
    d.seat("XA1", "XD9", "face")
    d.part("plug", "XP1", configuration="14-50", **SPLIT)
    d.seat("XP1", "XA1", "face")
    d.part("inlet", "XI1", configuration="14-50", **SPLIT)
    d.cord("XP1.cord", "XI1.outside", "WS1", "6", 30, ground_size="8 AWG")
    d.part("panel", "QP1", main="50 A", bus="100 A", bond="absent", places="12", **SPLIT)
    d.wire("XI1.inside", "QP1.feed", "W1", "6", 6)
    d.part("body", "XB1", name="frame")
    d.jumper("QP1.ground", "XB1.tie", "WB1", "8", 3)
    d.breaker("QF9", "QP1", "7", 20, **SPLIT)
    d.part("surge_device", "FA1", continuous_voltage="150 V", short_circuit="10 kA", **SPLIT)
    d.wire("QF9.load", "FA1.line", "W9", "12", 1)
    d.breaker("QF1", "QP1", "1", 20)
    d.part("motor", "MA1", "air conditioner", power="1200 W", power_factor="0.9", duty="hermetic")
    d.rate("MA1", start_current="50 A", least_ampacity="14 A", largest_device="20 A")
    d.wire("QF1.load", "MA1.in", "W3", "12", 20)
    d.breaker("QF2", "QP1", "3", 20, ground_fault="class_a")
    d.part("outlet", "XD1", configuration="5-20", area="kitchen")
    d.wire("QF2.load", "XD1.feed", "W4", "12", 15)
    d.breaker("QF3", "QP1", "2", 15)
    d.part("charger", "TB1", "converter", current="45 A", dc_voltage="12 V")
    d.wire("QF3.load", "TB1.ac_in", "W5", "14", 8)
    d.battery("GB1", 12, 100, "agm", 2.5)
    d.part("busbar", "WC2", bar="minus", rating="200 A", taps="6")
    d.lead("GB1.dc", "WC2.feed", "W12", "4", 2, "-")
    d.class_t("F1", 60)
    d.lead("GB1.dc", "F1.line", "W10", "4", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="100 A")
    d.lead("F1.load", "QB1.line", "W11", "4", 1, "+")
    d.class_t("F2", 60)
    d.lead("QB1.load", "F2.line", "W13", "6", 0.5, "+")
    d.lead("F2.load", "TB1.dc", "W14", "6", 6, "+")
    d.lead("WC2.1", "TB1.dc", "W15", "6", 6)
    d.class_t("F3", 30)
    d.wire("QB1.load", "F3.line", "W16", "10", 0.5, "+")
    d.part("motor", "MA2", "slide-out", power="200 W", duty="brief", **dc("12 V"))
    d.rate("MA2", start_current="40 A")
    d.wire("F3.load", "MA2.in", "W17", "10", 10, "+")
    d.wire("WC2.2", "MA2.in", "W18", "10", 10)
    d.jumper("WC2.3", "XB1.tie", "WB0", "4", 2, "->body")
    d.jumper("TB1.case", "XB1.tie", "WB2", "6", 3)
    return d
