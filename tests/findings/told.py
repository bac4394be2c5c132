"""What an analysis says of one rule, consequences included."""

from __future__ import annotations

from linework.advice import Proof, Tried
from linework.analysis import Analysis, analyse
from linework.design import Draft
from linework.findings.judge import Gap, Praise
from linework.findings.model import Finding


def flat(findings: tuple[Finding, ...]) -> list[Finding]:
    return [each for f in findings for each in (f, *flat(f.consequences))]


def found(draft: Draft, rule: str) -> list[Finding]:
    """The findings of a rule, in the order shown."""
    return [f for f in flat(analyse(draft.design).findings) if f.rule == rule]


def places(draft: Draft, rule: str) -> set[tuple[str, ...]]:
    """Where a rule found something, by the ids that Draft takes from the names."""
    return {f.subjects for f in found(draft, rule)}


def gaps(draft: Draft, rule: str) -> list[Gap]:
    return [gap for gap in analyse(draft.design).gaps if gap.rule == rule]


def praise(draft: Draft, rule: str) -> list[Praise]:
    return [item for item in analyse(draft.design).praise if item.rule == rule]


def number(finding: Finding, name: str) -> float:
    """One number of the evidence."""
    value = next(e.value for e in finding.evidence if e.name == name)
    assert value is not None
    return value


def cured(draft: Draft, finding: Finding) -> Analysis:
    """The analysis after the mend, which must have proven itself."""
    change = next((t.change for t in ways(draft, finding) if t.proven), None)
    assert change is not None, [(t.mend.title, t.reason) for t in ways(draft, finding)]
    draft.design.apply(change)
    return analyse(draft.design)


def ways(draft: Draft, finding: Finding) -> list[Tried]:
    """Every way in which a finding may be mended, tried."""
    return list(Proof(draft.design, analyse(draft.design)).ways(finding))
