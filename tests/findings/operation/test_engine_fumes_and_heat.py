"""engine-fumes-and-heat: a caution for every engine, never accepted away."""

from __future__ import annotations

from linework.design import Accepted, Draft, changed
from linework.findings.model import Level
from tests.findings.told import found

RULE = "engine-fumes-and-heat"


def portable(**ratings: str) -> Draft:
    draft = Draft(place="field")
    draft.part("generator", "G1", power="2 kVA", neutral="bonded", **ratings)
    return draft


def test_every_generator_gets_a_note() -> None:
    (finding,) = found(portable(), RULE)
    assert finding.level is Level.NOTE
    assert "outdoors" in finding.message


def test_in_a_compartment_the_note_asks_for_more() -> None:
    (finding,) = found(portable(indoors="compartment"), RULE)
    assert "sealed from the inside" in finding.message


def test_a_battery_has_no_fumes_of_an_engine() -> None:
    draft = Draft(place="field")
    draft.part("battery", "GB1")
    assert not found(draft, RULE)


def test_it_cannot_be_accepted_away() -> None:
    draft = portable()
    (finding,) = found(draft, RULE)
    accepted = Accepted("a1", RULE, ("G1",), "seen", "me", "2026-01-01", finding.fingerprint)
    draft.design.apply(changed("accept", [(None, accepted)]))
    (again,) = found(draft, RULE)
    assert again.open
