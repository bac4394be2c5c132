"""The checks of a whole design, asked of elements and of an open design."""

from __future__ import annotations

from dataclasses import replace

import pytest

from linework.design import Draft, End, Interlock, Part, Run, Seat, Settings, changed
from linework.design.edits import add_interlock
from linework.design.integrity import Guesses, flaws, flaws_of
from linework.kinds import Answer, Band, Kind, OneOf, Ratings, kinds


def sketch() -> Draft:
    draft = Draft(place="building")
    draft.part("panel", "QP1", places="4", main="50 A")
    draft.part("breaker", "QF1", rating="20 A")
    draft.part("load", "EA1", power="1 kW")
    draft.seat("QF1", "QP1", "2")
    draft.run("QF1.load", "EA1.in", size="12 AWG", length="3 m")
    draft.design.apply(
        add_interlock(draft.design, [("QP1", "main", "closed"), ("QF1", "breaker", "closed")])
    )
    return draft


def rated(draft: Draft, name: str, **answers: str) -> None:
    """Past the edit, which would refuse it."""
    part = draft.design.part(name)
    ratings = Ratings.of({**part.ratings, **answers})
    draft.design.apply(changed("", [(part, replace(part, ratings=ratings))]))


def test_a_sound_design_has_no_flaw() -> None:
    assert flaws_of(sketch().design) == []


@pytest.mark.parametrize(
    ("name", "answers", "element", "field", "breaks"),
    [
        ("QP1", {"places": "1"}, "seat", "place", False),
        ("EA1", {"circuit": "dc"}, "W1", "poles", False),
        ("EA1", {"power": "1 V"}, "EA1", "ratings.power", True),
        ("EA1", {"nothing": "1 V"}, "EA1", "ratings.nothing", True),
    ],
)
def test_a_flaw_names_its_element_and_field(
    name: str, answers: dict[str, str], element: str, field: str, breaks: bool
) -> None:
    draft = sketch()
    rated(draft, name, **answers)
    found = flaws_of(draft.design)
    assert [(flaw.field, flaw.breaks) for _, flaw in found] == [(field, breaks)]
    at = found[0][0]
    assert isinstance(at, Seat) if element == "seat" else at.id == element


def test_a_locked_position_that_a_rating_took_away_is_a_flaw() -> None:
    draft = sketch()
    panel = draft.design.part("QP1")
    without = replace(panel, ratings=panel.ratings.with_answer("main", None))
    draft.design.apply(changed("", [(panel, without)]))
    [(element, flaw)] = flaws_of(draft.design)
    assert isinstance(element, Interlock)
    assert (flaw.field, flaw.breaks) == ("excludes[0]", False)


def test_a_position_that_only_one_possibility_has_may_be_locked() -> None:
    """What is not known yet is no flaw: with a ground-fault device the outlet has a breaker."""
    unknown = Ratings.of({"ground_fault": OneOf(("none", "class_a"))})
    lock = Interlock("l", (("a", "breaker", "closed"), ("b", "breaker", "closed")))
    parts = [Settings(), Part("a", "outlet", "XD1", unknown), Part("b", "outlet", "XD2", unknown)]
    assert flaws([*parts, lock]) == []
    without = Part("b", "outlet", "XD2", Ratings.of({"ground_fault": "none"}))
    assert [flaw.field for flaw in flaws([*parts[:2], without, lock])] == ["excludes[1]"]


def test_a_plug_is_locked_by_the_names_of_its_hosts() -> None:
    parts = [
        Settings(),
        Part("x", "outlet", "XD1"),
        Part("p", "plug", "XP1"),
        Part("q", "plug", "XP2"),
        Seat("s", "p", "x", "face"),
    ]
    lock = Interlock("l", (("p", "plug", "XD1"), ("q", "plug", "unplugged")))
    assert flaws([*parts, lock]) == []
    wrong = Interlock("l", (("p", "plug", "XD2"), ("q", "plug", "unplugged")))
    assert [flaw.field for flaw in flaws([*parts, wrong])] == ["excludes[0]"]


