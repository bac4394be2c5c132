"""Rigs that engines charge, whose shore stops at a shield, whose sets run side by side."""

from __future__ import annotations

from linework.kinds import Answer
from tests.trial.rigs.sheet import BOTH, SPLIT, Sheet, dc


def rescue_van() -> Sheet:
    """A rescue van: the engine charges a lithium house bank by a DC-DC charger and a pump's battery
    by a charge relay; a portable power station feeds a lamp mast's ballast on its own.

    Minus meets the chassis once, at the minus bar, as thick as the thickest lead. Protection: the
    alternator's 90 A flow in 2 AWG behind F1 125 A (115 A at 75 C, next size); the starter's cable
    has no fuse (exempt); F2 60 A and F4 50 A guard 6 AWG (65 A at 75 C) at both ends of the DC-DC
    charger, which takes 30 x 14.4 / 0.9 / 11 = 44 A; F5 and F6 100 A guard 2 AWG at both ends of
    the relay; F3 100 A guards the house bank's 2 AWG; F7 40 A and F8 30 A guard 8 and 10 AWG.
    Lead stands beside lead only; between lead and lithium lies the charger.
    """
    d = Sheet(place="vehicle")
    d.part("busbar", "WC2", bar="minus", rating="400 A", taps="10")
    d.battery("GB1", 12, 90, "flooded", 2)
    d.lead("GB1.dc", "WC2.1", "W1", "1/0", 2, "-")
    d.part("motor", "MA1", "starter", power="1.5 kW", duty="starter", **dc("12 V"))
    d.lead("GB1.dc", "MA1.in", "W2", "1/0", 5, "+")
    d.lead("WC2.2", "MA1.in", "W3", "1/0", 5)
    d.part("alternator", "G1", current="90 A")
    d.class_t("F1", 125)
    d.lead("GB1.dc", "F1.line", "W4", "2", 0.5, "+")
    d.lead("F1.load", "G1.dc", "W5", "2", 6, "+")
    d.lead("WC2.3", "G1.dc", "W6", "2", 6)
    d.part("dc_charger", "TB1", current="30 A")
    d.class_t("F2", 60)
    d.lead("GB1.dc", "F2.line", "W7", "6", 0.5, "+")
    d.lead("F2.load", "TB1.dc_in", "W8", "6", 8, "+")
    d.lead("WC2.4", "TB1.dc_in", "W9", "6", 8)
    _house(d)
    d.part("charge_relay", "QA1", rating="140 A")
    d.battery("GB3", 12, 100, "agm", 3)
    d.class_t("F5", 100)
    d.class_t("F6", 100)
    d.lead("GB1.dc", "F5.line", "W20", "2", 0.5, "+")
    d.lead("F5.load", "QA1.line", "W21", "2", 8, "+")
    d.lead("GB3.dc", "F6.line", "W22", "2", 0.5, "+")
    d.lead("F6.load", "QA1.load", "W23", "2", 3, "+")
    d.lead("GB3.dc", "WC2.7", "W24", "2", 2, "-")
    d.class_t("F7", 40)
    d.wire("GB3.dc", "F7.line", "W25", "8", 0.5, "+")
    d.part("motor", "MA2", "water pump", power="180 W", start_current="45 A", **dc("12 V"))
    d.wire("F7.load", "MA2.in", "W26", "8", 8, "+")
    d.wire("WC2.8", "MA2.in", "W27", "8", 8)
    d.part("power_station", "GB4", power="1.8 kVA", neutral="floating", outlets="1")
    d.outlet_in("XD1", "GB4", "1", "5-15", duplex="1")
    d.plugged("EP1", "mast light", "XD1", 400, case="insulated")
    d.part("body", "XB1", name="chassis")
    d.jumper("WC2.9", "XB1.tie", "WB0", "1/0", 2, "->body")
    d.jumper("TB1.case", "XB1.tie", "WB1", "8", 3)
    return d


def _house(d: Sheet) -> None:
    """Lithium behind F3 with its management's limits, the charger's F4, one lamp behind F8."""
    d.battery("GB2", 12, 150, "lithium", 5)
    d.rate("GB2", discharge_limit="150 A", charge_limit="100 A")
    d.class_t("F3", 100)
    d.lead("GB2.dc", "F3.line", "W10", "2", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="150 A", voltage="32 V")
    d.lead("F3.load", "QB1.line", "W11", "2", 1, "+")
    d.lead("GB2.dc", "WC2.5", "W12", "2", 2, "-")
    d.class_t("F4", 50)
    d.lead("QB1.load", "F4.line", "W13", "6", 0.5, "+")
    d.lead("F4.load", "TB1.dc", "W14", "6", 3, "+")
    d.lead("WC2.6", "TB1.dc", "W15", "6", 3)
    d.class_t("F8", 30)
    d.wire("QB1.load", "F8.line", "W16", "10", 0.5, "+")
    d.part("lamp", "EL1", "cabin lights", power="60 W", **dc("12 V"))
    d.wire("F8.load", "EL1.in", "W17", "10", 12, "+")
    d.wire("WC2.10", "EL1.in", "W18", "10", 12)


