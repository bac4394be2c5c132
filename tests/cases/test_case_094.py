# Sine wave inverter anomaly,
# https://community.goodsam.com/discussions/technicalissues/sine-wave-inverter-anomaly/1754952/replies/1754966
"""A cheap inverter whose maker forbids a link, in a vehicle behind a guard that looks for one.

That its bridge stands symmetrically round the battery's minus cannot be drawn: the program's
bridge is isolated. There is no kind for an energy-management device: a junction box. No key says
"advises a bond": what is told is asked for words and mends.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.judged import Judged


def drawn() -> Draft:
    d = Draft(place="recreational")
    d.part("battery", "GB1", voltage="12 V", capacity="100 Ah")
    d.part("inverter", "TB1", power="1 kVA", neutral="floating", bond_allowed="no")
    d.part("body", "XB1", name="chassis")
    d.run("GB1.dc", "TB1.dc", "dc", size="4 AWG", length="4 ft")
    d.run("GB1.dc", "XB1.tie", "cn", poles="->body", size="4 AWG", length="3 ft")
    d.run("TB1.case", "XB1.tie", "cg", size="8 AWG", length="3 ft", installation="jumper")
    d.part("junction_box", "XJ1", "energy-management device")
    d.run("TB1.ac_out", "XJ1.a", "ac", size="12 AWG", length="6 ft")
    d.part("outlet", "XD1", configuration="5-15")
    d.run("XJ1.b", "XD1.feed", "o", size="14 AWG", length="15 ft")
    return d


CASE = Case(
    "bonding",
    "fault",
    drawn,
    expected=(
        Expected("NG_BOND_FORBIDDEN", "warning danger note", at="TB1"),
        Expected("NG_BOND_MISSING", "note", at="TB1"),
    ),
    never=(Never("POLARITY_REVERSED"), Never("EGC_OPEN")),
    surprising=True,
)


def test_it_is_told() -> None:
    CASE.holds()


def test_no_bond_is_advised() -> None:
    judged = Judged(drawn())
    told = judged.said("NG_BOND_FORBIDDEN") + judged.said("NG_BOND_MISSING")
    assert told
    assert not [f.message for f in told if f.mend is not None or "Fit one link" in f.message]
