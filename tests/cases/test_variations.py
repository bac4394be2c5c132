"""Neighbours of the public situations, of our own: what is expected follows from the circuit."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import CORD, branch, chassis, inverter, inverter_charger, service

SPLIT = {"circuit": "split"}


def wall_outlet(d: Draft, poles: str = "", **outlet: str) -> None:
    """A 20 A outlet of a house, "b" its run."""
    service(d)
    d.part("breaker", "QF1", rating="20 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="5-20", **outlet)
    d.run("QF1.load", "XD1.feed", "b", poles=poles, size="12 AWG", length="40 ft")


def trailer(d: Draft, outlet: str, plug: str = "5-20", bond: str = "absent") -> None:
    """A small trailer plugged into an outlet: a board, an outlet with 600 W, its chassis."""
    d.part("plug", "XP1", configuration=plug)
    d.seat("XP1", outlet, "face")
    d.part("panel", "QP9", main="20 A", bond=bond)
    d.run("XP1.cord", "QP9.feed", "cord", length="25 ft", **CORD)
    d.part("breaker", "QF9", rating="15 A", interrupting="10 kA")
    d.seat("QF9", "QP9", "1")
    d.part("outlet", "XD9", configuration="5-15", ground_fault="class_a")
    d.run("QF9.load", "XD9.feed", "w9", size="14 AWG", length="15 ft")
    d.part("plug_load", "EP9", power="600 W", configuration="5-15")
    d.seat("EP9", "XD9", "face")
    chassis(d, "QP9")


def small_set(d: Draft, outlets: int = 1, **ratings: str) -> None:
    """A portable set of 3 kVA with 20 A outlets."""
    d.part("generator", "G1", power="3 kVA", **ratings)
    for n in range(1, outlets + 1):
        d.part("breaker", f"QFG{n}", rating="20 A")
        d.seat(f"QFG{n}", "G1", str(n))
        d.part("outlet", f"XG{n}", configuration="5-20", ground_fault="class_a")
        d.seat(f"XG{n}", f"QFG{n}", "load")


def neutral_as_ground() -> Draft:
    d = Draft(place="building")
    wall_outlet(d, poles="L N N>PE")
    d.part("plug_load", "EP1", power="500 W", configuration="5-15")
    d.seat("EP1", "XD1", "face")
    return d


def live_skin() -> Draft:
    """Hot and neutral exchanged, and the ground contact on the neutral screw, which is hot."""
    d = Draft(place="recreational")
    wall_outlet(d, poles="L>N N>L L>PE")
    trailer(d, "XD1")
    return d


def two_wire_outlet() -> Draft:
    d = Draft(place="recreational")
    wall_outlet(d, poles="L N")
    trailer(d, "XD1")
    return d


def bonded_trailer_on_gfci() -> Draft:
    d = Draft(place="recreational")
    wall_outlet(d, ground_fault="class_a")
    trailer(d, "XD1", bond="fitted")
    return d


def trailer_on_gfci() -> Draft:
    d = Draft(place="recreational")
    wall_outlet(d, ground_fault="class_a")
    trailer(d, "XD1")
    return d


def trailer_on_floating_set() -> Draft:
    d = Draft(place="recreational")
    small_set(d, neutral="floating", excitation="electronic")
    trailer(d, "XG1")
    return d


def bonding_plug_on_bonded_set() -> Draft:
    d = Draft(place="recreational")
    small_set(d, outlets=2, neutral="bonded")
    d.part("bond_plug", "XQ1", configuration="5-20")
    d.seat("XQ1", "XG2", "face")
    trailer(d, "XG1")
    return d


def bonding_plug_in_a_house() -> Draft:
    d = Draft(place="building")
    wall_outlet(d)
    d.part("bond_plug", "XQ1", configuration="5-20")
    d.seat("XQ1", "XD1", "face")
    branch(d, "QP1", "5", "11", "1200 W")
    return d


def tools_on_a_floating_set() -> Draft:
    d = Draft(place="field")
    small_set(d, neutral="floating")
    d.part("plug_load", "EP1", power="1000 W", configuration="5-15")
    d.seat("EP1", "XG1", "face")
    return d


def set_behind_switched(poles: str, neutral: str) -> Draft:
    """A set on a transfer switch with a board of its own behind a house's."""
    d = Draft(place="building")
    service(d, main="100 A")
    d.part("generator", "G1", power="7.5 kVA", neutral=neutral, breaker="30 A", **SPLIT)
    d.part("breaker", "QF5", rating="60 A", interrupting="10 kA", **SPLIT)
    d.seat("QF5", "QP1", "1")
    d.part("transfer_switch", "QT1", poles=poles, rating="60 A", **SPLIT)
    d.run("QF5.load", "QT1.in1", "f", size="6 AWG", terminals="75", length="5 ft")
    d.run("G1.out", "QT1.in2", "w", size="10 AWG", length="40 ft")
    d.part("panel", "QP2", bond="absent", **SPLIT)
    d.run("QT1.load", "QP2.feed", "p", size="6 AWG", terminals="75", length="3 ft")
    branch(d, "QP2", "1", "11", "1200 W")
    return d


