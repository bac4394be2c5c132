"""One cause, one finding: what several loads lose in the same run is told once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from linework.design.names import natural
from linework.findings.model import Evidence, Hit
from linework.findings.view import View
from linework.words import N_


def each_run_once(view: View, hits: Sequence[Hit], same_cause: Sequence[str]) -> Iterator[Hit]:
    """For each run that loses most, named last among the subjects, the gravest of its hits over
    all states, with the loads that fare as badly or a little better in the evidence.

    ``same_cause``: messages that tell of one use of a run, the gravest first; hits with any other
    message are told once for each message, and all of a run under the gravest of them.
    """
    groups: dict[tuple[str, str], list[Hit]] = {}
    for hit in hits:
        use = "" if hit.message in same_cause else hit.message
        groups.setdefault((hit.subjects[-1], use), []).append(hit)
    first = _gravest(groups)
    for key, group in groups.items():
        order = [*same_cause, *(hit.message for hit in group)]
        worst = min(group, key=lambda hit: (-hit.level, order.index(hit.message), _by_loss(hit)))
        others = sorted(
            {view.name(hit.subjects[0]) for hit in group} - {_name(view, worst)}, key=natural
        )
        beside = (Evidence(N_("so do"), None, "text", ", ".join(others)),) if others else ()
        alike = [h for h in group if (h.level, h.message) == (worst.level, worst.message)]
        if key in first:  # the run is too thin for it wherever it is for its other uses
            states = {hit.state for use in groups if use[0] == key[0] for hit in groups[use]}
            alike += [replace(worst, state=s) for s in sorted(states - {h.state for h in alike})]
        hangs = frozenset(key[:1]) if key in first else frozenset[str]()
        for hit in alike:
            evidence = (*hit.evidence, *beside)
            yield replace(hit, subjects=worst.subjects, evidence=evidence, explains=hangs)


def _gravest(groups: Mapping[tuple[str, str], Sequence[Hit]]) -> frozenset[tuple[str, str]]:
    """Of the uses of each run that has several the one in which most is lost."""
    by_run: dict[str, list[tuple[str, str]]] = {}
    for key in groups:
        by_run.setdefault(key[0], []).append(key)
    return frozenset(
        min(keys, key=lambda key: min((-hit.level, *_by_loss(hit)) for hit in groups[key]))
        for keys in by_run.values()
        if len(keys) > 1
    )


def _name(view: View, hit: Hit) -> str:
    return view.name(hit.subjects[0])


def _by_loss(hit: Hit) -> tuple[float, tuple[str, ...], str]:
    """The greatest part of the voltage first; of equal ones no order of looking decides."""
    return -(hit.evidence[0].value or 0.0), hit.subjects, hit.state
