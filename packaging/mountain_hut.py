"""The sample of a mountain hut: two legs, a set in a shed, a 48 V bank of four batteries.

A scenario of our own invention, written by make_samples.py. Positions are tenths of a paper
millimetre.
"""

from __future__ import annotations

from linework.design import Draft
from linework.kinds import Band

SPLIT = {"circuit": "split"}
BOTH = {"circuit": "ac240", "voltage": "240 V"}


def hut(job: str = "Larch Saddle hut", revision: str = "A") -> Draft:
    """The hut as it is to be built; sound."""
    d = Draft(
        job=job,
        site="Above the tree line, no utility",
        place="building",
        sheet="A3",
        drawn_by="",
        revision=revision,
    )
    _hut_sources(d)
    _hut_bank(d)
    _hut_board(d)
    _hut_loads(d)
    _hut_grounding(d)
    return d


def _hut_sources(d: Draft) -> None:
    d.part(
        "generator",
        "G1",
        "generator",
        power="9 kVA",
        excitation="auxiliary",
        neutral="bonded",
        bond_allowed="yes",
        breaker="40 A",
        outlets="0",
        **SPLIT,
    )
    d.part(
        "panel",
        "QP1",
        "generator board",
        bus="60 A",
        bond="absent",
        places="4",
        **SPLIT,
    )
    d.run("G1.out", "QP1.feed", "W1", size="8 AWG", length="6 ft")
    for name, place in (("QF1", "1"), ("QF2", "2")):
        d.part("breaker", name, rating="40 A", interrupting="10 kA", **SPLIT)
        d.seat(name, "QP1", place)
    d.part(
        "inverter_charger",
        "TB1",
        "inverter-charger",
        power="6 kVA",
        surge="12 kVA",
        dc_voltage="48 V",
        charge="50 A",
        transfer="50 A",
        neutral="relay",
        bond_allowed="no",
        neutral_through="switched",
        **SPLIT,
    )
    d.part(
        "transfer_switch",
        "QT1",
        "bypass",
        rating="60 A",
        poles="all",
        first="inverter",
        second="generator",
        **SPLIT,
    )
    shed = {"size": "6 AWG", "length": "60 ft", "installation": "conduit_pvc"}
    d.run("QF1.load", "TB1.ac_in", "W2", **shed)
    d.run("QF2.load", "QT1.in2", "W3", **shed)
    d.run("TB1.ac_out", "QT1.in1", "W4", size="8 AWG", length="6 ft")


def _hut_bank(d: Draft) -> None:
    lead = {"size": "3/0 AWG", "terminals": "75", "insulation": "90"}
    for n in range(1, 5):
        d.part(
            "battery",
            f"GB{n}",
            voltage="12 V",
            capacity="200 Ah",
            chemistry="lithium",
            fault_current=Band("3 kA", "5 kA", "8 kA"),
        )
    for n in range(1, 4):
        d.run(f"GB{n}.dc", f"GB{n + 1}.dc", f"W{10 + n}", poles="->+", length="0.7 ft", **lead)
    d.part(
        "fuse",
        "F1",
        rating="200 A",
        type="class_t",
        interrupting="20 kA",
        voltage="125 V",
    )
    d.part("battery_disconnect", "QB1", rating="250 A", voltage="60 V")
    d.run("GB1.dc", "F1.line", "W14", poles="+", length="0.6 ft", **lead)
    d.run("F1.load", "QB1.line", "W15", poles="+", length="1 ft", **lead)
    d.run("QB1.load", "TB1.dc", "W16", poles="+", length="4 ft", **lead)
    d.run("GB4.dc", "TB1.dc", "W17", poles="-", length="4 ft", **lead)


