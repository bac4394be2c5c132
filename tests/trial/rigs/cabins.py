"""Cabins and huts off the grid: banks of 48 V, sets in sheds, boards of two legs with one hot."""

from __future__ import annotations

from tests.trial.rigs.sheet import BOTH, SPLIT, Sheet, dc


def _blocks(d: Sheet, kiloamps: float = 5) -> None:
    """Four blocks of 12 V in series, GB1 at the plus end and GB4 at the minus end."""
    for n in range(1, 5):
        d.battery(f"GB{n}", 12, 200, "lithium", kiloamps)
    for n in range(1, 4):
        d.lead(f"GB{n}.dc", f"GB{n + 1}.dc", f"W7{n}", "3/0", 0.7, "->+")


def cabin_on_one_hot() -> Sheet:
    """A cabin whose board of two legs gets 120 V on both from one inverter-charger; no shared
    neutral anywhere.

    Neutral: joined in the board only; the inverter-charger passes it through for good and floats,
    and so does the set, so the one link serves both. Protection: the set's 30 A guards 10 AWG; main
    30 A behind the output guards 10 AWG; F1 125 A guards 1 AWG (130 A at 75 C), 3000 VA / 0.9 /
    42 V = 79 A times 1.25 = 99 A. The neutral carries no more than the one source gives (30 A).
    """
    d = Sheet(place="building")
    d.part("generator", "G1", power="3.6 kVA", neutral="floating", bond_allowed="yes")
    d.breaker("QF9", "G1", "1", 30)
    d.outlet_in("XD9", "QF9", "load", "L5-30")
    d.part("plug", "XP1", configuration="L5-30")
    d.seat("XP1", "XD9", "face")
    d.part("inlet", "XI1", configuration="L5-30", expects="floating")
    d.cord("XP1.cord", "XI1.outside", "WS1", "10", 30)
    d.part("inverter_charger", "TB1", power="3 kVA", dc_voltage="48 V", charge="30 A")
    d.rate("TB1", transfer="30 A", neutral="floating", bond_allowed="yes")
    d.rate("TB1", neutral_through="common")
    d.wire("XI1.inside", "TB1.ac_in", "W1", "10", 10)
    d.part("panel", "QP1", main="30 A", bus="100 A", bond="fitted", places="8", **SPLIT)
    d.wire("TB1.ac_out", "QP1.feed", "W2", "10", 6, "L>L1 L>L2 N PE")
    d.part("electrode", "XE1", "rods", resistance="25 ohm")
    d.jumper("QP1.ground", "XE1.ground", "WE1", "6", 10)
    d.breaker("QF1", "QP1", "1", 20, ground_fault="class_a")
    d.part("outlet", "XD1", "kitchen", configuration="5-20", area="kitchen")
    d.wire("QF1.load", "XD1.feed", "W3", "12", 20)
    d.breaker("QF2", "QP1", "3", 15)
    d.part("lamp", "EL1", power="100 W")
    d.wire("QF2.load", "EL1.in", "W4", "14", 30)
    d.breaker("QF3", "QP1", "5", 15)
    d.part("load", "EA1", "refrigerator", power="150 W", power_factor="0.85")
    d.wire("QF3.load", "EA1.in", "W5", "14", 20)
    d.battery("GB1", 48, 100, "lithium", 4)
    d.class_t("F1", 125)
    d.lead("GB1.dc", "F1.line", "W10", "1", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="80 V")
    d.lead("F1.load", "QB1.line", "W11", "1", 1, "+")
    d.lead("QB1.load", "TB1.dc", "W12", "1", 4, "+")
    d.lead("GB1.dc", "TB1.dc", "W13", "1", 5, "-")
    return d


