"""Something that power passes through, made for less current than it may get.

What is checked
    In every state: the rating of each inlet, outlet, plug, adapter, cord set,
    transfer switch, isolator, panel bus, busbar and pass-through relay against
    the device that protects it, against what several sources or ways together
    let into it, and against the current of the drawn loads; outlets by the
    table of the family. Of several in a row that are too small for one device
    the first is told.
Why it matters
    It heats up at a current at which nothing opens.
How to cure it
    A smaller device, or a part made for the larger current.
Limits
    A part whose rating is only assumed is "not checked" where the assumed one
    would not do. What no device protects is told by run-unprotected; an outlet
    drawn straight at its source without one of its own is "not checked". Plugs,
    adapters and cord sets of 15 A belong on 20 A circuits, and listed cord sets
    of 16 AWG; an inlet of 15 A with outlets behind it only where a device holds
    them to that. A cord without a mark counts with what makers mark on its size and
    length (from memory). A bar or board that several sources feed may be held by
    the devices behind it; "why it is sound" says so.
Sources
    NFPA 70 (2023) 110.3(B), 210.21(B), 240.5(B), 408.36, 705.12(B) (from memory);
    IEC 60364-4-43 432.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from linework.circuit.model import Device
from linework.codes import CodesError
from linework.findings.mending import rerate
from linework.findings.model import Clear, Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.sources._by_current import by_current
from linework.findings.sources._returns import by_return
from linework.findings.sources._together import by_one, by_several
from linework.findings.view import Look, View
from linework.study.answers.behind import Behind, device_before
from linework.study.answers.downstream import downstream
from linework.study.answers.trust import loaded_or_none
from linework.study.situation import Situation
from linework.study.slack import within
from linework.study.ways.paths import parts_on_way
from linework.study.ways.protection import Beyond, faces_at
from linework.study.wires.rated import (
    Rated,
    circuit_of_plug_a,
    ends_of,
    rated_parts,
)
from linework.study.wires.ratings import kind_of_device, rules_of
from linework.wiring import SourceGroup
from linework.words import N_

DEVICE = N_(
    "{where} is made for {rated} A and is protected by {device} of {amps} A: it can be overloaded"
    " without anything opening."
)
BOUNDED = N_(
    "{where} is made for {rated} A and is protected by {device} of {amps} A. The devices behind it"
    " keep its load within its rating; against a fault it is not protected."
)
AMONG = N_(
    "{where} of {rated} A is one of several outlets on a circuit of {amps} A ({device}): only"
    " {allowed} A fit there."
)
SINGLE = N_(
    "{where} of {rated} A stands alone on a circuit of {amps} A ({device}): a single outlet is not"
    " rated below its circuit."
)
ASSUMED = N_(
    "the rating of {where} is not given; the usual {rated} A would be too small for {device} of"
    " {amps} A"
)
OWN = N_(
    "the breaker of {where} itself is not drawn: {device} of {amps} A alone would be too large for"
    " its {rated} A"
)
NO_DEVICE = N_("no device before {where} is drawn: whether its {rated} A are enough depends on it")

SMALLER = N_(
    "{where} of {rated} A on a circuit of {amps} A ({device}) is right: among several outlets the"
    " table allows it, for what plugs in there draws no more than {rated} A."
)
LARGER = N_(
    "{where} of {rated} A on a circuit of {amps} A ({device}) is right: a single outlet may be"
    " larger than its circuit; the device protects the wires."
)
MADE_SO = N_(
    "{where} of {rated} A behind {device} of {amps} A is right: both are built into the source,"
    " whose maker may fit a larger outlet; the device protects what is behind it."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each part, of those in a row only the first; why odd outlets are right."""
    right: dict[str, Clear] = {}
    told: set[str] = set()
    for look in view.settled_looks:
        wrong: list[tuple[Behind, Hit | NotChecked]] = []
        parts = rated_parts(look.studies.circuit, view.design)
        for outcome in _protection(view, look, parts):
            match outcome:
                case Clear():
                    right[outcome.subjects[0]] = outcome
                case NotChecked():
                    yield outcome
                case Hit():
                    told.add(outcome.subjects[0])
                    yield outcome
                case behind, found:
                    wrong.append((behind, found))
        told.update(behind.rated.part for behind, _ in wrong)
        yield from _first(look, wrong)
    for look in view.settled_looks:
        parts = rated_parts(look.studies.circuit, view.design)
        yield from by_current(view, look, [r for r in parts if r.part not in told])
    if view.complete and not view.partial:
        yield from (right[part] for part in sorted(right.keys() - told))


