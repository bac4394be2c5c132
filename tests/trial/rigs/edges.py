"""Rigs at the edge of what is allowed: sound, and often called wrong."""

from __future__ import annotations

from tests.trial.rigs.sheet import BOTH, Sheet, dc


def old_cottage() -> Sheet:
    """A cottage with an old two-wire circuit behind a ground-fault outlet, and a full heater.

    Neutral: joined in the service board only. The two-wire outlets have no ground contact that
    leads anywhere: a class A device stands before both and both are marked so (406.4(D)(2)); the
    lamps on it are of plastic, in plastic boxes. Protection: 15 A guards 14 AWG; the heater of
    1920 W draws 16.0 A for hours, times 1.25 exactly the 20 A of its breaker, on 12 AWG; range
    30 A guards 10 AWG.
    """
    d = Sheet(place="building")
    d.utility("100 A")
    d.breaker("QF1", "QP1", "5", 15)
    d.part("outlet", "XD1", "old, first", configuration="5-15", ground_fault="class_a")
    d.rate("XD1", marked="no_ground", area="dry")
    d.wire("QF1.load", "XD1.feed", "W1", "14", 30, "L N")
    d.part("outlet", "XD2", "old, second", configuration="5-15", marked="no_ground", area="dry")
    d.wire("XD1.onward", "XD2.feed", "W2", "14", 12, "L N")
    d.part("junction_box", "XJ1", metal="plastic")
    d.wire("XD2.onward", "XJ1.a", "W3", "14", 8, "L N")
    for n in (1, 2):
        d.part("lamp", f"EL{n}", power="30 W", case="insulated")
        d.wire(f"XJ1.{'bc'[n - 1]}", f"EL{n}.in", f"W{n + 3}", "14", 10, "L N")
    d.plugged("EP1", "radio", "XD2", 60, configuration="1-15", case="insulated")
    d.breaker("QF2", "QP1", "6", 20)
    d.part("heater", "EH1", "wall heater", power="1920 W", continuous="yes")
    d.wire("QF2.load", "EH1.in", "W6", "12", 25)
    d.breaker("QF3", "QP1", "7", 30, **BOTH)
    d.part("heater", "EH2", "range", power="5 kW", continuous="no", **BOTH)
    d.wire("QF3.load", "EH2.in", "W7", "10", 20)
    d.breaker("QF4", "QP1", "8", 20, ground_fault="class_a")
    d.part("outlet", "XD3", "kitchen", configuration="5-20", area="kitchen")
    d.wire("QF4.load", "XD3.feed", "W8", "12", 18)
    return d


def shepherds_van() -> Sheet:
    """A shepherd's van on 12 V whose small lamps return by the chassis, as land vehicles may.

    Minus meets the chassis once, at the battery, by a jumper as thick as the plus lead; two lamps
    and a fan have one wire and return by the chassis. F1 60 A guards 6 AWG (65 A at 75 C); blades
    of 5 and 10 A guard 14 AWG. Half of the board's circuits have two wires.
    """
    d = Sheet(place="vehicle")
    d.battery("GB1", 12, 90, "flooded", 1.6)
    d.part("fuse", "F1", rating="60 A", type="mrbf", voltage="14 V", interrupting="10 kA")
    d.seat("F1", "GB1", "post")
    d.part("battery_disconnect", "QB1", rating="100 A", voltage="32 V")
    d.lead("F1.load", "QB1.line", "W1", "6", 1, "+")
    d.part("panel", "QP1", bus="60 A", places="6", bond="absent", **dc("12 V"))
    d.lead("QB1.load", "QP1.feed", "W2", "6", 14, "+")
    d.lead("GB1.dc", "QP1.feed", "W3", "6", 15, "-")
    d.part("body", "XB1", name="chassis")
    d.jumper("GB1.dc", "XB1.tie", "WB0", "6", 2, "->body")
    loads = (
        ("EL1", "lamp", "20 W", True),
        ("EL2", "lamp", "20 W", True),
        ("MA1", "motor", "30 W", True),
        ("EA1", "load", "60 W", False),
        ("MA2", "motor", "40 W", False),
    )
    for n, (name, kind, power, by_chassis) in enumerate(loads, start=1):
        d.blade(f"F{n + 1}", "QP1", str(n), 5 if kind == "lamp" else 10)
        d.part(kind, name, power=power, **dc("12 V"))
        d.wire(f"F{n + 1}.load", f"{name}.in", f"W{n + 10}", "14", 9, "+" if by_chassis else "")
        if by_chassis:
            d.wire(f"{name}.in", "XB1.tie", f"W{n + 20}", "14", 1, "->body")
    return d


