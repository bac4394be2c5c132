"""Cords with only loads behind them: few combinations tell what all of them tell."""

from __future__ import annotations

from random import Random

import pytest

from linework.analysis import Analysis, analyse
from linework.circuit import expand
from linework.circuit import pockets as pockets_module
from linework.circuit.search import Search
from linework.design import Draft
from linework.findings.model import Finding

RUN = {"size": "12 AWG", "length": "20 ft"}


def cords(count: int, random: Random) -> Draft:
    """A board whose cords go to heaters, lamps and motors, some of them wrongly joined."""
    d = Draft(place="building")
    legs = random.choice(("120 V", "120/240 V"))
    d.part("supply", "GS1", outage="no", system=legs)
    d.part("panel", "QP1", places="40", bond=random.choice(("fitted", "absent")))
    d.run("GS1.out", "QP1.feed", size="6 AWG", length="20 ft")
    for n in range(1, count + 1):
        d.part("breaker", f"QF{n}", rating=random.choice(("15 A", "20 A", "50 A")))
        d.seat(f"QF{n}", "QP1", str(n))
        d.part("outlet", f"XD{n}")
        d.run(f"QF{n}.load", f"XD{n}.feed", f"W{n}", **RUN)
        d.part("plug", f"XP{n}")
        d.seat(f"XP{n}", f"XD{n}", "face")
        d.part("heater", f"EH{n}", power=random.choice(("400 W", "1200 W", "2500 W")))
        poles = random.choice(("", "", "", "L>N N>L PE>PE", "L>L N>PE PE>N", "L>PE N>N PE>L"))
        wires = {"poles": poles} if poles else {}
        size = random.choice(("18 AWG", "12 AWG"))
        d.run(f"XP{n}.cord", f"EH{n}.in", f"V{n}", size=size, length="30 ft", **wires)
    return d