def _protection(
    view: View, look: Look, parts: list[Rated]
) -> Iterator[Outcome | tuple[Behind, Hit | NotChecked]]:
    """What the device before each part makes of it, or several together."""
    for rated in parts:
        behind = device_before(look.studies.situation, rated)
        outcome = _by_device(view, look, behind) if isinstance(behind, Behind) else None
        if isinstance(behind, Behind) and isinstance(outcome, Hit | NotChecked):
            yield behind, outcome
            continue
        if outcome is not None:
            yield outcome
        elif behind is True and rated.kind.receptacle and _at_a_source(view, rated.part):
            words = {"where": view.name(rated.part), "rated": f"{rated.amps:g}"}
            yield NotChecked(NO_DEVICE, words, (rated.part,), look.state)
        elif behind is True:
            yield from by_one(view, look, rated)
        yield from by_several(view, look, rated)
        yield from by_return(view, look, rated)


def _at_a_source(view: View, part: str) -> bool:
    """Whether an outlet sits in the panel of a generator or supply itself."""
    return any(
        view.kind(seat.host).source is not SourceGroup.NONE for seat in view.design.seats_of(part)
    )


# against the device


def _by_device(view: View, look: Look, behind: Behind) -> Hit | NotChecked | Clear | None:
    rated, amps = behind.rated, behind.device.data.rating_a
    if rated.kind.receptacle:
        return _outlet(view, look, behind)
    if within(amps, rated.amps if _lets_much_in(view, look, behind) else rated.device_a):
        return None
    if not rated.given:
        return NotChecked(ASSUMED, _words(view, behind), (rated.part, behind.device.owner))
    if _idle(view, look, behind):
        return None
    bounded = _bounded(view, look, behind)
    # what is listed for it, as the adapter of a coach with a main of its own, is worth knowing
    least = Level.NOTE if rated.kind.loose else Level.WARNING
    return _hit(
        view,
        look,
        behind,
        least if bounded else Level.DANGER,
        BOUNDED if bounded else DEVICE,
        "408.36" if rated.kind.board else "240.5" if rated.kind.cord else "110.3(B)",
    )


def _lets_much_in(view: View, look: Look, behind: Behind) -> bool:
    """Whether it is an inlet with outlets behind it: what one appliance on a plug of its rating
    never takes, several may."""
    rated, situation = behind.rated, look.studies.situation
    if rated.kind.plugs or not rated.kind.lets_in or _bounded(view, look, behind):
        return False
    hanging = downstream(situation, (rated.part,))
    return any(face.owner in hanging for face in situation.circuit.faces)


def _outlet(view: View, look: Look, behind: Behind) -> Hit | Clear | NotChecked | None:
    """Outlets by the table; where it has no such circuit, by the plain comparison.

    Several outlets of one source behind its main breaker only: each has its own in truth, and
    that is not drawn.
    """
    found = _by_table(view, look, behind)
    if isinstance(found, Hit) and _own_breaker_missing(view, behind):
        return NotChecked(OWN, _words(view, behind), (behind.rated.part,), look.state)
    return found


def _own_breaker_missing(view: View, behind: Behind) -> bool:
    hosts = [seat.host for seat in view.design.seats_of(behind.rated.part)]
    at_source = behind.device.owner in hosts and _at_a_source(view, behind.rated.part)
    return at_source and len(view.design.seated_in(behind.device.owner)) > 1


def _by_table(view: View, look: Look, behind: Behind) -> Hit | Clear | None:
    rated, amps = behind.rated, behind.device.data.rating_a
    sets = _contact_sets(view, look.studies.situation, behind.node)
    try:
        allowed = rules_of(view.design).receptacle_allowed(amps, rated.amps, sets)
    except CodesError:
        if within(amps, rated.amps):
            return None
        clause = view.clause({"NA": "210.21(B)", "INT": "432"})
        return _hit(view, look, behind, Level.DANGER, DEVICE, clause)
    if allowed.ok:
        return _right(view, behind, sets)
    if rated.amps > amps and _made_so(view, rated.part, behind.device):
        return Clear((rated.part,), MADE_SO, _words(view, behind), "110.3(B)")
    if circuit_of_plug_a(rated.amps) < amps:
        return _hit(view, look, behind, Level.DANGER, DEVICE, "210.21(B)")
    if sets <= 1:
        return _hit(view, look, behind, Level.WARNING, SINGLE, "210.21(B)(1)")
    return _hit(view, look, behind, Level.WARNING, AMONG, "210.21(B)(3)")


def _made_so(view: View, part: str, device: Device) -> bool:
    """Whether an outlet and the breaker before it are built into one source by its maker."""
    hosts = [seat.host for seat in view.design.seats_of(part)]
    if device.owner not in hosts:
        return False
    around = [*hosts, *(s.host for host in hosts for s in view.design.seats_of(host))]
    sources = [view.kind(host).source for host in around]
    return any(s is not SourceGroup.NONE and not s.off_site for s in sources)


def _right(view: View, behind: Behind, sets: int) -> Clear | None:
    """Why an outlet of another rating than its circuit is right."""
    amps, subjects = behind.device.data.rating_a, (behind.rated.part,)
    if behind.rated.amps < amps:
        return Clear(subjects, SMALLER, _words(view, behind), "210.21(B)(3)")
    if behind.rated.amps > amps and sets <= 1:
        return Clear(subjects, LARGER, _words(view, behind), "210.21(B)(1)")
    return None


