"""A device or switch on a voltage, or a kind of current, that it is not made for.

What is checked
    In every state: the voltage at each breaker, fuse, isolator and battery
    disconnect against its marking, that of batteries at the end of charging;
    and direct current through what is made for alternating current only.
Why it matters
    It draws an arc as it opens and cannot put it out: it burns.
How to cure it
    A device marked for the voltage and the kind of current.
Limits
    What the marking decides is not judged until it is given. What stands the
    nominal voltage of the batteries, but not that at the end of charging, is a
    warning: some makers mark the nominal voltage of a system. Marks of 14 and
    28 V are for banks of 12 and 24 V. A breaker's
    marking is taken between its poles; a single one counts to ground. The
    voltage of solar arrays has a rule of its own. Fuses without a marking
    count as the highest of their type.
Sources
    NFPA 70 (2023) 240.60, 240.83, 110.4; IEC 60364-4-43 431.2.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from linework.circuit.series import charged_v, string_v
from linework.findings.mending import class_t
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.fuse import DC_MARKS
from linework.study.situation import Situation, System
from linework.study.slack import exceeds
from linework.study.ways.paths import volts_between
from linework.study.wires.markings import is_marked, made_for_direct, marked_v
from linework.words import N_

VOLTS = N_("{where} is made for {limit} V and lies on {volts} V.")
BANK = N_(
    "{where} is made for {limit} V; the batteries on it reach {volts} V while they are charged."
)
CHARGED = N_(
    "{where} is marked {limit} V; the batteries on it reach {volts} V while they are charged. Only"
    " its maker can say whether it opens that."
)
DIRECT = N_("{where} is made for alternating current only and lies on direct current.")
NO_MARK = N_("whether {where} is marked for direct current is not given: only its marking tells")
NO_VOLTS = N_("the voltage that {where} is marked for is not given; {volts} V lie on it")

_MARKS = 14.0 / 12.0
"""What is made for a bank of 12 or 24 V is marked 14 or 28 V (makers' data; such a mark covers
charging)."""


@dataclass(frozen=True)
class _OnIt:
    """The voltage on a device: nominal, and the most that lasts while batteries are charged."""

    nominal_v: float
    most_v: float
    dc: bool


def check(view: View) -> Iterator[Outcome]:
    """One hit for each device."""
    for look in view.settled_looks:
        for owner, on_it in sorted(_on_devices(view, look).items()):
            yield from _judged(view, look, owner, on_it)


def _on_devices(view: View, look: Look) -> dict[str, _OnIt]:
    """For each device on a live conductor the greatest voltage there, and whether it is direct."""
    situation = look.studies.situation
    contacts: dict[str, list[int]] = {}
    for i in sorted(situation.closed):
        branch = situation.circuit.branches[i]
        if branch.sort == "contact" and is_marked(view.design, branch.owner):
            contacts.setdefault(branch.owner, []).append(branch.a)
    found: dict[str, _OnIt] = {}
    for owner, nodes in contacts.items():
        systems = [each for each in (_at(situation, node) for node in nodes) if each is not None]
        direct = [each for each in systems if each.dc]
        if direct:
            found[owner] = max(direct, key=lambda each: (each.nominal_v, each.most_v))
        elif systems:
            pairs = [volts_between(situation, a, b) for a, b in combinations(nodes, 2)]
            volts = max(*(each.nominal_v for each in systems), *pairs, 0.0)
            found[owner] = _OnIt(volts, volts, dc=False)
    return found


def _at(situation: Situation, node: int) -> _OnIt | None:
    """The voltage of the sources on a conductor and whether it is direct.

    Of batteries in series that of the whole string: so much lies across an open device in it.
    Nought where only a solar array or a charger is, whose voltage is no nominal one; None where
    nothing is.
    """
    groups = {
        s.source: situation.circuit.sources[s.source].data for s in _to_ground(situation, node)
    }
    kept = {i: s for i, s in groups.items() if not s.group.limits_itself}
    if not kept:
        return _OnIt(0.0, 0.0, dc=True) if groups else None
    label = situation.conductive
    volts = max(string_v(situation, i, label) for i in kept)
    most = max(charged_v(situation, i, label) for i in kept)
    return _OnIt(volts, most, all(s.hertz == 0.0 for s in kept.values()))


def _to_ground(situation: Situation, node: int) -> list[System]:
    """The sources on a conductor; where the return of some is joined to metal these alone, for a
    single pole counts to ground: behind an autotransformer the half that it makes."""
    metal = {situation.metallic[each.node] for each in situation.circuit.metals}
    feeding = situation.feeds(node)
    returns = {s.source: situation.circuit.sources[s.source].minus for s in feeding}
    grounded = [s for s in feeding if s.is_ac and situation.metallic[returns[s.source]] in metal]
    return grounded or feeding


def _judged(view: View, look: Look, owner: str, on_it: _OnIt) -> Iterator[Outcome]:
    words = {"where": view.name(owner), "volts": f"{on_it.most_v:.3g}"}
    evidence = (Evidence(N_("on it"), on_it.most_v, "voltage"),)
    made = made_for_direct(view.design, owner) if on_it.dc else True
    if made is False:
        yield _hit(view, look, owner, DIRECT, words, evidence if on_it.most_v > 0.0 else ())
        return
    if made is None:
        yield NotChecked(NO_MARK, words, (owner,))
    limit = marked_v(view.design, owner, dc=on_it.dc)
    if limit is None:
        if exceeds(on_it.nominal_v, view.values(owner).num("voltage")):
            words["volts"] = f"{on_it.nominal_v:.3g}"
            yield NotChecked(NO_VOLTS, words, (owner,))
    elif exceeds(on_it.most_v, limit) and exceeds(_MARKS * on_it.nominal_v, limit):
        words["limit"], made_for = f"{limit:g}", Evidence(N_("made for"), limit, "voltage")
        yield _hit(view, look, owner, _message(on_it, limit), words, (*evidence, made_for))


def _message(on_it: _OnIt, limit_v: float) -> str:
    if not exceeds(on_it.nominal_v, limit_v):
        return CHARGED
    return BANK if exceeds(on_it.most_v, on_it.nominal_v) else VOLTS


def _hit(
    view: View,
    look: Look,
    owner: str,
    message: str,
    words: dict[str, str],
    evidence: tuple[Evidence, ...],
) -> Hit:
    return look.hit(
        Level.WARNING if message == CHARGED else Level.DANGER,
        (owner,),
        message,
        words,
        evidence,
        mend=_mend(view, owner, max((e.value or 0.0 for e in evidence), default=0.0)),
    )


def _mend(view: View, owner: str, volts: float) -> Mend | None:
    """A fuse of class T on direct current, where that is made for the voltage."""
    if not view.kind(owner).melts or view.values(owner).pick("circuit") != "dc":
        return None
    if volts > max(mark for mark, _ in DC_MARKS["class_t"]):
        return None

    return class_t(view, owner, ("voltage", "interrupting"))


RULE = Rule(
    "device-wrong-voltage",
    N_("A device for another voltage"),
    check,
    {"NA": "110.4, 240.60(A), 240.85", "INT": "431.2"},
    causes=("batteries-unlike", "battery-turned", "sources-meet"),
    hangs_on=("polarity-reversed", "voltage-wrong"),
)
