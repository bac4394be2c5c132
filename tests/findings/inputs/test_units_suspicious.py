"""A figure that looks like a slip of its unit."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.findings.model import Level
from linework.kinds import RUN_RATINGS, Rating, kinds
from linework.quantity import KINDS
from tests.findings.camps import camp, caravan, house, levels
from tests.findings.told import found, number

RULE = "units-suspicious"


@pytest.mark.parametrize(
    ("part", "rating", "slip", "sound"),
    [
        ("G1", "power", "500 kVA", "5 kVA"),
        ("EA1", "power", "600 kW", "600 W"),
        ("EA1", "power", "0.1 W", "1 W"),
        ("QF1", "rating", "2 kA", "20 A"),
        ("QF1", "rating", "0.4 A", "0.5 A"),
    ],
)
def test_a_figure_far_out_is_asked_about(part: str, rating: str, slip: str, sound: str) -> None:
    d = camp()
    d.rate(part, **{rating: slip})
    (hit,) = found(d, RULE)
    assert (hit.subjects, hit.level) == ((part,), Level.NOTE)
    d.rate(part, **{rating: sound})
    assert levels(d, RULE) == {}


@pytest.mark.parametrize(("length", "told"), [("500 m", False), ("501 m", True), ("10 mm", True)])
def test_lengths_of_runs(length: str, told: bool) -> None:
    d = camp()
    d.rate_run("W3", length=length)
    assert levels(d, RULE) == ({("W3",): Level.NOTE} if told else {})


@pytest.mark.parametrize(("start", "told"), [("50 A", False), ("5 A", True), ("5 kA", True)])
def test_a_motor_whose_currents_do_not_belong_together(start: str, told: bool) -> None:
    """By hand: 1 kW at 120 V and 0.8 runs at 10.4 A; locked rotors take about six times that."""
    d = Draft(place="field")
    d.part("motor", "MA1", power="1 kW", power_factor="0.8", start_current=start)
    hits = found(d, RULE)
    assert bool(hits) is told
    if told:
        assert number(hits[0], "Locked-rotor current") in (5.0, 5000.0)


def test_nothing_is_said_of_what_was_not_given() -> None:
    assert levels(Draft(), RULE) == {}
    for draft in (camp(), caravan(), house()):
        assert levels(draft, RULE) == {}


BANDS = [
    pytest.param(rating, rating.usual, id=f"{where}.{rating.key}")
    for where, ratings in [
        ("run", tuple(RUN_RATINGS.values())),
        *((kind.key, kind.ratings) for kind in kinds().values()),
    ]
    for rating in ratings
    if rating.usual is not None
]


@pytest.mark.parametrize(("rating", "band"), BANDS)
def test_each_band_belongs_to_a_figure_and_reaches_where_it_may(
    rating: Rating, band: tuple[float, float]
) -> None:
    low, high = band
    assert rating.quantity in KINDS
    assert low < high
    assert rating.high is None or low < rating.high
    assert rating.low is None or high > rating.low
