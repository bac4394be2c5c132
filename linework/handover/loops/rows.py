"""A loop as rows: what lies on the hot side and what on the way back, a run beside itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from itertools import groupby
from typing import Literal

from linework.study.shorts.loops import Loop, Piece

Sort = Literal["run", "device", "link", "soil", "source", "rest"]

_LITTLE = 0.05
"""Contacts that lose less than this share of the volts are told together."""
_FEW = 2


@dataclass(frozen=True)
class Step:
    """What stands in one row of one side. ``owners``: ids, none of many small contacts; ``ohm``
    and ``volts`` amounts of all of it together; ``neutral``: on the way back a neutral or minus,
    no ground."""

    sort: Sort
    owners: tuple[str, ...]
    ohm: float
    volts: float
    neutral: bool = False


@dataclass(frozen=True)
class Row:
    """From the source down to the fault: hot at the left, the way back at the right."""

    hot: Step | None
    back: Step | None


def rows_of(loop: Loop, opens: str) -> list[Row]:
    """The rows; ``opens``: id of the part that ends the fault, which has its own."""
    total = abs(loop.terminal_v)
    hot = _steps(loop.out, total, opens)
    back = _steps(loop.back or (), total, opens, after=_link_at(loop.back or ()))[::-1]
    return [*_beside(hot, back)]


def _link_at(back: Sequence[Piece]) -> int:
    """Behind the last link on the way back all is neutral or minus."""
    links = [n for n, piece in enumerate(back) if piece.sort == "bond"]
    return links[-1] if links else len(back)


def _steps(pieces: Sequence[Piece], total: float, opens: str, after: int = -1) -> list[Step]:
    """The pieces of one side in their order; those of one part together, small contacts last."""
    found: list[Step] = []
    rest: list[Piece] = []
    numbered = enumerate(pieces)
    for (owner, sort), group in groupby(numbered, key=lambda e: (e[1].owner, _sort(e[1]))):
        mine = [*group]
        lost = [piece for _, piece in mine]
        step = _step(sort, (owner,), lost, 0 <= after < mine[0][0])
        if sort == "device" and owner != opens and step.volts < _LITTLE * total:
            rest += lost
        else:
            found.append(step)
    small = _step("rest", (), rest, False)
    return [*found, small] if small.volts >= _LITTLE * total > 0.0 else found


def _sort(piece: Piece) -> Sort:
    named: dict[str, Sort] = {"run": "run", "bond": "link", "soil": "soil", "source": "source"}
    return named.get(piece.sort, "device")


def _step(sort: Sort, owners: tuple[str, ...], pieces: Iterable[Piece], neutral: bool) -> Step:
    told = [*pieces]
    ohm, volts = sum(p.ohm for p in told), abs(sum(p.volts for p in told))
    return Step(sort, owners, ohm, volts, neutral)


def _beside(hot: list[Step], back: list[Step]) -> Iterator[Row]:
    """Both sides in one order; a run in the same row on both."""
    left = [("hot", s.owners) if s.sort != "run" else ("", s.owners) for s in hot]
    right = [("back", s.owners) if s.sort != "run" else ("", s.owners) for s in back]
    for _, i1, i2, j1, j2 in SequenceMatcher(None, left, right, autojunk=False).get_opcodes():
        if left[i1:i2] == right[j1:j2]:
            yield from (Row(*both) for both in zip(hot[i1:i2], back[j1:j2], strict=True))
        else:
            yield from (Row(None, step) for step in back[j1:j2])
            yield from (Row(step, None) for step in _together(hot[i1:i2]))


def _together(steps: Sequence[Step]) -> Iterator[Step]:
    """Runs of the hot side one after the other, a few in one row."""
    for is_run, group in groupby(steps, key=lambda s: s.sort == "run"):
        mine = [*group]
        size = _FEW if is_run else 1
        for few in (mine[n : n + size] for n in range(0, len(mine), size)):
            owners = tuple(owner for step in few for owner in step.owners)
            ohm, volts = sum(step.ohm for step in few), sum(step.volts for step in few)
            yield replace(few[0], owners=owners, ohm=ohm, volts=volts)
