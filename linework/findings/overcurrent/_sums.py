"""Conductors into which several sources, or several ways, together let more than they carry."""

from __future__ import annotations

from dataclasses import dataclass, replace

from linework.codes import CodesError, made_below
from linework.design import Run
from linework.findings.mending import in_turn, put_into, resize
from linework.findings.model import Clear, Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.overcurrent._ends import Led, end_of, is_short_lead, is_tap
from linework.findings.view import Look, View
from linework.kinds import Answer, Remedy, remedy
from linework.quantity import write
from linework.study.situation import Situation, System
from linework.study.slack import within
from linework.study.ways.leads import starter_cables
from linework.study.ways.protection import Feed, Guard
from linework.study.ways.sums import Inflow, Sum, sums, takes
from linework.study.wires.ratings import (
    DeviceKind,
    kind_of_device,
    least_size,
    size_carrying,
)
from linework.wiring import Pole, is_dc
from linework.words import N_, say

TOGETHER = N_(
    "Through {feeders} {limit} A can come into {run} before anything opens; its conductors allow"
    " {allowed} A at the most."
)
ITSELF = N_(
    "{run} can carry {limit} A for good: what {feeders} give adds up in it. Its conductors allow"
    " {allowed} A at the most."
)
FAULT_ONLY = N_(
    "{feeders} together let {limit} A into {run}, which allows {allowed} A, and that is right:"
    " {end} at its end holds what it carries in use; a short in it draws enough for all to open."
)
NO_TABLE = N_("{fault}")

_BEGINNING_M = 0.1
"""Length of the lead to a fuse that is put where a run begins (common practice, no source)."""


@dataclass(frozen=True)
class _Excess:
    """A conductor into which more comes together than it allows.

    ``allowed_a``: the largest device, where devices bound what comes; else its ampacity.
    """

    look: Look
    run: Run
    item: Sum
    kind: DeviceKind
    ampacity_a: float
    allowed_a: float

    @property
    def inflow(self) -> Inflow:
        return self.item.inflow

    @property
    def feeders(self) -> list[str]:
        """The owners of the devices that bound it, and of the sources that bound themselves."""
        return self.inflow.owners(self.situation)

    @property
    def situation(self) -> Situation:
        return self.look.studies.situation


def added_up(view: View) -> tuple[list[Outcome], frozenset[str]]:
    """One hit for each run and circuit in which too much adds up; and the runs it tells of."""
    outcomes: list[Outcome] = []
    told: set[str] = set()
    for look in view.orderly_looks:
        worst: dict[str, _Excess] = {}
        for item in sums(look.studies.situation):
            try:
                excess = _excess(view, look, item)
            except CodesError as fault:
                outcomes.append(NotChecked(NO_TABLE, {"fault": fault}, (item.run,)))
                continue
            if excess is not None:
                known = worst.setdefault(item.run, excess)
                worst[item.run] = max(known, excess, key=lambda each: each.inflow.amps)
        found = [_outcome(view, excess) for excess in worst.values()]
        outcomes += found
        told.update(hit.subjects[0] for hit in found if isinstance(hit, Hit))
    return outcomes, frozenset(told)


def _excess(view: View, look: Look, item: Sum) -> _Excess | None:
    """None where the run carries it, or may be protected by what lies at its end, or needs no
    device at all as the cable of a starter."""
    run = view.run(item.run)
    if item.branch in starter_cables(look.studies.situation):
        return None
    if run is None or not view.run_values(run.id).has("size"):
        return None
    limit, device = item.inflow.amps, item.inflow.largest(look.studies.situation)
    kind = kind_of_device("breaker" if device is None else device.data.curve)
    ampacity = view.ampacities.with_twins(run, limit).value
    allowed = _allowed_a(view, look, run, item, ampacity, kind)
    if within(limit, allowed):
        return None
    excess = _Excess(look, run, item, kind, ampacity, allowed)
    return None if _ends_well(view, excess) else excess


def _allowed_a(
    view: View, look: Look, run: Run, item: Sum, ampacity: float, kind: DeviceKind
) -> float:
    if item.inflow.devices:
        return view.ampacities.largest_device(run, item.inflow.amps, kind).value
    sources = (look.studies.circuit.sources[i].data for i in item.inflow.sources)
    solar = all(source.group.solar for source in sources)
    return view.ampacities.sun_a(run) if solar else ampacity