def _contact_sets(view: View, situation: Situation, node: int) -> int:
    owners = {situation.circuit.faces[i].owner for i in faces_at(situation, node)}
    outlets = [owner for owner in owners if view.kind(owner).receptacle]
    return int(sum(view.values(owner).num("duplex") for owner in outlets))


def _idle(view: View, look: Look, behind: Behind) -> bool:
    """Whether a plug, inlet, cord or adapter leads to nothing in this state: an open switch, or a
    plug that is elsewhere now."""
    ahead = behind.ahead(look.studies.situation)
    if ahead is None or ahead.loads or ahead.devices or _mouths(view, look, ahead):
        return False
    if not behind.rated.kind.loose:
        return behind.rated.plugs
    ends = [view.kind(end) for end in ends_of(view.design, behind.rated.part)]
    return bool(ends) and not any(kind.loose for kind in ends)


def _bounded(view: View, look: Look, behind: Behind) -> bool:
    """Whether all that lies behind a part are devices that together let no more through."""
    ahead = behind.ahead(look.studies.situation)
    if ahead is None or ahead.ring or ahead.loads or _mouths(view, look, ahead):
        return False
    devices = [look.studies.circuit.devices[i].data.rating_a for i in ahead.devices]
    return bool(devices) and within(sum(devices), behind.rated.amps)


def _mouths(view: View, look: Look, ahead: Beyond) -> bool:
    """Whether outlets lie there into which anything may go; the end of a cord is taken."""
    owners = {look.studies.circuit.faces[i].owner for i in ahead.faces}
    return any(not view.kind(owner).loose for owner in owners)


def _words(view: View, behind: Behind) -> dict[str, str]:
    return {
        "where": view.name(behind.rated.part),
        "rated": f"{behind.rated.amps:g}",
        "device": view.name(behind.device.owner),
        "amps": f"{behind.device.data.rating_a:g}",
    }


def _hit(view: View, look: Look, behind: Behind, level: Level, message: str, clause: str) -> Hit:
    words = _words(view, behind)
    if message == AMONG:
        words["allowed"] = _table(view, behind.device.data.rating_a)
    return look.hit(
        level,
        (behind.rated.part,),
        message,
        words,
        (
            Evidence(N_("rating of the device"), behind.device.data.rating_a, "current"),
            Evidence(N_("made for"), behind.rated.amps, "current"),
        ),
        touches=frozenset({behind.device.owner, behind.system.owner}),
        mend=_mend(view, look, behind),
        clause=clause,
    )


def _table(view: View, circuit_a: float) -> str:
    """The ratings of outlets that fit on a circuit of several."""
    rules = rules_of(view.design)
    fitting = [
        f"{amps:g}"
        for amps in (15.0, 20.0, 30.0, 40.0, 50.0)
        if rules.receptacle_allowed(circuit_a, amps, 2).ok
    ]
    return " / ".join(fitting)


def _mend(view: View, look: Look, behind: Behind) -> Mend | None:
    """The device made as small as the part, where that is a standard rating that carries the
    drawn loads."""
    device, amps = behind.device, behind.rated.amps
    loaded = loaded_or_none(look.studies)
    if amps >= device.data.rating_a or "rating" not in view.kind(device.owner).declared:
        return None
    if loaded is None or max((loaded.amps(i) for i in device.branches), default=0.0) > amps:
        return None
    try:
        standard = rules_of(view.design).standard_up(amps, kind_of_device(device.data.curve)).value
    except CodesError:
        return None
    if standard != amps:
        return None

    return rerate(view, device.owner, amps)


def _first(look: Look, wrong: list[tuple[Behind, Hit | NotChecked]]) -> Iterator[Outcome]:
    """Of parts behind one device in a row only the first that is so small; it touches the rest."""
    situation = look.studies.situation
    passed = {
        id(behind): parts_on_way(situation, behind.system.source, behind.node)
        for behind, _ in wrong
    }
    for behind, outcome in wrong:
        if any(
            other.device is behind.device
            and other.rated.part in passed[id(behind)]
            and other.rated.amps <= behind.rated.amps
            and other.order(situation) < behind.order(situation)
            for other, _ in wrong
            if other.rated.part != behind.rated.part
        ):
            continue
        if isinstance(outcome, Hit):
            after = {o.rated.part for o, _ in wrong if behind.rated.part in passed[id(o)]}
            outcome = replace(outcome, touches=outcome.touches | after)
        yield outcome


RULE = Rule(
    "rating-exceeded",
    N_("Made for less current"),
    check,
    {"NA": "110.3(B)", "INT": "432"},
    causes=(
        "batteries-unlike",
        "battery-turned",
        "device-above-ampacity",
    ),
    hangs_on=(
        "polarity-reversed",
        "device-in-grounded-conductor",
        "pins-live",
        "metal-live",
        "conductors-shorted",
    ),
)