def ketch() -> Sheet:
    """A ketch: two banks on a 1-2-both selector, an alternator on the first, a galvanic isolator.

    Neutral: at the pedestal only; the shore's ground wire reaches the boat through the isolator
    alone, and minus meets the engine once. Protection: leakage breaker of two poles, 30 A, on
    10 AWG; F1 and F2 250 A guard 2/0 (285 A, 33 CFR 183.425, 90 C) to the selector of 500 A, whose
    common stud feeds the starter (no device asked); the alternator's 80 A lie straight on the first
    bank behind F3 100 A and 4 AWG (135 A), so that no lever parts them; F4 40 A guards 8 AWG (65 A)
    to the board; the charger's 20 A go to bank 1 by F5 30 A on 10 AWG (40 A).
    """
    d = Sheet(place="boat")
    _shore(d)
    d.part("busbar", "WC2", bar="minus", rating="400 A", taps="8")
    d.part("battery_selector", "QB1", rating="500 A")
    for n in (1, 2):
        d.battery(f"GB{n}", 12, 110, "agm", 3)
        d.class_t(f"F{n}", 250)
        d.lead(f"GB{n}.dc", f"F{n}.line", f"W{n}0", "2/0", 0.5, "+")
        d.lead(f"F{n}.load", f"QB1.battery{n}", f"W{n}1", "2/0", 3)
        d.lead(f"GB{n}.dc", f"WC2.{n}", f"W{n}2", "2/0", 2, "-")
    d.part("motor", "MA1", "starter", power="1.2 kW", duty="starter", **dc("12 V"))
    d.lead("QB1.load", "MA1.in", "W30", "2/0", 5, "+")
    d.lead("WC2.3", "MA1.in", "W31", "2/0", 5)
    d.part("alternator", "G1", current="80 A")
    d.class_t("F3", 100)
    d.lead("GB1.dc", "F3.line", "W32", "4", 0.5, "+")
    d.lead("F3.load", "G1.dc", "W33", "4", 6, "+")
    d.lead("WC2.4", "G1.dc", "W34", "4", 6)
    d.class_t("F5", 30)
    d.wire("GB1.dc", "F5.line", "W35", "10", 0.5, "+")
    d.wire("F5.load", "TB1.dc", "W36", "10", 5, "+")
    d.wire("WC2.5", "TB1.dc", "W37", "10", 5)
    d.class_t("F4", 40)
    d.wire("QB1.load", "F4.line", "W40", "8", 0.5, "+")
    _lamp_board(d, "F4.load", "WC2.6")
    _engine(d, "WC2.7", "2/0", "QP1.ground", "TB1.case")
    return d


def _shore(d: Sheet) -> None:
    """A 30 A inlet whose ground wire goes by the isolator, a board with the charger's breaker."""
    d.shore("L5-30", 30, "10", 40)
    d.part("breaker", "QF10", "leakage breaker", rating="30 A", poles="all")
    d.rate("QF10", ground_fault="rcd_30", interrupting="5 kA")
    d.wire("XI1.inside", "QF10.line", "WI1", "10", 4, "L N")
    d.part("galvanic_isolator", "RB1", rating="30 A", failure="closed")
    d.wire("XI1.inside", "RB1.shore", "WI2", "10", 4, "PE")
    d.part("panel", "QP1", bus="60 A", bond="absent", places="4")
    d.wire("QF10.load", "QP1.feed", "WI3", "10", 3, "L N")
    d.wire("RB1.boat", "QP1.ground", "WI4", "10", 3, "PE")
    d.breaker("QF1", "QP1", "1", 15)
    d.part("charger", "TB1", current="20 A", dc_voltage="12 V")
    d.wire("QF1.load", "TB1.ac_in", "W1", "14", 8)


def _lamp_board(d: Sheet, plus: str, minus: str) -> None:
    """A 12 V board with running lights and a bilge pump."""
    d.part("panel", "QP2", "12 V board", bus="60 A", places="4", bond="absent", **dc("12 V"))
    d.wire(plus, "QP2.feed", "W41", "8", 8, "+")
    d.wire(minus, "QP2.feed", "W42", "8", 8)
    marked: dict[str, Answer] = {"voltage": "48 V", "direct": "yes", "interrupting": "5 kA"}
    for n, (name, kind, power) in enumerate((("EL1", "lamp", "25 W"), ("MA2", "motor", "50 W")), 1):
        d.breaker(f"F{n + 10}", "QP2", str(n), 10, circuit="dc", **marked)
        d.part(kind, name, power=power, critical="yes", **dc("12 V"))
        d.wire(f"F{n + 10}.load", f"{name}.in", f"W{n + 50}", "10", 12)


