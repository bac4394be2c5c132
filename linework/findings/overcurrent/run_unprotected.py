"""A conductor that a source can feed without any overcurrent device between.

What is checked
    In every state: each ungrounded conductor of each run, from every source
    that reaches it. Batteries feed from every end.
Why it matters
    A short in it draws all that the source has, until the conductor burns.
How to cure it
    A fuse or breaker where the conductor begins.
Limits
    A first device within the distance that the place allows counts. Conductors
    that carry a source's greatest lasting current for good are protected by
    their size. A management system inside a battery is no overcurrent device.
    A starter's cable is exempt; no starter can be drawn yet.
Sources
    NFPA 70 (2023) 240.21, 445.13, 552.10(E)(4); IEC 60364-4-43 433; ABYC E-11.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError, family
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome, Rule
from linework.findings.view import Look, View
from linework.study.protection import Feed, feeds_of_runs, unguarded
from linework.study.ratings import run_ampacity
from linework.study.situation import Situation
from linework.words import N_

MESSAGE = N_(
    "{run} is fed by {source} without an overcurrent device between. A short in it ends only when"
    " something burns."
)
FAR = N_(
    "{run}: the first device lies {length} m from {source}; {allowed} m are allowed. Up to there"
    " nothing protects it."
)
UNKNOWN = N_("no size: whether it carries all that {source} can give was not judged")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run and source."""
    for look in view.settled_looks:
        situation = look.studies.situation
        for feed in feeds_of_runs(situation):
            branch = situation.circuit.branches[feed.branch]
            if feed.system.owner and unguarded(situation, branch.a, feed.system):
                yield from _unguarded(view, look, feed)


def _unguarded(view: View, look: Look, feed: Feed) -> Iterator[Outcome]:
    source = look.studies.circuit.sources[feed.system.source]
    if source.data.rated_a is not None:
        by_size = _by_size(view, feed.run, source.data.rated_a)
        if by_size is None:
            yield NotChecked(UNKNOWN, {"source": view.name(source.owner)}, (feed.run,))
        if by_size is not False:
            return
    if source.data.group == "cells":
        yield from _battery(view, look, feed)
        return
    yield _hit(view, look, feed, MESSAGE, ())


def _by_size(view: View, run_id: str, rated_a: float) -> bool | None:
    """Whether a run carries a source's rated current for good; None where that is not known.

    445.13 asks 115 % of the rated current of a generator.
    """
    run = view.run(run_id)
    if run is None or not view.run_values(run_id).has("size"):
        return None
    try:
        return run_ampacity(view.design, run).value >= 1.15 * rated_a
    except CodesError:
        return None


def _battery(view: View, look: Look, feed: Feed) -> Iterator[Outcome]:
    """The cable from the post to its first device may be as long as the place allows."""
    rules = family(view.family, view.design.settings.edition)
    allowed = rules.device_distance_m(view.place).value
    length = _length_m(view, look.studies.situation, feed)
    ends = _meets_device(look.studies.situation, feed)
    if not ends:
        yield _hit(view, look, feed, MESSAGE, ())
    elif length is None:
        return  # value-missing tells of the length
    elif length > allowed * (1.0 + 1e-9):
        evidence = (
            Evidence(N_("cable to the first device"), length, "length"),
            Evidence(N_("allowed"), allowed, "length"),
        )
        yield _hit(view, look, feed, FAR, evidence, length, allowed)


def _meets_device(situation: Situation, feed: Feed) -> bool:
    """Whether an end of the run is a terminal of a device."""
    branch = situation.circuit.branches[feed.branch]
    ends = {branch.a, branch.b}
    return any(
        ends & {situation.circuit.branches[i].a, situation.circuit.branches[i].b}
        for device in situation.circuit.devices
        for i in device.branches
    )


def _length_m(view: View, situation: Situation, feed: Feed) -> float | None:
    """Length of the run and of the runs before it, None where one is not given."""
    owners = {situation.circuit.branches[i].owner for i in (*feed.before, feed.branch)}
    total = 0.0
    for owner in owners:
        if view.run(owner) is not None:
            values = view.run_values(owner)
            if not values.has("length"):
                return None
            total += values.num("length")
    return total


def _hit(
    view: View,
    look: Look,
    feed: Feed,
    message: str,
    evidence: tuple[Evidence, ...],
    length: float = 0.0,
    allowed: float = 0.0,
) -> Hit:
    source = look.studies.circuit.sources[feed.system.source]
    strongest = source.data.volts / max(source.data.ohm_r.low, 1e-9)
    if not evidence:
        evidence = (Evidence(N_("most current of the source"), strongest, "current"),)
    return Hit(
        Level.DANGER,
        (feed.run,),
        message,
        {
            "run": view.name(feed.run),
            "source": view.name(source.owner),
            "length": f"{length:.2f}",
            "allowed": f"{allowed:.2f}",
        },
        evidence,
        look.state,
        look.case,
        frozenset({source.owner}),
    )


RULE = Rule(
    "run-unprotected",
    N_("Conductor without overcurrent protection"),
    check,
    {"NA": "240.21, 552.10(E)", "INT": "433"},
)
