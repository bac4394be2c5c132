# Photo essay: starter post, https://stevedmarineconsulting.com/photo-essay-starter-post
"""The starter of a boat's engine on 1/0 AWG without a fuse."""

from __future__ import annotations

from linework.design import Draft
from tests.cases.case import Case, Expected, Never
from tests.cases.judged import Judged


def drawn() -> Draft:
    d = Draft(place="boat")
    d.part("battery", "GB1", voltage="12 V", capacity="90 Ah", chemistry="flooded")
    d.part("battery_disconnect", "QB1", rating="300 A")
    d.part("motor", "MA1", circuit="dc", duty="starter", power="3600 W", start_current="300 A")
    lead = {"size": "1/0 AWG", "insulation": "105"}
    d.run("GB1.dc", "QB1.line", "a", poles="+", length="4 ft", **lead)
    d.run("QB1.load", "MA1.in", "b", poles="+", length="8 ft", **lead)
    d.run("GB1.dc", "MA1.in", "n", poles="-", length="10 ft", **lead)
    return d


CASE = Case(
    "dc",
    "fine",
    drawn,
    expected=(Expected("FUSE_OPTIONAL", "note", "a"),),
    never=(Never("OCPD_MISSING"), Never("OCPD_POSITION"), Never("VDROP_HIGH")),
    surprising=True,
    scope=("dc",),
)


def test_it_is_sound() -> None:
    CASE.holds()


def test_why_is_said() -> None:
    said = [item for item in Judged(drawn()).analysis.praise if item.rule == "run-unprotected"]
    assert any("needs none" in item.message for item in said)
