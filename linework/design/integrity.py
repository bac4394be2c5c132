"""What must hold in every design: ends that stand, names that are free, answers and poles that fit.

Reading a file and checking an open design use the same checks. Two sorts of flaw are told
apart: one that no design could hold (``breaks``: a run without its part, an answer that is no
answer), and one that a design can hold but not mean (a run whose poles do not fit since a part
was rated otherwise). A part of an unknown kind has no terminals, places or ratings that could
be held against others, so nothing is.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from functools import lru_cache

from linework.design.change import changed
from linework.design.edits.seats import why_no_seat
from linework.design.elements import (
    Accepted,
    Element,
    End,
    Interlock,
    Part,
    Run,
    Seat,
    Settings,
)
from linework.design.fits import cannot_join
from linework.design.model import Design
from linework.design.nesting import nesting_faults
from linework.design.poles import misfit
from linework.design.positions import positions_of
from linework.design.settings import setting_faults
from linework.kinds import RUN_RATINGS, Answer, Rating, is_known, kind_of
from linework.quantity.errors import quoted
from linework.wiring import Terminal
from linework.words import say

_MOST_GUESSES, _MOST_NAMES, _LONGEST_NAME = 200, 500, 100


class Guesses:
    """Nearest names for slips. Silent after many: a hostile file must not cost hours."""

    def __init__(self) -> None:
        self._left = _MOST_GUESSES

    def added(self, text: str, slip: str, known: Collection[str]) -> str:
        """The text, with the name among ``known`` that looks most like ``slip`` if one does."""
        if not self._left or len(known) > _MOST_NAMES or len(slip) > _LONGEST_NAME:
            return text
        self._left -= 1
        near = get_close_matches(slip, known, 1, 0.6)
        return say("{text}; did you mean '{near}'?", text=text, near=near[0]) if near else text


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing that does not hold.

    ``position`` of the element in the sequence that was checked, ``field`` of that element
    ("ratings.power", "poles[2]"), ``breaks``: no design could hold it.
    """

    position: int
    field: str
    message: str
    breaks: bool = True


def flaws_of(design: Design) -> list[tuple[Element, Flaw]]:
    """Every flaw of a design, each with its element."""
    elements = tuple(design.elements.values())
    return [(elements[flaw.position], flaw) for flaw in flaws(elements)]


def flaws(elements: Sequence[Element], unclear: Collection[int] = frozenset()) -> list[Flaw]:
    """Every flaw of the elements of one design, in their order.

    Elements at the positions ``unclear`` were not wholly understood: others may refer to them,
    but nothing is said of what they hold.
    """
    return _Check(elements, frozenset(unclear)).found()


