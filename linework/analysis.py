"""One pure function from a design to everything that screen, paper and command line show of it."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Collection, Hashable, Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from linework.circuit import Circuit, Settled, State, StateSet, all_states, expand
from linework.design import Accepted, Design, Note, Part, Run
from linework.design.cases import case_text
from linework.design.cases import unknowns as unknowns_of
from linework.findings.assumptions import Assumed
from linework.findings.judge import Gap, Praise, judge, with_acceptance
from linework.findings.model import Finding, Level
from linework.findings.unconfirmed import unconfirmed_values
from linework.findings.view import Look, View
from linework.study.report import StateReport, report, state_key, state_title
from linework.study.studies import Shorts, Studies
from linework.words import say

_V = TypeVar("_V")

MOST_CASES = 32
"""More combinations of unknowns than this are judged one unknown at a time, and it is said."""

_MOST_ANALYSES = 8


@dataclass(frozen=True)
class Analysis:
    """The findings of a design and the numbers behind them.

    ``reports``: each electrically different state of each case, with the keys of those equal
    to it; ``covered``: states that only put together what several of these show. ``sound``
    only where no danger or warning is open and nothing was left unchecked.
    """

    revision: int
    findings: tuple[Finding, ...]
    gaps: tuple[Gap, ...]
    praise: tuple[Praise, ...]
    stale: tuple[Accepted, ...]
    reports: tuple[StateReport, ...]
    assumed: tuple[Assumed, ...]
    unconfirmed: tuple[str, ...]
    combinations: int
    complete: bool
    partial: bool = False
    covered: tuple[str, ...] = ()

    @property
    def open_findings(self) -> tuple[Finding, ...]:
        """Danger and warning that nobody has accepted."""
        return tuple(f for f in self.findings if f.open and f.level > Level.NOTE)

    @property
    def silent(self) -> bool:
        """No danger and no warning."""
        return not self.open_findings

    @property
    def sound(self) -> bool:
        """Silent, and nothing was left unchecked."""
        return self.silent and not self.gaps and self.complete and not self.partial

    def states(self) -> tuple[str, ...]:
        """The keys of the states shown, passing ones included."""
        return tuple(dict.fromkeys(r.key for r in self.reports))


class Memory:
    """Studies kept from one analysis to the next: a state whose circuit did not change is not
    solved again. Holds the ``most`` newest, and the few newest analyses: where parts were only
    moved, nothing is judged anew."""

    def __init__(self, most: int = 512) -> None:
        self._kept: dict[Hashable, Studies] = {}
        self._shorts: dict[Hashable, Shorts] = {}
        self._analyses: dict[Hashable, Analysis] = {}
        self._most = most

    def analysis(self, design: Design, shown: str, work: Callable[[], Analysis]) -> Analysis:
        """The analysis of a design, an old one where all that counts is the same."""
        key = (shown, _what_counts(design))
        found = self._analyses.pop(key, None) or work()
        self._analyses[key] = found
        _shorten(self._analyses, _MOST_ANALYSES)
        return replace(found, revision=design.revision)

    def studies(self, circuit: Circuit, state: State) -> Studies:
        """The studies of a state, old ones where its circuit is the same."""
        fresh = Studies(circuit, state, self._shorts)
        key = fresh.situation.content
        found = self._kept.pop(key, fresh)
        self._kept[key] = found
        _shorten(self._kept, self._most)
        _shorten(self._shorts, 4 * self._most)
        return found


def _shorten(kept: dict[Hashable, _V], most: int) -> None:
    while len(kept) > most:
        del kept[next(iter(kept))]


def _what_counts(design: Design) -> Hashable:
    """A design without where things lie on the paper, and without its notes."""
    return tuple(
        replace(item, x=0, y=0, turn=0, mirror=False, sheet=1)
        if isinstance(item, Part)
        else replace(item, route=())
        if isinstance(item, Run)
        else item
        for item in design.elements.values()
        if not isinstance(item, Note)
    )


def analyse(design: Design, shown: str = "", memory: Memory | None = None) -> Analysis:
    """Judge a design.

    ``shown``: only the state of this key (a quick first answer while drawing).
    """
    known = memory or Memory()
    return known.analysis(design, shown, lambda: _analyse(design, shown, known))


def _analyse(design: Design, shown: str, memory: Memory) -> Analysis:
    survey = _survey(design, shown, memory)
    view = View(design, tuple(survey.looks), partial=bool(shown), complete=survey.complete)
    verdict = judge(view)
    reports, lost = _reports(design, survey)
    return Analysis(
        design.revision,
        verdict.findings,
        tuple(dict.fromkeys((*verdict.gaps, *survey.lost, *lost))),
        verdict.praise,
        verdict.stale,
        reports,
        tuple(view.assumed),
        unconfirmed_values(view),
        survey.combinations,
        survey.complete,
        bool(shown),
        tuple(dict.fromkeys(survey.covered)),
    )


def accepted_anew(
    analysis: Analysis, accepted: Iterable[Accepted], cautions: Collection[str]
) -> Analysis:
    """The same analysis under other acceptances: they change no number, so nothing is solved.

    ``cautions``: ids of rules whose findings nobody can accept away.
    """
    findings, stale = with_acceptance(analysis.findings, accepted, cautions)
    return replace(analysis, findings=findings, stale=stale)


# cases


def unknowns(design: Design) -> dict[tuple[str, str], tuple[str, ...]]:
    """(id of a part or run, rating) -> its possibilities, for every unknown of the design."""
    return unknowns_of(design, sorted([*design.parts, *design.runs], key=lambda item: item.id))


def cases(design: Design) -> tuple[list[dict[tuple[str, str], str]], bool]:
    """Every combination of what is not known; beyond MOST_CASES one unknown at a time (False)."""
    open_ones = unknowns(design)
    count = 1
    for options in open_ones.values():
        count *= len(options)
    if count <= MOST_CASES:
        keys = list(open_ones)
        return [
            dict(zip(keys, chosen, strict=True))
            for chosen in itertools.product(*open_ones.values())
        ], True
    base = {key: options[0] for key, options in open_ones.items()}
    single = [{**base, key: option} for key, options in open_ones.items() for option in options[1:]]
    return [base, *single], False


def case_name(design: Design, settled: Settled, state: Studies) -> str:
    """A case by those of its unknowns that the state touches: "G1 neutral: floating"."""
    touched = {s.owner for _, s in state.situation.active}
    label = state.situation.conductive
    live = {label[s.plus] for _, s in state.situation.active}
    live |= {label[s.minus] for _, s in state.situation.active}
    for (part, _), nodes in state.circuit.terminals.items():
        if any(label[node] in live for node in nodes.values()):
            touched.add(part)
    touched |= {run.id for run in design.runs if {run.a.part, run.b.part} & touched}
    return case_text(design, {key: value for key, value in settled.items() if key[0] in touched})


class _Survey:
    """The states that bring something new, each once; and what is said of the others.

    What happens on the conductors of a source depends on nothing but them and the ground wires
    they reach (:meth:`Situation.system_content`). States are taken in the order of how many
    sources are live; one in which every source stands as in states taken before, and which
    neither lets sources meet nor bares live pins in a new way, adds nothing. It is ``equal``
    where one state taken before shows all of it, else only ``covered`` by several.
    """

    def __init__(self) -> None:
        self.looks: list[Look] = []
        self.equal: dict[tuple[str, str], list[str]] = {}
        self.covered: list[str] = []
        self.lost: list[Gap] = []
        self.combinations, self.complete = 0, True
        self._seen: set[Hashable] = set()
        self._whole: dict[Hashable, tuple[str, str]] = {}

    def count(self, states: StateSet) -> None:
        """Note how many combinations there are and whether all were looked at."""
        self.combinations = max(self.combinations, states.combinations)
        self.complete = self.complete and states.complete

    def take(self, design: Design, key: str, settled: Settled, studies: Studies) -> None:
        """Take one state, or say where it is shown already."""
        marks = _marks(studies)
        if marks in self._whole:
            self.equal.setdefault(self._whole[marks], []).append(key)
        elif marks <= self._seen:
            self.covered.append(key)
        else:
            name = case_name(design, settled, studies)
            self._seen |= marks
            self._whole[marks] = (key, name)
            self.looks.append(Look(key, state_title(design, studies), name, settled, studies))


def _survey(design: Design, shown: str, memory: Memory) -> _Survey:
    """Every state of every case, or the shown one of every case."""
    survey = _Survey()
    settled_cases, survey.complete = cases(design)
    for settled in settled_cases:
        try:
            circuit = expand(design, settled)
        except ValueError as fault:  # what no table has
            survey.lost.append(Gap("not-analysed", str(fault), ()))
            continue
        states = all_states(circuit)
        survey.count(states)
        keyed = [(state_key(design, circuit, state), state) for state in states.states]
        ready = [
            (key, memory.studies(circuit, state))
            for key, state in keyed
            if not shown or key == shown
        ]
        ready.sort(key=lambda item: (len(item[1].situation.owners), item[0]))
        for key, studies in ready:
            survey.take(design, key, settled, studies)
    return survey


def _marks(studies: Studies) -> frozenset[Hashable]:
    """What a state shows: each live source with its conductors, and what concerns several.

    Sources between which a converter carries power stand together: the load of one is the
    load of the other.
    """
    situation, live = studies.situation, studies.energised
    pairs = frozenset((m.one.owner, m.other.owner) for m in live.meetings)
    together = (pairs, live.live_pins, live.backfed, situation.state.restless)
    chains = (
        frozenset(situation.system_content(owner) for owner in chain) for chain in situation.chains
    )
    return frozenset((together, *chains))


def _reports(design: Design, survey: _Survey) -> tuple[tuple[StateReport, ...], tuple[Gap, ...]]:
    reports: list[StateReport] = []
    lost: list[Gap] = []
    for look in survey.looks:
        try:
            made = report(design, look.studies, look.state, look.title, look.case)
        except (ArithmeticError, ValueError) as fault:
            text = say("{state} could not be worked out: {fault}", state=look.state, fault=fault)
            lost.append(Gap("not-analysed", text, ()))
            continue
        also = dict.fromkeys(survey.equal.get((look.state, look.case), []))
        reports.append(replace(made, also=tuple(also)))
    return tuple(reports), tuple(lost)