def _engine(d: Sheet, minus: str, gauge: str, *grounds: str) -> None:
    d.part("body", "XB1", "engine block", name="engine")
    d.jumper(minus, "XB1.tie", "WB0", gauge, 3, "->body")
    for n, ground in enumerate(grounds, start=1):
        d.jumper(ground, "XB1.tie", f"WB{n}", "8", 5)


def trawler() -> Sheet:
    """A trawler on 50 A shore through an isolation transformer with a shield; 24 V for the pumps.

    Neutral: ashore at the pedestal, aboard at the transformer's secondary, whose case is the boat's
    ground; the shore's ground wire ends at the shield. Protection: pedestal 50 A, 6 AWG (55 A at
    60 C); leakage breaker QF10 50 A before the transformer of 10 kVA (41.7 A, 125 %: 52 A), its own
    50 A behind it on 6 AWG; main 50 A; 20 A on 12 AWG; F1 125 A guards 1 AWG (210 A, 33 CFR
    183.425) and F2 60 A 6 AWG of the 35 A charger. The lithium's management gives 100 A and takes
    100 A; pump and lights draw 17 A.
    """
    d = Sheet(place="boat")
    d.shore("14-50", 50, "6", 40, **SPLIT)
    d.rate_run("WS1", ground_size="8 AWG")
    d.part("breaker", "QF10", "leakage breaker", rating="50 A", poles="all", **SPLIT)
    d.rate("QF10", ground_fault="rcd_30", interrupting="5 kA")
    d.wire("XI1.inside", "QF10.line", "W1", "6", 6)
    d.part(
        "transformer", "TA1", power="10 kVA", circuit="ac240", secondary="split", ground="shield"
    )
    d.rate("TA1", neutral="bonded", breaker="50 A", voltage="240 V")
    d.wire("QF10.load", "TA1.primary", "W2", "6", 4, "L1 L2 PE")
    d.part("panel", "QP1", main="50 A", bus="100 A", bond="absent", places="8", **SPLIT)
    d.wire("TA1.secondary", "QP1.feed", "W3", "6", 6)
    d.breaker("QF1", "QP1", "1", 20, **BOTH)
    d.part("heater", "EH1", "water heater", power="3 kW", **BOTH)
    d.wire("QF1.load", "EH1.in", "W4", "12", 12)
    d.breaker("QF2", "QP1", "5", 20, ground_fault="class_a")
    d.part("outlet", "XD1", "galley", configuration="5-20", area="kitchen")
    d.wire("QF2.load", "XD1.feed", "W5", "12", 12)
    d.breaker("QF3", "QP1", "6", 20)
    d.part("charger", "TB1", current="35 A", dc_voltage="24 V")
    d.wire("QF3.load", "TB1.ac_in", "W6", "12", 8)
    d.battery("GB1", 24, 200, "lithium", 4)
    d.rate("GB1", discharge_limit="100 A", discharge_peak="200 A", charge_limit="100 A")
    d.class_t("F1", 125)
    d.lead("GB1.dc", "F1.line", "W10", "1", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="48 V")
    d.lead("F1.load", "QB1.line", "W11", "1", 1, "+")
    d.part("busbar", "WC2", bar="minus", rating="200 A", taps="5")
    d.lead("GB1.dc", "WC2.feed", "W12", "1", 2, "-")
    d.class_t("F2", 60)
    d.lead("QB1.load", "F2.line", "W13", "6", 0.5, "+")
    d.lead("F2.load", "TB1.dc", "W14", "6", 5, "+")
    d.lead("WC2.1", "TB1.dc", "W15", "6", 5)
    for n, (name, kind, power) in enumerate((("MA1", "motor", "300 W"), ("EL1", "lamp", "100 W"))):
        d.class_t(f"F{n + 3}", 30)
        d.wire("QB1.load", f"F{n + 3}.line", f"W{n + 20}", "10", 0.5, "+")
        d.part(kind, name, power=power, **dc("24 V"))
        d.wire(f"F{n + 3}.load", f"{name}.in", f"W{n + 30}", "10", 12, "+")
        d.wire(f"WC2.{n + 2}", f"{name}.in", f"W{n + 40}", "10", 12)
    d.rate("MA1", start_current="60 A")
    _engine(d, "WC2.4", "1", "QP1.ground", "TB1.case", "TA1.case")
    return d


