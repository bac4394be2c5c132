"""Boards in buildings of their own: what feeds them from elsewhere, and whether an electrode is at
that building."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.design import Design, PlaceKind, Run, pole_map
from linework.study.once import once
from linework.study.stands import HERE, place_of
from linework.study.walks import hanging_together
from linework.wiring import is_protective


@dataclass(frozen=True)
class FedBoard:
    """A board with circuits of its own, the runs that feed it, and whether its ground bar is joined
    to an electrode in that building, without the way by what feeds it."""

    board: str
    runs: tuple[str, ...]
    rod: bool


@once
def boards_apart(design: Design, _: int) -> list[FedBoard]:
    """The boards in a building that another board feeds, as is said of them or follows from where
    these stand; of a design at a revision."""
    boards = (part.id for part in design.parts if _is_board(design, part.id))
    return [
        FedBoard(board, tuple(sorted(run.id for run in design.runs_at(board, "feed"))), rod)
        for board in sorted(boards)
        if design.seated_in(board) and _fed_from_afar(design, board)
        for rod in (_has_rod(design, board),)
    ]


def _is_board(design: Design, part: str) -> bool:
    kind, values = design.kind(design.part(part)), design.values(design.part(part))
    return kind.board and values.pick("circuit") != "dc"


def _fed_from_afar(design: Design, board: str) -> bool:
    if place_of(design, board) is not PlaceKind.BUILDING:
        return False
    runs = design.runs_at(board, "feed")
    first = {end.part for run in runs for end in (run.a, run.b)} - {board}
    ahead = hanging_together(first, lambda part: _onward(design, part, board))
    boards = {each for part in ahead for each in _boards_at(design, part)} - {board}
    told = design.values(design.part(board)).pick("detached") == "yes"
    elsewhere = (_own_place(design, each) is not PlaceKind.BUILDING for each in boards)
    return bool(boards) and (told or any(elsewhere))


def _own_place(design: Design, board: str) -> PlaceKind:
    """By what is said of it, and not of what it feeds."""
    answer = design.values(design.part(board)).pick("stands")
    return design.settings.kind_of_place if answer == HERE else PlaceKind(answer)


def _onward(design: Design, part: str, board: str) -> Iterator[str]:
    """What lies beside a part on the way to where a feeder begins: at a board, or off site."""
    source = design.kind(design.part(part)).source
    if part != board and not source.off_site and not _boards_at(design, part):
        yield from (end.part for run in design.runs_at(part) for end in (run.a, run.b))


def _boards_at(design: Design, part: str) -> list[str]:
    """It, if it is a board, or the board in which it sits."""
    hosts = [seat.host for seat in design.seats_of(part)]
    return [each for each in (part, *hosts) if _is_board(design, each)]


def _has_rod(design: Design, board: str) -> bool:
    near = hanging_together([board], lambda part: _grounded_with(design, part, board))
    return any(design.kind(design.part(part)).electrode for part in near)


def _grounded_with(design: Design, part: str, board: str) -> Iterator[str]:
    """What ground wires join to a part, as far as the next board."""
    hosts = {seat.host for seat in design.seats_of(part)}
    if part != board and board not in hosts and _boards_at(design, part):
        return
    for run in design.runs_at(part):
        if _brings_ground(design, run):
            yield from (run.a.part, run.b.part)
    yield from (seat.part for seat in design.seated_in(part))


def _brings_ground(design: Design, run: Run) -> bool:
    return any(is_protective(p) and is_protective(q) for p, q in pole_map(design, run))
