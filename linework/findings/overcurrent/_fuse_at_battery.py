"""The mend for an unprotected battery cable: a fuse close to the post."""

from __future__ import annotations

from linework.circuit.model import LiveSource
from linework.codes import CodesError
from linework.findings.mending import put_into
from linework.findings.model import Mend
from linework.findings.view import Look, View
from linework.kinds import Answer, Remedy, remedy
from linework.quantity import write
from linework.study.ways.leads import Lead
from linework.study.wires.ratings import largest_device, rules_of
from linework.words import say

_FROM_POST = 0.8
"""Part of the allowed distance at which the fuse is put."""


def fuse_mend(view: View, look: Look, lead: Lead, source: LiveSource) -> Mend | None:
    """A class T fuse in the run, of the largest rating that the run allows.

    None where the run does not begin at the battery, where its size or length is not given, or
    where its loads ask for more than such a fuse carries.
    """
    run = view.run(lead.feed.run)
    if run is None or not source.data.group.stores:
        return None
    at_a = run.a.part == source.owner
    values = view.run_values(run.id)
    if not (at_a or run.b.part == source.owner) or not all(map(values.has, ("size", "length"))):
        return None
    try:
        ampacity = view.ampacities.of_run(run)
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
    lengths = (near, whole - near) if at_a else (whole - near, near)
    ratings: dict[str, Answer] = {
        "circuit": "dc",
        "rating": write(amps, "current"),
        "type": "class_t",
    }
    return put_into(title, run, remedy(Remedy.FUSE).key, ratings, lengths)
