"""What runs when: answers of a person, else the usual habit of the kind."""

from __future__ import annotations

import numpy as np
import pytest

from linework.codes.tables import rows
from linework.design import Draft
from linework.kinds import kinds
from linework.kinds.habit import LOAD_HABIT
from linework.supply.habits import Habit, habit_of, wanted, within

CONSUMING = [kind for kind in kinds().values() if kind.consumes]
MONTH = np.zeros((1, 1, 1), int)


def drawn(kind: str, **ratings: str) -> Habit:
    d = Draft(place="vehicle")
    part = d.part(kind, "E1", **ratings)
    return habit_of(d.design, part)


def test_all_that_consumes_declares_the_same_once():
    assert len(CONSUMING) == 6
    for kind in CONSUMING:
        assert [r for r in kind.ratings if r.key.startswith("use")] == list(LOAD_HABIT), kind.key
        assert all(rating.quiet for rating in LOAD_HABIT)
    others = [k for k in kinds().values() if not k.consumes]
    assert not [k.key for k in others if "use" in k.declared]


@pytest.mark.parametrize("kind", CONSUMING, ids=lambda kind: kind.key)
def test_each_has_a_usual_habit_that_is_marked(kind):
    found = drawn(kind.key)
    assert not found.given
    assert found.row in {row["id"] for row in rows("energy/habits")}


@pytest.mark.parametrize(
    ("kind", "ratings", "hours"),
    [  # a day at full power: ../reference loads: on_hours x duty
        ("lamp", {}, 5.0),
        ("heater", {}, 8.0 * 0.7),
        ("motor", {"duty": "hermetic"}, 10.0 * 0.6),
        ("motor", {"duty": "starter"}, 0.0),
        ("plug_load", {}, 6.0),
        ("load", {}, 24.0 * 0.33),
        ("load", {"continuous": "yes"}, 24.0),
    ],
)
def test_the_usual_hours_are_those_of_the_table(kind, ratings, hours):
    assert drawn(kind, **ratings).hours_a_day == pytest.approx(hours)


def test_what_a_person_says_goes_before():
    found = drawn("lamp", use_hours="2 h", use_from="20 h")
    assert (found.hours_a_day, found.start, found.end) == (2.0, 20.0, 23.0)
    assert found.given
    assert drawn("lamp", use="always").hours_a_day == 24.0
    assert drawn("lamp", use="never").hours_a_day == 0.0


def energy(habit: Habit, celsius: float = 20.0, month: int = 0, steps: int = 96) -> float:
    air = np.full((1, steps, 1), celsius)
    return float(wanted(habit, MONTH + month, air).sum() * 24.0 / steps)


@pytest.mark.parametrize("steps", [24, 48, 96])
@pytest.mark.parametrize(("start", "end"), [(17.0, 23.0), (22.0, 3.0), (0.1, 0.2), (0.0, 24.0)])
def test_hours_are_kept_whatever_the_step_and_over_midnight(start, end, steps):
    length = (end - start) % 24.0 or 24.0
    assert within(start, length, steps).sum() * 24.0 / steps == pytest.approx(length)
    habit = Habit("hours", length / 2, start, end, 0.5)
    assert energy(habit, steps=steps) == pytest.approx(length / 4)


def test_a_refrigerator_runs_longer_when_it_is_hot():
    """One fifth of the time at 20 degC, half at 35: a refrigerator of 12 V (S194)."""
    fridge = Habit("keeps_cold", 24.0, 0.0, 24.0, 0.33)
    assert energy(fridge, 25.0) / 24.0 == pytest.approx(0.33)
    assert energy(fridge, 20.0) / 24.0 == pytest.approx(0.25, abs=0.06)
    assert energy(fridge, 35.0) / 24.0 == pytest.approx(0.5, abs=0.06)
    assert energy(fridge, 0.0) == 0.0


def test_rooms_are_heated_in_the_cold_and_cooled_in_the_heat():
    heats, cools = (Habit(use, 10.0, 8.0, 18.0, 0.6) for use in ("heats_room", "cools_room"))
    assert energy(heats, 0.0) == energy(cools, 35.0) == pytest.approx(6.0)
    assert energy(heats, 25.0) == energy(cools, 10.0) == 0.0
    assert energy(heats, -40.0) == pytest.approx(10.0)  # it can do no more than run all the time


@pytest.mark.parametrize(("first", "last", "on"), [(1, 12, 12), (5, 9, 5), (10, 3, 6), (7, 7, 1)])
def test_a_season_may_go_over_the_turn_of_the_year(first, last, on):
    habit = Habit("always", 24.0, 0.0, 24.0, 1.0, first, last)
    assert sum(energy(habit, month=m) > 0.0 for m in range(12)) == on