def _hut_board(d: Draft) -> None:
    d.part(
        "panel",
        "QP2",
        "hut board",
        main="50 A",
        bus="100 A",
        bond="absent",
        places="12",
        **SPLIT,
    )
    d.run("QT1.load", "QP2.feed", "W5", size="6 AWG", length="5 ft")
    for name, place, rating, circuit in (
        ("QF3", "1", "15 A", BOTH),
        ("QF4", "2", "15 A", BOTH),
        ("QF5", "5", "15 A", {}),
        ("QF6", "6", "20 A", {"ground_fault": "class_a"}),
        ("QF7", "7", "15 A", {}),
        ("QF8", "9", "20 A", SPLIT),
    ):
        d.part("breaker", name, rating=rating, interrupting="10 kA", **circuit)
        d.seat(name, "QP2", place)


def _hut_loads(d: Draft) -> None:
    d.part(
        "motor",
        "MA1",
        "well pump",
        power="900 W",
        power_factor="0.75",
        start_current="25 A",
        **BOTH,
    )
    d.run("QF3.load", "MA1.in", "W6", size="12 AWG", length="120 ft", installation="conduit_pvc")
    d.part("heater", "EH1", "hob", power="2400 W", continuous="no", **BOTH)
    d.run("QF4.load", "EH1.in", "W7", size="12 AWG", length="20 ft")
    d.part("lamp", "EL1", "lights", power="120 W")
    d.run("QF5.load", "EL1.in", "W8", size="14 AWG", length="40 ft")
    d.part("outlet", "XD1", "kitchen", configuration="5-20", area="sink")
    d.run("QF6.load", "XD1.feed", "W9", size="12 AWG", length="25 ft")
    d.part("load", "EA1", "refrigerator", power="180 W", power_factor="0.87")
    d.run("QF7.load", "EA1.in", "W10", size="14 AWG", length="20 ft")
    d.part("junction_box", "XJ1", "drying room", **SPLIT)
    d.run("QF8.load", "XJ1.a", "W18", size="12 AWG", length="30 ft")
    for n, pole, what in (("2", "L1", "boot dryer"), ("3", "L2", "fan heater")):
        d.part("outlet", f"XD{n}", configuration="5-20", area="dry")
        d.run(
            "XJ1.b",
            f"XD{n}.feed",
            f"W{17 + int(n)}",
            poles=f"{pole}>L N PE",
            size="12 AWG",
            length="8 ft",
        )
        d.part("plug_load", f"EP{n}", what, power="600 W", configuration="5-15")
        d.seat(f"EP{n}", f"XD{n}", "face")


def _hut_grounding(d: Draft) -> None:
    d.part("electrode", "XE1", "two rods", resistance="25 ohm")
    d.run("QP2.ground", "XE1.ground", "W21", size="6 AWG", length="15 ft", installation="jumper")


def hut_as_sketched() -> Draft:
    """The same hut as it was first sketched, with its mistakes."""
    d = hut("Larch Saddle hut, as first sketched", "0")
    # grounding and bonding: a link left in the hut board, rods that nothing is joined to, no ground
    # wire to the hob, a thin one to the hut board, line and neutral exchanged at an outlet
    d.rate("QP2", bond="fitted")
    d.cut("W21")
    d.run_poles("W7", "L1 L2")
    d.rate_run("W5", ground_size="14 AWG")
    d.run_poles("W20", "L2>N N>L PE")
    # two single-pole breakers of one row, and one leg, for the two circuits on one neutral
    d.cut("W18")
    d.remove("QF8")
    for name, place in (("QF8", "9"), ("QF9", "10")):
        d.part("breaker", name, rating="20 A", interrupting="10 kA")
        d.seat(name, "QP2", place)
    run = {"size": "12 AWG", "length": "30 ft"}
    d.run("QF8.load", "XJ1.a", "W18", poles="L>L1 N PE", **run)
    d.run("QF9.load", "XJ1.a", "W22", poles="L>L2", **run)
    # an outlet put at the sink without ground-fault protection
    d.rate("XD3", area="sink")
    # thin wire to the lights, which are made for 240 V; a fuse at the bank for 32 V; a pump that
    # starts hard; a cable through sheet metal
    d.rate("QF5", rating="20 A")
    d.rate("EL1", voltage="240 V")
    d.rate("F1", voltage="32 V", type="mega", interrupting="2 kA")
    d.rate("MA1", start_current="75 A")
    d.rate_run("W9", passes="bare_metal")
    return d
