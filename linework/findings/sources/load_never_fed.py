"""A load, an input or a converter that no state energises.

What is checked
    Over all permitted positions: whether some source ever reaches the load
    and its return; so for each side of a converter to which something is
    joined or on which what it feeds rests, from another source than the
    converter itself. Whether each battery is ever joined to anything that it
    could feed or be charged by, and each charger to a battery or load. And
    whether each input that is wired becomes live: of transfer switches, boards,
    inlets and outlets.
Why it matters
    It will not work; usually a wire, a plug or a neutral is missing.
How to cure it
    Follow its conductors back to the source in the every-wire view.
Limits
    Breakers count as closed. Nothing is told where not all was looked at. An
    inlet into which nothing is drawn to go is not judged, and it is said.
    Loads behind a dead input are not told of again.
Sources
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from linework.circuit.model import Circuit, LiveSource, Load
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.sources._inputs import dead_inputs, idle_converters, told_of
from linework.findings.view import Look, View
from linework.study.answers.through_loads import through_others
from linework.study.answers.trust import loaded_or_none
from linework.study.energised import in_use, reached_by_others
from linework.study.situation import Situation
from linework.study.ways.windings import wound_inputs
from linework.words import N_, say

MESSAGE = N_("No position of the levers feeds {where}.")
ONE_LEG = N_(
    "No position of the levers feeds {where}: both its hots hang on the same leg, with 0 V between"
    " them."
)
ONE_POST = N_(
    "No position of the levers feeds {where}: both its conductors come to the {post} of {source},"
    " with 0 V between them."
)
BY_METAL = N_(
    "No position of the levers feeds {where}: both its conductors come to the {post} of {source},"
    " one of them by the metal of {body}, with 0 V between them."
)
DC_SIDE = N_("No position of the levers brings power to the direct-current side of {where}.")
AC_SIDE = N_("No position of the levers brings power to the alternating-current side of {where}.")
IDLE = N_("No position of the levers joins {where} to anything that it could feed.")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each input, load, side of a converter, or battery that is dead in every state."""
    if not view.complete:
        return  # that is told; "never" would be a guess
    fed = {look.studies.circuit.loads[i].owner for look in view.settled_looks for i in _fed(look)}
    dead = dead_inputs(view, fed)
    yield from (told_of(view, item) for item in dead)
    told = {part for item in dead for part in item.parts}
    found = [*_loads(view, fed, {item.cluster for item in dead}), *_sides(view, told)]
    yield from found
    told = told.union(*(hit.subjects for hit in found))
    idle = list(idle_converters(view, told))
    yield from idle
    told = told.union(*(item.subjects for item in idle))
    for owner in _idle_sources(view):
        if owner not in told:
            yield _hit(view, owner, IDLE)


def _loads(view: View, fed: set[str], told: set[int]) -> Iterator[Hit]:
    """``told``: conductors, by what lasts, of which it is told already that they are dead."""
    if view.circuit is None or view.lasting is None:
        return
    label, one_leg, posts = view.lasting.cluster, _on_one_leg(view), _on_one_post(view)
    for load in view.circuit.loads:
        behind = {label[load.a], label[load.b]} & told
        if not load.data.own or load.owner in fed or behind:
            continue
        if load.owner in posts:
            message, words = posts[load.owner]
            yield _hit(view, load.owner, message, words)
        else:
            yield _hit(view, load.owner, ONE_LEG if load.owner in one_leg else MESSAGE)


def _on_one_leg(view: View) -> set[str]:
    """The parts both ends of whose load are on one live hot conductor in some state."""
    return {
        load.owner
        for look in view.settled_looks
        for _, load in look.studies.situation.loads
        for cluster in (look.studies.situation.clusters,)
        if cluster[load.a] == cluster[load.b] in look.studies.situation.hot_of
    }


def _on_one_post(view: View) -> dict[str, tuple[str, dict[str, str]]]:
    """The parts both ends of whose load on direct current come to one post of a battery or charger
    in some state: what is to be said of it."""
    found: dict[str, tuple[str, dict[str, str]]] = {}
    for look in view.settled_looks:
        situation = look.studies.situation
        label = situation.conductive
        for _, load in situation.loads:
            if load.data.hertz == 0.0 and load.data.own and label[load.a] == label[load.b]:
                told = _post(view, situation, load)
                found |= {} if told is None else {load.owner: told}
    return found


