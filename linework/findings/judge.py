"""Runs the rules and makes findings of their hits: one cause, one finding, its consequences under it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass, replace

from linework.design import Accepted
from linework.findings.model import Clear, Evidence, Finding, Hit, Level, NotChecked, Rule
from linework.findings.registry import rules
from linework.findings.view import View
from linework.words import say


@dataclass(frozen=True)
class Gap:
    """Something that was not checked: which rule, why, where."""

    rule: str
    reason: str
    where: tuple[str, ...]


@dataclass(frozen=True)
class Praise:
    """Something sound that people doubt, and why it is sound."""

    rule: str
    where: tuple[str, ...]
    message: str
    clause: str


@dataclass(frozen=True)
class Verdict:
    """All findings, in order of level; what was not checked; what is sound, and why."""

    findings: tuple[Finding, ...]
    gaps: tuple[Gap, ...]
    praise: tuple[Praise, ...]
    stale: tuple[Accepted, ...]


def judge(view: View, only: Iterable[Rule] | None = None) -> Verdict:
    """Every rule on a view. A rule that raises becomes a gap that blocks "sound"."""
    findings: list[Finding] = []
    gaps: list[Gap] = []
    praise: list[Praise] = []
    for rule in only if only is not None else rules().values():
        if rule.whole and view.partial:
            continue
        hits: list[Hit] = []
        try:
            for outcome in rule.check(view):
                if isinstance(outcome, Hit):
                    hits.append(outcome)
                elif isinstance(outcome, NotChecked):
                    gaps.append(_gap(view, rule, outcome))
                else:
                    praise.append(_praise(view, rule, outcome))
        except Exception as fault:  # a broken rule must be seen, never swallowed
            gaps.append(Gap(rule.id, _broken(fault), ()))
        findings += _grouped(view, rule, hits)
    accepted, stale = _with_acceptance(view, _nested(findings))
    return Verdict(_numbered(accepted), _unique(gaps), tuple(dict.fromkeys(praise)), stale)


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
    clause = outcome.clause or rule.clauses.get(view.family, "")
    return Praise(rule.id, tuple(view.name(s) for s in outcome.subjects), text, clause)


def _unique(gaps: list[Gap]) -> tuple[Gap, ...]:
    return tuple(dict.fromkeys(gaps))


def _grouped(view: View, rule: Rule, hits: list[Hit]) -> list[Finding]:
    """Hits of the same subjects and message over states and cases, as one finding."""
    groups: dict[tuple[tuple[str, ...], str], list[Hit]] = {}
    for hit in hits:
        groups.setdefault((hit.subjects, hit.message), []).append(hit)
    return [_finding(view, rule, group) for group in groups.values()]


def _finding(view: View, rule: Rule, group: list[Hit]) -> Finding:
    worst = max(group, key=lambda hit: (hit.level, _weight(hit.evidence)))
    states = tuple(dict.fromkeys(hit.state for hit in group if hit.state))
    cases = tuple(dict.fromkeys(hit.case for hit in group if hit.case))
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
        worst.clause or rule.clauses.get(view.family, ""),
        _edition(view),
        fingerprint(rule.id, worst.subjects, states, worst.evidence),
        touches,
        mend=next((hit.mend for hit in group if hit.mend is not None), None),
    )


def _weight(evidence: tuple[Evidence, ...]) -> float:
    numbers = [abs(e.value) for e in evidence if e.value is not None and e.value == e.value]
    return numbers[0] if numbers else 0.0


def _edition(view: View) -> str:
    settings = view.design.settings
    return f"NFPA 70 ({settings.edition})" if settings.family == "NA" else "IEC 60364"


def fingerprint(
    rule: str, subjects: tuple[str, ...], states: tuple[str, ...], evidence: tuple[Evidence, ...]
) -> str:
    """Rule, subjects, states and the numbers to two digits; a change of one makes another."""
    numbers = [f"{e.name}={e.value:.2g}" for e in evidence if e.value is not None]
    text = "|".join((rule, *subjects, *sorted(states), *numbers))
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def _nested(findings: list[Finding]) -> list[Finding]:
    """Each consequence put under its cause; a cause that is itself a consequence passes it on."""
    causes = {rule.id: rule.causes for rule in rules().values()}
    under: dict[int, list[int]] = {}
    taken: set[int] = set()
    for index, finding in enumerate(findings):
        parent = _cause(findings, index, causes.get(finding.rule, ()))
        if parent is not None:
            under.setdefault(parent, []).append(index)
            taken.add(index)

    def grown(index: int) -> Finding:
        own = tuple(grown(child) for child in under.get(index, []))
        return replace(findings[index], consequences=own)

    return [grown(i) for i in range(len(findings)) if i not in taken]


def _cause(findings: list[Finding], index: int, causes: tuple[str, ...]) -> int | None:
    effect = findings[index]
    for cause in causes:
        for other, finding in enumerate(findings):
            if other != index and finding.rule == cause and _explains(finding, effect):
                return other
    return None


def _explains(cause: Finding, effect: Finding) -> bool:
    """A shared place, and every state and case of the effect is one of the cause."""
    shared = cause.touches & effect.touches
    states = not cause.states or set(effect.states) <= set(cause.states)
    cases = not cause.cases or set(effect.cases) <= set(cause.cases)
    return bool(shared) and states and cases and cause.level >= Level.NOTE


def _with_acceptance(
    view: View, findings: list[Finding]
) -> tuple[list[Finding], tuple[Accepted, ...]]:
    by_print = {item.fingerprint: item for item in view.design.accepted}
    never = {rule.id for rule in rules().values() if rule.always_printed}
    out = [
        replace(f, accepted=None if f.rule in never else by_print.get(f.fingerprint))
        for f in findings
    ]
    used = {f.accepted.id for f in out if f.accepted is not None}
    return out, tuple(item for item in view.design.accepted if item.id not in used)


def _numbered(findings: list[Finding]) -> tuple[Finding, ...]:
    order = sorted(findings, key=lambda f: (-f.level, f.rule, f.where, f.message))
    return tuple(replace(f, number=i + 1) for i, f in enumerate(order))
