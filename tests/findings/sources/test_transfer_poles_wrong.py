"""A transfer switch whose poles do not go with the links."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import changeover, levels
from tests.findings.told import cured, found

RULE = "transfer-poles-wrong"


def test_a_bonded_set_on_a_switch_that_joins_the_neutral() -> None:
    draft = changeover("lines")
    assert levels(draft, RULE) == {("QT1",): Level.WARNING}


def test_a_bonded_set_on_a_switch_that_opens_it_is_silent() -> None:
    assert found(changeover("all"), RULE) == []


def test_a_floating_set_on_a_switch_that_opens_the_neutral() -> None:
    draft = changeover("all", neutral="floating")
    hits = found(draft, RULE)
    assert [hit.subjects for hit in hits] == [("QT1",)]
    assert "away from the only link" in hits[0].message


def test_a_floating_set_on_a_switch_that_joins_it_is_silent() -> None:
    assert found(changeover("lines", neutral="floating"), RULE) == []


def test_two_links_on_the_load_side_are_not_the_switchs_fault() -> None:
    draft: Draft = changeover("lines", neutral="floating")
    draft.rate("GS1", neutral="floating")
    draft.rate("QP1", bond="fitted")
    draft.part("breaker", "QF2", rating="20 A", interrupting="10 kA")
    draft.seat("QF2", "QP1", "2")
    draft.part("panel", "QP2", bond="fitted")
    draft.run("QF2.load", "QP2.feed", "W9", size="12 AWG", length="30 ft")
    assert levels(draft, "bond-doubled") == {("QP1", "QP2"): Level.DANGER}
    assert found(draft, RULE) == []


def test_the_mend_switches_the_neutral_too() -> None:
    draft = changeover("lines")
    assert cured(draft, found(draft, RULE)[0]).silent


def test_the_mend_leaves_it_joined() -> None:
    draft = changeover("all", neutral="floating")
    assert cured(draft, found(draft, RULE)[0]).silent


def automatic(poles: str, neutral: str) -> Draft:
    """The same on a switch that moves by itself when the supply fails."""
    draft = changeover(poles, switch="transfer_automatic", neutral=neutral)
    draft.rate("GS1", outage="yes")
    return draft


@pytest.mark.parametrize(
    ("poles", "neutral", "told"),
    [
        ("lines", "bonded", True),
        ("all", "bonded", False),
        ("all", "floating", True),
        ("lines", "floating", False),
    ],
)
def test_one_that_moves_by_itself_is_judged_alike(poles: str, neutral: str, told: bool) -> None:
    draft = automatic(poles, neutral)
    hits = found(draft, RULE)
    assert [hit.subjects for hit in hits] == ([("QT1",)] if told else [])
    if told:
        assert cured(draft, hits[0]).silent


def test_the_kind_that_closes_first_puts_the_sources_together() -> None:
    draft = automatic("all", "bonded")
    draft.rate("QT1", change="closed")
    (hit,) = found(draft, "sources-meet")
    assert hit.states
    assert all("while QT1 changes over" in state for state in hit.states)
    draft.rate("QT1", change="open")
    assert found(draft, "sources-meet") == []