def _post(view: View, situation: Situation, load: Load) -> tuple[str, dict[str, str]] | None:
    label, bodies = situation.conductive, view.parts_that(lambda kind: kind.body)
    here, one_wire = label[load.a], situation.clusters[load.a] == situation.clusters[load.b]
    metal = [
        body
        for body in bodies
        if any(
            label[node] == here
            for nodes in situation.circuit.terminals_of.get(body, ())
            for node in nodes.values()
        )
    ]
    sources = sorted((s for _, s in situation.active), key=lambda s: not s.data.group.stores)
    for source in sources:
        if source.data.hertz == 0.0 and here in (label[source.plus], label[source.minus]):
            post = say("plus") if label[source.plus] == here else say("minus")
            words = {"post": post, "source": view.name(source.owner)}
            if metal and not one_wire:
                return BY_METAL, words | {"body": view.name(metal[0])}
            return (ONE_POST, words) if one_wire else None
    return None


def _sides(view: View, told: set[str]) -> Iterator[Hit]:
    """Of converters; ``told``: parts of which it is told already."""
    if view.circuit is None:
        return
    wound = wound_inputs(view.circuit)
    for index, load in enumerate(view.circuit.loads):
        if load.data.own or load.owner in told:
            continue
        if index in wound and _other_side_reached(view, view.circuit, load):
            continue  # the core brings power to this side from there
        if _in_use(view, view.circuit, load) and not _ever_reached(view, load):
            yield _hit(view, load.owner, DC_SIDE if load.data.hertz == 0.0 else AC_SIDE)


def _other_side_reached(view: View, circuit: Circuit, load: Load) -> bool:
    mine = [x for x in circuit.loads if x.owner == load.owner and x is not load]
    return any(_ever_reached(view, x) for x in mine)


def _fed(look: Look) -> set[int]:
    """The loads that get a voltage, be it through others: what they get is voltage-wrong's
    question."""
    loaded = loaded_or_none(look.studies)
    series = [] if loaded is None else [index for index, _ in through_others(look.studies, loaded)]
    return {*look.studies.energised.fed, *series}


def _idle_sources(view: View) -> list[str]:
    """Batteries, chargers and solar arrays that are joined to nothing in any state in which they
    are live; not a charger to whose battery side nothing is joined, nor a socket that is left
    free."""
    idle: dict[str, bool] = {}
    for look in view.settled_looks:
        situation = look.studies.situation
        for system in situation.systems:
            source = situation.circuit.sources[system.source]
            if source.data.hertz == 0.0 and _drawn(view, situation.circuit, source):
                unused = idle.get(system.owner, True) and not in_use(situation, system)
                idle[system.owner] = unused
    return sorted(owner for owner, unused in idle.items() if unused)


def _drawn(view: View, circuit: Circuit, source: LiveSource) -> bool:
    if source.data.group.stores or source.data.group.solar:
        return True
    terminals = {spot.terminal for spot in circuit.spots[source.plus] if spot.part == source.owner}
    seated = {seat.place for seat in view.design.seated_in(source.owner)}
    return any(view.design.runs_at(source.owner, t) or t in seated for t in terminals)


def _in_use(view: View, circuit: Circuit, load: Load) -> bool:
    """Whether a run ends at this input of a converter."""
    terminals = {spot.terminal for spot in circuit.spots[load.a] if spot.part == load.owner}
    return any(view.design.runs_at(load.owner, terminal) for terminal in terminals)


def _ever_reached(view: View, load: Load) -> bool:
    return any(
        reached_by_others(look.studies.situation, load.owner, load.a, load.b)
        for look in view.settled_looks
    )


def _hit(
    view: View, owner: str, message: str, words: Mapping[str, str] = MappingProxyType({})
) -> Hit:
    return Hit(
        Level.WARNING,
        (owner,),
        message,
        {"where": view.name(owner), **words},
        (Evidence(N_("states that feed it"), 0.0, "count"),),
    )


RULE = Rule(
    "load-never-fed",
    N_("Never fed"),
    check,
    {"NA": "practice", "INT": "practice"},
    causes=("battery-turned",),
    hangs_on=(
        "polarity-reversed",
        "neutral-missing",
        "metal-live",
        "conductors-shorted",
        "array-turned",
    ),
    whole=True,
)
