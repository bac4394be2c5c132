"""What a mend must prove before anybody is offered it: one list, for all that offer mends.

A mend is tried on a copy and the whole analysis is made again. Then its finding must be gone,
nothing new of any level above a note may have come and nothing more be left unchecked, nothing
that worked may have stopped, and what it puts in must be made by somebody.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from linework.advice.working import Working, stopped, working
from linework.analysis import Analysis, Memory, analyse, looks
from linework.codes import is_made
from linework.design import Change, Design, EditError, Element, Part, Run
from linework.findings.model import Finding, Level, Mend
from linework.study.answers.needs import stopped_by
from linework.words import say

_Key = tuple[str, tuple[str, ...]]
"""Rule and subjects of a finding."""


@dataclass(frozen=True)
class Tried:
    """A mend that was tried. ``reason``: why it is not offered; empty where it proved itself.
    ``after``: the analysis with it made, where it could be made."""

    mend: Mend
    change: Change | None
    reason: str
    after: Analysis | None = None

    @property
    def proven(self) -> bool:
        """Whether it may be offered."""
        return not self.reason


class Proof:
    """Tries the mends of one analysis. ``memory`` None: everything is worked out afresh."""

    def __init__(self, design: Design, before: Analysis, memory: Memory | None = None) -> None:
        self.design, self.before, self._memory = design, before, memory or Memory()

    def ways(self, finding: Finding) -> Iterator[Tried]:
        """Every way in which a finding may be mended, tried in the order of the rule."""
        for way in finding.mend.ways() if finding.mend is not None else ():
            yield self.tried(finding, way)

    def tried(self, finding: Finding, mend: Mend) -> Tried:
        """One mend tried. One level deep: mends of the copy are not tried."""
        copy = self.design.snapshot()
        try:
            change = mend.edit(copy)
            copy.apply(change)
        except EditError as fault:
            return Tried(mend, None, str(fault))
        reason = next(_not_made(copy, change), "") or next(self._too_small(copy, change), "")
        if reason:
            return Tried(mend, change, reason)
        after = analyse(copy, memory=self._memory)
        return Tried(mend, change, next(self._against(finding, change, copy, after), ""), after)

    def _against(
        self, finding: Finding, change: Change, copy: Design, after: Analysis
    ) -> Iterator[str]:
        if (finding.rule, finding.subjects) in _levels(after.findings, {}):
            yield say("its finding stays")
        yield from self._new(change, after)
        if _left_open(after) - _left_open(self.before):
            yield say("more is left unchecked")
        yield from stopped(copy, self._working, working(copy, after))

    @cached_property
    def _working(self) -> Working:
        return working(self.design, self.before)

    def _new(self, change: Change, after: Analysis) -> Iterator[str]:
        """Findings above a note that were not there, or are graver now; what holds of both pieces
        of a run that was cut is no new one."""
        was = _levels(self.before.findings, {})
        now = _levels(after.findings, _pieces(change))
        for key, levels in now.items():
            if _graver(levels, was.get(key, [])):
                title = next(f.title for f in flat(after.findings) if f.rule == key[0])
                yield say("it makes a new finding: {title}", title=title)

    # devices of another rating

    def _too_small(self, copy: Design, change: Change) -> Iterator[str]:
        """Devices put in or made smaller that would not let through what hangs on them."""
        smaller = {owner for owner in change.pairs if self._lowered(change, owner)}
        for look in looks(copy, self._memory) if smaller else ():
            situation = look.studies.situation
            for device in situation.circuit.devices if not look.passing else ():
                amps = device.data.rating_a
                need = stopped_by(situation, device, amps) if device.owner in smaller else None
                if need is not None:
                    yield say(
                        "{device} of {amps} A would stop {part}",
                        device=copy.part(device.owner).designation,
                        amps=f"{amps:g}",
                        part=copy.part(need.part).designation,
                    )

    def _lowered(self, change: Change, owner: str) -> bool:
        before, after = change.pairs[owner]
        return self._rating(after) > 0.0 and (
            before is None or self._rating(after) < self._rating(before)
        )

    def _rating(self, element: Element | None) -> float:
        """The rating in ampere of what may be a device; 0 of anything else."""
        if not isinstance(element, Part):
            return 0.0
        values = self.design.values(element)
        rating = values.declared.get("rating")
        asked = rating is not None and rating.quantity == "current" and values.has("rating")
        return values.num("rating") if asked else 0.0


def _left_open(analysis: Analysis) -> Counter[_Key]:
    """What was not checked, by rule and place: one that is gone makes up for none that comes."""
    return Counter((gap.rule, gap.where) for gap in analysis.gaps)


def _not_made(copy: Design, change: Change) -> Iterator[str]:
    """Fuses that nobody makes, of those that the change puts in or makes others."""
    for before, after in change.pairs.values():
        if not isinstance(after, Part) or not copy.kind(after).melts:
            continue
        old = before.ratings if isinstance(before, Part) else None
        if old is not None and all(old.get(k) == after.ratings.get(k) for k in ("rating", "type")):
            continue
        values = copy.values(after)
        if values.has("rating") and not is_made(values.pick("type"), values.num("rating")):
            yield say("no fuse of this type is made for {amps} A", amps=f"{values.num('rating'):g}")


def _pieces(change: Change) -> Mapping[str, str]:
    """New runs by id -> the run of which they were cut off."""
    old = [b.id for b, a in change.pairs.values() if isinstance(b, Run) and isinstance(a, Run)]
    new = [a.id for b, a in change.pairs.values() if b is None and isinstance(a, Run)]
    return dict.fromkeys(new, old[0]) if len(old) == 1 else {}


def _levels(findings: tuple[Finding, ...], origin: Mapping[str, str]) -> dict[_Key, list[Level]]:
    """The levels of all findings of one rule and place, the gravest first; of what was one place
    before only the gravest."""
    found: dict[_Key, list[Level]] = {}
    for finding in flat(findings):
        subjects = tuple(dict.fromkeys(origin.get(s, s) for s in finding.subjects))
        there = found.setdefault((finding.rule, subjects), [])
        if subjects == finding.subjects or not there:
            there.append(finding.level)
        else:
            there[0] = max(there[0], finding.level)
    return {key: sorted(levels, reverse=True) for key, levels in found.items()}


def _graver(now: list[Level], was: list[Level]) -> bool:
    serious = [level for level in now if level > Level.NOTE]
    return len(serious) > len(was) or any(a > b for a, b in zip(serious, was, strict=False))


def flat(findings: tuple[Finding, ...]) -> Iterator[Finding]:
    """Findings and their consequences, in the order of reading."""
    for finding in findings:
        yield finding
        yield from flat(finding.consequences)
