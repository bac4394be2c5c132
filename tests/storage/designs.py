"""Random designs, made by the same edits by which people make them."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import strategies as st

from linework.design import Design, EditError, End, Note, Part, PlaceKind, changed, pole_map
from linework.design.edits import (
    accept_finding,
    add_interlock,
    add_note,
    add_part,
    add_run,
    change_settings,
    rate,
    remove,
    rename,
    rename_run,
    seat,
    set_poles,
    unseat,
)
from linework.kinds import RUN_RATINGS, Answer, Band, OneOf, Rating, kinds
from linework.quantity import KINDS
from linework.storage.kept import Kept
from linework.words import FAMILIES

WORDS = st.text(max_size=12)
PLACE = st.tuples(st.integers(-(10**6), 10**6), st.integers(-(10**6), 10**6))
SEATED = ["panel", "breaker", "outlet", "plug", "plug_load"]
"""Kinds of which one sits in another: drawn more often, or hardly any two would meet."""
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False)
    | WORDS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3),
    max_leaves=6,
)  # fmt: skip
UNKNOWN = st.dictionaries(WORDS.map(lambda text: f"new {text}"), JSON, max_size=2).map(
    lambda fields: tuple(sorted((name, Kept.of(value)) for name, value in fields.items()))
)


@st.composite
def figure(draw: st.DrawFn, rating: Rating) -> tuple[float, str]:
    """A value within the bounds of a rating, as a person types it."""
    low = rating.low if rating.low is not None else KINDS[rating.quantity].least
    low = max(low, -1e6)
    high = rating.high if rating.high is not None else low + 1000.0
    if rating.quantity == "count":
        value = float(draw(st.integers(int(low), int(high))))
        return value, f"{value:.0f}"
    value = round(low + (high - low) * draw(st.integers(0, 1000)) / 1000, 3)
    value = min(max(value, low), high)
    return value, f"{value:.3f}".replace(".", draw(st.sampled_from(".,"))) + (
        draw(st.sampled_from(["", " "])) + KINDS[rating.quantity].unit
    )


@st.composite
def answer(draw: st.DrawFn, rating: Rating) -> Answer:
    """An answer that fits a rating, now and then."""
    if rating.choices:
        words = [choice.value for choice in rating.choices]
        if len(words) > 1 and draw(st.booleans()):
            chosen = draw(st.lists(st.sampled_from(words), min_size=2, max_size=4, unique=True))
            return OneOf(tuple(chosen))
        return draw(st.sampled_from(words))
    if rating.quantity == "size":
        return draw(st.sampled_from(["12 AWG", "#8", "4/0", "250 kcmil", "2.5 mm2", "2,5 mm²"]))
    if rating.quantity not in KINDS:
        return draw(WORDS)
    if draw(st.integers(0, 3)):
        return draw(figure(rating))[1]
    three = sorted(draw(st.lists(figure(rating), min_size=3, max_size=3)))
    return Band(*(text for _, text in three))


@st.composite
def answers(draw: st.DrawFn, declared: dict[str, Rating]) -> dict[str, Answer]:
    """Some ratings of a kind; what a rating refuses is left out."""
    found: dict[str, Answer] = {}
    for key in draw(st.lists(st.sampled_from(sorted(declared)), max_size=4, unique=True)):
        given = draw(answer(declared[key]))
        try:
            declared[key].check(given, "NA")
        except ValueError:
            continue
        found[key] = given
    return found


def ends(design: Design) -> list[End]:
    """Every terminal of every part."""
    return [
        End(part.id, terminal.name)
        for part in design.parts
        for terminal in design.kind(part).terminals(design.values(part))
    ]


def _attempt(design: Design, make: object, *args: object, **more: object) -> None:
    try:
        design.apply(make(design, *args, **more))  # type: ignore[operator]
    except EditError:
        return


@st.composite
def designs(draw: st.DrawFn, unknown: bool = True) -> Design:
    """A design with parts of random kinds, joined and seated where that is allowed."""
    design = Design()
    _settings(draw, design, unknown)
    for _ in range(draw(st.integers(0, 8))):
        kind = draw(st.sampled_from([*sorted(kinds()), *SEATED * 3]))
        ratings = draw(answers(dict(kinds()[kind].declared)))
        _attempt(
            design, add_part, kind, at=draw(PLACE), title=draw(WORDS), turn=draw(st.integers(0, 3)),
            sheet=draw(st.integers(1, 4)), ratings=ratings,
        )  # fmt: skip
    _joined(draw, design)
    _seated(draw, design)
    _beside(draw, design)
    _changed_later(draw, design)
    if unknown:
        _unknown(draw, design)
    if design.parts and draw(st.integers(0, 4)) == 0:
        design.apply(remove(design, [draw(st.sampled_from(design.parts)).id]))
    return design


def _settings(draw: st.DrawFn, design: Design, unknown: bool) -> None:
    after = replace(
        design.settings,
        family=draw(st.sampled_from(FAMILIES)),
        place=draw(st.sampled_from([str(place) for place in PlaceKind])),
        voltage=draw(st.sampled_from(["120 V", "230 V", "0.12 kV"])),
        frequency=draw(st.sampled_from(["50 Hz", "60 Hz"])),
        job=draw(WORDS),
        drawn_by=draw(WORDS),
        wet=draw(st.booleans()),
        extra=draw(UNKNOWN) if unknown else (),
    )
    design.apply(changed("", [(design.settings, after)]))


def _joined(draw: st.DrawFn, design: Design) -> None:
    places = ends(design)
    if len(places) < 2:
        return
    for _ in range(draw(st.integers(0, 6))):
        a, b = draw(st.sampled_from(places)), draw(st.sampled_from(places))
        _attempt(design, add_run, a, b, ratings=draw(answers(RUN_RATINGS)))
    for run in design.runs:
        if draw(st.booleans()):
            _attempt(design, set_poles, run.id, pole_map(design, run)[:1])
    for before in design.runs:
        if draw(st.booleans()):
            route = tuple(draw(st.lists(PLACE, max_size=3)))
            design.apply(changed("", [(before, replace(before, route=route))]))


def _seated(draw: st.DrawFn, design: Design) -> None:
    fitting = [
        (part.id, host.id, place.name)
        for host in design.parts
        for place in design.kind(host).places(design.values(host))
        for part in design.parts
        if design.kind(part).roles & place.accepts and part.id != host.id
    ]
    for _ in range(draw(st.integers(0, 5)) if fitting else 0):
        _attempt(design, seat, *draw(st.sampled_from(fitting)))


def _beside(draw: st.DrawFn, design: Design) -> None:
    for _ in range(draw(st.integers(0, 2))):
        _attempt(design, add_note, draw(st.text(max_size=40)), draw(PLACE))
        _attempt(
            design, accept_finding, draw(WORDS), tuple(draw(st.lists(WORDS, max_size=2))),
            draw(WORDS), reason=draw(WORDS), by=draw(WORDS), date="2025-04-01",
        )  # fmt: skip
    movable = [
        (part.id, selector.name, position)
        for part in design.parts
        for selector in design.kind(part).inside(design.values(part)).selectors
        for position in selector.positions
    ]
    if len(movable) > 1 and draw(st.booleans()):
        chosen = draw(st.lists(st.sampled_from(movable), min_size=2, max_size=3))
        _attempt(design, add_interlock, chosen, draw(WORDS))


def _changed_later(draw: st.DrawFn, design: Design) -> None:
    """Rated, renamed and set otherwise after it was joined, where the edits let it."""
    for part in design.parts:
        if draw(st.integers(0, 2)) == 0:
            _attempt(design, rate, part.id, draw(answers(dict(kinds()[part.kind].declared))))
        if draw(st.integers(0, 4)) == 0:
            _attempt(design, rename, part.id, draw(st.sampled_from(["A1", "A2", " A3 "]) | WORDS))
    for run in design.runs:
        if draw(st.integers(0, 4)) == 0:
            _attempt(design, rename_run, run.id, draw(st.sampled_from(["A1", "A2"]) | WORDS))
    for held in design.seats:
        if draw(st.integers(0, 4)) == 0:
            _attempt(design, unseat, held.id)
    if draw(st.integers(0, 3)) == 0:
        family, voltage = draw(st.sampled_from(FAMILIES)), draw(st.sampled_from(["48 V", "400 V"]))
        _attempt(design, change_settings, family=family, voltage=voltage)


def _unknown(draw: st.DrawFn, design: Design) -> None:
    """What a later version might have written."""
    for element in (*design.parts, *design.runs):
        if draw(st.integers(0, 3)) == 0:
            extra = draw(UNKNOWN)
            design.apply(changed("", [(element, replace(element, extra=extra))]))
    if draw(st.booleans()):
        box = Part("later", "flux_tank", "U1", title=draw(WORDS), extra=draw(UNKNOWN))
        design.apply(changed("", [(None, box)]))
        design.apply(changed("", [(None, Note("later-note", "x"))]))
