"""Small sound designs that each test spoils in one property."""

from __future__ import annotations

from linework.design import Draft
from linework.design.edits import add_interlock
from linework.findings.model import Level
from linework.kinds import Answer
from tests.findings.told import found

CORD = {"size": "10 AWG", "installation": "cord"}


def camp(place: str = "field", **generator: Answer) -> Draft:
    """A generator, 30 A, that feeds a board with a load and an outlet; no body, no soil."""
    draft = Draft(place=place)
    ratings: dict[str, Answer] = {"power": "5 kVA", "neutral": "bonded", "breaker": "30 A"}
    draft.part("generator", "G1", **(ratings | generator))
    draft.part("panel", "QP1", bond="absent", bus="60 A")
    draft.run("G1.out", "QP1.feed", "W1", size="10 AWG", length="20 ft")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("breaker", "QF2", rating="20 A")
    draft.seat("QF1", "QP1", "1")
    draft.seat("QF2", "QP1", "2")
    draft.part("load", "EA1", power="600 W")
    draft.part("outlet", "XD1", configuration="5-20")
    draft.run("QF1.load", "EA1.in", "W2", size="12 AWG", length="20 ft")
    draft.run("QF2.load", "XD1.feed", "W3", size="12 AWG", length="20 ft")
    return draft


def house(**supply: Answer) -> Draft:
    """A utility supply, 100 A, that feeds a board with a load; the link is off site."""
    draft = Draft(place="building")
    ratings: dict[str, Answer] = {"breaker": "100 A", "prospective": "5 kA", "outage": "no"}
    draft.part("supply", "GS1", **(ratings | supply))
    draft.part("panel", "QP1", bond="absent", bus="100 A")
    draft.run("GS1.out", "QP1.feed", "W1", size="1 AWG", length="20 ft", terminals="75")
    draft.part("breaker", "QF1", rating="20 A", interrupting="10 kA")
    draft.seat("QF1", "QP1", "1")
    draft.part("load", "EA1", power="1200 W")
    draft.run("QF1.load", "EA1.in", "W2", size="12 AWG", length="40 ft")
    return draft


def caravan(place: str = "recreational", **generator: Answer) -> Draft:
    """A portable set with two outlets, a cord, an inlet, a board and a bonded chassis."""
    draft = Draft(place=place)
    ratings: dict[str, Answer] = {"power": "3 kVA", "neutral": "bonded"}
    draft.part("generator", "G1", **(ratings | generator))
    draft.part("breaker", "QF1", rating="30 A")
    draft.part("outlet", "XD1", configuration="TT-30")
    draft.part("breaker", "QF2", rating="20 A")
    draft.part("outlet", "XD2", configuration="5-20")
    draft.seat("QF1", "G1", "1")
    draft.seat("XD1", "QF1", "load")
    draft.seat("QF2", "G1", "2")
    draft.seat("XD2", "QF2", "load")
    draft.part("plug", "XP1", configuration="TT-30")
    draft.seat("XP1", "XD1", "face")
    draft.part("inlet", "XI1", configuration="TT-30")
    draft.run("XP1.cord", "XI1.outside", "W1", length="25 ft", **CORD)
    draft.part("panel", "QP1", bond="absent", main="30 A")
    draft.run("XI1.inside", "QP1.feed", "W2", size="10 AWG", length="5 ft")
    draft.part("breaker", "QF3", rating="15 A")
    draft.seat("QF3", "QP1", "1")
    draft.part("load", "EA1", power="400 W")
    draft.run("QF3.load", "EA1.in", "W3", size="14 AWG", length="10 ft")
    draft.part("body", "XB1", name="chassis")
    draft.run("QP1.ground", "XB1.tie", "W4", size="8 AWG", length="2 ft", installation="jumper")
    return draft


def changeover(
    poles: str = "all",
    place: str = "building",
    *,
    switch: str = "transfer_switch",
    **generator: Answer,
) -> Draft:
    """A supply and a bonded set on a transfer switch that feeds a board with a load."""
    draft = Draft(place=place)
    draft.part("supply", "GS1", breaker="30 A", prospective="5 kA", outage="no")
    ratings: dict[str, Answer] = {"power": "5 kVA", "neutral": "bonded", "breaker": "30 A"}
    draft.part("generator", "G1", **(ratings | generator))
    draft.part(switch, "QT1", poles=poles, first="supply", second="set")
    draft.run("GS1.out", "QT1.in1", "W1", size="10 AWG", length="10 ft")
    draft.run("G1.out", "QT1.in2", "W2", size="10 AWG", length="20 ft")
    draft.part("panel", "QP1", bond="absent", bus="60 A")
    draft.run("QT1.load", "QP1.feed", "W3", size="10 AWG", length="5 ft")
    draft.part("breaker", "QF1", rating="20 A", interrupting="10 kA")
    draft.seat("QF1", "QP1", "1")
    draft.part("load", "EA1", power="600 W")
    draft.run("QF1.load", "EA1.in", "W4", size="12 AWG", length="20 ft")
    return draft


def levels(draft: Draft, rule: str) -> dict[tuple[str, ...], Level]:
    """The places of a rule's findings, consequences included, with their levels."""
    return {f.subjects: f.level for f in found(draft, rule)}


def interlock(draft: Draft, *positions: tuple[str, str, str]) -> None:
    """At most one of these (designation, selector, position) may hold."""
    draft.design.apply(add_interlock(draft.design, list(positions)))
