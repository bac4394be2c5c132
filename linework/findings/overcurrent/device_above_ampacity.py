"""A device larger than the conductor it protects.

What is checked
    In every state: for each live conductor of each run the device between it
    and each source, against the largest that its corrected ampacity allows. A
    neutral or minus in a run or of a size of its own, or a link of batteries in
    series or beside each other, against what the devices before all that it serves
    let through; a
    battery's lead against the device at which it ends. The device before a single
    load against the largest on its nameplate, before a single appliance of heat
    else against 150 % of its current.
Why it matters
    The conductor overheats and the device never notices.
How to cure it
    A smaller device or a thicker conductor.
Limits
    A motor, air conditioner or welder may have a larger device on the wires that
    feed nothing else: by its nameplate, else by 430.52; "why it is sound" says
    so. Where only a nameplate could tell, nothing is judged and it is said, nor
    where 310.12 would allow it if the building is one dwelling. Ground wires are
    not sized by ampacity, nor neutrals that a mistake makes a second leg. What a
    source cannot exceed for good needs no device. A short battery lead that ends
    at a device small enough is bounded by it; so is a tap of a feeder (10 ft, or
    25 ft with a third of the device's rating), but not in low-voltage wiring
    aboard. A cord that ends at one, as that of a coach at its main, is a note:
    only a short in it is left to the larger device. Equal conductors of 1/0 AWG
    or thicker between the same terminals count together. What several sources, or
    several ways, let into one conductor adds up; of a battery's own lead, into
    which the others drive no more than its fuse lets through to it, only a short
    is left to them, and "why it is sound" says so.
Sources
    NFPA 70 (2023) 240.4, 240.5, 240.21(B), 310.12, 310.15, 110.14(C), 430.22,
    430.52, 440.22, 445.13, 552.10(E)(1), 422.11(E), 630.11 (310.12, 422, 630 from
    memory); 33 CFR 183.425; ABYC E-11; IEC 60364-4-43 433.1.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import Device
from linework.codes import CodesError, Step, Worked, is_made, made_below
from linework.design import Run
from linework.findings.mending import in_turn, rerate, resize
from linework.findings.model import Clear, Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.overcurrent._bounds import beyond_bounds, one_each
from linework.findings.overcurrent._cured_together import under_the_thinnest
from linework.findings.overcurrent._dwelling import dwelling_verdict
from linework.findings.overcurrent._ends import Led, end_of, is_short_lead, is_tap
from linework.findings.overcurrent._motors import above_plate, motor_verdict
from linework.findings.overcurrent._sound import fitting_devices
from linework.findings.overcurrent._sums import added_up, as_sum
from linework.findings.overcurrent._vehicle_cords import vehicle_cords
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.slack import exceeds, within
from linework.study.ways.leads import leads, starter_cables
from linework.study.ways.paths import volts_between
from linework.study.ways.protection import Feed, beyond, faces_together, held_a, smallest
from linework.study.wires.ratings import (
    DeviceKind,
    kind_of_device,
    largest_device,
    least_size,
    low_voltage,
    rules_of,
    thin_limit,
)
from linework.wiring import Pole
from linework.words import N_, begun_small

MESSAGE = N_(
    "{device} of {rating} A protects {run}, whose conductors allow {allowed} A at the most"
    " ({ampacity} A: {decided})."
)
BOUNDED = N_(
    "{device} of {rating} A protects {run}, whose conductors carry {ampacity} A. {end} at its end"
    " keeps the load within that; only a short in it is left to the larger device."
)
STARTER = N_(
    "{run} lies behind {device} of {rating} A, more than it allows, and that is right: it feeds the"
    " starter of an engine and needs no device at all."
)
NO_TABLE = N_("{fault}")

_FAR_ABOVE = 1.2
"""From so many times the highest voltage at which a load works no cable brings it down to that."""


@dataclass(frozen=True)
class Pair:
    """A conductor and the device before it, with what the conductor allows, in ampere."""

    feed: Feed
    run: Run
    device: Device
    ampacity: Worked[float]
    allowed: Worked[float]
    kind: DeviceKind
    several_outlets: bool

    @property
    def led(self) -> Led:
        """What may come into the conductor, and what it allows."""
        figures = self.device.data.rating_a, self.ampacity.value, self.allowed.value
        return Led(self.run, self.feed, *figures)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run and device, or for a run in which several add up; devices that all their
    conductors allow are sound."""
    outcomes, told = added_up(view)
    outcomes += vehicle_cords(view)
    for look in view.settled_looks:
        single = (*_protected(view, look), *beyond_bounds(view, look), *_leads(view, look))
        outcomes += [each for each in single if told.isdisjoint(each.subjects)]
        outcomes += [as_sum(hit) for hit in single if isinstance(hit, Hit) and _is_of(hit, told)]
    outcomes = under_the_thinnest(view, one_each(outcomes))
    hits = [each for each in outcomes if isinstance(each, Hit)]
    wrong = {each for hit in hits for each in (*hit.subjects, *hit.touches)}
    yield from outcomes
    yield from (sound for sound in fitting_devices(view) if wrong.isdisjoint(sound.subjects))


