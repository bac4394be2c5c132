# What is the input fuse rating for the charge controller (48 V to 12 V),
# https://answers.pkys.com/4953756/
"""A 48 V lithium battery behind a blade fuse of 32 V.

What the converter from 48 to 12 V takes, 9 A, is drawn as an electronic load.
"""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never, Number
from tests.cases.reading import evidence


def drawn() -> Draft:
    d = Draft(place="vehicle")
    d.part("battery", "GB1", voltage="48 V", capacity="100 Ah", chemistry="lithium")
    d.part(
        "fuse",
        "F1",
        rating="15 A",
        type="ato",
        voltage="32 V",
        interrupting="1 kA",
        distance="6 in",
    )
    d.part("electronic_load", "EE1", "converter", circuit="dc", voltage="48 V", power="432 W")
    size = {"size": "10 AWG"}
    d.run("GB1.dc", "F1.line", "a", poles="+", length="0.5 ft", **size)
    d.run("F1.load", "EE1.in", "b", poles="+", length="10 ft", **size)
    d.run("GB1.dc", "EE1.in", "n", poles="-", length="10 ft", **size)
    return d


CASE = Case(
    "dc",
    "fault",
    drawn,
    expected=(
        Expected(
            "OCPD_VOLTAGE_LOW",
            "danger warning",
            at="F1",
            # 54 to 60 V are accepted
            number=Number(57.0, 3.0, evidence("on it")),
        ),
        Expected("OCPD_INTERRUPT_LOW", "warning danger note", at="F1"),
    ),
    never=(Never("SOURCE_OVERLOAD"), Never("OCPD_OVER_CONDUCTOR")),
    scope=("dc",),
)


def test_it_is_told() -> None:
    CASE.holds()