class _Check:
    """One pass over the elements: names, then each alone, then what joins them."""

    def __init__(self, elements: Sequence[Element], unclear: frozenset[int]) -> None:
        self.elements = elements
        self.unclear = unclear
        self.parts: dict[str, Part] = {}
        self.opaque: set[str] = set()
        self.design = Design()
        self._terminals: dict[str, dict[str, Terminal]] = {}
        self._guesses = Guesses()
        self._nesting: dict[int, str] = {}

    def found(self) -> list[Flaw]:
        """All flaws, sorted by position; stable, so that an element's flaws keep their order."""
        flaws = [*_names(self.elements), *self._alone()]
        self._lay_parts(flaws)
        flaws += self._joining()
        kept = [flaw for flaw in flaws if flaw.position not in self.unclear]
        return sorted(kept, key=lambda flaw: flaw.position)

    @property
    def _family(self) -> str:
        """Whose words are used: that of the settings, which come first."""
        return self.design.settings.family

    def _alone(self) -> Iterator[Flaw]:
        for position, element in enumerate(self.elements):
            if isinstance(element, Settings):
                flaws = list(_settings(position, element))
                if not flaws and position not in self.unclear:
                    self.design = Design(element)
                yield from flaws
            elif isinstance(element, Part):
                yield from _part(position, element, self._family)
            elif isinstance(element, Run):
                yield from _ratings(position, element, RUN_RATINGS, self._family)
            elif isinstance(element, Accepted) and not element.reason.strip():
                yield Flaw(position, "reason", say("write the reason why this is accepted"))

    def _lay_parts(self, flaws: list[Flaw]) -> None:
        """The parts in a design of their own, so that terminals and places can be asked for.

        Without the answers that are none: a kind is never asked with a word that it does not know.
        """
        misrated = _misrated(flaws)
        for position, element in enumerate(self.elements):
            if not isinstance(element, Part) or element.id in self.parts:
                continue
            without = dict.fromkeys(misrated.get(position, ()))
            self.parts[element.id] = replace(element, ratings=element.ratings.with_answers(without))
            if without or position in self.unclear or not is_known(element.kind):
                self.opaque.add(element.id)
        # A part that took the settings' id is named already and cannot be laid beside them.
        laid = [part for part in self.parts.values() if part.id not in self.design]
        self.design.apply(changed("", [(None, part) for part in laid]))

    def _joining(self) -> Iterator[Flaw]:
        self._nesting = self._nested_wrongly()
        for position, element in enumerate(self.elements):
            if isinstance(element, Run):
                yield from self._run(position, element)
            elif isinstance(element, Seat):
                yield from self._seat(position, element)
            elif isinstance(element, Interlock):
                yield from self._interlock(position, element)

    # runs

    def _run(self, position: int, run: Run) -> Iterator[Flaw]:
        dangling = list(self._dangling(position, (("from", run.a.part), ("to", run.b.part))))
        yield from dangling
        if dangling:
            return
        if run.a.part == run.b.part:
            yield Flaw(position, "to", say("a run needs two different parts"), breaks=False)
            return
        ends = []
        for field, end in (("from", run.a), ("to", run.b)):
            if end.part not in self.opaque:
                terminal = self._terminals_of(end.part).get(end.terminal)
                ends.append(terminal)
                if terminal is None:
                    yield Flaw(position, field, self._no_terminal(end), breaks=False)
        match ends:
            case [Terminal() as a, Terminal() as b]:
                yield from self._poles(position, run, a, b)

    def _dangling(self, position: int, ends: tuple[tuple[str, str], ...]) -> Iterator[Flaw]:
        for field, part_id in ends:
            if part_id not in self.parts:
                text = say("there is no part with the id '{part}'", part=quoted(part_id))
                yield Flaw(position, field, self._guesses.added(text, part_id, self.parts))

    def _terminals_of(self, part_id: str) -> dict[str, Terminal]:
        if part_id not in self._terminals:
            part = self.parts[part_id]
            offered = self.design.kind(part).terminals(self.design.values(part))
            self._terminals[part_id] = {terminal.name: terminal for terminal in offered}
        return self._terminals[part_id]

    def _no_terminal(self, end: End) -> str:
        names = list(self._terminals_of(end.part))
        text = say(
            "{what} has no terminal '{terminal}', only {names}",
            what=self.parts[end.part].designation,
            terminal=quoted(end.terminal),
            names=", ".join(names) or say("none"),
        )
        return self._guesses.added(text, end.terminal, names)

    def _poles(self, position: int, run: Run, a: Terminal, b: Terminal) -> Iterator[Flaw]:
        names = self.parts[run.a.part].designation, self.parts[run.b.part].designation
        pairs = run.poles or ()
        wrong = [number for number, pair in enumerate(pairs) if misfit(a, b, (pair,))]
        for number in wrong:
            text = cannot_join(a, b, (pairs[number],), names)
            yield Flaw(position, f"poles[{number}]", text, breaks=False)
        text = "" if wrong else cannot_join(a, b, run.poles, names)
        if text:
            yield Flaw(position, "poles", text, breaks=False)

    # seats and interlocks

    def _seat(self, position: int, seat: Seat) -> Iterator[Flaw]:
        dangling = list(self._dangling(position, (("part", seat.part), ("in", seat.host))))
        yield from dangling
        if dangling or seat.id in self.design:
            return
        if position in self._nesting:
            yield Flaw(position, "in", self._nesting[position])
            return
        if not {seat.part, seat.host} & self.opaque:
            refusal = why_no_seat(self.design, seat.part, seat.host, seat.place)
            if refusal:
                yield Flaw(position, "place", refusal, breaks=False)
        self.design.apply(changed("", [(None, seat)]))

    def _nested_wrongly(self) -> dict[int, str]:
        """Position of a seat -> why the design cannot have it among the others."""
        seats = {
            position: (seat.part, seat.host)
            for position, seat in enumerate(self.elements)
            if isinstance(seat, Seat) and seat.part in self.parts and seat.host in self.parts
        }
        faults = nesting_faults(list(seats.values()), lambda key: self.parts[key].designation)
        positions = list(seats)
        return {positions[number]: fault for number, fault in faults.items()}

    def _interlock(self, position: int, lock: Interlock) -> Iterator[Flaw]:
        if len(lock.excludes) < 2:
            yield Flaw(position, "excludes", say("an interlock needs at least two positions"))
        for number, (part_id, selector, place) in enumerate(lock.excludes):
            field = f"excludes[{number}]"
            dangling = list(self._dangling(position, ((field, part_id),)))
            yield from dangling
            if not dangling and part_id not in self.opaque:
                refusal = self._why_no_position(self.parts[part_id], selector, place)
                if refusal:
                    yield Flaw(position, field, refusal, breaks=False)

    def _why_no_position(self, part: Part, selector: str, place: str) -> str:
        known = self._positions(part)
        if selector not in known:
            text = say(
                "{what} has no '{selector}' that could be locked",
                what=part.designation,
                selector=quoted(selector),
            )
            return self._guesses.added(text, selector, known)
        if place in known[selector]:
            return ""
        return say(
            "'{selector}' of {what} has no position '{position}', only {known}",
            selector=quoted(selector),
            what=part.designation,
            position=quoted(place),
            known=", ".join(sorted(known[selector])),
        )

    def _positions(self, part: Part) -> dict[str, set[str]]:
        seats = (s for s in self.elements if isinstance(s, Seat) and s.part == part.id)
        return positions_of(self.design, part, (s for s in seats if s.host in self.parts))


