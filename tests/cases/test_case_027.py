# How to Avoid Tripping a Generator With a Bonded Neutral,
# https://www.electricgeneratorsdirect.com/stories/1021-How-to-Avoid-Tripping-a-Generator-With-a-Bonded-Neutral.html
"""A bonded set whose 240 V outlet has a GFCI, on a transfer switch that joins the neutral."""

from __future__ import annotations

from linework.design import Draft
from linework.findings.model import Finding
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import CORD, branch
from tests.cases.judged import Judged
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", breaker="200 A", prospective="4 kA")
    d.part("generator", "G1", circuit="split", power="7.5 kVA", neutral="bonded")
    d.part("breaker", "QF1", circuit="split", rating="30 A")
    d.seat("QF1", "G1", "1")
    d.part("outlet", "XD1", circuit="split", configuration="L14-30", ground_fault="class_a")
    d.seat("XD1", "QF1", "load")
    d.part("plug", "XP1", circuit="split", configuration="L14-30")
    d.seat("XP1", "XD1", "face")
    d.part(
        "transfer_switch",
        "QT1",
        circuit="split",
        poles="lines",
        rating="200 A",
        first="utility",
        second="generator",
    )
    heavy = {"size": "4/0 AWG", "terminals": "75"}
    d.run("GS1.out", "QT1.in1", "u", poles="L1 L2 N", length="30 ft", **heavy)
    d.run("XP1.cord", "QT1.in2", "c", length="25 ft", **CORD)
    d.part("panel", "QP1", circuit="split", main="200 A", bus="200 A", bond="fitted")
    d.run("QT1.load", "QP1.feed", "t", size="10 AWG", length="10 ft")
    branch(d, "QP1", "1", "11", "600 W", run="f")
    return d


GENERATOR = "G1=running QT1=generator XP1=XD1"


def trips_from_ma(judged: Judged, _: Finding) -> float:
    """The neutral current whose share on the ground wire is the 5 mA on which it trips."""
    share = judged.report(*GENERATOR.split()).residual_ma["XD1"] / 1000.0 / (600.0 / 120.0)
    return 5.0 / share


CASE = Case(
    "gfci",
    "fault",
    drawn,
    expected=(
        Expected(
            "NG_BOND_MULTIPLE",
            "warning danger",
            at="G1 QP1",
            state=GENERATOR,
            number=Number(2.0, 0.0, evidence("{neutral_ground_link}s on the ring")),
        ),
        Expected(
            "GFCI_TRIPS_NORMAL",
            "warning",
            at="XD1",
            state=GENERATOR,
            number=Number(10.0, 3.0, trips_from_ma),
        ),
    ),
    never=(Never("LOAD_LEAKAGE"), Never("SOURCES_PARALLEL")),
)


def test_the_outlet_trips_as_the_consequence_of_two_links() -> None:
    CASE.holds()