def _is_of(hit: Hit, runs: frozenset[str]) -> bool:
    """Whether it tells of one of these runs that a device is too large for it."""
    return hit.message == MESSAGE and not runs.isdisjoint(hit.subjects)


def _protected(view: View, look: Look) -> Iterator[Outcome]:
    for feed in look.studies.feeds:
        device = smallest(look.studies.situation, feed)
        run = view.run(feed.run)
        if device is None or run is None or _neutral_made_hot(look, feed):
            continue
        if view.run_values(run.id).has("size"):
            yield from _judged(view, look, feed, run, device)


def _neutral_made_hot(look: Look, feed: Feed) -> bool:
    """A neutral on which a mistake puts another leg, so that loads on it get far more than they
    bear, as "voltage-wrong" says: what protects it then is a question about a wrong circuit."""
    situation = look.studies.situation
    branch = situation.circuit.branches[feed.branch]
    if branch.pole != Pole.N:
        return False
    here = situation.clusters[branch.a]
    return any(
        here in (situation.clusters[load.a], situation.clusters[load.b])
        and volts_between(situation, load.a, load.b) > _FAR_ABOVE * load.data.works_v[1]
        for _, load in situation.loads
        if load.data.own
    )


def _leads(view: View, look: Look) -> Iterator[Outcome]:
    """The leads of a battery up to their first device, which alone bounds their current."""
    circuit = look.studies.circuit
    lengths = {run.id: view.run_values(run.id).opt("length") for run in view.design.runs}
    for lead in leads(look.studies.situation, look.studies.feeds, lengths):
        run = view.run(lead.feed.run)
        cells = circuit.sources[lead.feed.system.source].data.group.stores
        if run is None or not (cells and lead.devices) or lead.jumper or lead.cranking:
            continue
        if view.run_values(run.id).has("size"):
            ends = [circuit.devices[i] for i in lead.devices]
            device = max(ends, key=lambda end: (end.data.rating_a, end.data.curve))
            yield from _judged(view, look, lead.feed, run, device, lead=True)


def _judged(
    view: View, look: Look, feed: Feed, run: Run, device: Device, lead: bool = False
) -> Iterator[Outcome]:
    try:
        pair = _pair(view, look, feed, run, device)
    except CodesError as fault:
        limit = thin_limit(view.design, run)
        if limit is None or within(device.data.rating_a, limit.value):
            yield NotChecked(NO_TABLE, {"fault": fault}, (run.id,))
        else:
            kind = kind_of_device(device.data.curve)
            yield _hit(view, look, Pair(feed, run, device, limit, limit, kind, False))
        return
    if pair is None:
        plate = above_plate(view, look, feed, device)
        yield from () if plate is None else (plate,)
        return
    if not lead and is_short_lead(view, look, pair.led):
        return
    if feed.branch in starter_cables(look.studies.situation):
        words = {"run": view.name(run.id), "device": view.name(device.owner)}
        yield Clear((run.id,), STARTER, words | {"rating": f"{device.data.rating_a:g}"})
        return
    outcome: Outcome | None = motor_verdict(view, look, feed, device, pair.ampacity)
    outcome = outcome or dwelling_verdict(view, look, feed, device, pair.ampacity)
    outcome = outcome or _bounded(view, look, pair)
    yield _hit(view, look, pair) if outcome is None else outcome


def _pair(view: View, look: Look, feed: Feed, run: Run, device: Device) -> Pair | None:
    """None where the conductor stands the device. CodesError where no table tells."""
    rating, kind = device.data.rating_a, kind_of_device(device.data.curve)
    ampacity = view.ampacities.with_twins(run, rating)
    if _carries_all(look, feed, ampacity):
        return None
    allowed = view.ampacities.largest_device(run, rating, kind)
    several = False
    if ampacity.value < rating and within(rating, allowed.value):  # only by rounding up
        several = _several_outlets(view, look, feed)
        allowed = largest_device(view.design, run, ampacity, device=kind, several_outlets=several)
    if within(rating, allowed.value):
        return None
    return Pair(feed, run, device, ampacity, allowed, kind, several)


def _carries_all(look: Look, feed: Feed, ampacity: Worked[float]) -> bool:
    """A source that can never drive more than the conductor carries needs no device for it."""
    return within(held_a(look.studies.situation, feed.system), ampacity.value)


