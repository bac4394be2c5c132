"""Camps, stalls and stations: hand-moved plugs, cords, floating sets, direct current alone."""

from __future__ import annotations

from tests.trial.rigs.sheet import Sheet, dc


def field_camp() -> Sheet:
    """A camp with two bonded sets; one cord is moved by hand; all loads sit in outlets.

    Neutral: joined at the set that runs; the box keeps its bars apart. A plug can be in one set
    only. Protection: each set's 30 A guards the 10 AWG cord; the box has 20 A breakers of class A
    on 12 AWG. The box's own frame is on its ground bar.
    """
    d = Sheet(place="field")
    for n, power in ((1, "5 kVA"), (2, "4 kVA")):
        d.part("generator", f"G{n}", power=power, neutral="bonded", bond_allowed="yes")
        d.breaker(f"QF9{n}", f"G{n}", "1", 30)
        d.outlet_in(f"XD9{n}", f"QF9{n}", "load", "L5-30")
    d.part("plug", "XP1", "camp cord", configuration="L5-30")
    d.seat("XP1", "XD91", "face")
    d.seat("XP1", "XD92", "face")
    d.part("inlet", "XI1", configuration="L5-30", expects="bonded")
    d.cord("XP1.cord", "XI1.outside", "WS1", "10", 50)
    d.part("panel", "QP1", "camp box", main="30 A", bus="60 A", bond="absent", places="6")
    d.wire("XI1.inside", "QP1.feed", "W1", "10", 3)
    loads = ((1, "lamps", 300), (2, "field laboratory", 600), (3, "kettle", 1000))
    for n, title, watts in loads:
        d.breaker(f"QF{n}", "QP1", str(n), 20, ground_fault="class_a")
        d.part("outlet", f"XD{n}", configuration="5-20", area="outside")
        d.wire(f"QF{n}.load", f"XD{n}.feed", f"W{n + 1}", "12", 3)
        if n < 3:
            d.part("cord_set", f"WX{n}", configuration="5-15", size="12 AWG", length="50 ft")
            d.seat(f"WX{n}", f"XD{n}", "face")
        d.plugged(f"EP{n}", title, f"WX{n}" if n < 3 else f"XD{n}", watts)
    return d


def market_stall() -> Sheet:
    """A market stall: a small floating set for what is plugged into it, and a 12 V light box.

    Neutral: floats, as the maker ships it; only cord-and-plug loads straight from its outlets, so
    no link is asked for and the set's frame joins their cases. Protection: 20 A guards the 12 AWG
    cord sets. 12 V: F1 30 A at the post guards 10 AWG; blades guard 14 AWG.
    """
    d = Sheet(place="field")
    d.part("generator", "G1", power="2.2 kVA", neutral="floating", excitation="electronic")
    for n in (1, 2):
        d.breaker(f"QF{n}", "G1", str(n), 20, interrupting="5 kA")
        d.outlet_in(f"XD{n}", f"QF{n}", "load", "5-20", duplex="1")
    d.part("cord_set", "WX1", configuration="5-15", size="12 AWG", length="25 ft")
    d.seat("WX1", "XD1", "face")
    d.plugged("EP1", "scales and till", "WX1", 150, case="insulated")
    d.plugged("EP2", "waffle iron", "XD2", 1000)
    d.battery("GB1", 12, 60, "agm", 2)
    d.part("fuse", "F1", rating="30 A", type="mrbf", voltage="14 V", interrupting="10 kA")
    d.seat("F1", "GB1", "post")
    d.part("battery_disconnect", "QB1", rating="100 A", voltage="32 V")
    d.wire("F1.load", "QB1.line", "W1", "10", 1)
    d.part("panel", "QP1", "light box", bus="50 A", places="4", bond="absent", **dc("12 V"))
    d.wire("QB1.load", "QP1.feed", "W2", "10", 6)
    for n in (1, 2, 3):
        d.blade(f"F{n + 1}", "QP1", str(n), 5)
        d.part("lamp", f"EL{n}", power="20 W", **dc("12 V"))
        d.wire(f"F{n + 1}.load", f"EL{n}.in", f"W{n + 2}", "14", 10)
    return d


def tiny_house() -> Sheet:
    """A tiny house on wheels with a 30 A inlet, today on a 20 A outlet through an adapter.

    Neutral: joined at the site's supply; the board's bars are apart, the frame on the ground bar.
    Protection: the supply's 20 A guards outlet, adapter and 10 AWG cord; 15 A on 14 AWG, 20 A on
    12 AWG behind a 30 A main.
    """
    d = Sheet(place="recreational")
    d.part("supply", "GS1", "site", breaker="20 A", prospective="1.5 kA")
    d.outlet_in("XD9", "GS1", "1", "5-20", area="outside", ground_fault="class_a")
    d.part("adapter", "XA1", configuration="5-20", connector="TT-30")
    d.seat("XA1", "XD9", "face")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XA1", "face")
    d.part("inlet", "XI1", configuration="TT-30")
    d.cord("XP1.cord", "XI1.outside", "WS1", "10", 30)
    d.part("panel", "QP1", main="30 A", bus="60 A", bond="absent", places="6")
    d.wire("XI1.inside", "QP1.feed", "W1", "10", 5)
    d.part("body", "XB1", name="frame")
    d.jumper("QP1.ground", "XB1.tie", "WB1", "8", 3)
    d.breaker("QF1", "QP1", "1", 20, ground_fault="class_a")
    d.part("outlet", "XD1", "kitchen", configuration="5-20", area="kitchen")
    d.wire("QF1.load", "XD1.feed", "W2", "12", 12)
    d.breaker("QF2", "QP1", "2", 15)
    d.part("lamp", "EL1", power="90 W")
    d.wire("QF2.load", "EL1.in", "W3", "14", 20)
    d.breaker("QF3", "QP1", "3", 15)
    d.part("heater", "EH1", power="750 W")
    d.wire("QF3.load", "EH1.in", "W4", "14", 15)
    d.breaker("QF4", "QP1", "4", 20, ground_fault="class_a")
    d.part("outlet", "XD2", "bath", configuration="5-20", area="bath")
    d.wire("QF4.load", "XD2.feed", "W5", "12", 14)
    d.plugged("EP1", "hair clipper", "XD2", 40, case="insulated")
    return d


