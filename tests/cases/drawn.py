"""Pieces that several situations share."""

from __future__ import annotations

from linework.design import Draft
from linework.design.edits import add_interlock
from linework.kinds import Answer

CORD = {"size": "10 AWG", "installation": "cord"}


def service(d: Draft, main: str = "200 A", **supply: Answer) -> None:
    """A utility supply without a ground wire, a service board that carries the link and its rods.

    The prospective current is ours: low enough for ordinary breakers.
    """
    ratings: dict[str, Answer] = {"circuit": "split", "breaker": main, "prospective": "4 kA"}
    d.part("supply", "GS1", "utility", **(ratings | supply))
    d.part("panel", "QP1", "service board", circuit="split", main=main, bus=main, bond="fitted")
    d.run(
        "GS1.out",
        "QP1.feed",
        "u",
        poles="L1 L2 N",
        size="4/0 AWG",
        material="aluminium",
        terminals="75",
        length="60 ft",
    )
    d.part("electrode", "XE1", "service electrodes", resistance="10 ohm")
    d.run("QP1.ground", "XE1.ground", "gec", size="6 AWG", length="10 ft", installation="jumper")


def generator_on_inlet(d: Draft, neutral: str, watts: str, **lengths: str) -> None:
    """A split-phase set whose L14-30 outlet feeds an inlet by cord, and a two-pole 30 A breaker
    in QP1 that is fed backwards from there, interlocked with the main."""
    d.part("generator", "G1", circuit="split", power=watts, neutral=neutral)
    d.part("breaker", "QF1", circuit="split", rating="30 A")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", circuit="split", configuration="L14-30")
    d.seat("XD1", "QF1", "load")
    d.part("plug", "XP1", circuit="split", configuration="L14-30")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", circuit="split", configuration="L14-30")
    d.run("XP1.cord", "XI1.outside", "cord", length=lengths["cord"], **CORD)
    d.part("breaker", "QF2", circuit="split", rating="30 A", interrupting="10 kA")
    d.seat("QF2", "QP1", "1")
    d.run("XI1.inside", "QF2.load", "w", size="10 AWG", length=lengths["wire"])
    positions = [("QP1", "main", "closed"), ("QF2", "breaker", "closed")]
    d.design.apply(add_interlock(d.design, positions))


def branch(d: Draft, board: str, place: str, number: str, watts: str, run: str = "") -> None:
    """A 20 A breaker in a place of a board and a load behind 40 ft of 12 AWG."""
    d.part("breaker", f"QF{number}", rating="20 A", interrupting="10 kA")
    d.seat(f"QF{number}", board, place)
    d.part("load", f"EA{number}", power=watts)
    d.run(f"QF{number}.load", f"EA{number}.in", run or f"m{number}", size="12 AWG", length="40 ft")


def inverter(d: Draft, power: str, neutral: str, **ratings: Answer) -> None:
    """An inverter and the bank behind it, 48 V, fused at the post."""
    d.part("inverter", "TB1", power=power, dc_voltage="48 V", neutral=neutral, **ratings)
    bank(d)


def inverter_charger(d: Draft, power: str, neutral: str, **ratings: Answer) -> None:
    """An inverter-charger and the bank behind it, as :func:`inverter`."""
    d.part("inverter_charger", "TB1", power=power, dc_voltage="48 V", neutral=neutral, **ratings)
    bank(d)


def bank(d: Draft) -> None:
    """A bank of 48 V fused at its post, joined to TB1."""
    d.part("battery", "GB1", voltage="48 V", capacity="200 Ah", fault_current="4 kA")
    d.part("fuse", "F1", rating="150 A", type="class_t", interrupting="20 kA")
    lead = {"size": "1/0 AWG", "terminals": "75", "insulation": "90"}
    d.run("GB1.dc", "F1.line", "dc1", length="0.5 ft", **lead)
    d.part("battery_disconnect", "QB1", rating="200 A", voltage="60 V")
    d.run("F1.load", "QB1.line", "dc2", length="1 ft", **lead)
    d.run("QB1.load", "TB1.dc", "dc3", length="2 ft", **lead)


def chassis(d: Draft, board: str) -> None:
    """The vehicle's chassis, bonded to the ground bar of its board."""
    d.part("body", "XB1", name="chassis")
    d.run(f"{board}.ground", "XB1.tie", "s", size="8 AWG", length="2 ft", installation="jumper")


def solar_input(d: Draft, series: str) -> None:
    """One string on an input of 500 V: the charge controller of a hybrid inverter, and its bank."""
    d.part(
        "solar_array",
        "GP1",
        voc="49.5 V",
        isc="10 A",
        vmp="41 V",
        series=series,
        voc_per_degree="-0.28 %",
        coldest="0 degC",
    )
    d.part("isolator", "QB2", circuit="dc", rating="32 A", voltage="600 V", direct="yes")
    d.part("solar_controller", "TC1", dc_voltage="48 V", current="100 A", pv_voltage="500 V")
    d.run("GP1.dc", "QB2.line", "w", size="10 AWG", length="80 ft", insulation="90")
    d.run("QB2.load", "TC1.pv", "w2", size="10 AWG", length="3 ft", insulation="90")
    d.run("GP1.frame", "TC1.case", "e", size="10 AWG", length="80 ft")
    inverter(d, "6 kVA", "floating")
    d.part("fuse", "F2", rating="125 A", type="class_t", interrupting="20 kA")
    lead = {"size": "1/0 AWG", "terminals": "75", "insulation": "90"}
    d.run("QB1.load", "F2.line", "dc4", length="0.5 ft", **lead)
    d.run("F2.load", "TC1.dc", "dc5", length="3 ft", **lead)
