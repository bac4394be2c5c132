"""What must hold in a design for it to mean anything, each fault with its element and field."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from linework.design.edits.runs import why_not
from linework.design.edits.seats import places_of
from linework.design.elements import PLACES, Interlock, Part, Run, Seat, Settings
from linework.design.model import Design
from linework.kinds import RUN_RATINGS, Rating, Ratings, is_known
from linework.quantity import QuantityError, read
from linework.words import FAMILIES, say


@dataclass(frozen=True)
class Flaw:
    """One fault of a design: the element's id, the field, and what is wrong."""

    element: str
    field: str
    message: str


def flaws(design: Design) -> Iterator[Flaw]:
    """Every fault of a whole design (its runs and seats have their parts)."""
    yield from setting_flaws(design.settings)
    names = Counter(part.designation for part in design.parts)
    for part in design.parts:
        yield from _part(design, part, names)
    for run in design.runs:
        yield from _run(design, run)
    for seat in design.seats:
        yield from _seat(design, seat)
    for lock in design.interlocks:
        yield from _interlock(design, lock)


def setting_flaws(settings: Settings) -> Iterator[Flaw]:
    """Settings that are none of the words they may be, or no quantity."""
    choices = {"family": FAMILIES, "place": PLACES, "sheet": SHEETS}
    for name, known in choices.items():
        if getattr(settings, name) not in known:
            text = say("must be one of {known}", known=", ".join(known))
            yield Flaw("settings", name, text)
    for name, kind in (("voltage", "voltage"), ("frequency", "frequency")):
        try:
            read(getattr(settings, name), kind)
        except QuantityError as fault:
            yield Flaw("settings", name, str(fault))


SHEETS = ("A3", "A4", "tabloid", "letter")


def rating_flaws(element: str, declared: dict[str, Rating], ratings: Ratings) -> Iterator[Flaw]:
    """Answers that do not fit their declaration; undeclared ones are kept and not judged here."""
    for key, answer in ratings.items():
        if key in declared:
            try:
                declared[key].check(answer)
            except ValueError as fault:
                yield Flaw(element, f"ratings.{key}", str(fault))


def _part(design: Design, part: Part, names: Counter[str]) -> Iterator[Flaw]:
    if not part.designation:
        yield Flaw(part.id, "designation", say("a part needs a designation, for example G1"))
    if names[part.designation] > 1:
        text = say("the designation {name} is used twice", name=part.designation)
        yield Flaw(part.id, "designation", text)
    if is_known(part.kind):
        yield from rating_flaws(part.id, dict(design.kind(part).declared), part.ratings)


def _run(design: Design, run: Run) -> Iterator[Flaw]:
    yield from rating_flaws(run.id, RUN_RATINGS, run.ratings)
    if any(not is_known(design.part(e.part).kind) for e in (run.a, run.b)):
        return
    reason = why_not(design, run.a, run.b, run.poles)
    if reason:
        yield Flaw(run.id, "from", reason)


def _seat(design: Design, seat: Seat) -> Iterator[Flaw]:
    part, host = design.part(seat.part), design.part(seat.host)
    if not (is_known(part.kind) and is_known(host.kind)):
        return
    place = next((p for p in places_of(design, host) if p.name == seat.place), None)
    kind = design.kind(part)
    if place is None:
        text = say("{host} has no place '{place}'", host=host.designation, place=seat.place)
        yield Flaw(seat.id, "place", text)
    elif not place.accepts & kind.roles or seat.part == seat.host:
        text = say("{what} does not sit in {host}", what=part.designation, host=host.designation)
        yield Flaw(seat.id, "part", text)
    elif "plug" not in kind.roles:
        yield from _lone(design, seat)


def _lone(design: Design, seat: Seat) -> Iterator[Flaw]:
    """A part that no hand moves sits in one place, and alone in it."""
    if len(design.seats_of(seat.part)) > 1:
        yield Flaw(seat.id, "part", say("this part sits in two places"))
    rivals = [
        other
        for other in design.seated_in(seat.host)
        if other.place == seat.place
        and other.id != seat.id
        and "plug" not in design.kind(design.part(other.part)).roles
    ]
    if rivals:
        yield Flaw(seat.id, "place", say("place {place} is taken twice", place=seat.place))


def _interlock(design: Design, lock: Interlock) -> Iterator[Flaw]:
    if len(lock.excludes) < 2:
        yield Flaw(lock.id, "excludes", say("an interlock needs at least two positions"))
    for part_id, _, _ in lock.excludes:
        if not isinstance(design.get(part_id), Part):
            yield Flaw(lock.id, "excludes", say("there is no part '{part}'", part=part_id))
