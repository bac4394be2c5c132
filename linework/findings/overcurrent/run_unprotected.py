"""A conductor that a source can feed without any overcurrent device between.

What is checked
    In every state: each live conductor of each run, from every source that
    reaches it. Batteries feed from every end. Where several ways lead from a
    source to a conductor, one without a device is enough.
Why it matters
    A short in it draws all that the source has, until the conductor burns.
How to cure it
    A fuse or breaker where the conductor begins.
Limits
    On direct current a first device counts that lies within the distance that
    the place allows, measured along the conductors from the nearest post of
    the bank; a run in conduit counts as sheathed, others where they say so. Jumpers
    between batteries may be as long as a sheathed lead may (common practice,
    no source). Conductors that carry a source's greatest lasting current for
    good are protected by their size: a generator's from 115 % of its rated
    current on, a solar array's by 690.8(B). A management system inside a
    battery is no overcurrent device.
    The way from a battery to the starter of an engine is exempt, and "why it is
    sound" says so; what is tapped off it is measured from the tap. Runs of
    unknown length are not judged by distance; "value missing" names them. Where metal is joined
    to a battery's plus, loads that no device parts from its minus are told, and no distance is
    judged. What a battery that is turned round drives is told as that, where a device lies at
    its minus post.
Sources
    NFPA 70 (2023) 240.4(F), 240.21, 445.13, 552.10(E)(4), 690.8; IEC 60364-4-43 433;
    ABYC E-11; a starter's cable in vehicles: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Literal

from linework.circuit.model import LiveSource
from linework.codes import CodesError
from linework.findings.model import Clear, Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.overcurrent._fuse_at_battery import fuse_mend
from linework.findings.overcurrent._grounded_plus import bare_minus
from linework.findings.overcurrent._secondary import breaker_mend, short_secondary
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.quantity import show
from linework.study.slack import exceeds, within
from linework.study.ways.banks import grounded_plus, surely_turned
from linework.study.ways.leads import Lead, battery_posts, leads
from linework.study.ways.paths import parts_passed
from linework.study.ways.protection import Feed, guarded_back, held_a
from linework.study.wires.ampacities import sun_needs_a
from linework.study.wires.ratings import rules_of
from linework.words import N_

BARE = N_(
    "{run} is fed by {source} without an overcurrent device between. A short in it ends only when"
    " something burns."
)
SET = N_(
    "{run} is fed by {source} without an overcurrent device between, and is too thin to carry all"
    " that the set gives. If the set has a breaker of its own, give its rating on the card."
)
FAR = N_(
    "{run}: the first device, {device}, lies {length} from {source}; {allowed} is allowed. Up to"
    " there nothing protects it."
)
FURTHER = N_(
    "{run}: the first device, {device}, lies further than {length} from {source}; {allowed} is"
    " allowed. Up to there nothing protects it."
)
FAR_FUSE = N_(
    "{run}: it lies {length} from {source}; {allowed} is allowed. Up to there nothing protects"
    " the cable."
)
SUN = N_(
    "{run} is too thin for {source}: {bright} A flow in bright sun and no device ends them;"
    " {needed} A are needed before corrections."
)
JUMPER = N_(
    "{run} joins two batteries without an overcurrent device and is {length} long; {allowed} is"
    " allowed."
)
CRANKING = N_(
    "{run} has no overcurrent device, and needs none: it feeds the starter of an engine from"
    " {source}. Keep it clear of edges and hot metal, and cover its posts."
)
NO_SIZE = N_("no size: whether it carries all that {source} can give was not judged")
NO_TABLE = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run and source, those further on under the first; one for a fuse that sits
    too far along its cable."""
    lengths = {run.id: view.run_values(run.id).opt("length") for run in view.design.runs}
    carries = partial(_is_good_for, view)
    turned = surely_turned(look.studies.situation for look in view.settled_looks)
    found = [
        (look, lead)
        for look in view.settled_looks
        for lead in leads(look.studies.situation, look.studies.feeds, lengths, carries)
        if (
            lead.feed.system.owner not in turned
            or not guarded_back(look.studies.situation, lead.feed.system)
        )
        and lead.feed.system.source not in grounded_plus(look.studies.situation)
    ]
    # A cable that feeds a starter from one battery, in one position, is exempt in the others too.
    starters = {lead.feed.run for _, lead in found if lead.cranking}
    yield from _leads(view, found, starters)
    for look in view.settled_looks:
        yield from _stated_distances(view, look)
        yield from bare_minus(view, look)


