"""The mend for an unprotected battery cable: a fuse close to the post."""

from __future__ import annotations

from collections.abc import Mapping

from linework.circuit.model import LiveSource
from linework.codes import CodesError
from linework.design import Change, Design, Part, Run, merged
from linework.design.edits import insert_on_run, rate_run
from linework.findings.model import Mend
from linework.findings.view import Look, View
from linework.kinds import Answer
from linework.quantity import write
from linework.study.leads import Lead
from linework.study.ratings import largest_device, rules_of
from linework.words import say

_FROM_POST = 0.8
"""Part of the allowed distance at which the fuse is put."""


def fuse_mend(view: View, look: Look, lead: Lead, source: LiveSource) -> Mend | None:
    """A class T fuse in the run, of the largest rating that the run allows.

    None where the run does not begin at the battery, where its size or length is not given, or
    where its loads ask for more than such a fuse carries.
    """
    run = view.run(lead.feed.run)
    if run is None or source.data.group != "cells":
        return None
    at_a = run.a.part == source.owner
    values = view.run_values(run.id)
    if not (at_a or run.b.part == source.owner) or not all(map(values.has, ("size", "length"))):
        return None
    try:
        ampacity = view.ampacity(run)
        amps = largest_device(view.design, run, ampacity, device="fuse").value
        allowed = rules_of(view.design).device_distance_m(view.place).value
    except CodesError:
        return None
    if look.studies.loaded.amps(lead.feed.branch) > amps:
        return None
    whole = values.num("length")
    near = min(_FROM_POST * allowed, whole)
    title = say(
        "Put a fuse of {amps} A into {run}, close to {battery}",
        amps=f"{amps:g}",
        run=view.name(run.id),
        battery=view.name(source.owner),
    )
    return Mend(title, lambda design: _with_fuse(design, run, at_a, amps, (near, whole - near)))


def _with_fuse(
    design: Design, run: Run, at_a: bool, amps: float, lengths: tuple[float, float]
) -> Change:
    """The run cut in two round a fuse; the shorter piece lies at the battery."""
    ratings: dict[str, Answer] = {
        "circuit": "dc",
        "rating": write(amps, "current"),
        "type": "class_t",
    }
    ends = [design.part(end.part) for end in (run.a, run.b)]
    middle = (ends[0].x + ends[1].x) // 50 * 25, (ends[0].y + ends[1].y) // 50 * 25
    inserted = insert_on_run(design, run.id, "fuse", at=middle, ratings=ratings)
    copy = design.snapshot()
    copy.apply(inserted)
    added = next(new for new in _new(inserted) if isinstance(new, Run))
    near, rest = (write(length, "length") for length in lengths)
    pieces: Mapping[str, str] = {run.id: near if at_a else rest, added.id: rest if at_a else near}
    change = merged(inserted.title, inserted)
    for run_id, length in pieces.items():
        step = rate_run(copy, run_id, {"length": length})
        copy.apply(step)
        change = merged(inserted.title, change, step)
    return change


def _new(change: Change) -> list[Part | Run]:
    return [
        now
        for before, now in change.pairs.values()
        if before is None and isinstance(now, Part | Run)
    ]
