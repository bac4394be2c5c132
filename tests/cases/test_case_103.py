# 120 volt generator connection, http://forums.mikeholt.com/goto/post?id=1889227
"""A 120 V set of 2 kW on both legs of a service board through an interlocked two-pole breaker.

What is on the shared neutral is not told: 800 W on each leg, within what the set gives. That an
interlock on the cover alone is disputed, no rule says.
"""

from __future__ import annotations

from linework.design import Draft
from linework.design.edits import add_interlock
from tests.cases.case import Case, Expected, Never
from tests.cases.drawn import service


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("generator", "G1", power="2 kVA", neutral="floating")
    d.part("breaker", "QF1", rating="15 A")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", configuration="5-20")
    d.seat("XD1", "QF1", "load")
    d.part("plug", "XP1", configuration="5-20")
    d.seat("XP1", "XD1", "face")
    d.part("inlet", "XI1", configuration="5-20")
    d.run("XP1.cord", "XI1.outside", "c", size="12 AWG", length="25 ft", installation="cord")
    d.part("breaker", "QF2", circuit="split", rating="20 A", interrupting="10 kA")
    d.seat("QF2", "QP1", "1")
    d.run("XI1.inside", "QF2.load", "i", poles="L>L1 L>L2 N PE", size="12 AWG", length="15 ft")
    positions = [("QP1", "main", "closed"), ("QF2", "breaker", "closed")]
    d.design.apply(add_interlock(d.design, positions))
    d.part("breaker", "QF3", circuit="split", rating="20 A", interrupting="10 kA")
    d.seat("QF3", "QP1", "2")
    d.part("junction_box", "XJ1", circuit="split")
    d.run("QF3.load", "XJ1.a", "m", size="12 AWG", length="50 ft")
    for leg, load in (("L1", "EA1"), ("L2", "EA2")):
        d.part("load", load, power="800 W")
        d.run("XJ1.b", f"{load}.in", f"m{leg}", poles=f"{leg}>L N PE", size="12 AWG", length="1 ft")
    return d


CASE = Case(
    "sources",
    "fine",
    drawn,
    expected=(Expected("INTERLOCK_LISTING", "note", at="QP1"),),
    never=(Never("NEUTRAL_OVERLOAD"), Never("SOURCES_PARALLEL"), Never("VOLTAGE_WRONG")),
    surprising=True,
)


def test_it_is_sound() -> None:
    CASE.holds()
