"""Houses with outbuildings and standby sets; a trailer plugged in at home."""

from __future__ import annotations

from tests.trial.rigs.sheet import BOTH, SPLIT, Sheet


def _set(d: Sheet, neutral: str, power: str, n: int = 1) -> None:
    """A portable set of two legs with an L14-30 outlet behind 30 A; cord to an inlet."""
    d.part("generator", f"G{n}", power=power, neutral=neutral, bond_allowed="yes", **SPLIT)
    d.breaker(f"QF9{n}", f"G{n}", "1", 30, **SPLIT)
    d.outlet_in(f"XD8{n}", f"QF9{n}", "load", "L14-30", **SPLIT)
    d.part("plug", f"XP{n}", configuration="L14-30", **SPLIT)
    d.seat(f"XP{n}", f"XD8{n}", "face")
    d.part("inlet", f"XI{n}", configuration="L14-30", expects=neutral, **SPLIT)
    d.cord(f"XP{n}.cord", f"XI{n}.outside", f"WG{n}", "10", 25)


def _circuits(d: Sheet, board: str, first: int, start: int = 1) -> None:
    """A refrigerator, lights, and a kitchen outlet, on places of one board from ``first``."""
    b = start
    d.breaker(f"QF{b}", board, str(first), 20)
    d.part("load", f"EA{b}", "refrigerator", power="200 W", power_factor="0.85")
    d.wire(f"QF{b}.load", f"EA{b}.in", f"W{b}", "12", 30)
    d.breaker(f"QF{b + 1}", board, str(first + 1), 15)
    d.part("lamp", f"EL{b}", "lights", power="200 W")
    d.wire(f"QF{b + 1}.load", f"EL{b}.in", f"W{b + 1}", "14", 45)
    d.breaker(f"QF{b + 2}", board, str(first + 2), 20, ground_fault="class_a")
    d.part("outlet", f"XD{b}", "kitchen", configuration="5-20", area="kitchen")
    d.wire(f"QF{b + 2}.load", f"XD{b}.feed", f"W{b + 2}", "12", 25)
    d.plugged(f"EP{b}", "toaster", f"XD{b}", 900)


def house_with_interlock() -> Sheet:
    """A house whose service board is fed backwards from a floating set, main and breaker locked.

    Neutral: always joined in the service board, whichever source runs; the set floats. Rods at the
    service. Protection: utility 200 A on 4/0 aluminium (180 A at 75 C; 310.12 allows 200 A for a
    dwelling's service); the set's 30 A and QF7 30 A guard 10 AWG; 15 and 20 A guard 14 and 12 AWG.
    """
    d = Sheet(place="building")
    d.utility()
    _set(d, "floating", "6 kVA")
    d.breaker("QF7", "QP1", "1", 30, **SPLIT)
    d.wire("XI1.inside", "QF7.load", "WG2", "10", 15)
    d.lock(("QP1", "main", "closed"), ("QF7", "breaker", "closed"))
    _circuits(d, "QP1", 5)
    d.breaker("QF8", "QP1", "8", 20, **BOTH)
    d.part("motor", "MA1", "well pump", power="750 W", power_factor="0.75", **BOTH)
    d.rate("MA1", start_current="25 A")
    d.wire("QF8.load", "MA1.in", "W8", "12", 80, installation="conduit_pvc")
    return d


def house_with_standby_board() -> Sheet:
    """A house with a board for what matters, on a hand switch of two poles and a floating set.

    Neutral: joined in the service board only; the switch leaves it joined through, so the set
    must float and does. Protection: QF4 50 A guards 6 AWG (55 A at 60 C) to the switch; 30 A at
    the set guards 10 AWG; the standby board's branches as usual.
    """
    d = Sheet(place="building")
    d.utility()
    d.breaker("QF4", "QP1", "1", 50, **SPLIT)
    _set(d, "floating", "7 kVA")
    d.part("transfer_switch", "QT1", rating="60 A", poles="lines", **SPLIT)
    d.rate("QT1", first="utility", second="set")
    d.wire("QF4.load", "QT1.in1", "W10", "6", 6)
    d.wire("XI1.inside", "QT1.in2", "W11", "10", 12)
    d.part("panel", "QP2", "standby board", bus="100 A", bond="absent", places="8", **SPLIT)
    d.wire("QT1.load", "QP2.feed", "W12", "6", 5)
    _circuits(d, "QP2", 1)
    d.breaker("QF5", "QP2", "5", 15, **BOTH)
    d.part("motor", "MA1", "furnace pump", power="400 W", power_factor="0.7", **BOTH)
    d.rate("MA1", start_current="12 A")
    d.wire("QF5.load", "MA1.in", "W13", "14", 30)
    return d