def lake_cabin() -> Sheet:
    """A cabin on a hybrid inverter of two legs with an array; two small sets of one make help out.

    Neutral: joined in the cabin's board only; hybrid and sets float, and the hybrid passes the
    neutral through for good. Rods at the board. Protection: the kit's 30 A guards the 10 AWG cord;
    main 30 A behind the hybrid of 4 kVA (17 A a leg, relay 30 A) guards 10 AWG; 15 A guards 14 AWG
    and 20 A 12 AWG; an outlet with both tabs broken out hangs on both legs of one two-pole breaker.
    F1 150 A guards 1/0 (150 A at 75 C): 4000 / 0.9 / 42 = 106 A times 1.25 = 132 A. Four modules
    give 4 x 24 x 1.15 = 110 V in the cold on 150 V, and 80 V work against 58 V. The surge device
    stands 150 V to ground for good (1.1 x 120 V).
    """
    d = Sheet(place="building")
    d.part("parallel_kit", "WC9", breaker="30 A", outlets="1", **SPLIT)
    for n in (1, 2):
        d.part("generator", f"G{n}", power="3 kVA", neutral="floating", bond_allowed="yes", **SPLIT)
        d.rate(f"G{n}", excitation="electronic", parallel="kit", outlets="0")
        d.cord(f"G{n}.out", f"WC9.set{n}", f"WS{n}", "10", 4)
    d.outlet_in("XD9", "WC9", "1", "L14-30", **SPLIT)
    d.part("plug", "XP1", configuration="L14-30", **SPLIT)
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="L14-30", expects="floating", **SPLIT)
    d.cord("XP1.cord", "XI1.outside", "WS3", "10", 30)
    d.part("hybrid_inverter", "TB1", power="4 kVA", dc_voltage="48 V", charge="20 A", **SPLIT)
    d.rate("TB1", transfer="30 A", neutral="floating", bond_allowed="yes")
    d.rate("TB1", neutral_through="common", current="60 A", pv_voltage="150 V", pv_current="18 A")
    d.wire("XI1.inside", "TB1.ac_in", "W1", "10", 10)
    d.part("panel", "QP1", main="30 A", bus="100 A", bond="fitted", places="8", **SPLIT)
    d.wire("TB1.ac_out", "QP1.feed", "W2", "10", 6)
    d.part("electrode", "XE1", "rods", resistance="25 ohm")
    d.jumper("QP1.ground", "XE1.ground", "WE1", "6", 10)
    _cabin_circuits(d)
    d.battery("GB1", 48, 200, "lithium", 5)
    d.class_t("F1", 150)
    d.lead("GB1.dc", "F1.line", "W10", "1/0", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="80 V")
    d.lead("F1.load", "QB1.line", "W11", "1/0", 1, "+")
    d.lead("QB1.load", "TB1.dc", "W12", "1/0", 4, "+")
    d.lead("GB1.dc", "TB1.dc", "W13", "1/0", 5, "-")
    module: dict[str, Answer] = {"voc": "24 V", "isc": "6 A", "vmp": "20 V", "imp": "5.6 A"}
    d.part("solar_array", "GP1", series="4", strings="2", coldest="-25 degC", **module)
    d.rate("GP1", voc_per_degree="-0.3 %")
    d.part("isolator", "QB9", circuit="dc", rating="32 A", voltage="150 V", direct="yes")
    sun: dict[str, Answer] = {"insulation": "90", "ambient": "50 degC"}
    d.wire("GP1.dc", "QB9.line", "WR1", "8", 20, **sun)
    d.wire("QB9.load", "TB1.pv", "WR2", "8", 3, **sun)
    d.jumper("GP1.frame", "TB1.case", "WR3", "8", 14)
    return d


def _cabin_circuits(d: Sheet) -> None:
    """A split outlet on a two-pole breaker, lights, a pump on both legs, the surge device."""
    d.breaker("QF1", "QP1", "1", 20, **SPLIT)
    d.part("junction_box", "XJ1", **SPLIT)
    d.wire("QF1.load", "XJ1.a", "W3", "12", 15)
    d.part("split_outlet", "XD1", configuration="5-20", tabs="both", area="dry")
    d.wire("XJ1.b", "XD1.feed", "W4", "12", 3, "L1>L N PE")
    d.wire("XJ1.c", "XD1.feed_2", "W5", "12", 3, "L2>L N PE")
    d.breaker("QF2", "QP1", "5", 15)
    d.part("lamp", "EL1", power="100 W")
    d.wire("QF2.load", "EL1.in", "W6", "14", 30)
    d.breaker("QF3", "QP1", "6", 15, **BOTH)
    d.part("motor", "MA1", "well pump", power="400 W", power_factor="0.7", **BOTH)
    d.rate("MA1", start_current="10 A")
    d.wire("QF3.load", "MA1.in", "W7", "14", 60)
    d.breaker("QF4", "QP1", "2", 20, **SPLIT)
    d.part("surge_device", "FA1", continuous_voltage="150 V", short_circuit="10 kA", **SPLIT)
    d.wire("QF4.load", "FA1.line", "W8", "12", 1)