def _is_good_for(view: View, run_id: str, amps: float) -> bool:
    """Whether a run carries a current; not where its size or a table is missing, which is told."""
    run = view.run(run_id)
    if run is None or not view.run_values(run_id).has("size"):
        return False
    try:
        return within(amps, view.ampacities.of_run(run).value)
    except CodesError:
        return False


def _leads(view: View, found: list[tuple[Look, Lead]], starters: set[str]) -> Iterator[Outcome]:
    for look, lead in found:
        source = look.studies.circuit.sources[lead.feed.system.source]
        if lead.feed.run in starters:
            words = {"run": view.name(lead.feed.run), "source": view.name(source.owner)}
            yield Clear((lead.feed.run,), CRANKING, words, _clause(view, source))
            continue
        try:
            yield from _lead(view, look, lead, source)
        except CodesError as fault:
            yield NotChecked(NO_TABLE, {"fault": fault}, (lead.feed.run,))


def _lead(view: View, look: Look, lead: Lead, source: LiveSource) -> Iterator[Outcome]:
    run_id = lead.feed.run
    needs = held_a(look.studies.situation, lead.feed.system)
    if needs < float("inf"):
        if not view.run_values(run_id).has("size"):
            yield NotChecked(NO_SIZE, {"source": view.name(source.owner)}, (run_id,))
            return
        if _carries(view, run_id, needs, source):
            return
    if source.data.group.solar:
        yield _hit(view, look, lead, source, SUN)
    elif source.primary and (clear := short_secondary(view, look, lead, source)):
        yield clear
    elif source.data.hertz > 0.0:
        message = SET if source.data.group.driven else BARE
        yield _hit(view, look, lead, source, message)
    elif lead.jumper:
        yield from _jumper(view, look, lead, source)
    else:
        yield from _direct(view, look, lead, source)


def _carries(view: View, run_id: str, amps: float, source: LiveSource) -> bool:
    run = view.run(run_id)
    if run is None:
        return False
    if source.data.group.solar:
        return view.ampacities.carries_sun(run, amps)
    return within(amps, view.ampacities.of_run(run).value)


def _direct(view: View, look: Look, lead: Lead, source: LiveSource) -> Iterator[Outcome]:
    """From the post to its first device the cable may be as long as the place allows."""
    if not lead.devices:
        yield _hit(view, look, lead, source, BARE)
        return
    allowed = _allowed_m(view, source, _sheathed(view, lead.feed.run), lead.tapped)
    if lead.far_m is not None and exceeds(lead.far_m, allowed):
        known = lead.device_m is not None
        length = lead.device_m if lead.device_m is not None else lead.far_m
        yield _hit(view, look, lead, source, FAR if known else FURTHER, (length, allowed))


def _jumper(view: View, look: Look, lead: Lead, source: LiveSource) -> Iterator[Outcome]:
    allowed = _allowed_m(view, source, sheathed=True)
    length = view.run_values(lead.feed.run).opt("length")
    if length is not None and exceeds(length, allowed):
        yield _hit(view, look, lead, source, JUMPER, (length, allowed))


def _allowed_m(view: View, source: LiveSource, sheathed: bool, tapped: bool = False) -> float:
    joined: Literal["battery", "other source"] = "other source"
    if source.data.group.stores and not tapped:
        joined = "battery"
    rules = rules_of(view.design)
    return rules.device_distance_m(view.place_of(source.owner), joined, sheathed=sheathed).value


def _sheathed(view: View, run_id: str) -> bool:
    values = view.run_values(run_id)
    return values.pick("sheath") == "yes" or values.pick("installation").startswith("conduit")


def _hit(
    view: View,
    look: Look,
    lead: Lead,
    source: LiveSource,
    message: str,
    meters: tuple[float, float] | None = None,
) -> Hit:
    length, allowed = meters or (0.0, 0.0)
    evidence: tuple[Evidence, ...] = (
        Evidence(N_("most current of the source"), _strongest_a(source), "current"),
    )
    if meters is not None:
        evidence = (
            Evidence(N_("cable without protection"), length, "length"),
            Evidence(N_("allowed"), allowed, "length"),
            *evidence,
        )
    return look.hit(
        Level.DANGER,
        (lead.feed.run,),
        message,
        {
            "run": view.name(lead.feed.run),
            "source": view.name(source.owner),
            "device": _first_device(view, look, lead),
            "length": show(length, "length", family=view.family),
            "allowed": show(allowed, "length", family=view.family),
            "bright": f"{_strongest_a(source):.3g}",
            "needed": f"{sun_needs_a(_strongest_a(source)):.3g}",
        },
        evidence,
        touches=frozenset({source.owner}),
        mend=_mend(view, look, lead, source, message),
        explains=frozenset(_further_on(view, look, lead)),
        clause=_clause(view, source),
    )


