# Off grid house bonding sanity check,
# https://forums.mikeholt.com/threads/off-grid-house-bonding-sanity-check.2589137/post-3020926
"""An off-grid house: the set is bonded, and so is the board behind the inverter."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.drawn import branch, inverter_charger
from tests.cases.reading import evidence, ground_share


def drawn() -> Draft:
    d = Draft(place="building")
    d.part("generator", "G1", circuit="split", power="12 kVA", neutral="bonded", breaker="50 A")
    inverter_charger(
        d,
        "8 kVA",
        "floating",
        circuit="split",
        neutral_through="common",
        transfer="50 A",
        charge="20 A",
    )
    d.run("G1.out", "TB1.ac_in", "g", size="6 AWG", ground_size="10 AWG", length="60 ft")
    d.part("panel", "QP1", circuit="split", main="100 A", bus="100 A", bond="fitted")
    d.run("TB1.ac_out", "QP1.feed", "p", size="4 AWG", length="8 ft", terminals="75")
    branch(d, "QP1", "1", "11", "1200 W")
    d.part("electrode", "XE1")
    d.run("QP1.ground", "XE1.ground", "gec", size="6 AWG", length="10 ft")
    return d


GENERATOR = "G1=running TB1=on"

CASE = Case(
    "bonding",
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
            "EGC_CARRIES_LOAD",
            "warning danger",
            at="g",
            state=GENERATOR,
            number=Number(28.0, 8.0, lambda j, _: ground_share(j, GENERATOR, "g")),
        ),
    ),
    never=(Never("NG_BOND_MISSING"),),
)


def test_the_second_link_is_found_with_the_current_on_the_ground_wire() -> None:
    CASE.holds()