def clinic_with_own_neutral() -> Sheet:
    """A small clinic: utility or a fixed bonded set, by an automatic switch of three poles.

    Neutral: on utility in the service board, on the set in the set (a separately derived system
    with a rod of its own joined to the building's electrode); never both, because the switch
    moves the neutral. Protection: QF4 60 A guards 4 AWG (70 A at 60 C); the set's 50 A guards
    6 AWG (55 A at 60 C).
    """
    d = Sheet(place="building")
    d.utility()
    d.breaker("QF4", "QP1", "1", 60, **SPLIT)
    d.part("generator", "G1", power="12 kVA", neutral="bonded", bond_allowed="yes", **SPLIT)
    d.rate("G1", breaker="50 A", outlets="0", excitation="auxiliary")
    d.part("transfer_automatic", "QA1", rating="100 A", poles="all", **SPLIT)
    d.rate("QA1", first="utility", second="set")
    d.wire("QF4.load", "QA1.in1", "W10", "4", 10)
    d.wire("G1.out", "QA1.in2", "W11", "6", 30, installation="conduit_pvc")
    d.part("panel", "QP2", "clinic board", main="60 A", bus="100 A", bond="absent", **SPLIT)
    d.rate("QP2", places="12")
    d.wire("QA1.load", "QP2.feed", "W12", "4", 8)
    _circuits(d, "QP2", 1)
    d.breaker("QF5", "QP2", "5", 20, **SPLIT)
    d.part("junction_box", "XJ1", **SPLIT)
    d.wire("QF5.load", "XJ1.a", "W13", "12", 20)
    for n, leg in ((2, "L1"), (3, "L2")):
        d.part("outlet", f"XD{n}", configuration="5-20", area="dry")
        d.wire("XJ1.b", f"XD{n}.feed", f"W{n + 12}", "12", 8, f"{leg}>L N PE")
        d.plugged(f"EP{n}", "centrifuge", f"XD{n}", 400)
    d.part("electrode", "XE2", "rod at the set", resistance="25 ohm")
    d.jumper("G1.frame", "XE2.ground", "WE2", "6", 6)
    d.jumper("QP2.ground", "XE1.ground", "WE3", "6", 20)
    return d


def house_with_barn() -> Sheet:
    """A house and a barn: four-wire aluminium feeder, welder, compressor, rods at both.

    Neutral: joined in the service board only; the barn's bars are apart, its rods on its ground
    bar. Protection: QF4 60 A guards 4 AWG aluminium (65 A at 75 C, terminals marked so) with a
    ground wire of 8 AWG aluminium or better (250.122: 8); welder on 6-50 behind 50 A on 6 AWG.
    """
    d = Sheet(place="building")
    d.utility()
    _circuits(d, "QP1", 5)
    d.breaker("QF4", "QP1", "1", 60, **SPLIT)
    d.part("panel", "QP2", "barn board", main="60 A", bus="100 A", bond="absent", **SPLIT)
    d.rate("QP2", places="12")
    feeder = {"material": "aluminium", "terminals": "75", "installation": "conduit_pvc"}
    d.wire("QF4.load", "QP2.feed", "W10", "4", 110, **feeder)
    d.part("electrode", "XE2", "barn rods", resistance="20 ohm")
    d.jumper("QP2.ground", "XE2.ground", "WE2", "6", 8)
    d.breaker("QF5", "QP2", "1", 50, **BOTH)
    d.part(
        "outlet", "XD2", configuration="6-50", area="garage", ground_fault="class_a", **BOTH_ONLY
    )
    d.wire("QF5.load", "XD2.feed", "W11", "6", 20)
    d.plugged("EP2", "welder", "XD2", 7000, configuration="6-50", **BOTH)
    d.breaker("QF6", "QP2", "5", 20, **BOTH)
    d.part("motor", "MA1", "compressor", power="1500 W", power_factor="0.8", **BOTH)
    d.rate("MA1", start_current="45 A")
    d.wire("QF6.load", "MA1.in", "W12", "12", 25)
    d.breaker("QF8", "QP2", "9", 20, ground_fault="class_a")
    d.part("outlet", "XD3", "bench", configuration="5-20", area="garage")
    d.wire("QF8.load", "XD3.feed", "W13", "12", 30)
    d.part("lamp", "EL2", "barn lights", power="300 W")
    d.breaker("QF9", "QP2", "10", 15)
    d.wire("QF9.load", "EL2.in", "W14", "14", 40)
    return d


