# shore line electric power, boats,
# https://www.electrical-contractor.net/forums/ubbthreads.php/posts/91623.html
"""A boat whose board joins neutral, ground and engine: part of the return goes by the water.

The engine in the water is drawn as a body on an electrode of 5 ohm; the shore's earth is its own.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import CORD
from tests.cases.judged import Judged
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="boat")
    d.part("supply", "GS1", "shore", breaker="30 A", prospective="2 kA", electrode="5 ohm")
    d.part("inlet", "XI1", configuration="L5-30")
    d.run("GS1.out", "XI1.outside", "s", length="50 ft", **CORD)
    d.part("panel", "QP1", main="30 A", bond="fitted")
    d.run("XI1.inside", "QP1.feed", "i", size="10 AWG", length="3 ft")
    d.part("body", "XB1", name="engine")
    d.run("QP1.ground", "XB1.tie", "e", size="8 AWG", length="6 ft", installation="jumper")
    d.part("electrode", "XE1", "the engine in the water", resistance="5 ohm")
    d.run("QP1.ground", "XE1.ground", "w", size="8 AWG", length="6 ft", installation="jumper")
    d.part("breaker", "QF1", rating="20 A")
    d.seat("QF1", "QP1", "1")
    d.part("load", "EA1", power="1500 W")
    d.run("QF1.load", "EA1.in", "l", size="12 AWG", length="15 ft")
    return d


CASE = Case(
    "bonding",
    "fault",
    drawn,
    expected=(
        Expected(
            "NG_BOND_MULTIPLE",
            "danger warning",
            at="QP1",
            number=Number(2.0, 0.0, evidence("{neutral_ground_link}s on the ring")),
        ),
        Expected("CURRENT_IN_WATER", "danger", at="XB1"),
    ),
    never=(Never("EGC_OPEN"), Never("NG_BOND_MISSING")),
)


def test_the_second_link_is_found() -> None:
    CASE.holds()


def test_some_milliamperes_go_by_the_water() -> None:
    report = Judged(drawn()).report()
    assert 0.001 < report.run_a["w", "PE"] < 0.5
