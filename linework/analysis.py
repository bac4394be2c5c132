"""One pure function from a design to everything that screen, paper and command line show of it."""

from __future__ import annotations

import itertools
from collections.abc import Collection, Hashable, Iterable
from dataclasses import dataclass, replace

from linework.circuit import expand
from linework.design import Accepted, Design, Note, Part, Run
from linework.design.cases import unknowns as unknowns_of
from linework.findings.assumptions import Assumed
from linework.findings.judge import Gap, Praise, judge, with_acceptance
from linework.findings.model import Finding, Level
from linework.findings.registry import rules
from linework.findings.survey import Survey
from linework.findings.unconfirmed import unconfirmed_values
from linework.findings.view import Look
from linework.study.memory import MOST_CASES, Memory
from linework.study.report import StateReport, choice_of
from linework.words import say

__all__ = [
    "MOST_CASES",
    "Analysis",
    "Memory",
    "accepted_anew",
    "analyse",
    "cases",
    "looks",
    "unknowns",
]


@dataclass(frozen=True)
class Analysis:
    """The findings of a design and the numbers behind them.

    ``reports``: states that together show every live circuit of every case, each circuit in one
    of them at least. ``combinations``: how many states are permitted. ``sound`` only where no
    danger or warning is open and nothing was left unchecked.
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

    @property
    def noted(self) -> bool:
        """Whether findings stand that are worth reading, besides the cautions that always do and
        the values assumed."""
        always = {rule.id for rule in rules().values() if rule.always_printed}
        return bool({finding.rule for finding in self.findings} - always - {"value-assumed"})

    def states(self) -> tuple[str, ...]:
        """The keys of the states shown, passing ones included."""
        return tuple(dict.fromkeys(r.key for r in self.reports))

    def walked(self) -> list[StateReport]:
        """The states to step through, at rest: together they show every live circuit; of those
        that are electrically the same the first."""
        seen: dict[tuple[str, ...], StateReport] = {}
        for report in self._first_cases():
            if not report.passing:
                seen.setdefault(report.circuits, report)
        return list(seen.values())

    def _first_cases(self) -> list[StateReport]:
        """Of each state the report of the first case that it touches."""
        first = {report.key: report for report in reversed(self.reports)}
        return [*reversed(first.values())]

    def numbers(self) -> dict[str, int]:
        """State key -> its number on the screen and on paper, in the order of the walk; states
        that are electrically the same share one, and those in which something moves come last."""
        walked = self.walked()
        known = {report.circuits: number for number, report in enumerate(walked, 1)}
        found = {r.key: known[r.circuits] for r in self._first_cases() if not r.passing}
        passing = [key for key in self.states() if key not in found]
        return found | {key: n for n, key in enumerate(passing, len(walked) + 1)}


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
    key = (shown, _what_counts(design))
    found = known.analyses.get_or(key, lambda: _analyse(design, shown, known))
    assert isinstance(found, Analysis)
    return replace(found, revision=design.revision)


def _analyse(design: Design, shown: str, memory: Memory) -> Analysis:
    survey, unexpanded, complete = _survey(design, shown, memory)
    view = survey.view(partial=bool(shown), all_cases=complete)
    verdict = judge(view)
    reports, lost = _reports(survey)
    return Analysis(
        design.revision,
        verdict.findings,
        tuple(dict.fromkeys((*verdict.gaps, *unexpanded, *lost))),
        verdict.praise,
        verdict.stale,
        reports,
        tuple(view.assumed),
        unconfirmed_values(view),
        survey.combinations,
        view.complete,
        bool(shown),
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


def _survey(design: Design, shown: str, memory: Memory) -> tuple[Survey, tuple[Gap, ...], bool]:
    """Every live circuit of every case, or those of the shown state; what could not be expanded;
    whether all cases were looked at."""
    survey = Survey(design, unknowns(design), memory)
    lost: list[Gap] = []
    settled_cases, complete = cases(design)
    for settled in settled_cases:
        try:
            case = memory.case(expand(design, settled))
        except ValueError as fault:  # what no table has
            lost.append(Gap("not-analysed", str(fault), ()))
            continue
        if not shown:
            survey.take(case, settled)
            continue
        choice = choice_of(design, case.circuit, shown)
        if case.search.choices.is_whole(choice):
            survey.take_state(case, settled, choice)
    return survey, tuple(lost), complete


def looks(design: Design, memory: Memory) -> tuple[Look, ...]:
    """Every live circuit of every case, as the rules see them; what cannot be expanded is left
    out, as its gap says."""
    return tuple(_survey(design, "", memory)[0].view().looks)


def _reports(survey: Survey) -> tuple[tuple[StateReport, ...], tuple[Gap, ...]]:
    reports: list[StateReport] = []
    lost: list[Gap] = []
    for key, shown, case in survey.shown():
        try:
            reports.append(survey.report(shown, case))
        except (ArithmeticError, ValueError) as fault:
            text = say("{state} could not be worked out: {fault}", state=key, fault=fault)
            lost.append(Gap("not-analysed", text, ()))
            reports.append(survey.failed(shown, case, str(fault)))
    return tuple(reports), tuple(lost)
