"""Edits that a hand makes in one go: several edits of the design, one after the other, as one."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from linework.design import (
    Change,
    Design,
    EditError,
    End,
    Note,
    Part,
    PoleMap,
    changed,
    merged,
    terminal_at,
)
from linework.design.edits import (
    add_part,
    add_run,
    move_parts,
    rate,
    seat,
    turn_parts,
    unseat,
)
from linework.design.edits.seats import places_of, why_no_seat
from linework.kinds import Answer, Ratings, kind_of
from linework.sheet.parts import seat_of
from linework.wiring import Pole
from linework.words import say

CIRCUIT = "circuit"
"""The rating by which a kind says which conductors pass through it."""

Step = Callable[[Design], Change]
Answers = Mapping[str, Answer]


def in_steps(design: Design, title: str, *steps: Step) -> Change:
    """Edits made one after the other on a copy, as one change. EditError if one cannot be made."""
    trial = design.snapshot()
    made: list[Change] = []
    for step in steps:
        change = step(trial)
        trial.apply(change)
        made.append(change)
    return merged(title or made[0].title, *made)


# which conductors


def circuit_for(
    design: Design, kind_key: str, answers: Answers, poles: Iterable[Pole], terminal: str = ""
) -> str:
    """The answer to "circuit" with which a terminal of a kind has exactly these poles.

    "" where the kind is not asked, where it is answered already, or where none fits.
    ``terminal``: "" is the first that is not there for grounding.
    """
    kind, wanted = kind_of(kind_key), frozenset(poles)
    rating = kind.declared.get(CIRCUIT)
    if rating is None or CIRCUIT in answers:
        return ""
    for choice in rating.choices:
        ratings = Ratings.of({**answers, CIRCUIT: choice.value})
        found = kind.terminals(kind.values(ratings, None, design.setting_answers()))
        ends = [t for t in found if (t.name == terminal if terminal else t.role != "tie")]
        if ends and frozenset(ends[0].poles) == wanted:
            return choice.value
    return ""


def is_fresh(design: Design, part: Part) -> bool:
    """Whether nothing hangs on a part yet, so that its circuit can still follow what it meets."""
    used = (*design.runs_at(part.id), *design.seats_of(part.id), *design.seated_in(part.id))
    return not used and CIRCUIT in design.kind(part).declared and CIRCUIT not in part.ratings


# placing


def place_seated(
    design: Design,
    kind: str,
    host_id: str,
    place: str,
    answers: Answers,
    sheet: int,
    at: tuple[int, int],
) -> Change:
    """A new part straight into a place of another, with the circuit that the place offers.

    ``at``: where it lies when it is taken out again, and where a hand-moved plug lies.
    """
    host = design.part(host_id)
    offered = _offered(design, host, place)
    answers = _fitting_place(design, kind, answers, offered)
    first = add_part(design, kind, at=at, sheet=sheet, ratings=answers)
    part_id = next(iter(first.pairs))
    return in_steps(
        design, first.title, lambda _: first, lambda trial: seat(trial, part_id, host_id, place)
    )


def _offered(design: Design, host: Part, place: str) -> frozenset[Pole]:
    found = next((p for p in places_of(design, host) if p.name == place), None)
    return frozenset() if found is None else frozenset(pole for pole, _ in found.offers)


def _fitting_place(
    design: Design, kind_key: str, answers: Answers, offered: frozenset[Pole]
) -> Answers:
    """Keep the circuit of a new part if the place offers all its poles, else take one that does."""
    kind = kind_of(kind_key)
    rating = kind.declared.get(CIRCUIT)
    if rating is None or CIRCUIT in answers or not kind.seat:
        return answers
    words = [choice.value for choice in rating.choices]
    for word in sorted(words, key=lambda word: word != rating.default):
        ratings = Ratings.of({**answers, CIRCUIT: word})
        found = kind.terminals(kind.values(ratings, None, design.setting_answers()))
        if all(set(t.poles) <= offered for t in found if t.name == kind.seat):
            return answers if word == rating.default else {**answers, CIRCUIT: word}
    return answers


# joining


def join(
    design: Design,
    a: End,
    b: End,
    poles: PoleMap | None = None,
    circuit: tuple[str, str] | None = None,
) -> Change:
    """A run between two terminals. ``circuit``: a part, and the circuit that it takes for it.

    EditError with the reason where they cannot be joined.
    """
    if circuit is None:
        return add_run(design, a, b, poles=poles)
    part_id, word = circuit
    return in_steps(
        design,
        say("join"),
        lambda trial: rate(trial, part_id, {CIRCUIT: word}),
        lambda trial: add_run(trial, a, b, poles=poles),
    )


def circuit_step(design: Design, a: End, b: End) -> tuple[str, str] | None:
    """Which fresh part would take which circuit, so that two ends fit; None where none must."""
    one, other = terminal_at(design, a), terminal_at(design, b)
    if one is None or other is None or set(one.poles) & set(other.poles):
        return None
    for end, across in ((b, one), (a, other)):
        part = design.part(end.part)
        if is_fresh(design, part):
            word = circuit_for(design, part.kind, part.ratings, across.poles, end.terminal)
            if word:
                return part.id, word
    return None


# seats


def move_to_place(design: Design, part_id: str, host_id: str, place: str) -> Change:
    """A part taken out of where it sits, if anywhere, and put into a place.

    A hand-moved plug keeps the places it may go to and gets one more.
    """
    part = design.part(part_id)
    old = seat_of(design, part)
    steps: list[Step] = []
    if old is not None:
        steps.append(lambda trial: unseat(trial, old.id))
    elif is_fresh(design, part):
        offered = _offered(design, design.part(host_id), place)
        answers = _fitting_place(design, part.kind, part.ratings, offered)
        if CIRCUIT in answers:
            steps.append(lambda trial: rate(trial, part_id, {CIRCUIT: answers[CIRCUIT]}))
    steps.append(lambda trial: seat(trial, part_id, host_id, place))
    names = (part.designation, design.part(host_id).designation)
    return in_steps(design, say("{what} into {host}", what=names[0], host=names[1]), *steps)


def put_onto(
    design: Design, part_id: str, guest_id: str, place: str, by: tuple[int, int]
) -> Change:
    """A cord brought to what its free end goes on: shifted by so much, and that seated there."""
    names = (design.part(part_id).designation, design.part(guest_id).designation)
    steps: list[Step] = []
    if by != (0, 0) and not design.seats_of(part_id):
        steps.append(lambda trial: move_parts(trial, [part_id], *by))
    steps.append(lambda trial: seat(trial, guest_id, part_id, place))
    return in_steps(design, say("{what} into {host}", what=names[0], host=names[1]), *steps)


def take_out(design: Design, part_id: str, at: tuple[int, int]) -> Change:
    """A seated part taken out of its place and laid on the paper."""
    part = design.part(part_id)
    old = seat_of(design, part)
    if old is None:
        raise EditError(say("{what} sits nowhere", what=part.designation))
    host = design.part(old.host)
    return in_steps(
        design,
        say("take out {what}", what=part.designation),
        lambda trial: unseat(trial, old.id),
        lambda trial: changed("", [(part, replace(part, x=at[0], y=at[1], sheet=host.sheet))]),
    )


def why_no_place(design: Design, part_id: str, host_id: str, place: str) -> str:
    """The reason why a part cannot be moved to a place, "" where it can."""
    part = design.part(part_id)
    old = seat_of(design, part)
    if old is None:
        return why_no_seat(design, part_id, host_id, place)
    trial = design.snapshot()
    trial.apply(unseat(trial, old.id))
    return why_no_seat(trial, part_id, host_id, place)


# moving and turning


def move(design: Design, element_ids: Iterable[str], dx: int, dy: int) -> Change:
    """Parts and notes shifted; a part that sits in another moves with it and not by itself."""
    ids = tuple(element_ids)
    notes = [key for key in ids if isinstance(design.get(key), Note)]
    return move_parts(design, (*loose_parts(design, ids), *notes), dx, dy)


def loose_parts(design: Design, element_ids: Iterable[str]) -> tuple[str, ...]:
    """Those parts among elements that lie at a place of their own."""
    parts = (design.get(key) for key in element_ids)
    return tuple(
        part.id for part in parts if isinstance(part, Part) and seat_of(design, part) is None
    )


def turn(design: Design, element_ids: Iterable[str], quarters: int, flip: bool = False) -> Change:
    """Parts turned where they lie. EditError if nothing among the elements can be turned."""
    parts = loose_parts(design, element_ids)
    if not parts:
        raise EditError(
            say("choose a part that lies by itself; what sits in another turns with it")
        )
    return turn_parts(design, parts, quarters, flip)
