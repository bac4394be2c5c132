"""Where a part that is let go would end up: in a place, in a run, or on the paper."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Literal

from linework.bench.paper import edits
from linework.bench.paper.edits import Answers, place_seated
from linework.bench.paper.hits import run_near
from linework.design import Change, Design, EditError, Part, Settings
from linework.design.edits import add_part, insert_on_run
from linework.design.edits.seats import places_of, taken_by
from linework.kinds import Ratings, kind_of, kinds
from linework.picture.geometry import MODULE, Point
from linework.sheet.compose import Composition
from linework.sheet.parts import PartDrawing
from linework.words import say

_REACH = 60
"""So near to a free place, in tenths of a millimetre, a part is drawn into it."""
_BESIDE = 150
"""A hand-moved plug lies at its own place: so far from the first outlet it may go to."""


@dataclass(frozen=True)
class Target:
    """Where a part goes. ``x``, ``y``: what is to light up there. "onto": the other part comes to
    sit in a place of this one."""

    sort: Literal["place", "onto", "run", "paper"]
    x: int
    y: int
    element: str = ""
    place: str = ""
    refusal: str = ""


def place_target(
    design: Design,
    layout: Composition,
    at: Point,
    roles: frozenset[str],
    refuses: Callable[[str, str], str],
    but: str = "",
) -> Target | None:
    """The nearest place at a point that takes parts of these roles, None where there is none.

    ``refuses``: part id and place to the reason why not, "" where it may go there. ``but``: the
    part that looks for a place. Where all places there refuse, the target says why.
    """
    for host, drawing in _hosts_at(design, layout, at, roles):
        if host.id == but:
            continue
        found = [
            (_off(at, drawing.places[place]), place)
            for place in _accepting(design, host, roles)
            if place in drawing.places
        ]
        refusal = ""
        for _, place in sorted(found):
            x, y, _ = drawing.places[place]
            refusal = refuses(host.id, place)
            if not refusal:
                return Target("place", x, y, host.id, place)
        if refusal:
            return Target("place", *at, host.id, "", refusal)
    return None


def onto_target(
    design: Design, layout: Composition, part_id: str, at: Point, place: str = ""
) -> Target | None:
    """A part at a point that would sit in a place of this loose one: the inlet on which a cord's
    free end goes. ``place``: only this one. What is drawn from a breaker to an outlet is a wire,
    though that could sit behind it."""
    part = design.part(part_id)
    if not design.kind(part).loose:
        return None
    for drawing in _at(layout, at, part_id):
        guest = design.part(drawing.id)
        kind = design.kind(guest)
        x, y, _ = drawing.anchors.get(kind.seat, (*at, ""))
        for name in _accepting(design, part, kind.roles) if kind.seat else ():
            if place in ("", name):
                refusal = edits.why_no_place(design, guest.id, part_id, name)
                return Target("onto", x, y, guest.id, name, refusal)
    return None


def why_nowhere(design: Design, layout: Composition, part_id: str, at: Point) -> str:
    """Why a part that sits in others is not let go on one that has no place for it, and what has;
    "" where nothing is in the way."""
    part = design.part(part_id)
    kind = design.kind(part)
    others = [drawing for drawing in _at(layout, at, part_id) if drawing.host != part_id]
    if not kind.seat or not others:
        return ""
    host = design.part(others[0].id)
    return say(
        "{what} does not go into {host}; what takes it: {kinds}",
        what=part.designation,
        host=host.designation,
        kinds=", ".join(_takers(kind.roles, design.settings.family)),
    )


_MOST_TAKERS = 3


@cache
def _takers(roles: frozenset[str], family: str) -> tuple[str, ...]:
    """The plainest names of kinds that have a place for something of these roles."""
    names, setting = [], Design(Settings(family=family)).setting_answers()
    for kind in kinds().values():
        found = kind.places(kind.values(Ratings(), None, setting))
        if any(place.accepts & roles for place in found):
            names.append(say(kind.name, family=family))
    return tuple(sorted(names, key=lambda name: (len(name.split()), name))[:_MOST_TAKERS])


def _at(layout: Composition, at: Point, but: str) -> list[PartDrawing]:
    """What lies at a point, the smallest first; boards that hold others are no obstacle."""
    holders = {drawing.host for drawing in layout.drawings.values()}
    found = [d for d in layout.drawings.values() if d.box.holds(*at) and d.id != but]
    found = [d for d in found if d.id not in holders]
    return sorted(found, key=lambda d: (d.box.width * d.box.height, d.id))


def _hosts_at(
    design: Design, layout: Composition, at: Point, roles: frozenset[str]
) -> Iterator[tuple[Part, PartDrawing]]:
    """Parts at a point that have places for these roles, the smallest first."""
    found: list[tuple[int, str]] = []
    for drawing in layout.drawings.values():
        host = design.get(drawing.id)
        if not isinstance(host, Part):
            continue
        over = drawing.box.holds(*at)
        near = [name for name, end in drawing.places.items() if _off(at, end) <= _REACH]
        names = _accepting(design, host, roles) if near or over else ()
        if names and (over or set(near) & set(names)):
            found.append((drawing.box.width * drawing.box.height, host.id))
    for _, host_id in sorted(found):
        yield design.part(host_id), layout.drawings[host_id]


def _accepting(design: Design, host: Part, roles: frozenset[str]) -> tuple[str, ...]:
    return tuple(place.name for place in places_of(design, host) if place.accepts & roles)


def _off(at: Point, end: tuple[int, int, str]) -> int:
    return max(abs(at[0] - end[0]), abs(at[1] - end[1]))


def target_of_kind(design: Design, layout: Composition, kind: str, at: Point, slop: int) -> Target:
    """Where a new part of a kind would go if it were let go at a point."""
    declared = kind_of(kind)
    if declared.seat:

        def refuses(host: str, place: str) -> str:
            return _taken(design, host, place) if "plug" not in declared.roles else ""

        target = place_target(design, layout, at, declared.roles, refuses)
        if target is not None:
            return target
    run = run_near(layout, at, slop)
    values = declared.values(Ratings(), None, design.setting_answers())
    ports = [t for t in declared.terminals(values) if t.role != "tie"]
    if run and len(ports) > 1:
        return Target("run", *at, run)
    return Target("paper", *at)


def _snapped(value: int) -> int:
    return round(value / MODULE) * MODULE


def _taken(design: Design, host_id: str, place: str) -> str:
    """Why a place takes nobody more, "" where it does."""
    host = design.part(host_id)
    for seat in design.seated_in(host_id):
        guest = design.kind(design.part(seat.part))
        if place in taken_by(design, seat) and "plug" not in guest.roles:
            return say("place {place} of {host} is taken", place=place, host=host.designation)
    return ""


def placed(
    design: Design, kind: str, target: Target, at: Point, sheet: int, answers: Answers
) -> Change:
    """The edit that puts a new part of a kind where a target says. EditError with the reason."""
    if target.refusal:
        raise EditError(target.refusal)
    if target.sort == "place":
        beside = (_snapped(target.x + _BESIDE), _snapped(target.y))
        return place_seated(design, kind, target.element, target.place, answers, sheet, beside)
    if target.sort == "run":
        return insert_on_run(design, target.element, kind, at=at, ratings=answers)
    return add_part(design, kind, at=at, sheet=sheet, ratings=answers)
