"""Random edits of whatever is declared: a new kind or rating is drawn from at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from hypothesis import strategies as st

from linework.analysis import cases
from linework.design import Change, Design, EditError, End, Part
from linework.design.edits import add_interlock, add_part, add_run, rate, rate_run, remove
from linework.design.positions import positions_of
from linework.kinds import RUN_RATINGS, Answer, Band, Rating, kinds
from linework.quantity import KINDS, read, write
from linework.wiring import Terminal
from tests.kinds.cases import sample

MOST_CASES = 2

Draw = Callable[[st.SearchStrategy[Any]], Any]


def answers(rating: Rating) -> list[Answer | None]:
    """Answers of every sort that a rating takes: none, each choice, figures low and high."""
    words = [choice.value for choice in rating.choices] or [sample(rating)]
    if rating.quantity == "size":
        words += ["14 AWG", "4/0 AWG"]
    elif rating.quantity == "configuration":
        words += ["6-20", "L5-30"]
    elif rating.quantity in KINDS and rating.default is not None:
        words += _around(rating)
    return [*words, None]


def _around(rating: Rating) -> Iterator[str]:
    """A third more and a quarter less than its default, where it takes these."""
    usual = rating.default.usual if isinstance(rating.default, Band) else rating.default
    assert isinstance(usual, str)
    for factor in (0.75, 1.3):
        try:
            text = write(factor * read(usual, rating.quantity), rating.quantity)
            rating.check(text)
        except ValueError:  # a setting, half a piece, or out of its bounds
            continue
        yield text


def edit(design: Design, draw: Draw) -> None:
    """One random edit of any declared rating, of any kind; one that is refused leaves no trace,
    and one that leaves many cases is taken back, for these take long."""
    edits = [add_any, rate_any, rate_any, lay_any, lay_any, lock_any, take_away]
    try:
        change = draw(st.sampled_from(edits))(design, draw)
        design.apply(change)
    except EditError:
        return
    if len(cases(design)[0]) > MOST_CASES:
        design.apply(change.inverse())


def add_any(design: Design, draw: Draw) -> Change:
    """A part of any kind joined to some terminal, or only put down."""
    kind = draw(st.sampled_from(list(kinds())))
    declared = kinds()[kind].declared
    known = {
        key: draw(st.sampled_from(answers(r)[:-1])) for key, r in declared.items() if r.choices
    }
    change = add_part(design, kind, ratings=known)
    design.apply(change)
    new = next(after for _, after in change.pairs.values() if isinstance(after, Part))
    ends = [End(p.id, t.name) for p in design.parts for t in _terminals(design, p)]
    mine = [end for end in ends if end.part == new.id]
    others = [end for end in ends if end.part != new.id]
    if not mine or not others:
        return rate_part(design, new, draw)
    return add_run(design, draw(st.sampled_from(mine)), draw(st.sampled_from(others)))


def _terminals(design: Design, part: Part) -> tuple[Terminal, ...]:
    return design.kind(part).terminals(design.values(part))


def rate_any(design: Design, draw: Draw) -> Change:
    return rate_part(design, draw(st.sampled_from(design.parts)), draw)


def rate_part(design: Design, part: Part, draw: Draw) -> Change:
    declared = design.kind(part).declared
    key = draw(st.sampled_from(sorted(declared)))
    return rate(design, part.id, {key: draw(st.sampled_from(answers(declared[key])))})


def lay_any(design: Design, draw: Draw) -> Change:
    run = draw(st.sampled_from(design.runs or _none_of("runs")))
    key = draw(st.sampled_from(sorted(RUN_RATINGS)))
    broken = ["PE", "N", "L", None]
    options = broken if key == "broken" else answers(RUN_RATINGS[key])
    return rate_run(design, run.id, {key: draw(st.sampled_from(options))})


def lock_any(design: Design, draw: Draw) -> Change:
    """An interlock between any two positions."""
    seats = {part.id: [s for s in design.seats if s.part == part.id] for part in design.parts}
    known = [
        (part.id, name, at)
        for part in design.parts
        for name, positions in sorted(positions_of(design, part, seats[part.id]).items())
        for at in sorted(positions)
    ]
    return add_interlock(
        design, [draw(st.sampled_from(known or _none_of("positions"))) for _ in "12"]
    )


def take_away(design: Design, draw: Draw) -> Change:
    run = draw(st.sampled_from(design.runs or _none_of("runs")))
    return remove(design, [run.id])


def _none_of(what: str) -> list[Any]:
    raise EditError(f"there are no {what}")
