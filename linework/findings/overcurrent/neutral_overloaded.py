"""A neutral in which returns add up instead of cancelling.

What is checked
    In every state: each neutral conductor of each run whose loads and outlets
    are fed by several hot conductors of one phase, or by a hot conductor of
    another run, and each that has a size of its own. The most that devices,
    sources and drawn loads let flow in it for good, against its ampacity.
Why it matters
    Two hots of opposite legs leave the neutral only their difference. On one
    leg, or on a source that feeds both hots alike, it carries their sum, and
    no device sees it: it burns.
How to cure it
    Hots that share a neutral on opposite legs; a neutral of its own for each
    circuit where the source has only one leg.
Limits
    An outlet counts with all that its circuit gives. Harmonic currents of
    electronic loads are not counted. A neutral that returns by two ways at
    once is judged by what flows with the drawn loads on.
Sources
    NFPA 70 (2023) 210.4(A), 310.15(E), 710.15(C); IEC 60364-5-52 524.2.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from linework.circuit.incircuit import LINKS
from linework.codes import CodesError
from linework.design import Run
from linework.design.edits.seats import places_of, why_no_room
from linework.design.fits import on_two_legs
from linework.findings.mending import move
from linework.findings.model import Clear, Evidence, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.neutral.neutrals import Shared, shared_neutrals
from linework.study.slack import within
from linework.study.ways.protection import device_at, smallest
from linework.wiring import Pole
from linework.words import N_, say

SUM = N_(
    "The {neutral} of {run} returns {takers}, all in phase: up to {amps} A may flow in it, and it"
    " carries {ampacity} A."
)
BORROWED = N_(
    "The {neutral} of {run} also returns what other runs feed ({takers}): up to {amps} A may flow"
    " in it, and it carries {ampacity} A."
)
FITS = N_(
    "The {neutral} of {run} carries the sum of its {hots}, as they are in phase; but no more than"
    " {amps} A can flow, and it stands {ampacity} A."
)
THIN = N_(
    "The {neutral} of {run} is thinner than its {hots}: up to {amps} A of one of them may flow in"
    " it, and it carries {ampacity} A."
)
DRAWN = N_(
    "With the drawn loads on {amps} A flow in the {neutral} of {run}, more than in any of its"
    " {hots}, and it carries {ampacity} A."
)
NO_SIZE = N_("its {neutral} returns several {hots} of one phase; without a size it was not judged")
NO_TABLE = N_("{fault}")
MORE = 1.05
"""By so much a neutral's current must exceed that of its hots before it counts as more."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run; what is in phase and fits is said to be sound."""
    thin = {r.id for r in view.design.runs if view.run_values(r.id).has("neutral_size")}
    for look in view.orderly_looks:
        shared = [s for s in shared_neutrals(look.studies.situation, thin) if s.most_a > 0.0]
        for each in shared:
            run = view.run(look.studies.circuit.branches[each.branch].owner)
            if run is not None:
                yield from _judged(view, look, each, run)
        for branch, amps, own in _more_than_hots(look):
            run = view.run(look.studies.circuit.branches[branch].owner)
            if run is not None and branch not in {s.branch for s in shared}:
                most = min(amps, _let_through_a(look, run.id)) if own else amps
                yield from _judged(view, look, Shared(branch, (), (), most), run, DRAWN)


def _more_than_hots(look: Look) -> Iterator[tuple[int, float, bool]]:
    """The neutrals of runs in which more flows, with the drawn loads on, than in any of their
    hots: how much, and whether these alone bring it."""
    loaded, situation = loaded_or_none(look.studies), look.studies.situation
    if loaded is None:
        return
    hots: dict[str, list[float]] = {}
    neutrals: list[int] = []
    for i in sorted(situation.closed):
        branch = situation.circuit.branches[i]
        if branch.sort == "run" and branch.pole == Pole.N:
            neutrals.append(i)
        elif branch.sort == "run" and branch.pole.startswith("L"):
            hots.setdefault(branch.owner, []).append(loaded.amps(i))
    for i in neutrals:
        amps, beside = loaded.amps(i), hots.get(situation.circuit.branches[i].owner, [])
        if beside and amps > max(beside) * MORE + loaded.floor_a:
            yield i, amps, amps <= sum(beside) * MORE


