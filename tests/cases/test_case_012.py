# rewiring a generator panel for 120v only?, https://forums.mikeholt.com/goto/post?id=2780092
"""A 120 V battery unit on both legs of a board in which two hots share a neutral."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.design.edits import add_interlock
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import inverter, service
from tests.cases.judged import Judged
from tests.cases.reading import amps


def drawn() -> Draft:
    d = Draft(place="building")
    service(d)
    d.part("breaker", "QF1", circuit="split", rating="60 A", interrupting="10 kA")
    d.seat("QF1", "QP1", "1")
    d.part("panel", "QP2", circuit="split", main="60 A", bus="100 A", bond="absent", places="8")
    d.run("QF1.load", "QP2.feed", "u2", size="6 AWG", length="10 ft", terminals="75")
    inverter(d, "3.6 kVA", "floating")
    d.part("breaker", "QF2", circuit="split", rating="30 A", interrupting="10 kA")
    d.seat("QF2", "QP2", "1")
    d.run("TB1.ac_out", "QF2.load", "a", poles="L>L1 L>L2 N PE", size="10 AWG", length="20 ft")
    positions = [("QP2", "main", "closed"), ("QF2", "breaker", "closed")]
    d.design.apply(add_interlock(d.design, positions))
    d.part("breaker", "QF3", circuit="split", rating="20 A", interrupting="10 kA")
    d.seat("QF3", "QP2", "5")
    d.part("junction_box", "XJ1", circuit="split")
    d.run("QF3.load", "XJ1.a", "m", size="12 AWG", length="40 ft")
    for leg, load in (("L1", "EA1"), ("L2", "EA2")):
        d.part("load", load, power="1800 W")
        d.run("XJ1.b", f"{load}.in", f"m{leg}", poles=f"{leg}>L N PE", size="12 AWG", length="1 ft")
    return d


BATTERY, UTILITY = "GS1=live QF2=closed TB1=on", "GS1=live QP2=closed"

CASE = Case(
    "sources",
    "fault",
    drawn,
    expected=(
        Expected(
            "NEUTRAL_OVERLOAD",
            "danger",
            at="m",
            state=BATTERY,
            # 30 A at 120 V, as the situation says; what the wires take away is less here
            number=Number(30.0, 1.5, lambda j, _: amps(j, BATTERY, "m", "N")),
        ),
    ),
    never=(
        Never("NEUTRAL_OVERLOAD", at="QP2"),
        Never("NEUTRAL_OVERLOAD", state=UTILITY),
        Never("SOURCES_PARALLEL"),
    ),
    surprising=True,
)


def test_the_shared_neutral_is_found_on_the_unit_only() -> None:
    CASE.holds()


def test_the_shared_neutral_carries_the_sum_on_the_unit_and_nothing_on_the_utility() -> None:
    judged = Judged(drawn())
    assert amps(judged, BATTERY, "m", "N") == pytest.approx(30.0, abs=1.5)
    assert amps(judged, UTILITY, "m", "N") == pytest.approx(0.0, abs=0.1)