def fishing_lodge() -> Sheet:
    """A lodge with a fixed bonded set in a shed, a board in the lodge, a bunkhouse on aluminium.

    Neutral: joined at the set, the only source; boards keep their bars apart and have rods.
    Protection: the set's 50 A guards 6 AWG (55 A at 60 C); QF4 40 A guards 6 AWG aluminium (40 A
    at 60 C) to the bunkhouse; two hots that share a neutral have one two-pole breaker.
    """
    d = Sheet(place="building")
    d.part("generator", "G1", power="12 kVA", neutral="bonded", bond_allowed="yes", **SPLIT)
    d.rate("G1", breaker="50 A", outlets="0", excitation="auxiliary")
    d.part("electrode", "XE1", "rod at the shed", resistance="25 ohm")
    d.jumper("G1.frame", "XE1.ground", "WE1", "6", 6)
    d.part("panel", "QP1", "lodge board", main="50 A", bus="100 A", bond="absent", **SPLIT)
    d.rate("QP1", places="12")
    d.wire("G1.out", "QP1.feed", "W1", "6", 60, installation="conduit_pvc")
    d.part("electrode", "XE2", "lodge rods", resistance="25 ohm")
    d.jumper("QP1.ground", "XE2.ground", "WE2", "6", 8)
    d.breaker("QF1", "QP1", "1", 20, **SPLIT)
    d.part("junction_box", "XJ1", **SPLIT)
    d.wire("QF1.load", "XJ1.a", "W2", "12", 25)
    for n, leg in ((1, "L1"), (2, "L2")):
        d.part("outlet", f"XD{n}", configuration="5-20", area="dry")
        d.wire("XJ1.b", f"XD{n}.feed", f"W{n + 2}", "12", 8, f"{leg}>L N PE")
        d.plugged(f"EP{n}", "freezer", f"XD{n}", 400)
    d.breaker("QF2", "QP1", "5", 15, **BOTH)
    d.part("motor", "MA1", "well pump", power="750 W", power_factor="0.75", **BOTH)
    d.rate("MA1", start_current="25 A")
    d.wire("QF2.load", "MA1.in", "W5", "12", 120, installation="conduit_pvc")
    d.breaker("QF4", "QP1", "9", 40, **SPLIT)
    d.part("panel", "QP2", "bunkhouse board", main="40 A", bus="60 A", bond="absent", **SPLIT)
    feeder = {"material": "aluminium", "installation": "conduit_pvc"}
    d.wire("QF4.load", "QP2.feed", "W6", "6", 70, **feeder)
    d.part("electrode", "XE3", "bunkhouse rods", resistance="25 ohm")
    d.jumper("QP2.ground", "XE3.ground", "WE3", "6", 8)
    d.breaker("QF5", "QP2", "1", 15)
    d.part("lamp", "EL1", power="120 W")
    d.wire("QF5.load", "EL1.in", "W7", "14", 25)
    d.breaker("QF6", "QP2", "3", 20, ground_fault="class_a")
    d.part("outlet", "XD3", "washroom", configuration="5-20", area="bath")
    d.wire("QF6.load", "XD3.feed", "W8", "12", 20)
    return d