def _let_through_a(look: Look, run: str) -> float:
    """What the devices before the hots of a run let through for good, in ampere: of each its
    rating for every contact, but for no more of them than it has hots here."""
    situation = look.studies.situation
    found = [smallest(situation, feed) for feed in look.studies.feeds if feed.run == run]
    if not found or None in found:
        return math.inf
    devices = [device for device in found if device is not None]
    return sum(
        device.data.rating_a * min(len(device.branches), devices.count(device))
        for device in dict.fromkeys(devices)
    )


def _judged(
    view: View, look: Look, shared: Shared, run: Run, message: str = ""
) -> Iterator[Outcome]:
    try:
        ampacity = _ampacity(view, look, shared, run)
    except KeyError:
        yield NotChecked(NO_SIZE, {}, (run.id,))
        return
    except CodesError as fault:
        yield NotChecked(NO_TABLE, {"fault": fault}, (run.id,))
        return
    words = {
        "run": view.name(run.id),
        "takers": ", ".join(dict.fromkeys(view.name(t.owner) for t in shared.takers)),
        "amps": f"{shared.most_a:.3g}",
        "ampacity": f"{ampacity:.3g}",
    }
    if within(shared.most_a, ampacity):
        if len(shared.hots) > 1:
            yield Clear((run.id,), FITS, words)
        return
    yield look.hit(
        Level.DANGER,
        (run.id,),
        message or _message(look, shared),
        words,
        (
            Evidence(N_("most current in the neutral"), shared.most_a, "current"),
            Evidence(N_("ampacity as installed"), ampacity, "current"),
            Evidence(N_("with the drawn loads on"), _drawn_a(look, shared), "current"),
        ),
        touches=frozenset(t.owner for t in shared.takers),
        mend=_mend(view, look, shared),
    )


def _message(look: Look, shared: Shared) -> str:
    if len(shared.hots) > 1:
        return SUM
    return THIN if _returns_only_its_own(look, shared) else BORROWED


def _returns_only_its_own(look: Look, shared: Shared) -> bool:
    """Whether all that hangs on a neutral is fed by the one hot conductor beside it."""
    situation = look.studies.situation
    without = situation.labels_without(frozenset(shared.hots), LINKS)
    sources = situation.circuit.sources
    return all(
        without[taker.hot] != without[sources[taker.system.source].plus] for taker in shared.takers
    )


def _ampacity(view: View, look: Look, shared: Shared, run: Run) -> float:
    """Of the neutral, in ampere. KeyError without a size, CodesError where no table has it."""
    values = view.run_values(run.id)
    if values.has("neutral_size"):
        sized = run.ratings.with_answer("size", values.text("neutral_size"))
        run = replace(run, ratings=sized)
    return view.ampacities.of_run(run, _device_a(look, shared)).value


def _device_a(look: Look, shared: Shared) -> float | None:
    """The device by which the terminals are judged: that before a hot conductor."""
    situation = look.studies.situation
    found = (device_at(situation, taker.system, taker.hot) for taker in shared.takers)
    return max((d.data.rating_a for d in found if d is not None), default=None)


def _drawn_a(look: Look, shared: Shared) -> float:
    return look.studies.loaded.amps(shared.branch)


def _mend(view: View, look: Look, shared: Shared) -> Mend | None:
    """A breaker of the hots moved to a free place on the other leg of its board."""
    for part_id in _breakers(view, look, shared):
        held = view.design.seats_of(part_id)[0]
        host = view.design.part(held.host)
        lines = {
            place.name: dict(place.offers).get(Pole.L) for place in places_of(view.design, host)
        }
        for place, line in lines.items():
            if line in (None, lines[held.place]):
                continue
            if not why_no_room(view.design, view.design.part(part_id), host, place):
                what, to = view.name(part_id), say("place {place}", place=place)
                title = say("Move {what} to {place} on the other leg", what=what, place=to)
                return move(title, held, host.id, place)
    return None


def _breakers(view: View, look: Look, shared: Shared) -> list[str]:
    """Single-pole breakers in boards before the takers, the last by name first."""
    situation = look.studies.situation
    found = set()
    for taker in shared.takers:
        device = device_at(situation, taker.system, taker.hot)
        if device is None:
            continue
        owner = device.owner
        seats = view.design.seats_of(owner)
        two = on_two_legs(view.kind(owner), view.values(owner))
        if seats and not two and view.kind(seats[0].host).board:
            found.add(owner)
    return sorted(found, key=view.order, reverse=True)


RULE = Rule(
    "neutral-overloaded",
    N_("{Neutral} carries the sum of its hots"),
    check,
    {"NA": "210.4, 310.15(E)", "INT": "524.2"},
    causes=("battery-turned",),
    hangs_on=("conductors-shorted",),
)
