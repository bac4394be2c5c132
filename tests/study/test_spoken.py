"""States in words."""

from __future__ import annotations

from linework.analysis import analyse
from linework.design import Draft
from tests.findings.banks import PLATE, van
from tests.findings.camps import caravan, changeover


def said(draft: Draft) -> dict[str, str]:
    """The words of each state that is shown, by its key."""
    return {report.key: report.spoken for report in analyse(draft.design).reports}


def test_a_changeover() -> None:
    told = said(changeover())
    assert told["G1=running QT1=set"] == "G1 running, QT1 on set"
    assert all("=" not in words for words in told.values())


def test_plugs_and_the_sun() -> None:
    told = " / ".join([*said(caravan()).values(), *said(van()).values()])
    for words in ("XP1 in XD1", "G1 running, XP1 pulled out", "GP1 by day", "at night"):
        assert words in told


def test_names_with_spaces_stay_whole() -> None:
    draft = Draft(place="field")
    draft.part("generator", "big set", power="2 kVA")
    assert "big set running" in said(draft).values()


def test_one_of_two_arrays_in_the_dark_is_no_night() -> None:
    draft = van()
    draft.part("solar_array", "GP2", **PLATE)
    draft.run("GP2.dc", "QB2.line", "W90", size="10 AWG", length="10 ft")
    told = said(draft)
    assert told["GP1=night GP2=night"] == "at night"
    assert told["GP1=day GP2=night"] == "GP1 by day, GP2 in the dark"
