"""A source on board that can energise the supply."""

from __future__ import annotations

from linework.analysis import analyse
from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import changeover, interlock, levels
from tests.findings.told import found, number

RULE = "supply-backfed"


def past(outage: str) -> Draft:
    draft = changeover()
    draft.rate("GS1", outage=outage)
    draft.cut("W2")
    draft.run("G1.out", "QP1.feed", "W2", size="10 AWG", length="20 ft")
    return draft


def test_it_stands_under_the_meeting_of_the_two() -> None:
    draft = past("yes")
    assert levels(draft, RULE) == {("GS1", "G1"): Level.DANGER}
    top = next(f for f in analyse(draft.design).findings if f.rule == "sources-meet")
    assert RULE in {c.rule for c in top.consequences}
    assert number(found(draft, RULE)[0], "voltage at the supply") == 120.0


def test_a_changeover_is_silent() -> None:
    draft = changeover()
    draft.rate("GS1", outage="yes")
    assert found(draft, RULE) == []


def test_it_is_found_where_they_never_meet() -> None:
    # an interlock that keeps the set off while the supply is live, and nothing else: in an outage
    # the supply's line is fed from the set
    draft = past("yes")
    interlock(draft, ("GS1", "supply", "live"), ("G1", "set", "running"))
    assert found(draft, "sources-meet") == []
    hits = found(draft, RULE)
    assert [(hit.subjects, hit.level) for hit in hits] == [(("GS1", "G1"), Level.DANGER)]
    assert hits[0].states
    assert all("G1=running" in state for state in hits[0].states)