def cord_with_two_plugs() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", rating="30 A", interrupting="10 kA", **SPLIT)
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="14-30", **SPLIT)
    d.run("QF1.load", "XD1.feed", "dr", size="10 AWG", length="30 ft")
    d.part("generator", "G1", power="6 kVA", neutral="floating", **SPLIT)
    d.part("breaker", "QF2", rating="30 A", **SPLIT)
    d.seat("QF2", "G1", "1")
    d.part("outlet", "XD2", configuration="L14-30", **SPLIT)
    d.seat("XD2", "QF2", "load")
    for plug, outlet, name in (("XP1", "XD1", "14-30"), ("XP2", "XD2", "L14-30")):
        d.part("plug", plug, configuration=name, **SPLIT)
        d.seat(plug, outlet, "face")
    d.run("XP2.cord", "XP1.cord", "sc", length="20 ft", **CORD)
    branch(d, "QP1", "5", "11", "1200 W")
    return d


def coach_without_neutral() -> Draft:
    d = Draft(place="recreational")
    d.part("supply", "GS1", breaker="50 A", prospective="4 kA", **SPLIT)
    d.part("outlet", "XD1", configuration="14-50", **SPLIT)
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", configuration="14-50", **SPLIT)
    d.seat("XP1", "XD1", "face")
    d.part("panel", "QP1", main="50 A", bus="50 A", bond="absent", **SPLIT)
    cable = {"size": "6 AWG", "length": "30 ft", "installation": "cord"}
    d.run("XP1.cord", "QP1.feed", "c", broken="N", **cable)
    branch(d, "QP1", "1", "11", "1200 W")
    branch(d, "QP1", "3", "12", "300 W")
    chassis(d, "QP1")
    return d


def coach_on_a_dryer_outlet() -> Draft:
    d = Draft(place="recreational")
    service(d)
    d.part("breaker", "QF1", rating="30 A", interrupting="10 kA", **SPLIT)
    d.seat("QF1", "QP1", "1")
    d.part("outlet", "XD1", configuration="14-30", **SPLIT)
    d.run("QF1.load", "XD1.feed", "dr", size="10 AWG", length="30 ft")
    d.part("adapter", "XA1", configuration="14-30", connector="14-50", **SPLIT)
    d.seat("XA1", "XD1", "face")
    d.part("plug", "XP1", configuration="14-50", **SPLIT)
    d.seat("XP1", "XA1", "face")
    d.part("panel", "QP9", main="50 A", bus="50 A", bond="absent", **SPLIT)
    d.run("XP1.cord", "QP9.feed", "c", size="6 AWG", length="30 ft", installation="cord")
    branch(d, "QP9", "1", "11", "1200 W")
    chassis(d, "QP9")
    return d


