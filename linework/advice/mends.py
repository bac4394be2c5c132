"""Which mends are offered: those that proved themselves, each once, at the cause."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from linework.advice.proof import Proof, Tried, flat
from linework.analysis import Analysis, Memory
from linework.design import Change, Design, EditError, Element, Part, Run
from linework.findings.model import Finding, Mend


@dataclass(frozen=True)
class Ready:
    """An edit that is its proven change; it can be sent to another process."""

    change: Change

    def __call__(self, design: Design) -> Change:
        """The change, whatever the design; applying it refuses where it does not fit any more."""
        return self.change


Place = frozenset[tuple[str, str]]
"""What a mend changes: ids with the names of the ratings that become others."""


def together(design: Design, analysis: Analysis) -> list[tuple[Finding, ...]]:
    """The findings with mends, those together whose mends change the same rating of the same
    element: of their sizes one is offered. Consequences offer none: their cause is mended."""
    groups: list[tuple[Place, tuple[Finding, ...]]] = []
    for finding in analysis.findings:
        if finding.mend is None:
            continue
        place, apart = _place(design, finding), []
        mine: tuple[Finding, ...] = (finding,)
        for other, members in groups:
            if place & other:
                place, mine = place | other, members + mine
            else:
                apart.append((other, members))
        groups = [*apart, (place, mine)]
    return [members for _, members in groups]


def _place(design: Design, finding: Finding) -> Place:
    found: set[tuple[str, str]] = set()
    for way in finding.mend.ways() if finding.mend is not None else ():
        try:
            change = way.edit(design.snapshot())
        except EditError:
            continue
        for before, after in change.pairs.values():
            found.update(_differ(before, after))
    return frozenset(found)


def _differ(before: Element | None, after: Element | None) -> Iterator[tuple[str, str]]:
    if isinstance(before, Part | Run) and isinstance(after, Part | Run):
        keys = {key for ratings in (before.ratings, after.ratings) for key in ratings}
        changed = [key for key in keys if before.ratings.get(key) != after.ratings.get(key)]
        yield from ((before.id, key) for key in changed or ("",))


def settled(proof: Proof, members: tuple[Finding, ...]) -> list[tuple[Finding, Mend]]:
    """What is offered for findings of one place: the mend that settles most of them, once, at the
    first of these; then that which settles most of the rest."""
    proven = [(f, _first(proof, f)) for f in members]
    found = [(finding, tried) for finding, tried in proven if tried is not None]
    offered: list[tuple[Finding, Mend]] = []
    while found:
        best = max((tried for _, tried in found), key=lambda t: _settles(t, members))
        gone = [finding for finding, _ in found if _gone(best, finding)]
        assert best.change is not None
        offered.append((gone[0], Mend(best.mend.title, Ready(best.change))))
        found = [(finding, tried) for finding, tried in found if finding not in gone]
    return offered


def _first(proof: Proof, finding: Finding) -> Tried | None:
    return next((tried for tried in proof.ways(finding) if tried.proven), None)


def _settles(tried: Tried, members: tuple[Finding, ...]) -> int:
    return sum(_gone(tried, finding) for finding in members)


def _gone(tried: Tried, finding: Finding) -> bool:
    left = tried.after.findings if tried.after is not None else ()
    return (finding.rule, finding.subjects) not in {(f.rule, f.subjects) for f in flat(left)}


def proven(
    design: Design, before: Analysis, finding: Finding, memory: Memory | None = None
) -> Change | None:
    """The first change that cures a finding, whether or not another one at its place settles
    more; None where none proved itself."""
    tried = _first(Proof(design, before, memory), finding)
    return None if tried is None else tried.change


def with_proven_mends(design: Design, analysis: Analysis, memory: Memory | None = None) -> Analysis:
    """The analysis with the mends that are offered, ready; the others are taken away."""
    proof = Proof(design, analysis, memory)
    offers = [offer for members in together(design, analysis) for offer in settled(proof, members)]
    mends = {finding.fingerprint: mend for finding, mend in offers}

    def kept(finding: Finding) -> Finding:
        return replace(finding, mend=mends.get(finding.fingerprint))

    return replace(analysis, findings=tuple(map(kept, without_mends(analysis).findings)))


def without_mends(analysis: Analysis) -> Analysis:
    """The analysis as it stands until mends are proven: none is offered."""

    def bare(finding: Finding) -> Finding:
        return replace(finding, mend=None, consequences=tuple(map(bare, finding.consequences)))

    return replace(analysis, findings=tuple(map(bare, analysis.findings)))
