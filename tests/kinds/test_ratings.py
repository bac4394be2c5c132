from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linework.kinds import RUN_RATINGS, Band, Choice, OneOf, Rating, RatingError, Ratings, kinds

AMPS = Rating("rating", "Rating", "current", low=1.0, high=100.0)
SIZE = RUN_RATINGS["ground_size"]
PICK = Rating(
    "neutral",
    "{Neutral} at the source",
    "choice",
    choices=(Choice("bonded", "joined"), Choice("floating", "floating")),
)
ANSWERS = st.dictionaries(
    st.text(max_size=5),
    st.text(max_size=5)
    | st.builds(Band, st.text(max_size=3), st.text(max_size=3), st.text(max_size=3))
    | st.builds(OneOf, st.tuples(st.text(max_size=3), st.text(max_size=3))),
    max_size=5,
)


@pytest.mark.parametrize("answer", ["20 A", "1 A", "100 A", "0,02 kA", Band("1 A", "2 A", "2 A")])
def test_what_fits_a_quantity(answer) -> None:
    AMPS.check(answer)


@pytest.mark.parametrize(
    ("answer", "reason"),
    [
        ("20", "Rating: '20' has no unit"),
        ("20 V", "Rating: '20 V' has a unit of voltage"),
        ("", "Rating: "),
        ("0.9 A", "Rating: 0.9 A is below 1 A"),
        ("101 A", "Rating: 101 A is above 100 A"),
        (Band("2 A", "1 A", "3 A"), "Rating: write low, usual, high in rising order"),
        (Band("0.5 A", "1 A", "3 A"), "Rating: 0.5 A is below 1 A"),
        (Band("5 A", "10 A", "0.2 kA"), "Rating: 0.2 kA is above 100 A"),
        (OneOf(("20 A", "30 A")), "Rating: possibilities fit only a choice"),
    ],
)
def test_what_does_not_fit_a_quantity(answer, reason: str) -> None:
    with pytest.raises(RatingError) as refused:
        AMPS.check(answer)
    assert str(refused.value).startswith(reason)


def test_what_fits_a_choice() -> None:
    PICK.check("bonded")
    PICK.check(OneOf(("floating", "bonded")))


@pytest.mark.parametrize(
    ("answer", "reason"),
    [
        ("bondet", "'bondet' is not among bonded, floating; did you mean 'bonded'?"),
        ("Bonded", "did you mean 'bonded'?"),
        (OneOf(("bonded",)), "possibilities fit only a choice, at least two and each once"),
        (OneOf(("bonded", "bonded")), "at least two and each once"),
        (OneOf(("bonded", "flowting")), "did you mean 'floating'?"),
        (Band("a", "b", "c"), "three figures fit only a quantity"),
    ],
)
def test_what_does_not_fit_a_choice(answer, reason: str) -> None:
    with pytest.raises(RatingError) as refused:
        PICK.check(answer, "NA")
    assert reason in str(refused.value)


def test_the_label_is_said_in_the_familys_words() -> None:
    with pytest.raises(RatingError, match=r"^ground wire size: 'x' "):
        SIZE.check("x", "NA")
    with pytest.raises(RatingError, match=r"^earth wire size: 'x' "):
        SIZE.check("x", "INT")


def test_a_wire_size_is_refused_as_a_rating_is() -> None:
    SIZE.check("12 AWG")
    with pytest.raises(RatingError, match="may be a gauge or an area"):
        SIZE.check("12", "NA")


@given(ANSWERS, st.randoms(use_true_random=False))
def test_the_order_of_answers_does_not_matter(answers, shuffle) -> None:
    items = list(answers.items())
    shuffle.shuffle(items)
    ratings = Ratings(tuple(items))
    assert ratings == Ratings.of(answers)
    assert hash(ratings) == hash(Ratings.of(answers))
    assert dict(ratings) == answers
    assert len(ratings) == len(answers)


@given(ANSWERS, ANSWERS)
def test_different_answers_are_not_equal(one, other) -> None:
    assert (Ratings.of(one) == Ratings.of(other)) == (one == other)


@given(ANSWERS, st.text(max_size=5), st.text(max_size=5))
def test_one_answer_is_set_and_taken_away(answers, key: str, answer: str) -> None:
    ratings = Ratings.of(answers)
    assert dict(ratings.with_answer(key, answer)) == {**answers, key: answer}
    gone = ratings.with_answer(key, answer).with_answer(key, None)
    assert dict(gone) == {k: v for k, v in answers.items() if k != key}
    assert dict(ratings) == answers


def test_the_label_of_every_rating_begins_its_refusal() -> None:
    """A wrong unit is refused by every quantity of every kind, under the rating's own name."""
    for kind in kinds().values():
        for rating in kind.ratings:
            if not rating.choices and rating.quantity not in ("text", "configuration"):
                with pytest.raises(RatingError, match=r".+: .+"):
                    rating.check("1 parsec", "NA")
