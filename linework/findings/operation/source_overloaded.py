"""The drawn loads ask for more than a source gives.

What is checked
    In every state, with all drawn loads on: the current of each source, leg by
    leg, against its rated current; that of a supply against its breaker; all
    legs of a set together against its power. Of what charges only that which
    never has a battery beside it: as a converter alone it must carry the loads.
Why it matters
    The source trips, sags or overheats; a breaker opens just when it is needed.
How to cure it
    Fewer loads at once, a larger source, or loads moved to another leg; an
    input limit set on what charges.
Limits
    All drawn loads are taken to run together; which of them really do is for
    the user to say. Of two sets on their maker's kit one that runs alone is a
    note. Starting currents are judged elsewhere.
Sources
    NFPA 70 (2023) 445.13, 220; common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator

from linework.circuit.model import LiveSource
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.quantity import write
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.loaded import Loaded
from linework.study.slack import exceeds
from linework.words import N_, say

MESSAGE = N_("{where} would give {amps} A with all drawn loads on; it is rated {rated} A.")
LEG = N_("{leg} of {where} would give {amps} A with all drawn loads on; a leg is rated {rated} A.")
ALONE = N_(
    "{where} would give {amps} A while it runs alone with all drawn loads on; it is rated {rated}"
    " A. Start the other set of its kit before them."
)
SET = N_(
    "The legs of {where} together would give {kva} kVA with all drawn loads on; it is rated"
    " {rated} kVA."
)


_MOST_OF_IT = 0.8
"""From this share of its current on a conductor is overloaded with the source."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each source winding beyond its rating, or for all of a source together."""
    helped = {owner for look in view.settled_looks for owner in _with_store(look)}
    for look in view.settled_looks:
        loaded = loaded_or_none(look.studies)
        if loaded is not None:
            legs = list(_legs(view, look, loaded, helped))
            yield from legs
            yield from _sets(view, look, loaded, {hit.subjects for hit in legs})


def _with_store(look: Look) -> Iterator[str]:
    """What charges with a battery on its conductor, which gives what it cannot."""
    situation = look.studies.situation
    label, active = situation.conductive, situation.active
    stores = {label[s.plus] for _, s in active if s.data.group.stores}
    yield from (s.owner for _, s in active if s.data.group.charges and label[s.plus] in stores)


def _legs(view: View, look: Look, loaded: Loaded, helped: Collection[str]) -> Iterator[Hit]:
    circuit = look.studies.circuit
    for index, current in loaded.source_a.items():
        source = circuit.sources[index]
        rated = source.data.rated_a or _breaker_a(look, source.owner)
        group = source.data.group
        alone = group.charges and not group.needs_store and source.owner not in helped
        if rated is None or (group.limits_itself and not alone):
            continue  # neither can give more
        amps = abs(current)
        if exceeds(amps, rated):
            through = _through(look, loaded, amps)
            several = len(_beside(look, source)) > 1
            half = _helped(look, source)
            yield _hit(
                look,
                source.owner,
                ALONE if half else LEG if several else MESSAGE,
                {
                    "where": view.name(source.owner),
                    "leg": str(source.data.plus[1]),
                    "amps": f"{amps:.1f}",
                    "rated": f"{rated:.1f}",
                },
                Evidence(N_("current"), amps, "current"),
                Evidence(N_("rated"), rated, "current"),
                explains=through,
                mend=_input_limit(view, look, index, rated),
                level=Level.NOTE if half else Level.WARNING,
            )


def _helped(look: Look, source: LiveSource) -> bool:
    """Whether a set that is made to run beside this one is joined to it and stands still."""
    situation = look.studies.situation
    label, on = situation.conductive, {id(s) for _, s in situation.active}
    return source.data.in_step and any(
        other.data.in_step
        and id(other) not in on
        and other.owner != source.owner
        and (label[other.plus], label[other.minus]) == (label[source.plus], label[source.minus])
        for other in situation.circuit.sources
    )


def _input_limit(view: View, look: Look, source: int, rated_a: float) -> Mend | None:
    """Where one charger on the source can hold to an input limit and is set to none: that of the
    source, in whole ampere."""
    situation = look.studies.situation
    owners = {
        load.owner
        for _, load in situation.loads
        if "input_limit" in view.kind(load.owner).declared
        and source in {s.source for s in situation.feeds(load.a)}
    }
    open_ones = [owner for owner in owners if not view.values(owner).given("input_limit")]
    if len(open_ones) != 1 or rated_a < 1.0:
        return None
    (charger,) = open_ones
    limit = write(math.floor(rated_a), "current")
    title = say("Set the input limit of {what} to {limit}", what=view.name(charger), limit=limit)
    return change_part(title, charger, {"input_limit": limit})


def _through(look: Look, loaded: Loaded, amps: float) -> frozenset[str]:
    """The parts and runs that carry most of what a source gives."""
    branches = look.studies.circuit.branches
    closed = look.studies.situation.closed
    return frozenset(branches[i].owner for i in closed if loaded.amps(i) >= _MOST_OF_IT * amps)


def _sets(
    view: View, look: Look, loaded: Loaded, told: Collection[tuple[str, ...]]
) -> Iterator[Hit]:
    """Sources of which each leg is within its rating and all together are not."""
    seen: set[str] = set()
    for source in look.studies.circuit.sources:
        rated, owner = source.data.shared_va, source.owner
        if rated is None or owner in seen or (owner,) in told:
            continue
        seen.add(owner)
        given = sum(
            abs(loaded.source_a.get(i, 0j)) * s.data.volts for i, s in _beside(look, source)
        )
        if exceeds(given, rated):
            yield _hit(
                look,
                owner,
                SET,
                {
                    "where": view.name(owner),
                    "kva": f"{given / 1e3:.2f}",
                    "rated": f"{rated / 1e3:.2f}",
                },
                Evidence(N_("apparent power"), given, "apparent_power"),
                Evidence(N_("rated"), rated, "apparent_power"),
            )


def _beside(look: Look, source: LiveSource) -> list[tuple[int, LiveSource]]:
    """The windings that are on in the same group of the same part, itself included."""
    key = (source.owner, source.data.group, source.data.hertz)
    active = look.studies.situation.active
    return [(i, s) for i, s in active if (s.owner, s.data.group, s.data.hertz) == key]


def _hit(
    look: Look,
    owner: str,
    message: str,
    words: dict[str, object],
    *evidence: Evidence,
    explains: frozenset[str] = frozenset(),
    mend: Mend | None = None,
    level: Level = Level.WARNING,
) -> Hit:
    return look.hit(level, (owner,), message, words, evidence, explains=explains, mend=mend)


def _breaker_a(look: Look, owner: str) -> float | None:
    """The breaker of a supply stands for what it gives; a battery has no such limit here."""
    found = [d.data.rating_a for d in look.studies.circuit.devices if d.owner == owner]
    return min(found, default=None)


RULE = Rule(
    "source-overloaded",
    N_("Source overloaded"),
    check,
    {"NA": "445.13, 220", "INT": "551"},
    causes=("batteries-unlike", "battery-turned"),
    hangs_on=("metal-live", "conductors-shorted"),
)
