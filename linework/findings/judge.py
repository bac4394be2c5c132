"""Runs the rules and makes findings of their hits: one cause is one finding."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace

from linework.design import Accepted
from linework.design.names import natural
from linework.findings.model import Clear, Evidence, Finding, Hit, Level, Mend, NotChecked
from linework.findings.nesting import Held, digest, nested
from linework.findings.registry import rules
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.study.wires.ratings import rules_of
from linework.words import say

_OTHER_STANDARD = re.compile(r"[A-Z]{2,} |33 CFR ")
"""A clause that begins with the name of its standard: "ABYC E-11", "UL 943"."""


@dataclass(frozen=True)
class Gap:
    """Something that was not checked: which rule, why, where."""

    rule: str
    reason: str
    where: tuple[str, ...]


@dataclass(frozen=True)
class Praise:
    """Something sound, and why it is; ``quiet`` where nobody doubts it. ``subjects`` are ids."""

    rule: str
    where: tuple[str, ...]
    message: str
    clause: str
    subjects: tuple[str, ...] = ()
    quiet: bool = False


@dataclass(frozen=True)
class Verdict:
    """All findings, in order of level; what was not checked; what is sound, and why."""

    findings: tuple[Finding, ...]
    gaps: tuple[Gap, ...]
    praise: tuple[Praise, ...]
    stale: tuple[Accepted, ...]


@dataclass(frozen=True)
class _Said:
    """A hit, and the number of the case in which a rule said it."""

    hit: Hit
    case: int


def judge(view: View, only: Iterable[Rule] | None = None) -> Verdict:
    """Every rule on a view. A rule that raises becomes a gap that blocks "sound"."""
    chosen = tuple(only) if only is not None else tuple(rules().values())
    held: list[Held] = []
    gaps: list[Gap] = []
    praise: list[Praise] = []
    for rule in chosen:
        if rule.whole and view.partial:
            continue
        said, open_ones, sound = _asked(view, rule)
        gaps += open_ones
        praise += sound
        try:
            held += _grouped(view, rule, said)
        except Exception as fault:  # noqa: BLE001 - what was found and could not be said is seen
            gaps.append(Gap(rule.id, _broken(fault), ()))
    cautions = frozenset(rule.id for rule in chosen if rule.always_printed)
    accepted, stale = with_acceptance(
        nested(held, chosen, view.standing), view.design.accepted, cautions
    )
    deserved = _deserved(praise, held, chosen)
    return Verdict(_numbered(accepted), _unique(gaps), tuple(dict.fromkeys(deserved)), stale)


def _deserved(praise: list[Praise], held: list[Held], chosen: tuple[Rule, ...]) -> list[Praise]:
    """What is called sound, but not where something is wrong that would explain the opposite."""
    doubts: dict[str, set[str]] = {}
    for item in held:
        if item.finding.level > Level.NOTE:
            places = doubts.setdefault(item.finding.rule, set())
            places |= {*item.finding.subjects, *item.explains}
    bad: dict[str, set[str]] = {
        rule.id: set().union(
            *(doubts.get(cause, set()) for cause in (*rule.causes, *rule.hangs_on))
        )
        for rule in chosen
    }
    return [each for each in praise if bad[each.rule].isdisjoint(each.subjects)]


def _asked(view: View, rule: Rule) -> tuple[list[_Said], list[Gap], list[Praise]]:
    """What a rule says in all cases; as sound only what it calls so in each."""
    said: list[_Said] = []
    gaps: list[Gap] = []
    sound: list[dict[Praise, None]] = []
    for number, one in enumerate((view,) if rule.as_given else view.in_cases):
        here: dict[Praise, None] = {}
        try:
            for outcome in rule.check(one):
                if isinstance(outcome, Hit):
                    said.append(_Said(outcome, number))
                elif isinstance(outcome, NotChecked):
                    gaps.append(_gap(one, rule, outcome))
                else:
                    here[_praise(one, rule, outcome)] = None
        except Exception as fault:  # noqa: BLE001 - a broken rule must be seen, never swallowed
            gaps.append(Gap(rule.id, _broken(fault), ()))
        sound.append(here)
    return said, gaps, [one for one in sound[0] if all(one in here for here in sound)]


def _broken(fault: Exception) -> str:
    return say(
        "the rule stopped on an error of its own ({fault}); report it, and check this by hand",
        fault=f"{type(fault).__name__}: {fault}",
    )


def _gap(view: View, rule: Rule, outcome: NotChecked) -> Gap:
    text = say(outcome.reason, family=view.family, **outcome.values)
    return Gap(rule.id, text, tuple(view.name(s) for s in outcome.subjects))


def _praise(view: View, rule: Rule, outcome: Clear) -> Praise:
    text = say(outcome.message, family=view.family, **outcome.values)
    clause = view.cited(
        rule.id, outcome.clause or rule.clauses.get(view.family, ""), outcome.subjects
    )
    names = tuple(view.name(s) for s in outcome.subjects)
    return Praise(rule.id, names, text, clause, outcome.subjects, outcome.quiet)


def _unique(gaps: list[Gap]) -> tuple[Gap, ...]:
    return tuple(dict.fromkeys(gaps))


def _grouped(view: View, rule: Rule, said: list[_Said]) -> list[Held]:
    """Hits of the same subjects, level and message over states and cases, as one finding."""
    groups: dict[tuple[tuple[str, ...], Level, str], list[_Said]] = {}
    for one in said:
        key = (one.hit.subjects, one.hit.level, one.hit.message)
        groups.setdefault(key, []).append(one)
    return [
        Held(
            _finding(view, rule, group),
            frozenset(
                (one.hit.state, case)
                for one in group
                # what is said of the design as given holds in every case
                for case in (range(len(view.in_cases)) if rule.as_given else (one.case,))
            ),
            frozenset().union(*(one.hit.explains for one in group)),
        )
        for group in groups.values()
    ]


def _finding(view: View, rule: Rule, said: list[_Said]) -> Finding:
    # of several as bad the first by name, so that no order of looking decides
    worst = min(said, key=_worst_first).hit
    group = [one.hit for one in said]
    standing = view.standing.of(hit.state for hit in group)
    states = view.standing.words(standing)
    cases = () if rule.as_given else view.case_words({one.case for one in said})
    told = worst.clause or rule.clauses.get(view.family, "")
    clause = view.cited(rule.id, told, worst.subjects)
    touches = frozenset(worst.subjects).union(*(hit.touches for hit in group))
    return Finding(
        rule.id,
        say(rule.title, family=view.family),
        worst.level,
        worst.subjects,
        tuple(view.name(s) for s in worst.subjects),
        states,
        cases,
        say(worst.message, family=view.family, **worst.values),
        worst.evidence,
        clause,
        "" if not clause or _OTHER_STANDARD.match(clause) else rules_of(view.design).title,
        fingerprint(rule.id, worst.level, worst.subjects, (*states, *cases), worst.evidence),
        touches,
        standing=standing,
        spoken=view.standing.spoken(standing),
        of_inputs=rule.as_given,
        mend=_ways(worst, group),
    )


def _ways(worst: Hit, group: list[Hit]) -> Mend | None:
    """The mend that the worst hit asks for, then those of the others."""
    found: Mend | None = None
    for hit in (worst, *group):
        for way in hit.mend.ways() if hit.mend is not None else ():
            alone = replace(way, otherwise=None)
            found = alone if found is None else found.then(alone)
    return found


def _worst_first(said: _Said) -> tuple[float, int, int, str]:
    hit = said.hit
    numbers = [abs(e.value) for e in hit.evidence if e.value is not None and e.value == e.value]
    return -numbers[0] if numbers else 0.0, said.case, len(hit.state), hit.state


def fingerprint(
    rule: str,
    level: Level,
    subjects: tuple[str, ...],
    states: tuple[str, ...],
    evidence: tuple[Evidence, ...],
) -> str:
    """Rule, level, subjects, states with cases, and the evidence, its numbers to two digits; a
    change of one makes another."""
    told = [f"{e.name}={e.note if e.value is None else f'{e.value:.2g}'}" for e in evidence]
    return digest(rule, level.word, *subjects, *sorted(states), *told)


def with_acceptance(
    findings: Iterable[Finding], accepted: Iterable[Accepted], cautions: Collection[str]
) -> tuple[tuple[Finding, ...], tuple[Accepted, ...]]:
    """The findings with the acceptances that hold for them, and those that hold for none.

    ``cautions``: ids of rules whose findings nobody can accept away.
    """
    kept = tuple(accepted)
    by_print = {item.fingerprint: item for item in kept}
    out = tuple(
        replace(f, accepted=None if f.rule in cautions else by_print.get(f.fingerprint))
        for f in findings
    )
    used = {f.accepted.id for f in out if f.accepted is not None}
    return out, tuple(item for item in kept if item.id not in used)


def _numbered(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The gravest first, and of these what explains others; what nobody has given comes last."""
    order = sorted(
        findings,
        key=lambda f: (
            *(-f.level, not f.consequences, f.of_inputs, f.rule),
            *(tuple(map(natural, f.where)), f.message),
        ),
    )
    return tuple(replace(f, number=i + 1) for i, f in enumerate(order))
