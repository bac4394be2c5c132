"""What is live in a state, and how that is drawn: a hue and a letter for each source."""

from __future__ import annotations

import string
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from linework.design import Design, Part, Run, pole_map
from linework.design.names import natural
from linework.picture.inks import FINE, HEAVY, MEDIUM, Ink, Pen, source_ink
from linework.wiring import Source, is_protective
from linework.words import say

if TYPE_CHECKING:
    from linework.study.report import StateReport

_NOT_LETTERS = frozenset("ILNMO")
"""Taken by poles, or easily read as a figure or a stroke."""


@dataclass(frozen=True, slots=True)
class SourceMark:
    """How what a source feeds is marked, in every state and on every sheet the same."""

    letter: str
    ink: Ink


Marks = Mapping[str, SourceMark]


@dataclass(frozen=True, slots=True)
class RunLook:
    """How a run is drawn: its pen, and the letters repeated along it (ink, letter)."""

    pen: Pen
    letters: tuple[SourceMark, ...] = ()


PLAIN = RunLook(Pen(width=MEDIUM))
"""Where no state is shown."""


def source_marks(design: Design) -> dict[str, SourceMark]:
    """A letter and an ink for every part that is a source, by part id; after 6 the hues repeat."""
    found: dict[str, SourceMark] = {}
    taken: set[str] = set()
    sources = sorted((p for p in design.parts if _is_source(design, p)), key=_name)
    for number, part in enumerate(sources):
        letter = next(c for c in _letters(design, part) if c not in taken)
        taken.add(letter)
        found[part.id] = SourceMark(letter, source_ink(number))
    return found


def _name(part: Part) -> tuple[object, str]:
    return natural(part.designation), part.id


def _is_source(design: Design, part: Part) -> bool:
    inside = design.kind(part).inside(design.values(part))
    return any(isinstance(element, Source) for element in inside.elements)


def _letters(design: Design, part: Part) -> Iterator[str]:
    """Initials of the kind and the title, letters of the designation, any letter, then doubled."""
    kind = say(design.kind(part).name, family=design.settings.family)
    words = [kind.split()[-1], *part.title.split(), *part.designation]
    for word in words:
        first = word[:1].upper()
        if first in string.ascii_uppercase and first not in _NOT_LETTERS and first:
            yield first
    letters = [c for c in string.ascii_uppercase if c not in _NOT_LETTERS]
    yield from letters
    yield from (one + other for one in letters for other in letters)


def is_tie(design: Design, run: Run) -> bool:
    """A run that carries only ground wires and bonds."""
    pairs = pole_map(design, run)
    return bool(pairs) and all(is_protective(p) and is_protective(q) for p, q in pairs)


def look_of_run(design: Design, run: Run, state: StateReport | None, marks: Marks) -> RunLook:
    """Fed: broad, in the hue of its source, with its letter; dead: thin and quiet."""
    if state is None or is_tie(design, run):
        return PLAIN
    return look_of(state.live_runs.get(run.id, ()), marks)


def look_of(owners: tuple[str, ...], marks: Marks) -> RunLook:
    """The look of a conductor that these sources feed."""
    fed = tuple(marks[owner] for owner in owners if owner in marks)
    if not owners:
        return RunLook(Pen(Ink.QUIET, FINE))
    if not fed:
        return RunLook(Pen(Ink.INK, HEAVY))
    return RunLook(Pen(fed[0].ink, HEAVY), fed)


def ink_of_part(design: Design, part: Part, state: StateReport | None, marks: Marks) -> Ink:
    """The ink of a symbol: its source's where all terminals are fed alike, quiet where none is.

    Ground terminals do not count; a switch of which one side is dead stays in plain ink.
    """
    if state is None:
        return Ink.INK
    terminals = design.kind(part).terminals(design.values(part))
    fed = {state.live.get((part.id, t.name), ()) for t in terminals if t.role != "tie"}
    if not fed:
        return Ink.INK
    if len(fed) > 1:
        return Ink.INK
    (owners,) = fed
    if not owners:
        return Ink.QUIET
    first = next((marks[owner] for owner in owners if owner in marks), None)
    return first.ink if first else Ink.INK


def state_named(reports: tuple[StateReport, ...], key: str) -> StateReport | None:
    """The report of the state of this key, of the first case; None where it is not known."""
    return next((report for report in reports if key and report.key == key), None)
