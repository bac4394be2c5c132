"""What the kinds of place mean to standards and rules."""

from __future__ import annotations

import pytest

from linework.design import Draft, PlaceKind, Settings

FACTS = ("on_wheels", "afloat", "aboard", "slept_in")


@pytest.mark.parametrize(
    ("place", "facts"),
    [
        ("recreational", {"on_wheels", "aboard", "slept_in"}),
        ("vehicle", {"on_wheels", "aboard"}),
        ("boat", {"afloat", "aboard", "slept_in"}),
        ("building", {"slept_in"}),
        ("field", set()),
    ],
)
def test_each_place_has_its_facts_and_no_others(place: str, facts: set[str]) -> None:
    kind = Draft(place=place).design.settings.kind_of_place
    assert {fact for fact in FACTS if getattr(kind, fact)} == facts


def test_a_word_that_is_no_place_is_refused() -> None:
    with pytest.raises(ValueError, match="moon"):
        _ = Settings(place="moon").kind_of_place
    assert Settings().kind_of_place is PlaceKind.VEHICLE