def _misrated(flaws: Iterable[Flaw]) -> dict[int, list[str]]:
    """Position of an element -> the ratings whose answers do not fit."""
    found: dict[int, list[str]] = {}
    for flaw in flaws:
        field, _, key = flaw.field.partition(".")
        if field == "ratings":
            found.setdefault(flaw.position, []).append(key)
    return found


def _names(elements: Sequence[Element]) -> Iterator[Flaw]:
    """Ids are given once over all elements, designations once among parts and among runs."""
    ids: dict[str, int] = {}
    taken: dict[tuple[type, str], int] = {}
    for position, element in enumerate(elements):
        if not element.id or (element.id == "settings" and not isinstance(element, Settings)):
            yield Flaw(position, "id", say("'{id}' cannot be an id; choose another", id=element.id))
        elif element.id in ids:
            yield Flaw(position, "id", say("the id '{id}' is taken; choose another", id=element.id))
        ids.setdefault(element.id, position)
        if isinstance(element, Part | Run) and element.designation:
            key = (type(element), element.designation)
            if key in taken:
                text = say(
                    "the designation {name} is taken; choose another", name=element.designation
                )
                yield Flaw(position, "designation", text, breaks=False)
            taken.setdefault(key, position)


def _settings(position: int, settings: Settings) -> Iterator[Flaw]:
    for field, message in setting_faults(settings, Guesses().added):
        yield Flaw(position, field, message)


def _part(position: int, part: Part, family: str) -> Iterator[Flaw]:
    if not part.designation.strip():
        text = say("a part needs a reference designation, for example G1")
        yield Flaw(position, "designation", text)
    if is_known(part.kind):
        yield from _ratings(position, part, kind_of(part.kind).declared, family)


def _ratings(
    position: int, element: Part | Run, declared: Mapping[str, Rating], family: str
) -> Iterator[Flaw]:
    for key, answer in element.ratings.items():
        rating = declared.get(key)
        if rating is None:
            yield Flaw(position, f"ratings.{key}", say("there is no rating '{key}' here", key=key))
        else:
            refusal = _why_not_rated(rating, answer, family)
            if refusal:
                yield Flaw(position, f"ratings.{key}", refusal)


@lru_cache(maxsize=8192)
def _why_not_rated(rating: Rating, answer: Answer, family: str) -> str:
    """The same few answers come back in every file: each is read once."""
    try:
        rating.check(answer, family)
    except ValueError as fault:
        return str(fault)
    return ""
