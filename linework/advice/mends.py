"""A mend is offered only after it was tried on a copy and the whole analysis agrees."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from linework.analysis import Analysis, Memory, analyse
from linework.design import Change, Design, EditError
from linework.findings.model import Finding, Level, Mend


def proven(
    design: Design, before: Analysis, finding: Finding, memory: Memory | None = None
) -> Change | None:
    """The change that cures a finding, or None.

    It is tried on a copy: afterwards the finding must be gone in every state and
    case, no danger or warning may be new, and nothing more may be left
    unchecked. One level deep: mends of the copy are not tried.
    """
    if finding.mend is None:
        return None
    copy = design.snapshot()
    try:
        change = finding.mend.edit(copy)
        copy.apply(change)
    except EditError:
        return None
    after = analyse(copy, memory=memory)
    return change if _better(before, after, finding) else None


def _better(before: Analysis, after: Analysis, finding: Finding) -> bool:
    was, now = _serious(before.findings), _serious(after.findings)
    gone = not any(
        f.rule == finding.rule and f.subjects == finding.subjects for f in _flat(after.findings)
    )
    return gone and not now - was and len(after.gaps) <= len(before.gaps)


def _flat(findings: tuple[Finding, ...]) -> list[Finding]:
    out: list[Finding] = []
    for finding in findings:
        out += [finding, *_flat(finding.consequences)]
    return out


def _serious(findings: tuple[Finding, ...]) -> Counter[tuple[str, tuple[str, ...]]]:
    return Counter(
        (f.rule, f.subjects) for f in _flat(findings) if f.level > Level.NOTE and f.accepted is None
    )


@dataclass(frozen=True)
class Ready:
    """An edit that is its proven change; it can be sent to another process."""

    change: Change

    def __call__(self, design: Design) -> Change:
        """The change, whatever the design; applying it refuses where it does not fit any more."""
        return self.change


def with_proven_mends(design: Design, analysis: Analysis, memory: Memory | None = None) -> Analysis:
    """The analysis with every mend proven and ready; what did not prove itself is taken away."""

    def kept(finding: Finding) -> Finding:
        change = proven(design, analysis, finding, memory)
        mend = None
        if finding.mend is not None and change is not None:
            mend = Mend(finding.mend.title, Ready(change))
        return replace(finding, mend=mend, consequences=tuple(map(kept, finding.consequences)))

    return replace(analysis, findings=tuple(map(kept, analysis.findings)))


def without_mends(analysis: Analysis) -> Analysis:
    """The analysis as it stands until mends are proven: none is offered."""

    def bare(finding: Finding) -> Finding:
        return replace(finding, mend=None, consequences=tuple(map(bare, finding.consequences)))

    return replace(analysis, findings=tuple(map(bare, analysis.findings)))
