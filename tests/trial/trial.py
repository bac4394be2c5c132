"""Rigs and mistakes met by the program: what it finds, where, and in how many words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import cache
from itertools import islice
from random import Random

from linework.analysis import Analysis, Memory, analyse
from linework.design import Design
from linework.findings.model import Finding, Level
from tests.trial.judge.flaws import DANGER
from tests.trial.judge.label import HARMLESS, UNLABELLED, Label, Survey, differences, label, survey
from tests.trial.mistakes import MISTAKES, Mistake, harmless, mistakes
from tests.trial.rigs import RIGS

PROCESSES = 2
ALWAYS_OPEN = frozenset({"transformer-unprotected"})
"""Rules that leave something open of every part of a kind: what a transformer takes when it is
switched on is never judged, and always said."""
Told = tuple[str, str, tuple[str, ...], str]
"""Level, rule, where, message of a finding."""


@dataclass(frozen=True, order=True)
class Task:
    """One mistake by rig, kind and number of its place."""

    kind: str
    rig: str
    number: int


@dataclass(frozen=True)
class Sound:
    """What the program says of a sound rig."""

    rig: str
    parts: int
    findings: tuple[Told, ...]
    gaps: tuple[str, ...]

    @property
    def silent(self) -> bool:
        """No danger, no warning, nothing left unchecked."""
        return not self.findings and not self.gaps


@dataclass(frozen=True)
class Outcome:
    """What the program says of a mistake.

    ``told``: its findings that the sound rig does not have; ``met``: of each, whether it stands at
    the place of the mistake. ``gaps``: what is left unchecked since the mistake.
    """

    task: Task
    place: tuple[str, ...]
    label: Label
    told: tuple[Told, ...]
    met: tuple[bool, ...]
    gaps: tuple[str, ...]
    difference: tuple[str, ...]
    masked: tuple[Told, ...] = ()
    """What the program says at this place of the sound rig already: it hides what is new."""

    @property
    def verdict(self) -> str:
        """Found, elsewhere, missed, or unchecked where the program says that it could not judge;
        for what is harmless quiet or a false alarm."""
        if self.label.word == UNLABELLED:
            return "not counted"
        if self.label.word == HARMLESS:
            return "false alarm" if self.told else "quiet"
        if not self.told:
            return "unchecked" if self.gaps else "missed"
        return "found" if any(self.met) else "elsewhere"

    @property
    def first_is_cause(self) -> bool:
        """Whether the first finding stands at the place of the mistake."""
        return bool(self.met) and self.met[0]

    @property
    def softened(self) -> bool:
        """A danger of which the program says no more than a warning."""
        worst = {level for level, _, _, _ in self.told}
        return self.label.word == DANGER and bool(self.told) and DANGER not in worst


# one rig, one mistake


@cache
def _rig(name: str) -> tuple[Design, Survey, Analysis]:
    design = RIGS[name]().design
    return design, survey(design), analyse(design, memory=Memory())


def sound_analysis(name: str) -> Analysis:
    """What the program says of a sound rig."""
    return _rig(name)[2]


@cache
def number(rig: str, kind: str) -> int:
    """How many mistakes of a kind can be made in a rig; the designs themselves are not kept."""
    return sum(1 for _ in mistakes(_rig_alone(rig), kind))


@cache
def _rig_alone(name: str) -> Design:
    return RIGS[name]().design


def made(task: Task) -> Mistake:
    """The mistake of a task."""
    return next(islice(mistakes(_rig_alone(task.rig), task.kind), task.number, None))


def met_sound(name: str) -> Sound:
    """Meet a sound rig."""
    design, _, analysis = _rig(name)
    gaps = tuple(str(gap.reason) for gap in analysis.gaps if gap.rule not in ALWAYS_OPEN)
    return Sound(name, len(design.parts), tuple(map(_told, analysis.open_findings)), gaps)


def met(task: Task) -> Outcome:
    """Meet one mistake."""
    design, before, sound = _rig(task.rig)
    mistake = made(task)
    after = analyse(mistake.design, memory=Memory())
    told = label(design, mistake.design, before)
    new = new_findings(sound, after)
    place = {*mistake.place, *told.subjects}
    known = {str(gap.reason) for gap in sound.gaps}
    return Outcome(
        task,
        mistake.place,
        told,
        tuple(map(_told, new)),
        tuple(_stands(finding, place) for finding in new),
        tuple(str(gap.reason) for gap in after.gaps if str(gap.reason) not in known),
        tuple(differences(design, mistake.design)),
        tuple(_told(f) for f in sound.open_findings if _stands(f, place)),
    )


def new_findings(sound: Analysis, after: Analysis) -> list[Finding]:
    """Dangers and warnings that the sound rig does not have, in their order."""
    known = {(f.rule, f.where, f.level) for f in sound.open_findings}
    return [f for f in after.open_findings if (f.rule, f.where, f.level) not in known]


def _stands(finding: Finding, place: set[str]) -> bool:
    below = [subject for under in finding.consequences for subject in under.subjects]
    return not place.isdisjoint((*finding.subjects, *below))


def _told(finding: Finding) -> Told:
    return Level(finding.level).word, finding.rule, finding.where, finding.message


# many


def tasks(rigs: Sequence[str], kinds: Sequence[str]) -> list[Task]:
    """Every mistake of these kinds at every place of these rigs."""
    return [
        Task(kind, rig, place)
        for kind in kinds
        for rig in rigs
        for place in range(number(rig, kind))
    ]


def drawn(every: Iterable[Task], most: int, seed: int) -> list[Task]:
    """At most so many tasks, a third of them of the kinds that are harmless as a rule; kinds take
    turns, so that rare ones are not lost. ``most`` 0: all."""
    chance = Random(seed)
    by_kind: dict[str, list[Task]] = {}
    for task in every:
        by_kind.setdefault(task.kind, []).append(task)
    for waiting in by_kind.values():
        chance.shuffle(waiting)
    if not most:
        return [task for waiting in by_kind.values() for task in waiting]
    kinds = chance.sample([*by_kind], len(by_kind))
    mild = {kind: by_kind[kind] for kind in kinds if hasattr(harmless, kind)}
    rest = {kind: by_kind[kind] for kind in kinds if kind not in mild}
    share = most // 3 if rest else most
    return [*_in_turn(mild, share), *_in_turn(rest, most - share)]


def _in_turn(waiting: dict[str, list[Task]], most: int) -> list[Task]:
    taken: list[Task] = []
    for turn in range(max(map(len, waiting.values()), default=0)):
        taken += [tasks[turn] for tasks in waiting.values() if turn < len(tasks)]
    return taken[:most]


def run(chosen: Sequence[Task]) -> Iterator[Outcome]:
    """Meet many mistakes in parallel; a rig's own stay together, so that it is judged once."""
    ordered = sorted(chosen, key=lambda task: (task.rig, task.kind, task.number))
    with ProcessPoolExecutor(PROCESSES) as pool:
        yield from pool.map(met, ordered, chunksize=8)


def run_sound(rigs: Sequence[str]) -> list[Sound]:
    """Meet sound rigs in parallel."""
    with ProcessPoolExecutor(PROCESSES) as pool:
        return list(pool.map(met_sound, rigs))


__all__ = ["MISTAKES", "Outcome", "Sound", "Task", "drawn", "met", "run", "run_sound", "tasks"]
