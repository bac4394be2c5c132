"""What stands behind a source, by the facts that circuits and rules ask for."""

from __future__ import annotations

import pytest

from linework.wiring import SourceGroup

FACTS = ("off_site", "driven", "stores", "charges", "solar", "limits_itself")


@pytest.mark.parametrize(
    ("group", "facts"),
    [
        (SourceGroup.SUPPLY, {"off_site"}),
        (SourceGroup.SET, {"driven"}),
        (SourceGroup.INVERTER, set()),
        (SourceGroup.CHARGER, {"charges", "limits_itself"}),
        (SourceGroup.CELLS, {"stores"}),
        (SourceGroup.SOLAR, {"solar", "limits_itself"}),
        (SourceGroup.NONE, set()),
    ],
)
def test_each_group_has_its_facts_and_no_others(group: SourceGroup, facts: set[str]) -> None:
    assert {fact for fact in FACTS if getattr(group, fact)} == facts