def shed_on_a_rod() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", rating="20 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("panel", "QP2", "shed", bond="absent")
    d.run("QF1.load", "QP2.feed", "f", poles="L N", size="12 AWG", length="100 ft")
    d.part("electrode", "XE2")
    d.run("QP2.ground", "XE2.ground", "g2", size="6 AWG", length="8 ft", installation="jumper")
    branch(d, "QP2", "1", "11", "600 W")
    return d


def inverter_that_takes_no_link() -> Draft:
    d = Draft(place="building")
    inverter(d, "2 kVA", "floating", bond_allowed="no")
    d.part("panel", "QP1", main="20 A", bond="fitted")
    d.run("TB1.ac_out", "QP1.feed", "a", size="12 AWG", length="5 ft")
    d.part("electrode", "XE1")
    d.run("QP1.ground", "XE1.ground", "g", size="6 AWG", length="10 ft")
    branch(d, "QP1", "1", "11", "500 W")
    return d


def through_an_inverter(neutral: str) -> Draft:
    """A vehicle on shore through its inverter-charger."""
    d = Draft(place="recreational")
    inverter_charger(d, "2 kVA", neutral, charge="30 A")
    d.part("body", "XB2", name="chassis")
    minus = {"size": "1/0 AWG", "length": "2 ft", "installation": "jumper"}
    d.run("GB1.dc", "XB2.tie", "minus", poles="->body", **minus)
    d.part("supply", "GS1", breaker="30 A", prospective="2 kA")
    d.part("outlet", "XD1", configuration="TT-30")
    d.seat("XD1", "GS1", "1")
    d.part("plug", "XP1", configuration="TT-30")
    d.seat("XP1", "XD1", "face")
    d.part("breaker", "QF1", rating="30 A", interrupting="10 kA")
    d.run("XP1.cord", "QF1.line", "cord", length="25 ft", **CORD)
    d.run("QF1.load", "TB1.ac_in", "i", size="10 AWG", length="5 ft")
    d.part("panel", "QP1", main="30 A", bond="absent")
    d.run("TB1.ac_out", "QP1.feed", "o", size="10 AWG", length="5 ft")
    branch(d, "QP1", "1", "11", "800 W")
    chassis(d, "QP1")
    return d


def neutrals_joined_behind_two_gfci() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", rating="20 A", interrupting="10 kA", **SPLIT)
    d.seat("QF1", "QP1", "1")
    d.part("junction_box", "XJ1", **SPLIT)
    d.part("junction_box", "XJ2", **SPLIT)
    wire = {"size": "12 AWG", "length": "10 ft"}
    d.run("QF1.load", "XJ1.a", "m", **wire)
    for leg, n, side, watts in (("L1", 1, "b", "600 W"), ("L2", 2, "c", "300 W")):
        d.part("outlet", f"XD{n}", configuration="5-20", ground_fault="class_a")
        d.run(f"XJ1.{side}", f"XD{n}.feed", f"r{n}", poles=f"{leg}>L N PE", **wire)
        d.run(f"XD{n}.onward", "XJ2.a", f"o{n}", poles=f"L>{leg} N PE", **wire)
        d.part("load", f"EA{n}", power=watts)
        d.run("XJ2.b", f"EA{n}.in", f"l{n}", poles=f"{leg}>L N PE", **wire)
    return d


def fault(draw: Callable[[], Draft], *expected: Expected, never: tuple[Never, ...] = ()) -> Case:
    return Case("ours", "fault", draw, expected, never)


def fine(draw: Callable[[], Draft]) -> Case:
    return Case("ours", "fine", draw)


ON_SET = "G1=running QT1=2"

