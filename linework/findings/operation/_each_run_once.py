"""One cause, one finding: what several loads lose in the same run is told once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from linework.design.names import natural
from linework.findings.model import Evidence, Hit
from linework.findings.view import View
from linework.words import N_


def each_run_once(view: View, hits: Sequence[Hit], same_cause: Sequence[str]) -> Iterator[Hit]:
    """For each run that loses most, named last among the subjects, the gravest of its hits over
    all states, with the loads that fare as badly or a little better in the evidence.

    ``same_cause``: messages that tell of one use of a run, the gravest first; hits with any other
    message are told once for each message.
    """
    groups: dict[tuple[str, str], list[Hit]] = {}
    for hit in hits:
        use = "" if hit.message in same_cause else hit.message
        groups.setdefault((hit.subjects[-1], use), []).append(hit)
    for group in groups.values():
        order = [*same_cause, *(hit.message for hit in group)]
        worst = min(group, key=lambda hit: (-hit.level, order.index(hit.message), _by_loss(hit)))
        others = sorted(
            {view.name(hit.subjects[0]) for hit in group} - {_name(view, worst)}, key=natural
        )
        beside = (Evidence(N_("so do"), None, "text", ", ".join(others)),) if others else ()
        for hit in group:
            if (hit.level, hit.message) == (worst.level, worst.message):
                evidence = (*hit.evidence, *beside)
                yield replace(hit, subjects=worst.subjects, evidence=evidence)


def _name(view: View, hit: Hit) -> str:
    return view.name(hit.subjects[0])


def _by_loss(hit: Hit) -> tuple[float, tuple[str, ...], str]:
    """The greatest part of the voltage first; of equal ones no order of looking decides."""
    return -(hit.evidence[0].value or 0.0), hit.subjects, hit.state
