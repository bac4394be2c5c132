"""Findings of live circuits, each judged once, against those of every state judged by itself."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from linework.analysis import cases, unknowns
from linework.circuit import State, expand
from linework.circuit.arrangements import Arrangements
from linework.circuit.content import Mark
from linework.circuit.search import parted
from linework.design import Design
from linework.findings.judge import Verdict, judge
from linework.findings.model import Finding
from linework.findings.standing import Standing
from linework.findings.survey import Survey
from linework.findings.view import Look, View
from linework.storage import load
from linework.study.memory import Case, Memory
from linework.study.report import state_key
from linework.study.studies import Studies
from tests.chance import ALL, JUDGED, draft
from tests.enumeration import all_states

SAMPLES = [
    path
    for path in sorted((Path(__file__).parents[2] / "samples").glob("*.linework"))
    if ALL or "vaccination" not in path.stem
]
"""Those of some 200 states only where all are judged."""

Told = dict[tuple[str, str, tuple[str, ...]], set[str]]
"""(rule, level, subjects) -> the keys of the states in which it is found."""


class Enumeration:
    """Every state of every case, its circuits looked at by themselves in that very state."""

    def __init__(self, design: Design) -> None:
        self.design = design
        self.cases = [Case(expand(design, settled)) for settled in cases(design)[0]]
        self.settled = cases(design)[0]
        self.states: dict[str, State] = {}
        self.contents: list[Mark] = []
        """Of each look."""
        self.looks = tuple(self._looks())

    def _looks(self) -> Iterator[Look]:
        for case, settled in zip(self.cases, self.settled, strict=True):
            at_rest = {standing.grown for standing in case.circuits.at_rest}
            for state in all_states(case.circuit).states:
                key = state_key(self.design, case.circuit, state)
                self.states[key] = state
                caught = None
                if state.passing is not None:
                    caught = (state.passing, state.positions[state.passing])
                for grown in parted(case.search.lasting, dict(state.free), caught):
                    if caught is None or grown not in at_rest:
                        studies = Studies(
                            case.circuit, state, extent=case.contents.extent(grown, state)
                        )
                        self.contents.append(case.contents.of(grown, caught))
                        yield Look(key, "", settled, studies)

    def verdict(self) -> Verdict:
        first = self.cases[0]
        known = {
            key: Arrangements((frozenset(self._positions(state)),), 1)
            for key, state in self.states.items()
        }
        standing = Standing(known, first.search.choices, lambda told: ("told",))
        restless = Survey(self.design, unknowns(self.design), Memory())
        for case, settled in zip(self.cases, self.settled, strict=True):
            restless.take(case, settled)
        in_cases = (
            View(
                self.design.in_case(settled),
                tuple(look for look in self.looks if look.settled == settled),
                case.circuit,
                standing,
                restless=restless.restless(),
            )
            for case, settled in zip(self.cases, self.settled, strict=True)
        )
        view = View(
            self.design,
            self.looks,
            first.circuit,
            standing,
            restless=restless.restless(),
            in_cases=tuple(in_cases),
        )
        return judge(view)

    def _positions(self, state: State) -> tuple[tuple[tuple[str, str], str], ...]:
        if state.passing is None:
            return state.free
        return (*state.free, (state.passing, state.positions[state.passing]))

    def told(self, verdict: Verdict) -> Told:
        found: Told = {}
        for finding in _flat(verdict.findings):
            key = (finding.rule, finding.level.word, finding.subjects)
            found.setdefault(key, set()).update(self._states_of(finding.standing))
        return found

    def _states_of(self, standing: Arrangements | None) -> set[str]:
        rest = {key for key, state in self.states.items() if state.passing is None}
        if standing is None:
            return rest
        return {
            key
            for key, state in self.states.items()
            for cube in standing.cubes
            if cube <= set(self._positions(state)) and _moves(cube, state)
        }


def _moves(cube: frozenset[tuple[tuple[str, str], str]], state: State) -> bool:
    """Whether an arrangement at rest is asked of a state of rest, and one between of its like."""
    keys = {key for key, _ in cube}
    return (state.passing in keys) if state.passing else keys <= {k for k, _ in state.free}


def _flat(findings: tuple[Finding, ...]) -> Iterator[Finding]:
    for finding in findings:
        yield finding
        yield from _flat(finding.consequences)


def surveyed(design: Design) -> Verdict:
    survey = Survey(design, unknowns(design), Memory())
    for settled in cases(design)[0]:
        survey.take(Case(expand(design, settled)), settled)
    return judge(survey.view())


def assert_as_enumerated(design: Design) -> None:
    every = Enumeration(design)
    one, other = surveyed(design), every.verdict()
    assert every.told(one) == every.told(other)
    assert {(gap.rule, gap.where) for gap in one.gaps} == {
        (gap.rule, gap.where) for gap in other.gaps
    }


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_is_found_the_same_in_every_state(path: Path) -> None:
    assert_as_enumerated(load(path))


@pytest.mark.parametrize("drawn", JUDGED)
def test_a_random_design_is_found_the_same_in_every_state(drawn: int) -> None:
    assert_as_enumerated(draft(drawn).design)


# the example state decides nothing


def extremes(every: Enumeration) -> tuple[tuple[Look, ...], tuple[Look, ...]]:
    """Each circuit in the first and in the last of the states in which it stands: with all off and
    out that can be, and with all on and in."""
    first: dict[tuple[int, Mark], Look] = {}
    last: dict[tuple[int, Mark], Look] = {}
    for content, look in zip(every.contents, every.looks, strict=True):
        key = (id(look.studies.circuit), content)
        first.setdefault(key, replace(look, state=f"circuit {len(first)}"))
        last[key] = replace(look, state=first[key].state)
    return tuple(first.values()), tuple(last.values())


def assert_examples_decide_nothing(design: Design) -> None:
    every = Enumeration(design)
    told = []
    for looks in extremes(every):
        verdict = judge(View(design, looks, every.cases[0].circuit))
        told.append(
            (
                {(f.rule, f.level, f.subjects, f.message) for f in _flat(verdict.findings)},
                set(verdict.gaps),
                set(verdict.praise),
            )
        )
    assert told[0] == told[1]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_sample_is_found_the_same_by_opposite_examples(path: Path) -> None:
    assert_examples_decide_nothing(load(path))


@pytest.mark.parametrize("drawn", JUDGED)
def test_a_random_design_is_found_the_same_by_opposite_examples(drawn: int) -> None:
    assert_examples_decide_nothing(draft(drawn).design)