def _several_outlets(view: View, look: Look, feed: Feed) -> bool:
    """Whether a branch circuit feeds more than one outlet for cords and plugs (240.4(B)(1))."""
    situation = look.studies.situation
    owners = {situation.circuit.faces[i].owner for i in faces_together(situation, feed)}
    outlets = sum(
        view.values(owner).num("duplex") for owner in owners if view.kind(owner).receptacle
    )
    return outlets > 1 and not beyond(situation, feed).devices


def _bounded(view: View, look: Look, pair: Pair) -> Outcome | None:
    """Sound or a note where a conductor leads to a single device that is small enough; None where
    it does not, or is no cord and too long or too thin for a tap (240.21(B)(1) and (2))."""
    end = end_of(view, look, pair.led)
    if end is None:
        return None
    rating, subjects = pair.device.data.rating_a, (pair.run.id, pair.device.owner)
    words = {
        "device": view.name(pair.device.owner),
        "rating": f"{rating:g}",
        "run": view.name(pair.run.id),
        "ampacity": f"{pair.ampacity.value:.3g}",
        "end": view.name(end.owner),
    }
    if view.run_values(pair.run.id).pick("installation") == "cord":
        figures = (Evidence(N_("device"), rating, "current"),
                   Evidence(N_("device at its end"), end.data.rating_a, "current"))  # fmt: skip
        return look.hit(Level.NOTE, subjects, BOUNDED, words, figures, clause="240.5")
    return Clear(subjects, BOUNDED, words, "240.21(B)") if is_tap(view, pair.led) else None


def _hit(view: View, look: Look, pair: Pair) -> Hit:
    rating, allowed = pair.device.data.rating_a, pair.allowed
    return look.hit(
        Level.DANGER,
        (pair.run.id, pair.device.owner),
        MESSAGE,
        {
            "device": view.name(pair.device.owner),
            "rating": f"{rating:g}",
            "run": view.name(pair.run.id),
            "allowed": f"{allowed.value:.4g}",
            "ampacity": f"{pair.ampacity.value:.3g}",
            "decided": begun_small(_decided_by(pair).what),
        },
        (
            Evidence(N_("device"), rating, "current"),
            Evidence(N_("largest allowed"), allowed.value, "current"),
            Evidence(N_("ampacity as installed"), pair.ampacity.value, "current"),
        ),
        touches=frozenset({pair.feed.system.owner}),
        mend=_mend(view, look, pair),
        clause=_clause(view, pair),
    )


def _decided_by(pair: Pair) -> Step:
    """What set the limit: a rule for devices, else what set the ampacity."""
    step = pair.allowed.decided_by
    return pair.ampacity.decided_by if step.effect == "start" else step


def _clause(view: View, pair: Pair) -> str:
    """The clause for devices, with that which decided the figure."""
    clause = _decided_by(pair).figure.clause.removeprefix(f"{rules_of(view.design).title} ")
    if clause.startswith("240") or low_voltage(view.design, pair.run):
        return clause
    cord = view.run_values(pair.run.id).pick("installation") == "cord"
    return f"{'240.5(A)' if cord else '240.4'}, {clause}"


def _mend(view: View, look: Look, pair: Pair) -> Mend | None:
    """The largest device allowed, where it carries the drawn loads; else a thicker run."""
    amps = max((look.studies.loaded.amps(i) for i in pair.device.branches), default=0.0)
    smaller, thicker = _smaller_device(view, pair, amps), _thicker(view, pair)
    return thicker if smaller is None else smaller.then(thicker)


def _smaller_device(view: View, pair: Pair, drawn_a: float) -> Mend | None:
    """Of fuses those that somebody makes, the largest first; of breakers the standard rating that
    is just allowed."""
    owner, amps = pair.device.owner, pair.allowed.value
    kind = view.kind(owner)
    if "rating" not in kind.declared or exceeds(drawn_a, amps):
        return None
    made = made_below(pair.device.data.curve, amps, drawn_a) if kind.melts else ()
    bought = is_made(pair.device.data.curve, amps) and _is_standard(view, amps, pair.kind)
    if not made and not bought:
        return None
    return in_turn(rerate(view, owner, each) for each in made or (amps,))


def _is_standard(view: View, amps: float, kind: DeviceKind) -> bool:
    try:
        return rules_of(view.design).standard_up(amps, kind).value == amps
    except CodesError:
        return False


def _thicker(view: View, pair: Pair) -> Mend | None:
    size = least_size(
        view.design,
        pair.run,
        pair.device.data.rating_a,
        device=pair.kind,
        several_outlets=pair.several_outlets,
    )
    if size is None:
        return None

    return resize(view, pair.run.id, size)


RULE = Rule(
    "device-above-ampacity",
    N_("Device too large for the conductor"),
    check,
    {"NA": "240.4", "INT": "433.1, 523"},
    causes=(
        "batteries-unlike",
        "battery-turned",
        "run-unprotected",
    ),
    hangs_on=("polarity-reversed", "device-in-grounded-conductor", "pins-live"),
)
