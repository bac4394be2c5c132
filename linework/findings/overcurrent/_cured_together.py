"""Several conductors behind one device that is too large for each: one smaller device cures all."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from linework.codes import made_below
from linework.findings.mending import rerate
from linework.findings.model import Hit, Level, Outcome
from linework.findings.view import View


def under_the_thinnest(view: View, outcomes: Iterable[Outcome]) -> list[Outcome]:
    """The same; of the hits that tell of one run and one device each, the one that allows least
    explains the others, where its first mend makes that device as small."""
    kept = list(outcomes)
    told = [hit for hit in kept if isinstance(hit, Hit) and _is_of_one_device(hit)]
    causes: dict[str, Hit] = {}
    for hit in sorted(told, key=lambda each: (_allowed_a(each), each.subjects[0])):
        if _makes_it_smaller(view, hit):
            causes.setdefault(hit.subjects[1], hit)
    first = {hit.subjects for hit in causes.values()}
    return [
        replace(each, explains=each.explains | _others(each, told))
        if isinstance(each, Hit) and each.subjects in first
        else each
        for each in kept
    ]


def _is_of_one_device(hit: Hit) -> bool:
    return hit.level is Level.DANGER and len(hit.subjects) == 2


def _allowed_a(hit: Hit) -> float:
    found = next((e.value for e in hit.evidence if e.name == "largest allowed"), None)
    return 0.0 if found is None else found


def _makes_it_smaller(view: View, hit: Hit) -> bool:
    device, allowed = hit.subjects[1], _allowed_a(hit)
    values = view.values(device)
    made = made_below(values.pick("type"), allowed) if view.kind(device).melts else ()
    wanted = {rerate(view, device, amps).title for amps in (*made, allowed)}
    return hit.mend is not None and hit.mend.title in wanted


def _others(cause: Hit, told: Iterable[Hit]) -> frozenset[str]:
    """The runs behind the same device that allow no less."""
    run, device = cause.subjects
    same = (hit for hit in told if hit.subjects[1] == device and hit.subjects[0] != run)
    return frozenset(hit.subjects[0] for hit in same if _allowed_a(hit) >= _allowed_a(cause))