def telephone_hut() -> Sheet:
    """A telephone hut on 48 V: four blocks in series, DC breakers, 3 kVA inverter, charger.

    Neutral: the inverter joins it to its case and is the only source of its board; the set that
    feeds nothing but the charger is bonded and has nothing else on it. Protection: F1 200 A guards
    3/0 (200 A at 75 C); F2 125 A guards 1 AWG (3000 VA / 0.88 / 42 V = 81 A times 1.25 = 101 A); F3
    60 A guards 6 AWG of the 40 A charger; DC breakers marked for 80 V behind F4 60 A.
    """
    d = Sheet(place="field")
    _blocks(d)
    d.class_t("F1", 200)
    d.lead("GB1.dc", "F1.line", "W1", "3/0", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="250 A", voltage="80 V")
    d.lead("F1.load", "QB1.line", "W2", "3/0", 1, "+")
    d.part("busbar", "WC1", bar="plus", rating="250 A", taps="4")
    d.part("busbar", "WC2", bar="minus", rating="250 A", taps="5")
    d.lead("QB1.load", "WC1.feed", "W3", "3/0", 1, "+")
    d.lead("GB4.dc", "WC2.feed", "W4", "3/0", 2, "-")
    for n, amps, gauge in ((2, 125, "1"), (3, 60, "6"), (4, 60, "6")):
        d.class_t(f"F{n}", amps)
        d.lead(f"WC1.{n - 1}", f"F{n}.line", f"W{n + 3}", gauge, 0.5)
    d.part("inverter", "TB1", power="3 kVA", dc_voltage="48 V", neutral="bonded")
    d.rate("TB1", bond_allowed="yes")
    d.lead("F2.load", "TB1.dc", "W8", "1", 4, "+")
    d.lead("WC2.1", "TB1.dc", "W9", "1", 4)
    d.part("panel", "QP1", main="30 A", bus="60 A", bond="absent", places="4")
    d.wire("TB1.ac_out", "QP1.feed", "W10", "10", 6)
    d.breaker("QF1", "QP1", "1", 20, ground_fault="class_a")
    d.part("outlet", "XD1", configuration="5-20")
    d.wire("QF1.load", "XD1.feed", "W11", "12", 12)
    d.part("generator", "G1", power="3.6 kVA", neutral="bonded", bond_allowed="yes")
    d.rate("G1", breaker="30 A", outlets="0")
    d.part("charger", "TB2", current="40 A", dc_voltage="48 V")
    d.wire("G1.out", "TB2.ac_in", "W12", "10", 30)
    d.lead("F3.load", "TB2.dc", "W13", "6", 4, "+")
    d.lead("WC2.2", "TB2.dc", "W14", "6", 4)
    d.part("panel", "QP2", "48 V board", bus="100 A", places="4", bond="absent", **dc("48 V"))
    d.lead("F4.load", "QP2.feed", "W15", "6", 8, "+")
    d.lead("WC2.3", "QP2.feed", "W16", "6", 8)
    for n, power in ((2, "300 W"), (3, "150 W")):
        d.breaker(f"QF{n}", "QP2", str(n - 1), 15, circuit="dc", voltage="80 V", direct="yes")
        d.part("load", f"EA{n}", "radio rack", power=power, continuous="yes", **dc("48 V"))
        d.wire(f"QF{n}.load", f"EA{n}.in", f"W{n + 18}", "12", 10)
    d.part("body", "XB1", "hut frame", name="hut frame", type="structure")
    for n, end in enumerate(("QP1.ground", "TB1.case", "TB2.case", "G1.frame"), start=1):
        d.jumper(end, "XB1.tie", f"WB{n}", "8", 4)
    d.jumper("WC2.4", "XB1.tie", "WB0", "3/0", 2, "->body")
    d.part("electrode", "XE1", resistance="25 ohm")
    d.jumper("XB1.tie", "XE1.ground", "WE1", "6", 6)
    return d


def ranger_hut() -> Sheet:
    """A ranger's hut, not furnished yet: sun, bank, boards; no loads are drawn at all.

    Neutral: the inverter joins it to its case; its board keeps its bars apart and has a rod.
    Protection: F1 110 A guards 2 AWG (115 A at 75 C), 1 kVA on 24 V: 1000 / 0.88 / 21 = 54 A times
    1.25 = 68 A; with the sun 110 + 25 A come to 1 AWG (130 A, next
    size 150); F2 30 A guards 10 AWG of the 24 V board; F9 30 A guards 10 AWG.
    """
    d = Sheet(place="building")
    d.battery("GB1", 24, 200, "agm", 3)
    d.class_t("F1", 110)
    d.lead("GB1.dc", "F1.line", "W1", "2", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="150 A", voltage="48 V")
    d.lead("F1.load", "QB1.line", "W2", "2", 1, "+")
    d.part("busbar", "WC1", bar="plus", rating="150 A", taps="4")
    d.part("busbar", "WC2", bar="minus", rating="150 A", taps="4")
    d.lead("QB1.load", "WC1.feed", "W3", "2", 1, "+")
    d.lead("GB1.dc", "WC2.feed", "W4", "2", 2, "-")
    d.part("inverter", "TB1", power="1 kVA", dc_voltage="24 V", neutral="bonded")
    d.rate("TB1", bond_allowed="yes")
    d.lead("WC1.1", "TB1.dc", "W5", "1", 4)
    d.lead("WC2.1", "TB1.dc", "W6", "1", 4)
    d.part("panel", "QP1", main="15 A", bus="60 A", bond="absent", places="4")
    d.wire("TB1.ac_out", "QP1.feed", "W7", "12", 6)
    d.part("electrode", "XE1", "rods", resistance="25 ohm")
    d.jumper("QP1.ground", "XE1.ground", "WE1", "6", 10)
    for n, where in ((1, "kitchen"), (2, "bath")):
        d.breaker(f"QF{n}", "QP1", str(n), 15, ground_fault="class_a")
        d.part("outlet", f"XD{n}", configuration="5-15", area=where)
        d.wire(f"QF{n}.load", f"XD{n}.feed", f"W{n + 7}", "14", 20)
    d.class_t("F2", 30)
    d.wire("WC1.2", "F2.line", "W10", "10", 0.5)
    d.part("panel", "QP2", "24 V board", bus="50 A", places="4", bond="absent", **dc("24 V"))
    d.wire("F2.load", "QP2.feed", "W11", "10", 12, "+")
    d.wire("WC2.2", "QP2.feed", "W12", "10", 12)
    d.blade("F3", "QP2", "1", 10)
    d.blade("F4", "QP2", "2", 10)
    d.roof(24, 20, ("WC1.3", "WC2.3"), series=2)
    d.jumper("TC1.case", "QP1.ground", "WB1", "8", 6)
    return d


