"""A flexible cord that goes out of sight."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from tests.findings.camps import camp, caravan, levels
from tests.findings.told import cured, found

RULE = "cord-concealed"


def cord(hidden: str, installation: str = "cord") -> Draft:
    d = camp("building")
    d.rate_run("W3", installation=installation, hidden=hidden)
    return d


@pytest.mark.parametrize(
    ("hidden", "installation", "clause"),
    [
        # NFPA 70 (2023) 400.12 (400.8 until 2017)
        ("hidden", "cord", "400.12(4), (5)"),
        ("hole", "cord", "400.12(2)"),
        ("no", "cord", None),
        ("hidden", "cable", None),
    ],
)
def test_cords_out_of_sight(hidden: str, installation: str, clause: str | None) -> None:
    hits = found(cord(hidden, installation), RULE)
    told = [(h.subjects, h.level, h.clause) for h in hits]
    assert told == ([] if clause is None else [(("W3",), Level.WARNING, clause)])


def test_what_is_not_said_lies_open() -> None:
    d = camp("building")
    d.rate_run("W3", installation="cord")
    assert levels(d, RULE) == {}


@pytest.mark.parametrize(("place", "told"), [("recreational", False), ("building", True)])
def test_the_attached_cord_of_a_vehicle_leaves_through_its_wall(place: str, told: bool) -> None:
    """NFPA 70 (2023) 551.46(A)."""
    d = caravan(place)
    d.rate_run("W1", hidden="hole")
    assert levels(d, RULE) == ({("W1",): Level.WARNING} if told else {})
    d.rate_run("W1", hidden="hidden")
    assert levels(d, RULE) == {("W1",): Level.WARNING}


def test_a_cable_mends_it() -> None:
    d = cord("hidden")
    (hit,) = found(d, RULE)
    cured(d, hit)
    assert levels(d, RULE) == {}
