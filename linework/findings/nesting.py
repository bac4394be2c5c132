"""Causes over consequences: what follows from a finding stands under it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from linework.findings.model import Finding, Level
from linework.findings.rule import Rule
from linework.findings.standing import Standing


@dataclass(frozen=True)
class Held:
    """A finding with the (states, case) pairs in which it holds; "" is whatever state. Cases by
    number. ``explains``: what hangs on it."""

    finding: Finding
    at: frozenset[tuple[str, int]]
    explains: frozenset[str] = frozenset()


def nested(held: Sequence[Held], chosen: Iterable[Rule], standing: Standing) -> list[Finding]:
    """Each consequence put under its cause; a cause that is itself a consequence passes it on.

    A finding is as grave as the gravest that follows from it. Who accepts it accepts what stands
    under it: its fingerprint covers that too.
    """
    by_id = {rule.id: rule for rule in chosen}
    above: dict[int, int] = {}
    for index, item in enumerate(held):
        parent = _cause(held, index, by_id[item.finding.rule], standing)
        if parent is not None and index not in _chain(above, parent):
            above[index] = parent
    under: dict[int, list[int]] = {}
    for index, parent in above.items():
        under.setdefault(parent, []).append(index)

    def grown(index: int) -> Finding:
        own = tuple(grown(child) for child in under.get(index, []))
        finding = held[index].finding
        if not own:
            return finding
        mark = digest(finding.fingerprint, *sorted(child.fingerprint for child in own))
        level = max(finding.level, *(child.level for child in own))
        return replace(finding, consequences=own, fingerprint=mark, level=level)

    return [grown(i) for i in range(len(held)) if i not in above]


def _chain(above: Mapping[int, int], index: int) -> set[int]:
    """A finding and all above it: nothing may come to stand under itself, or it would be lost."""
    found = {index}
    while index in above:
        index = above[index]
        found.add(index)
    return found


def _cause(held: Sequence[Held], index: int, rule: Rule, standing: Standing) -> int | None:
    """The first that explains a finding wherever it holds; else the first of several that do so
    together, each in some states. What is drawn from all states hangs on a cause whatever its
    states are."""
    effect = held[index]
    others = [(at, item) for at, item in enumerate(held) if at != index]
    hanging = [(at, item) for at, item in others if _carries(item, effect, rule)]
    if (rule.whole or rule.timeless) and hanging:
        return hanging[0][0]
    found = [
        *hanging,
        *(
            (at, item)
            for cause in rule.causes
            for at, item in others
            if item.finding.rule == cause and _shares(item, effect)
        ),
        *((at, item) for at, item in others if _is_touched(item, effect, rule)),
        *((at, item) for at, item in others if _is_wider(item, effect)),
    ]
    for at, item in found:
        if _covered(effect, [item], standing):
            return at
    together = found and _covered(effect, [item for _, item in found], standing)
    return found[0][0] if together else None


def _carries(cause: Held, effect: Held, rule: Rule) -> bool:
    """Whether an effect hangs on what is wrong here, however grave it is; never on a note."""
    heavy = _as_grave(cause, effect) or cause.finding.level > Level.NOTE
    return cause.finding.rule in rule.hangs_on and heavy and _hangs(effect, cause)


def _is_touched(cause: Held, effect: Held, rule: Rule) -> bool:
    """Whether an effect is no graver and touches what hangs here."""
    touched = not cause.explains.isdisjoint(effect.finding.touches)
    return cause.finding.rule in rule.hangs_on and touched and _as_grave(cause, effect)


def _is_wider(cause: Held, effect: Held) -> bool:
    """Whether a finding of the same rule has the effect hanging on it, not the other way round."""
    wider = not _hangs(cause, effect) or cause.explains > effect.explains
    alike = cause.finding.rule == effect.finding.rule and _as_grave(cause, effect)
    return alike and wider and _hangs(effect, cause)


def _hangs(effect: Held, cause: Held) -> bool:
    return not cause.explains.isdisjoint(effect.finding.subjects)


def _as_grave(cause: Held, effect: Held) -> bool:
    return cause.finding.level >= effect.finding.level


def _shares(cause: Held, effect: Held) -> bool:
    """A shared place; and the cause is as grave, so that nothing hides under a lesser finding."""
    shared = not cause.finding.touches.isdisjoint(effect.finding.touches)
    return shared and _as_grave(cause, effect)


def _covered(effect: Held, causes: Sequence[Held], standing: Standing) -> bool:
    """Whether every state with its case of the effect is one of the causes'."""
    states: Mapping[int, list[str]] = {
        case: [s for cause in causes for s, c in cause.at if c == case] for _, case in effect.at
    }
    return all(standing.within(state, states[case]) for state, case in effect.at)


def digest(*words: str) -> str:
    """A short mark of some words."""
    return hashlib.sha256("|".join(words).encode()).hexdigest()[:16]
