"""A device that cannot break the fault current at its place.

What is checked
    In every state: the largest current that a fault, also one on the device's
    own load terminals, drives through each device, with sources at their
    strongest and conductors cold, against its interrupting rating: as given,
    else what may be counted on without a marking.
Why it matters
    It bursts or goes on arcing instead of opening.
How to cure it
    A device of a higher interrupting rating, marked for this voltage and kind
    of current.
Limits
    Devices of one figure are one finding. A maker's series rating is not known to
    the program: give the higher figure if the maker states one. A breaker's
    rating on AC says nothing about DC. The site's own breaker is not judged.
    Loads are off; motors add nothing. Faults fed through a run of unknown size or
    length are not judged; "value missing" names the run. At a device in a
    battery's conductor that runs apart from the other, the other is taken to be
    as far from the battery. Where the type of a fuse is not given, or only the
    usual current of the cells is above 20 kA, nothing is judged and it is said.
    Afloat, lead batteries of which the cranking amperes are given and the
    short-circuit current is not are judged by the table of ABYC E-11. That a fuse
    before a smaller one limits the current is not counted on, and said: no table
    of what it lets through is known.
Sources
    NFPA 70 (2023) 110.9, 240.83(C); IEC 60364-4-43 434.5.1; ABYC E-11.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from linework.circuit.model import Device
from linework.codes import CodesError, Sourced, interrupting_rating, is_made, stated
from linework.findings.mending import class_t, together
from linework.findings.model import Clear, Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.overcurrent._cranking import least_a
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.quantity import show
from linework.study.answers.broken import Broken, worst_broken
from linework.study.slack import exceeds, within
from linework.study.ways.paths import parts_passed
from linework.words import N_, say

MESSAGE = N_(
    "{where} can break {rating} A; a fault behind it drives up to {amps} A through it.{limited}"
)
SEVERAL = N_(
    "{where} can break {rating} A each; a fault behind one of them drives up to {amps} A through"
    " it.{limited}"
)
LIMITED = N_(
    " That {fuses} before it may cut off sooner is not counted on: only what makers state of both"
    " together tells."
)
_LIMITING = frozenset({"class_t", "class_j", "class_cc", "class_g", "class_rk1", "class_rk5"})
"""The curves of fuses that limit current (UL 248)."""
CRANKING = N_(
    "{where} can break {rating} A; at batteries of so many cranking amperes a device must break"
    " {least} A there."
)
BREAKS = N_("{where} can break {rating}; a fault behind it drives at the most {amps} through it.")
NO_FIGURE = N_("{fault}")
TYPE = N_(
    "the type of {where} is not given; a fault behind it drives up to {amps} A through it: its type"
    " or interrupting rating decides"
)
CELLS = N_(
    "whether {where} breaks a fault of {sources} depends on the short-circuit current of the cells:"
    " up to {amps} A are usual, and it breaks {rating} A; give the figure of their data sheet, or"
    " 3.2 V over the resistance of one cell"
)


@dataclass(frozen=True)
class _Weak:
    """A device that cannot break what a fault drives through it."""

    look: Look
    device: Device
    rating_a: float
    worst: Broken

    @property
    def sort(self) -> tuple[float, bool, bool]:
        """What devices have in common that one finding tells of: the figure, and whether a better
        fuse is made."""
        data = self.device.data
        better = data.curve != "breaker" and is_made("class_t", data.rating_a)
        return self.rating_a, self.worst.hertz == 0.0, better


def check(view: View) -> Iterator[Outcome]:
    """One hit for all devices of one figure; a gap where none may be counted on."""
    weak: list[_Weak] = []
    for look in view.settled_looks:
        for index, faults in worst_broken(look.studies).items():
            device = look.studies.circuit.devices[index]
            if view.kind(device.owner).source.off_site:
                continue  # the site's own device: not ours to judge
            least = least_a(view, look, device)
            outcome = (
                _judged(view, look, device, faults)
                if least is None
                else _by_cranking(view, look, device, faults, least)
            )
            if isinstance(outcome, _Weak):
                weak.append(outcome)
            elif outcome is not None:
                yield outcome
    for sort in dict.fromkeys(each.sort for each in weak):
        yield from _hits(view, [each for each in weak if each.sort == sort])
    yield from _sound(view)


def _hits(view: View, weak: list[_Weak]) -> Iterator[Hit]:
    """Of devices of one sort, in each state with the fault that drives most."""
    owners = tuple(sorted({each.device.owner for each in weak}, key=view.order))
    worst: dict[int, _Weak] = {}
    for each in weak:
        known = worst.setdefault(id(each.look), each)
        worst[id(each.look)] = max(known, each, key=lambda one: one.worst.amps)
    for each in worst.values():
        yield _hit(view, each, owners, weak)


def _by_cranking(
    view: View, look: Look, device: Device, faults: list[Broken], least: Sourced[float]
) -> Outcome | None:
    """Against the table for lead batteries afloat."""
    breaks = device.data.interrupting_a
    if not device.data.interrupting_given:
        try:
            volts = max(worst.volts for worst in faults)
            breaks = interrupting_rating(device.data.curve, "dc", volts).value
        except CodesError as fault:
            return NotChecked(NO_FIGURE, {"fault": fault}, (device.owner,))
    if not exceeds(least.value, breaks):
        return None
    words = {"where": view.name(device.owner), "rating": f"{breaks:.0f}"}
    words["least"] = f"{least.value:.0f}"
    return look.hit(
        Level.DANGER,
        (device.owner,),
        CRANKING,
        words,
        (
            Evidence(N_("asked for by the cranking amperes"), least.value, "current"),
            Evidence(N_("interrupting rating"), breaks, "current"),
        ),
        clause=least.clause,
    )


def _sound(view: View) -> Iterator[Clear]:
    """Devices that break what can flow through them, with the fault that comes nearest."""
    nearest: dict[str, tuple[float, float, float]] = {}
    lost: set[str] = set()
    for look in view.settled_looks if view.complete and not view.partial else ():
        if look.studies.circuit.unknown:
            return  # what flows is not known where a size or length is missing
        for index, faults in worst_broken(look.studies).items():
            device = look.studies.circuit.devices[index]
            for worst in faults if not view.kind(device.owner).source.off_site else ():
                try:
                    rating = _rating_a(device, worst)
                except CodesError:
                    lost.add(device.owner)
                    continue
                share = worst.amps / rating
                before = nearest.get(device.owner, (0.0, 0.0, 0.0))
                nearest[device.owner] = max(before, (share, worst.amps, rating))
    for owner, (share, amps, rating) in sorted(nearest.items()):
        if owner not in lost and within(share, 1.0):
            words = {
                "where": view.name(owner),
                "rating": show(rating, "current"),
                "amps": show(amps, "current"),
            }
            yield Clear((owner,), BREAKS, words, quiet=True)


def _judged(
    view: View, look: Look, device: Device, faults: list[Broken]
) -> _Weak | NotChecked | None:
    """By the fault that goes furthest beyond what the device breaks at that voltage."""
    beyond: list[tuple[float, float, Broken]] = []
    for worst in sorted(faults, key=lambda w: (-w.volts, w.hertz)):
        try:
            rating = _rating_a(device, worst)
        except CodesError as fault:
            return NotChecked(NO_FIGURE, {"fault": fault}, (device.owner,))
        beyond.append((worst.amps / rating, rating, worst))
    share, rating, worst = max(beyond, key=lambda item: item[0])
    if not exceeds(share, 1.0):
        return None
    return _open(view, look, device, rating, worst) or _Weak(look, device, rating, worst)


def _open(
    view: View, look: Look, device: Device, rating: float, worst: Broken
) -> NotChecked | None:
    """What must be known first: the type of a fuse, or the cells behind one of the best kind."""
    values = view.values(device.owner)
    words = {"where": view.name(device.owner), "amps": f"{worst.amps:.0f}"}
    untold = view.kind(device.owner).melts and not values.given("type")
    if untold and not device.data.interrupting_given:
        return NotChecked(TYPE, words, (device.owner,), look.state)
    best = worst.hertz == 0.0 and _is_best(rating, worst.volts)
    cells = sorted({s.owner for _, s in look.studies.situation.active if s.data.group.stores})
    guessed = [owner for owner in cells if not view.values(owner).given("fault_current")]
    if not (best and guessed):
        return None
    words |= {"rating": f"{rating:.0f}", "sources": ", ".join(map(view.name, guessed))}
    return NotChecked(CELLS, words, (device.owner, *guessed), look.state)


def _is_best(rating_a: float, volts: float) -> bool:
    """Whether a fuse is of the kind that is enough at any bank."""
    enough_a, enough_v = (stated("common", f"best_fuse_{of}") for of in ("current", "voltage"))
    return rating_a >= enough_a.value and volts <= enough_v.value


def _rating_a(device: Device, worst: Broken) -> float:
    """As marked, else what may be counted on. CodesError where that is nothing."""
    if device.data.interrupting_given:
        return device.data.interrupting_a
    kind: Literal["ac", "dc"] = "dc" if worst.hertz == 0.0 else "ac"
    return interrupting_rating(device.data.curve, kind, worst.volts).value


def _hit(view: View, weak: _Weak, owners: tuple[str, ...], every: list[_Weak]) -> Hit:
    amps, rating = weak.worst.amps, weak.rating_a
    limiting = _limiting(every)
    said = say(LIMITED, fuses=view.names(limiting)) if limiting else ""
    return weak.look.hit(
        Level.DANGER,
        owners,
        MESSAGE if len(owners) == 1 else SEVERAL,
        {
            "where": view.names(owners),
            "rating": f"{rating:.0f}",
            "amps": f"{amps:.0f}",
            "limited": said,
        },
        (
            Evidence(N_("largest fault current"), amps, "current"),
            Evidence(N_("interrupting rating"), rating, "current"),
        ),
        mend=_mends(view, list({w.device.owner: w.device for w in every}.values()), weak.worst),
    )


def _limiting(weak: list[_Weak]) -> set[str]:
    """The fuses before some devices that cut a large current off before it gets to its peak."""
    found: set[str] = set()
    for each in weak:
        situation = each.look.studies.situation
        circuit = situation.circuit
        limits = {d.owner for d in circuit.devices if d.data.curve in _LIMITING}
        nodes = [circuit.branches[i].a for i in each.device.branches]
        for node in nodes:
            for system in situation.feeds(node):
                found |= limits.intersection(parts_passed(situation, system.source, node))
    return found - {each.device.owner for each in weak}


def _mends(view: View, devices: list[Device], worst: Broken) -> Mend | None:
    """Every one made better, in one step."""
    mends = [_mend(view, device, worst) for device in devices]
    known = [mend for mend in mends if mend is not None]
    if len(known) < len(mends):
        return None
    title = "; ".join(mend.title for mend in known)
    return known[0] if len(known) == 1 else together(title, title, known)


def _mend(view: View, device: Device, worst: Broken) -> Mend | None:
    """A fuse becomes one of class T, where that breaks the current."""
    part = view.part(device.owner)
    if part is None or not view.kind(part.id).melts or worst.hertz > 0.0:
        return None
    if not is_made("class_t", device.data.rating_a):
        return None
    try:
        if worst.amps > interrupting_rating("class_t", "dc", worst.volts).value:
            return None
    except CodesError:
        return None

    return class_t(view, part.id, ("interrupting",))


RULE = Rule(
    "interrupting-too-low",
    N_("Interrupting rating too low"),
    check,
    {"NA": "110.9, 240.60(B), 240.83(C)", "INT": "434.5.1"},
    causes=("batteries-unlike", "battery-turned"),
    hangs_on=("voltage-wrong",),
)
