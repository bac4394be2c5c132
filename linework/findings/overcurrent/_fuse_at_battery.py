"""The mends for an unprotected battery cable: the fuse that it has put closer to the post, else one
put there."""

from __future__ import annotations

from linework.circuit.model import LiveSource
from linework.codes import CodesError, made_below
from linework.design import Run
from linework.findings.mending import in_turn, put_into, shift
from linework.findings.model import Mend
from linework.findings.view import Look, View
from linework.kinds import Answer, Remedy, remedy
from linework.quantity import write
from linework.study.ways.leads import Lead
from linework.study.wires.ratings import largest_device, rules_of
from linework.words import say

_FROM_POST = 0.8
"""Part of the allowed distance at which a fuse is put."""
_TYPE = "class_t"


def fuse_mend(view: View, look: Look, lead: Lead, source: LiveSource) -> Mend | None:
    """The device at the end of the run moved close to the battery, where it is one that can be
    moved along its conductors; else a class T fuse in the run, of the largest rating that the run
    allows.

    None where the run does not begin at the battery, where its size or length is not given, or
    where its loads ask for more than such a fuse carries.
    """
    run = view.run(lead.feed.run)
    if run is None or not source.data.group.stores:
        return None
    values = view.run_values(run.id)
    at_post = source.owner in (run.a.part, run.b.part)
    if not at_post or not all(map(values.has, ("size", "length"))):
        return None
    try:
        near = (
            _FROM_POST * rules_of(view.design).device_distance_m(view.place_of(source.owner)).value
        )
    except CodesError:
        return None
    moved, added = _moved(view, look, lead, run, near), _added(view, look, lead, run, near)
    return added if moved is None else moved.then(added)


def _moved(view: View, look: Look, lead: Lead, run: Run, near: float) -> Mend | None:
    """The device at the far end, with one run of known length behind it."""
    owners = {look.studies.circuit.devices[i].owner for i in lead.devices}
    ends = [end for end in (run.a, run.b) if end.part in owners]
    if len(ends) != 1 or view.design.seats_of(ends[0].part) or view.kind(ends[0].part).board:
        return None
    device, length = ends[0].part, view.run_values(run.id).num("length")
    behind = [each for each in view.design.runs_at(device) if each.id != run.id]
    rest = view.run_values(behind[0].id).opt("length") if len(behind) == 1 else None
    if rest is None or length <= near:
        return None
    title = say(
        "Move {device} close to {battery}",
        device=view.name(device),
        battery=view.name(lead.feed.system.owner),
    )
    return shift(title, device, {run.id: near, behind[0].id: rest + length - near})


def _added(view: View, look: Look, lead: Lead, run: Run, near: float) -> Mend | None:
    try:
        allowed = largest_device(view.design, run, view.ampacities.of_run(run), device="fuse").value
    except CodesError:
        return None
    drawn = look.studies.loaded.amps(lead.feed.branch)
    fitting = made_below(_TYPE, allowed, drawn)
    return in_turn(_of(view, lead, run, near, amps) for amps in fitting)


def _of(view: View, lead: Lead, run: Run, near: float, amps: float) -> Mend:
    whole = view.run_values(run.id).num("length")
    near = min(near, whole)
    battery = lead.feed.system.owner
    title = say(
        "Put a fuse of {amps} A into {run}, close to {battery}",
        amps=f"{amps:g}",
        run=view.name(run.id),
        battery=view.name(battery),
    )
    lengths = (near, whole - near) if run.a.part == battery else (whole - near, near)
    ratings: dict[str, Answer] = {
        "circuit": "dc",
        "rating": write(amps, "current"),
        "type": _TYPE,
    }
    return put_into(title, run, remedy(Remedy.FUSE).key, ratings, lengths)
