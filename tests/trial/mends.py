"""The mends of the findings that mistakes make, each tried, and what is offered judged afresh."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

from linework.advice import Proof, settled, together
from linework.analysis import Analysis, Memory, analyse
from linework.design import Design
from linework.findings.model import Finding
from tests.trial.trial import PROCESSES, Task, made, new_findings, sound_analysis

BELOW = "a consequence: its cause stands"


@dataclass(frozen=True)
class Attempt:
    """A mend of one finding that a mistake made. ``reason``: why it is not proven; ``afresh``: what
    speaks against one that is offered, judged by the same list without anything kept."""

    task: Task
    rule: str
    where: tuple[str, ...]
    title: str
    reason: str = ""
    offered: bool = False
    afresh: str = ""


def mended(task: Task) -> list[Attempt]:
    """Every mend of the findings that a mistake makes, and what is offered of them."""
    design, memory = made(task).design, Memory()
    analysis = analyse(design, memory=memory)
    proof = Proof(design, analysis, memory)
    new = new_findings(sound_analysis(task.rig), analysis)
    return [
        *(attempt for finding in new for attempt in _tried(task, proof, finding)),
        *_offered(task, proof, design, new),
    ]


def _tried(task: Task, proof: Proof, finding: Finding, below: bool = False) -> Iterator[Attempt]:
    for way in finding.mend.ways() if finding.mend is not None else ():
        reason = BELOW if below else proof.tried(finding, way).reason
        yield Attempt(task, finding.rule, finding.where, way.title, reason)
    for under in finding.consequences:
        yield from _tried(task, proof, under, below=True)


def _offered(task: Task, proof: Proof, design: Design, new: Sequence[Finding]) -> Iterator[Attempt]:
    mine = {finding.fingerprint for finding in new}
    fresh: Analysis | None = None
    for members in together(design, proof.before):
        if mine.isdisjoint(finding.fingerprint for finding in members):
            continue
        for finding, mend in settled(proof, members):
            fresh = fresh or analyse(design)
            again = Proof(design, fresh).tried(finding, mend).reason
            yield Attempt(task, finding.rule, finding.where, mend.title, "", True, again)


def run_mends(chosen: Sequence[Task]) -> list[Attempt]:
    """Try the mends of many mistakes in parallel."""
    ordered = sorted(chosen, key=lambda task: (task.rig, task.kind, task.number))
    with ProcessPoolExecutor(PROCESSES) as pool:
        return [each for found in pool.map(mended, ordered, chunksize=8) for each in found]


def mend_table(attempts: Sequence[Attempt]) -> str:
    """How many were proposed, proven, refused and why, and offered."""
    tried = [each for each in attempts if not each.offered]
    offered = [each for each in attempts if each.offered]
    refused = Counter(_short(each.reason) for each in tried if each.reason)
    wrong = [each for each in offered if each.afresh]
    lines = [
        f"mends proposed {len(tried)}, proven {sum(not each.reason for each in tried)},"
        f" refused {refused.total()}; offered {len(offered)},"
        f" of these not proven afresh {len(wrong)}",
        *(f"    refused {count:4}: {reason}" for reason, count in refused.most_common()),
        *(f"    NOT PROVEN AFRESH: {_line(each)}: {each.afresh}" for each in wrong),
    ]
    return "\n".join(lines)


def mend_lines(attempts: Sequence[Attempt]) -> str:
    """A line for each."""
    return "\n".join(
        f"{'offered' if each.offered else each.reason or 'proven'}: {_line(each)}"
        for each in attempts
    )


def _line(each: Attempt) -> str:
    at = f"{each.task.kind} {each.task.number} in {each.task.rig}"
    return f"{at}: {each.rule} at {' '.join(each.where)}: {each.title}"


def _short(reason: str) -> str:
    """Without the names of parts, so that equal reasons are counted together."""
    return " ".join(word for word in reason.split() if not any(map(str.isdigit, word)))
