"""House cable and solid wire where a cord belongs."""

from __future__ import annotations

import pytest

from linework.findings.model import Level
from tests.findings.camps import caravan, levels
from tests.findings.told import cured, found

RULE = "fixed-wire-as-cord"


@pytest.mark.parametrize(
    ("run", "rated", "told"),
    [
        ("W1", {}, False),
        ("W1", {"installation": "house_cable"}, True),
        ("W1", {"stranding": "solid"}, True),
        ("W2", {"installation": "house_cable"}, False),  # from the inlet inwards
        ("W2", {"stranding": "solid"}, False),
    ],
)
def test_what_a_plug_hangs_on(run: str, rated: dict[str, str], told: bool) -> None:
    draft = caravan()
    draft.rate_run(run, **rated)
    assert levels(draft, RULE) == ({(run,): Level.WARNING} if told else {})
    for hit in found(draft, RULE):
        assert not [f for f in cured(draft, hit).findings if f.rule == RULE]