VARIATIONS = {
    "neutral as ground": fault(
        neutral_as_ground, Expected("BOOTLEG_EGC", "danger", "b XD1"), never=(Never("CASE_LIVE"),)
    ),
    "live skin": fault(
        live_skin,
        Expected("CASE_LIVE", "danger", "XB1", state="XP1=XD1"),
        Expected("POLARITY_REVERSED", "warning danger", "b"),
        never=(Never("CASE_LIVE", at="QP1"),),
    ),
    "two-wire outlet": fault(
        two_wire_outlet,
        Expected("EGC_OPEN", "danger", "b XD1"),
        Expected("FAULT_NOT_CLEARED", "danger", "QP9"),
        never=(Never("CASE_LIVE"), Never("FAULT_NOT_CLEARED", at="QP1")),
    ),
    "bonded trailer on a GFCI": fault(
        bonded_trailer_on_gfci,
        Expected("NG_BOND_MULTIPLE", "danger", "QP9"),
        Expected("GFCI_TRIPS_NORMAL", "warning", "XD1"),
        Expected("EGC_CARRIES_LOAD", "warning", "cord"),
    ),
    "trailer on a GFCI": fine(trailer_on_gfci),
    "trailer on a floating set": fault(
        trailer_on_floating_set,
        Expected("NG_BOND_MISSING", "warning", "G1", state="XP1=XG1"),
        never=(Never("EGC_OPEN"), Never("ELECTRODE_MISSING")),
    ),
    "bonding plug on a bonded set": fault(
        bonding_plug_on_bonded_set, Expected("NG_BOND_MULTIPLE", "danger", "G1 XQ1")
    ),
    "bonding plug in a house": fault(
        bonding_plug_in_a_house, Expected("NG_BOND_MULTIPLE", "danger", "QP1 XQ1")
    ),
    "tools on a floating set": fine(tools_on_a_floating_set),
    "set floats, neutral solid": fine(lambda: set_behind_switched("lines", "floating")),
    "set bonded, neutral switched": fine(lambda: set_behind_switched("all", "bonded")),
    "set floats, neutral switched": fault(
        lambda: set_behind_switched("all", "floating"),
        Expected("NG_BOND_MISSING", "danger", "G1", state=ON_SET),
        never=(Never("NG_BOND_MULTIPLE"),),
    ),
    "set bonded, neutral solid": fault(
        lambda: set_behind_switched("lines", "bonded"),
        Expected("NG_BOND_MULTIPLE", "danger", "G1 QP1", state=ON_SET),
        Expected("EGC_CARRIES_LOAD", "warning", "w", state=ON_SET),
        never=(Never("NG_BOND_MISSING"),),
    ),
    "cord with two plugs": fault(
        cord_with_two_plugs,
        Expected("LIVE_PINS", "danger", "XP1"),
        Expected("NO_INTERLOCK", "danger", "GS1 G1"),
    ),
    "coach without neutral": fault(
        coach_without_neutral,
        Expected("OPEN_NEUTRAL", "danger", "c"),
        Expected("VOLTAGE_WRONG", "danger", "EA12"),
    ),
    "coach on a dryer outlet": fine(coach_on_a_dryer_outlet),
    "shed on a rod": fault(
        shed_on_a_rod,
        Expected("EGC_OPEN", "danger", "f"),
        Expected("EARTH_AS_RETURN", "danger", "QP2"),
        Expected("FAULT_NOT_CLEARED", "danger", "QP2"),
        never=(Never("ELECTRODE_MISSING"),),
    ),
    "inverter that takes no link": fault(
        inverter_that_takes_no_link, Expected("NG_BOND_FORBIDDEN", "danger", "TB1")
    ),
    "inverter with a relay": fine(lambda: through_an_inverter("relay")),
    "inverter bonded for good": fault(
        lambda: through_an_inverter("bonded"),
        Expected("NG_BOND_MULTIPLE", "danger", "TB1", state="TB1=on XP1=XD1"),
        never=(Never("NG_BOND_MISSING"),),
    ),
    "neutrals joined behind two GFCIs": fault(
        neutrals_joined_behind_two_gfci,
        Expected("GFCI_TRIPS_NORMAL", "warning", "XD1"),
        Expected("GFCI_TRIPS_NORMAL", "warning", "XD2"),
        never=(Never("NG_BOND_MULTIPLE"), Never("LOAD_LEAKAGE")),
    ),
}


@pytest.mark.parametrize("name", VARIATIONS)
def test_what_follows_from_the_circuit_is_told(name: str) -> None:
    VARIATIONS[name].holds()