def test_ends_may_stand_after_what_hangs_on_them() -> None:
    run = Run("w", End("a", "a"), End("b", "a"))
    boxes = [Part("a", "junction_box", "XJ1"), Part("b", "junction_box", "XJ2")]
    assert flaws([run, *boxes, Settings()]) == []
    assert [(f.position, f.field, f.breaks) for f in flaws([run, boxes[0], Settings()])] == [
        (0, "to", True)
    ]


def test_of_what_was_not_understood_nothing_is_said() -> None:
    part = Part("a", "load", "", Ratings.of({"power": "1 V"}))
    other = Part("b", "load", "EA2")
    run = Run("w", End("a", "out"), End("b", "in"))
    elements = [Settings(), part, other, run]
    assert {flaw.position for flaw in flaws(elements)} == {1}
    assert flaws(elements, {1}) == []


def test_an_unknown_kind_is_judged_by_its_name_alone() -> None:
    box = Part("a", "flux_tank", "U1", Ratings.of({"power": "1 V"}))
    elements = [
        Settings(),
        box,
        Part("b", "load", "EA1"),
        Part("c", "outlet", "XD1"),
        Run("w", End("a", "anything"), End("b", "in")),
        Seat("s", "a", "c", "face"),
        Seat("t", "b", "a", "top"),
        Interlock("l", (("a", "lever", "up"), ("a", "lever", "down"))),
    ]
    assert flaws(elements) == []
    assert [flaw.field for flaw in flaws([*elements, replace(box, id="d")])] == ["designation"]


def test_faulty_settings_are_told_once() -> None:
    """Parts that take their default from them are looked at with sound ones."""
    elements = [Settings(voltage="much", frequency="60"), Part("a", "load", "EA1")]
    assert [(flaw.position, flaw.field) for flaw in flaws(elements)] == [
        (0, "voltage"),
        (0, "frequency"),
    ]


def test_a_guess_is_made_only_where_one_is_near_and_not_for_ever() -> None:
    guesses = Guesses()
    assert guesses.added("no", "generatr", ["generator", "load"]) == "no; did you mean 'generator'?"
    assert guesses.added("no", "zzz", ["generator"]) == "no"
    assert guesses.added("no", "x" * 101, ["x" * 100]) == "no"
    made = [guesses.added("no", "loat", ["load"]) for _ in range(500)]
    assert 0 < made.count("no; did you mean 'load'?") <= 200


@pytest.mark.parametrize("kind", list(kinds().values()), ids=lambda kind: kind.key)
@pytest.mark.parametrize("wrong", ["fitted out", OneOf(("ac", "fitted out")), Band("1", "2", "3")])
def test_a_word_that_no_kind_knows_is_told_and_never_asked_with(kind: Kind, wrong: Answer) -> None:
    """Whatever sits in such a part, or it sits in, or runs to it."""
    for rating in kind.ratings:
        if not rating.choices:
            continue
        part = Part("P", kind.key, "P1", Ratings.of({rating.key: wrong}))
        others = [Part(key, key, key) for key in ("panel", "outlet", "breaker", "plug", "load")]
        seats = [Seat(f"in {o.id}", "P", o.id, "1") for o in others]
        hosts = [Part(o.id + "s", "panel", o.id + "s") for o in others]
        seats += [Seat(f"at {o.id}", "P", o.id, "1") for o in hosts]
        seats += [Seat(f"of {o.id}", o.id, o.id + "s", "2") for o in others]
        runs = [Run(f"W{o.id}", End("P", "in"), End(o.id, "in")) for o in others]
        found = flaws([Settings(), part, *others, *hosts, *seats, *runs])
        told = [flaw for flaw in found if flaw.field == f"ratings.{rating.key}"]
        assert [(flaw.position, flaw.breaks) for flaw in told] == [(1, True)], rating.key
        assert told[0].message
