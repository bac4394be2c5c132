"""Whether answers fit what is declared, and whether what hangs on a part still fits after them."""

from __future__ import annotations

from collections.abc import Mapping

from linework.design.change import EditError
from linework.design.edits.found import guessed
from linework.design.edits.locks import lost_position
from linework.design.edits.seats import is_moved_by_hand, why_no_room
from linework.design.elements import Part, Run, Seat
from linework.design.fits import cannot_join, cannot_sit
from linework.design.model import Design
from linework.design.names import run_name
from linework.design.poles import terminal_at
from linework.kinds import Answer, Rating, is_known
from linework.wiring import Place, Terminal
from linework.words import say


def checked_ratings(
    declared: Mapping[str, Rating], answers: Mapping[str, Answer | None], family: str
) -> None:
    """EditError unless every answer fits its declaration."""
    for key, answer in answers.items():
        rating = declared.get(key)
        if rating is None:
            text = say("there is no rating '{key}' here", key=key)
            raise EditError(guessed(text, key, declared))
        if answer is not None:
            try:
                rating.check(answer, family)
            except ValueError as fault:
                raise EditError(str(fault)) from fault


def still_fits(design: Design, after: Part) -> None:
    """EditError where a part as it is to be no longer fits its runs, seats or interlocks."""
    kind, values = design.kind(after), design.values(after)
    terminals = {terminal.name: terminal for terminal in kind.terminals(values)}
    for run in design.runs_at(after.id):
        _check(after, run_name(design, run.id), _run_fault(design, run, after, terminals))
    for seat in design.seats_of(after.id):
        host = design.part(seat.host)
        offered = design.kind(host).places(design.values(host))
        fault = _seat_fault(design, seat, after, host, offered)
        if not fault and not is_moved_by_hand(design, after.id):
            fault = why_no_room(design, after, host, seat.place)
        _check(after, host.designation, fault)
    for seat in design.seated_in(after.id):
        guest = design.part(seat.part)
        fault = _seat_fault(design, seat, guest, after, kind.places(values))
        _check(after, guest.designation, fault)
    lost = lost_position(design, after)
    if lost is not None:
        raise EditError(
            say(
                "{what} would lose the position '{position}' of '{selector}', which is interlocked;"
                " take the interlock away first",
                what=after.designation,
                selector=lost[1],
                position=lost[2],
            )
        )


def _check(part: Part, other: str, fault: str) -> None:
    if fault:
        raise EditError(
            say(
                "{what} would no longer fit {other} ({fault}); take that away first",
                what=part.designation,
                other=other,
                fault=fault,
            )
        )


def _run_fault(design: Design, run: Run, after: Part, terminals: Mapping[str, Terminal]) -> str:
    ends = (run.a, run.b)
    parts = tuple(design.part(end.part) for end in ends)
    if not all(is_known(part.kind) for part in parts):
        return ""
    a, b = (
        terminals.get(end.terminal) if end.part == after.id else terminal_at(design, end)
        for end in ends
    )
    return cannot_join(a, b, run.poles, (parts[0].designation, parts[1].designation))


def _seat_fault(
    design: Design, seat: Seat, part: Part, host: Part, offered: tuple[Place, ...]
) -> str:
    if not (is_known(part.kind) and is_known(host.kind)):
        return ""
    place = next((p for p in offered if p.name == seat.place), None)
    names = (part.designation, host.designation)
    return cannot_sit(design.kind(part), design.values(part), place, names, seat.place)