def _ends_well(view: View, excess: _Excess) -> bool:
    """Whether it is a short lead or a tap that leads to a device small enough."""
    system = _before(excess)
    if system is None:
        return False
    feed = Feed(excess.run.id, excess.item.branch, system, Guard())
    limit = excess.inflow.amps
    led = Led(excess.run, feed, limit, excess.ampacity_a, excess.allowed_a)
    if is_short_lead(view, excess.look, led):
        return True
    return end_of(view, excess.look, led) is not None and is_tap(view, led)


def _before(excess: _Excess) -> System | None:
    """A source on the side from which it comes; None in a ring."""
    item, situation = excess.item, excess.situation
    label = situation.labels_without(frozenset({item.branch}))
    sources = situation.circuit.sources
    here = [
        s for s in situation.feeds(item.near) if label[sources[s.source].plus] == label[item.near]
    ]
    return here[0] if here and label[item.far] != label[item.near] else None


def as_sum(hit: Hit) -> Hit:
    """A hit of the same run and one device, told in the same words, so that it is one finding."""
    values = hit.values
    told = {key: values[key] for key in ("run", "allowed")}
    told |= {"limit": values["rating"], "feeders": values["device"]}
    return replace(hit, subjects=hit.subjects[:1], message=TOGETHER, values=told)


def _outcome(view: View, excess: _Excess) -> Outcome:
    taken = takes(excess.situation, excess.item)
    end = taken.largest(excess.situation)
    if end is not None and within(taken.amps, excess.allowed_a):
        words = {**_words(view, excess), "end": view.name(end.owner)}
        return Clear((excess.run.id,), FAULT_ONLY, words, quiet=True)
    return _hit(view, excess)


def _words(view: View, excess: _Excess) -> dict[str, str]:
    return {
        "run": view.name(excess.run.id),
        "limit": f"{excess.inflow.amps:.4g}",
        "allowed": f"{excess.allowed_a:.4g}",
        "feeders": view.names(excess.feeders),
    }


def _hit(view: View, excess: _Excess) -> Hit:
    return excess.look.hit(
        Level.DANGER,
        (excess.run.id,),
        TOGETHER if excess.inflow.devices else ITSELF,
        _words(view, excess),
        (
            Evidence(N_("comes together"), excess.inflow.amps, "current"),
            Evidence(N_("largest allowed"), excess.allowed_a, "current"),
        ),
        touches=frozenset(
            {*excess.feeders, *(s.owner for s in excess.situation.feeds(excess.item.near))}
        ),
        mend=_mend(view, excess),
    )


def _mend(view: View, excess: _Excess) -> Mend | None:
    """A fuse where it begins, if its loads allow that; else a thicker run."""
    fuse, thicker = _fuse(view, excess), _thicker(view, excess)
    return thicker if fuse is None else fuse.then(thicker)


def _fuse(view: View, excess: _Excess) -> Mend | None:
    """Of direct current alone: the fuse that is put is one for that."""
    run, values = excess.run, view.run_values(excess.run.id)
    branch = excess.situation.circuit.branches[excess.item.branch]
    if not is_dc(Pole(branch.pole)) or not values.has("length"):
        return None
    try:
        allowed = view.ampacities.largest_device(run, excess.allowed_a, "fuse").value
    except CodesError:
        return None
    drawn = excess.look.studies.loaded.amps(excess.item.branch)
    return in_turn(_fuse_of(view, excess, amps) for amps in made_below("class_t", allowed, drawn))


def _fuse_of(view: View, excess: _Excess, amps: float) -> Mend:
    run, values = excess.run, view.run_values(excess.run.id)
    branch = excess.situation.circuit.branches[excess.item.branch]
    at_a, whole = excess.item.near == branch.a, values.num("length")
    near = min(_BEGINNING_M, whole)
    beginning = run.a if at_a else run.b
    title = say(
        "Put a fuse of {amps} A into {run}, at {beginning}",
        amps=f"{amps:g}",
        run=view.name(run.id),
        beginning=view.name(beginning.part),
    )
    ratings: dict[str, Answer] = {
        "circuit": "dc",
        "rating": write(amps, "current"),
        "type": "class_t",
    }
    lengths = (near, whole - near) if at_a else (whole - near, near)
    return put_into(title, run, remedy(Remedy.FUSE).key, ratings, lengths)


def _thicker(view: View, excess: _Excess) -> Mend | None:
    limit = excess.inflow.amps
    if excess.inflow.devices:
        size = least_size(view.design, excess.run, limit, device=excess.kind)
    else:
        size = size_carrying(view.design, excess.run, limit)
    return None if size is None else resize(view, excess.run.id, size)