def pump_station() -> Sheet:
    """An irrigation pump far from its set, on aluminium; a control board on 120 V.

    Neutral: joined at the set; the board's bars are apart. Protection: the set's 40 A guards 6 AWG
    aluminium (50 A at 75 C, terminals marked so); the pump's 25 A breaker guards 8 AWG aluminium
    (40 A at 75 C); the pump draws 1500 W / (240 V x 0.8) = 8 A; 15 A guards 14 AWG copper.
    """
    d = Sheet(place="field")
    d.part("generator", "G1", power="9 kVA", neutral="bonded", bond_allowed="yes", **SPLIT)
    d.rate("G1", breaker="40 A", outlets="0", excitation="auxiliary")
    d.part("electrode", "XE1", resistance="25 ohm")
    d.jumper("G1.frame", "XE1.ground", "WE1", "6", 6)
    d.part("panel", "QP1", main="40 A", bus="100 A", bond="absent", places="12", **SPLIT)
    feeder = {"material": "aluminium", "terminals": "75", "installation": "conduit_pvc"}
    d.wire("G1.out", "QP1.feed", "W1", "6", 60, **feeder)
    d.part("electrode", "XE2", "rods at the board", resistance="25 ohm")
    d.jumper("QP1.ground", "XE2.ground", "WE2", "6", 8)
    d.breaker("QF1", "QP1", "1", 25, **BOTH)
    d.part("isolator", "QB1", "pump switch", circuit="ac240", rating="30 A", poles="lines")
    d.part("motor", "MA1", "pump", power="1500 W", power_factor="0.8", **BOTH)
    d.rate("MA1", start_current="45 A")
    d.wire("QF1.load", "QB1.line", "W2", "8", 120, **feeder)
    d.wire("QB1.load", "MA1.in", "W3", "10", 10)
    d.breaker("QF2", "QP1", "5", 15)
    d.part("electronic_load", "EE1", "controls", power="80 W")
    d.wire("QF2.load", "EE1.in", "W4", "14", 15)
    d.breaker("QF3", "QP1", "6", 20, ground_fault="class_a")
    d.part("outlet", "XD1", configuration="5-20", area="outside")
    d.wire("QF3.load", "XD1.feed", "W5", "12", 10)
    d.breaker("QF4", "QP1", "7", 15)
    d.part("lamp", "EL1", power="60 W")
    d.wire("QF4.load", "EL1.in", "W6", "14", 30)
    d.breaker("QF5", "QP1", "8", 15)
    d.part("heater", "EH1", "frost heater", power="400 W")
    d.wire("QF5.load", "EH1.in", "W7", "14", 12)
    return d