def orchard_pump() -> Sheet:
    """An orchard's pump on 48 V: three strings with their fuses, four blocks, no AC at all.

    Minus is joined to nothing (60 V or less, field); cases and frames are on a rod. Three strings
    need fuses of their own: 15 A, as the modules' plates allow. A string of four modules of 24 V
    gives 110 V in the cold (x 1.15) and the controller bears 150 V. F1 125 A guards 1 AWG (130 A at
    75 C); F9 60 A guards the controller's 6 AWG; QF1 40 A, made for direct current, guards 8 AWG.
    """
    d = Sheet(place="field")
    for n in range(1, 5):
        d.battery(f"GB{n}", 12, 150, "agm", 3)
    for n in range(1, 4):
        d.lead(f"GB{n}.dc", f"GB{n + 1}.dc", f"W7{n}", "1", 0.7, "->+")
    d.class_t("F1", 125)
    d.lead("GB1.dc", "F1.line", "W1", "1", 0.5, "+")
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="80 V")
    d.lead("F1.load", "QB1.line", "W2", "1", 1, "+")
    d.part("busbar", "WC1", bar="plus", rating="200 A", taps="3")
    d.part("busbar", "WC2", bar="minus", rating="200 A", taps="4")
    d.lead("QB1.load", "WC1.feed", "W3", "1", 1, "+")
    d.lead("GB4.dc", "WC2.feed", "W4", "1", 2, "-")
    d.part("breaker", "QF1", rating="40 A", circuit="dc", voltage="80 V", direct="yes")
    d.rate("QF1", interrupting="10 kA")
    d.wire("WC1.1", "QF1.line", "W5", "8", 0.5, "+")
    d.part("motor", "MA1", "pump", power="900 W", start_current="60 A", **dc("48 V"))
    d.wire("QF1.load", "MA1.in", "W6", "8", 20, "+")
    d.wire("WC2.1", "MA1.in", "W7", "8", 20)
    d.roof(48, 40, ("WC1.2", "WC2.2"), series=4, pv_voltage="150 V", pv_current="40 A")
    d.rate("GP1", strings="3", string_fuse="15 A", largest_fuse="15 A")
    d.rate("QB9", rating="40 A")
    for name in ("WR1", "WR2"):
        d.rate_run(name, size="8 AWG")
    d.part("electrode", "XE1", resistance="30 ohm")
    d.jumper("TC1.case", "XE1.ground", "WE1", "6", 6)
    return d


def roadworks_trailer() -> Sheet:
    """An arrow-board trailer: 12 V lamps, charged from a set through its own outlet.

    Neutral: joined at the set, which feeds one charger by cord. The set's own 5-20 outlet lies
    behind its 15 A breaker (an outlet larger than its circuit, as makers build it); the cord is
    12 AWG. The trailer's frame is on the charger's ground and on minus, once. F1 60 A guards 6 AWG
    (65 A at 75 C); with the charger's 25 A, 85 A come to 4 AWG (85 A); F2 30 A guards the
    charger's 10 AWG; blades guard 14 AWG.
    """
    d = Sheet(place="vehicle")
    d.part("generator", "G1", power="1.8 kVA", neutral="bonded", bond_allowed="yes")
    d.breaker("QF1", "G1", "1", 15, interrupting="5 kA")
    d.outlet_in("XD1", "QF1", "load", "5-20", ground_fault="class_a")
    d.part("plug", "XP1", configuration="5-15")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="5-15")
    d.cord("XP1.cord", "XI1.outside", "WS1", "12", 15)
    d.part("charger", "TB1", current="20 A", dc_voltage="12 V")
    d.wire("XI1.inside", "TB1.ac_in", "W1", "14", 4)
    d.battery("GB1", 12, 120, "flooded", 1.4)
    d.part("fuse", "F1", rating="60 A", type="mrbf", voltage="14 V", interrupting="10 kA")
    d.seat("F1", "GB1", "post")
    d.part("battery_disconnect", "QB1", rating="100 A", voltage="32 V")
    d.lead("F1.load", "QB1.line", "W2", "6", 1, "+")
    d.part("panel", "QP1", "lamp board", bus="100 A", places="6", bond="absent", **dc("12 V"))
    d.lead("QB1.load", "QP1.feed", "W3", "4", 12, "+")
    d.lead("GB1.dc", "QP1.feed", "W4", "4", 13, "-")
    d.class_t("F2", 30)
    d.wire("QB1.load", "F2.line", "W5", "10", 0.5, "+")
    d.wire("F2.load", "TB1.dc", "W6", "10", 4, "+")
    d.wire("GB1.dc", "TB1.dc", "W7", "10", 5, "-")
    for n in range(1, 5):
        d.blade(f"F{n + 2}", "QP1", str(n), 7.5)
        d.part("lamp", f"EL{n}", power="40 W", continuous="yes", **dc("12 V"))
        d.wire(f"F{n + 2}.load", f"EL{n}.in", f"W{n + 10}", "14", 9)
    d.part("body", "XB1", name="frame")
    d.jumper("GB1.dc", "XB1.tie", "WB0", "6", 2, "->body")
    d.jumper("TB1.case", "XB1.tie", "WB1", "8", 3)
    return d
