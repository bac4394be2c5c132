"""Conductors that no device protects itself, held against those before what they serve."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from typing import TypeGuard

from linework.circuit.conductors import pole_size
from linework.circuit.model import Branch, Device
from linework.codes import CodesError
from linework.design import Run, pole_map
from linework.findings.mending import resize
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.view import Look, View
from linework.study.slack import exceeds, within
from linework.study.ways.bounds import Bound, beside, bounds
from linework.study.ways.leads import battery_posts
from linework.study.wires.ratings import (
    kind_of_device,
    largest_device,
    least_size,
    resized,
    size_carrying,
)
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

CARRIES = N_(
    "{run} carries what {device} lets through, {limit} A; its conductor allows {allowed} A at"
    " the most."
)
TOGETHER = N_(
    "Through {feeders} {limit} A can come into {run}; its conductor allows {allowed} A at the most."
)
NO_TABLE = N_("{fault}")


def beyond_bounds(view: View, look: Look) -> Iterator[Outcome]:
    """One hit for each that is too thin."""
    wanted = _wanted(view, look)
    if not wanted:
        return
    situation = look.studies.situation
    for item in (*bounds(situation, wanted), *bounds(situation, wanted, broken=True)):
        branch = look.studies.circuit.branches[item.branch]
        run = view.run(branch.owner)
        if run is not None:
            try:
                yield from _judged(view, look, run, Pole(branch.pole), item)
            except CodesError as fault:
                yield NotChecked(NO_TABLE, {"fault": fault}, (run.id,))


def one_each(outcomes: Iterable[Outcome]) -> list[Outcome]:
    """The same, all that is said of one conductor in the same words: where several sources let too
    much into it in one state, one alone may do so in another."""
    kept = list(outcomes)
    runs = {each.subjects[0] for each in kept if _says(each, TOGETHER)}
    return [_as_several(each) if _says(each, CARRIES, runs) else each for each in kept]


def _says(outcome: Outcome, message: str, of: Collection[str] | None = None) -> TypeGuard[Hit]:
    told = isinstance(outcome, Hit) and outcome.message == message
    return told and (of is None or outcome.subjects[0] in of)


def _as_several(hit: Hit) -> Hit:
    values = {**hit.values, "feeders": hit.values["device"]}
    return replace(hit, subjects=hit.subjects[:1], message=TOGETHER, values=values)


def _wanted(view: View, look: Look) -> list[int]:
    """Of a known size: neutrals and minuses in a run without a hot conductor or thinner than its
    only one, those that end on a chassis or hull among them; links of a string of batteries begin
    as a minus too. And the plus links of batteries beside each other."""
    circuit, posts = look.studies.circuit, battery_posts(look.studies.situation)
    return [
        index
        for index in look.studies.situation.closed
        if circuit.branches[index].sort in ("run", "bond")
        and (run := view.run(circuit.branches[index].owner)) is not None
        and view.run_values(run.id).has("size")
        and (_runs_apart(view, look, run, index) or _links(circuit.branches[index], posts))
    ]


def _links(branch: Branch, posts: Collection[int]) -> bool:
    """Whether it joins batteries of a bank, so that it has no device for itself."""
    return branch.pole == Pole.POS and branch.a in posts and branch.b in posts


def _runs_apart(view: View, look: Look, run: Run, index: int) -> bool:
    circuit = look.studies.circuit
    branch = circuit.branches[index]
    ends = {pole for pair in pole_map(view.design, run) if branch.pole == pair[0] for pole in pair}
    if ends.isdisjoint({Pole.N, Pole.NEG}):
        return False
    mine = circuit.branches_of[branch.owner]
    lines = sum(is_ungrounded(Pole(circuit.branches[i].pole)) for i in mine)
    return not lines or (lines == 1 and view.run_values(branch.owner).has("neutral_size"))


def _judged(view: View, look: Look, run: Run, pole: Pole, item: Bound) -> Iterator[Hit]:
    limit, device = item.inflow.amps, item.inflow.largest(look.studies.situation)
    own = resized(run, pole_size(view.run_values(run.id), pole))
    ampacity = view.ampacities.of_pole(run, pole, limit)
    twins = beside(look.studies.situation, item.branch)
    if len(twins) > 1 and own.ratings == run.ratings:
        ampacity = view.ampacities.with_twins(run, limit)
    share = _share(view, look, item.branch, twins)
    if device is not None and within(share * limit, ampacity.value):
        return
    if device is None:
        allowed = _held(view, look, own, item, ampacity.value)
    else:
        kind = kind_of_device(device.data.curve)
        allowed = largest_device(view.design, own, ampacity, device=kind).value
    if exceeds(limit, allowed):
        yield _hit(view, look, run, pole, (item, allowed))


def _share(view: View, look: Look, branch: int, twins: Collection[int]) -> float:
    """What part of a current a minus takes beside that of another circuit which a converter joins
    to it inside, by their resistances; all of it where a length is not given.

    Cables that are laid side by side for one current have no shares of their own (310.10(G)).
    """
    branches = look.studies.circuit.branches
    known = all(view.run_values(branches[i].owner).given("length") for i in twins)
    if len(twins) == 1 or not known or not _of_own_circuits(view, look, twins):
        return 1.0
    return (1.0 / branches[branch].r_hot) / sum(1.0 / branches[i].r_hot for i in twins)


def _of_own_circuits(view: View, look: Look, runs: Collection[int]) -> bool:
    """Whether each ends at a terminal of its own of one part, beside a plus of its own."""
    circuit = look.studies.circuit
    beside_them: dict[str, list[int]] = {}
    for i in runs:
        run = view.run(circuit.branches[i].owner)
        for end in () if run is None else (run.a, run.b):
            plus = circuit.terminals[end.part, end.terminal].get(Pole.POS)
            if plus is not None:
                beside_them.setdefault(end.part, []).append(plus)
    return any(len(set(plus)) == len(runs) for plus in beside_them.values())


def _held(view: View, look: Look, own: Run, item: Bound, ampacity: float) -> float:
    """What a conductor may carry of sources that bound themselves, in ampere."""
    sources = (look.studies.circuit.sources[i].data for i in item.inflow.sources)
    solar = all(source.group.solar for source in sources)
    return view.ampacities.sun_a(own) if solar else ampacity


def _hit(view: View, look: Look, run: Run, pole: Pole, found: tuple[Bound, float]) -> Hit:
    item, allowed = found
    feeders = item.inflow.owners(look.studies.situation)
    alone = len(feeders) == 1
    return look.hit(
        Level.DANGER,
        (run.id, *feeders) if alone else (run.id,),
        CARRIES if alone else TOGETHER,
        {
            "run": view.name(run.id),
            "device": view.name(feeders[0]),
            "feeders": view.names(feeders),
            "limit": f"{item.inflow.amps:.4g}",
            "allowed": f"{allowed:.4g}",
        },
        (
            Evidence(N_("device"), item.inflow.amps, "current"),
            Evidence(N_("largest allowed"), allowed, "current"),
        ),
        touches=frozenset({*feeders, *(system.owner for system in item.systems)}),
        mend=_mend(view, run, pole, item.inflow.amps, item.inflow.largest(look.studies.situation)),
    )


def _mend(view: View, run: Run, pole: Pole, amps: float, device: Device | None) -> Mend | None:
    thin = resized(run, pole_size(view.run_values(run.id), pole))
    if device is None:
        size = size_carrying(view.design, thin, amps)
    else:
        size = least_size(view.design, thin, amps, device=kind_of_device(device.data.curve))
    if size is None:
        return None
    own = pole is Pole.N and view.run_values(run.id).has("neutral_size")
    key = "neutral_size" if own else "size"

    return resize(view, run.id, size, key)