def _first_device(view: View, look: Look, lead: Lead) -> str:
    """The name of the nearest to the source; empty where there is none."""
    return view.name(look.studies.circuit.devices[lead.devices[0]].owner) if lead.devices else ""


def _further_on(view: View, look: Look, lead: Lead) -> Iterator[str]:
    """The runs, as thick at the least, that the source feeds through this one: what protects it
    where it begins protects them too."""
    situation, system = look.studies.situation, lead.feed.system
    for feed in look.studies.feeds:
        if feed.system is system and feed.run != lead.feed.run and feed.unguarded:
            branch = situation.circuit.branches[feed.branch]
            passed = (parts_passed(situation, system.source, n) for n in (branch.a, branch.b))
            if all(lead.feed.run in each for each in passed) and _as_thick(view, feed, lead.feed):
                yield feed.run


def _as_thick(view: View, feed: Feed, before: Feed) -> bool:
    """Whether a run may have the device of another; not where no table or size tells."""
    runs = view.run(feed.run), view.run(before.run)
    try:
        amps = [view.ampacities.of_run(run).value for run in runs if run is not None]
    except (CodesError, KeyError):
        return False
    return len(amps) == 2 and within(amps[1], amps[0])


def _mend(view: View, look: Look, lead: Lead, source: LiveSource, message: str) -> Mend | None:
    if message in (JUMPER, SUN):
        return None
    make = breaker_mend if source.primary else fuse_mend
    return make(view, look, lead, source)


def _strongest_a(source: LiveSource) -> float:
    """What a dead short at the source draws at first, at its strongest, in ampere."""
    ohm = abs(complex(source.data.ohm_r.low, source.data.ohm_x.low))
    behind = source.data.volts / max(ohm, 1e-9)
    first = source.data.limit.first_a if source.data.limit else None
    return behind if first is None else min(behind, first.high)


def _clause(view: View, source: LiveSource) -> str:
    """The clause that decides here; empty for the rule's own."""
    return view.clause({"NA": _american_clause(view, source)})


def _american_clause(view: View, source: LiveSource) -> str:
    if source.data.group.driven:
        return "240.21(G), 445.13"
    if source.data.group.solar:
        return "690.8(B), 690.9"
    if source.data.hertz > 0.0:
        return "240.21"
    place = view.place_of(source.owner)
    if place.afloat:
        return "ABYC E-11"
    return "552.10(E)(4)" if place.on_wheels else "240.21(H)"


def _stated_distances(view: View, look: Look) -> Iterator[Outcome]:
    """Fuses put straight on a battery's post, with the cable stated on their card."""
    circuit, posts = look.studies.circuit, battery_posts(look.studies.situation)
    for device in circuit.devices:
        values = view.values(device.owner)
        if "distance" not in values.declared or not values.has("distance"):
            continue
        ends = {n for i in device.branches for n in (circuit.branches[i].a, circuit.branches[i].b)}
        sources = [s for s in circuit.sources if s.data.group.stores and s.plus in ends]
        if not sources or not ends & posts:
            continue
        length = values.num("distance")
        try:
            allowed = _allowed_m(view, sources[0], sheathed=False)
        except CodesError as fault:
            yield NotChecked(NO_TABLE, {"fault": fault}, (device.owner,))
            continue
        if exceeds(length, allowed):
            yield _far_fuse(view, look, device.owner, sources[0], length, allowed)


def _far_fuse(
    view: View, look: Look, owner: str, source: LiveSource, length: float, allowed: float
) -> Hit:
    words = {
        "run": view.name(owner),
        "source": view.name(source.owner),
        "length": show(length, "length", family=view.family),
        "allowed": show(allowed, "length", family=view.family),
    }
    evidence = (
        Evidence(N_("cable without protection"), length, "length"),
        Evidence(N_("allowed"), allowed, "length"),
    )
    touches, clause = frozenset({source.owner}), _clause(view, source)
    return look.hit(
        Level.DANGER, (owner,), FAR_FUSE, words, evidence, touches=touches, clause=clause
    )


RULE = Rule(
    "run-unprotected",
    N_("Conductor without overcurrent protection"),
    check,
    {"NA": "240.21, 552.10(E)", "INT": "433"},
    causes=("battery-turned",),
    hangs_on=("polarity-reversed", "device-in-grounded-conductor", "pins-live"),
)