def relay_station() -> Sheet:
    """A radio relay on a mountain: 24 V from two blocks in series, two strings of sun, no AC.

    Minus meets the mast once. Protection: F1 60 A guards 6 AWG (65 A at 75 C); F2 30 A guards
    10 AWG; blades 32 V on 24 V. Two strings need no string fuses (two or fewer in parallel). The
    array's 2 x 24 V x 1.15 in the cold = 55 V stay below the controller's 100 V.
    """
    d = Sheet(place="field")
    for n in (1, 2):
        d.battery(f"GB{n}", 12, 150, "agm", 2)
    d.lead("GB1.dc", "GB2.dc", "W1", "6", 0.7, "->+")
    d.class_t("F1", 60)
    d.lead("GB1.dc", "F1.line", "W2", "6", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="100 A", voltage="48 V")
    d.lead("F1.load", "QB1.line", "W3", "6", 1, "+")
    d.part("busbar", "WC1", bar="plus", rating="100 A", taps="3")
    d.part("busbar", "WC2", bar="minus", rating="100 A", taps="5")
    d.lead("QB1.load", "WC1.feed", "W4", "6", 1, "+")
    d.lead("GB2.dc", "WC2.feed", "W5", "6", 2, "-")
    d.class_t("F2", 30)
    d.wire("WC1.1", "F2.line", "W6", "10", 0.5)
    d.part("panel", "QP1", "24 V board", bus="50 A", places="4", bond="absent", **dc("24 V"))
    d.wire("F2.load", "QP1.feed", "W7", "10", 10, "+")
    d.wire("WC2.1", "QP1.feed", "W8", "10", 10)
    for n, power in ((1, "40 W"), (2, "60 W"), (3, "20 W")):
        d.blade(f"F{n + 2}", "QP1", str(n), 7.5)
        d.part("load", f"EA{n}", power=power, continuous="yes", **dc("24 V"))
        d.wire(f"F{n + 2}.load", f"EA{n}.in", f"W{n + 10}", "14", 12)
    d.roof(24, 20, ("WC1.2", "WC2.2"), series=2)
    d.rate("GP1", strings="2")
    d.rate("QB9", rating="32 A")
    d.part("body", "XB1", "mast", name="mast", type="structure")
    d.jumper("WC2.3", "XB1.tie", "WB0", "6", 2, "->body")
    d.jumper("TC1.case", "XB1.tie", "WB1", "8", 3)
    d.part("electrode", "XE1", resistance="40 ohm")
    d.jumper("XB1.tie", "XE1.ground", "WE1", "6", 8)
    return d


def survey_truck() -> Sheet:
    """A survey truck whose two small sets feed nothing in common: one cord each, one board each.

    Neutral: each set is bonded to its frame; its board keeps its bars apart; both boards and
    frames are on the chassis. Protection: 20 A at the sets guards 12 AWG cords; 15 and 20 A on
    14 and 12 AWG.
    """
    d = Sheet(place="vehicle")
    d.part("body", "XB1", name="chassis")
    for n, load in ((1, "instruments"), (2, "tools")):
        d.part("generator", f"G{n}", power="2.4 kVA", neutral="bonded", bond_allowed="yes")
        d.breaker(f"QF9{n}", f"G{n}", "1", 20)
        d.outlet_in(f"XD9{n}", f"QF9{n}", "load", "L5-20")
        d.part("plug", f"XP{n}", configuration="L5-20")
        d.seat(f"XP{n}", f"XD9{n}", "face")
        d.part("inlet", f"XI{n}", configuration="L5-20", expects="bonded")
        d.cord(f"XP{n}.cord", f"XI{n}.outside", f"WS{n}", "12", 20)
        d.part("panel", f"QP{n}", bus="60 A", bond="absent", places="4")
        d.wire(f"XI{n}.inside", f"QP{n}.feed", f"W{n}0", "12", 4)
        d.jumper(f"QP{n}.ground", "XB1.tie", f"WB{n}", "8", 3)
        d.breaker(f"QF{n}", f"QP{n}", "1", 20, ground_fault="class_a")
        d.part("outlet", f"XD{n}", configuration="5-20")
        d.wire(f"QF{n}.load", f"XD{n}.feed", f"W{n}1", "12", 10)
        d.plugged(f"EP{n}", load, f"XD{n}", 500)
        d.breaker(f"QF{n + 2}", f"QP{n}", "2", 15)
        d.part("lamp", f"EL{n}", power="60 W")
        d.wire(f"QF{n + 2}.load", f"EL{n}.in", f"W{n}2", "14", 12)
    return d