BOTH_ONLY = {"circuit": "ac240"}


def old_farm() -> Sheet:
    """A farm with an old three-wire feeder to its garage (existing work), linked there again.

    Neutral: joined in both boards. The feeder has no ground wire and nothing else metallic joins
    both buildings: the garage's link makes the neutral its return (250.32(B), exception for
    existing work), with rods of its own. Protection: QF4 60 A guards 6 AWG copper (65 A at 75 C,
    terminals marked).
    """
    d = Sheet(place="building")
    d.utility()
    _circuits(d, "QP1", 5)
    d.breaker("QF4", "QP1", "1", 60, **SPLIT)
    d.part("panel", "QP2", "garage board", bus="100 A", bond="fitted", places="8", **SPLIT)
    conduit = {"terminals": "75", "installation": "conduit_pvc"}
    d.wire("QF4.load", "QP2.feed", "W10", "6", 90, "L1 L2 N", **conduit)
    d.part("electrode", "XE2", "garage rods", resistance="20 ohm")
    d.jumper("QP2.ground", "XE2.ground", "WE2", "6", 8)
    d.breaker("QF5", "QP2", "1", 20, ground_fault="class_a")
    d.part("outlet", "XD2", configuration="5-20", area="garage")
    d.wire("QF5.load", "XD2.feed", "W11", "12", 25)
    d.plugged("EP2", "saw", "XD2", 1200)
    d.breaker("QF6", "QP2", "2", 15)
    d.part("lamp", "EL2", power="150 W")
    d.wire("QF6.load", "EL2.in", "W12", "14", 30)
    return d


def house_with_trailer() -> Sheet:
    """A house at whose wall a travel trailer is plugged in by its 30 A cord.

    Neutral: joined in the house's service board only; the trailer's board keeps its bars apart
    and its chassis is on the ground wire. Protection: QF4 30 A guards 10 AWG to the TT-30 outlet
    and the 10 AWG cord; in the trailer 20 A on 12 AWG and 15 A on 14 AWG.
    """
    d = Sheet(place="building")
    d.utility("100 A")
    _circuits(d, "QP1", 5)
    d.breaker("QF4", "QP1", "1", 30)
    d.part("outlet", "XD5", "trailer stand", configuration="TT-30", area="dry")
    d.wire("QF4.load", "XD5.feed", "W10", "10", 40)
    d.part("plug", "XP5", "trailer cord", configuration="TT-30")
    d.seat("XP5", "XD5", "face")
    d.part("inlet", "XI5", "trailer inlet", configuration="TT-30")
    d.cord("XP5.cord", "XI5.outside", "WS5", "10", 25)
    d.part("panel", "QP5", "trailer board", main="30 A", bus="60 A", bond="absent", places="4")
    d.wire("XI5.inside", "QP5.feed", "W11", "10", 6)
    d.part("body", "XB5", "trailer chassis", name="trailer chassis")
    d.jumper("QP5.ground", "XB5.tie", "WB5", "8", 3)
    d.breaker("QF6", "QP5", "1", 20, ground_fault="class_a")
    d.part("outlet", "XD6", configuration="5-20", area="sink")
    d.wire("QF6.load", "XD6.feed", "W12", "12", 12)
    d.plugged("EP6", "kettle", "XD6", 1000)
    d.breaker("QF7", "QP5", "2", 15)
    d.part("heater", "EH5", "water heater", power="800 W")
    d.wire("QF7.load", "EH5.in", "W13", "14", 14)
    return d
