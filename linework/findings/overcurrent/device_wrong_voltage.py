"""A device or switch on a voltage, or a kind of current, that it is not made for.

What is checked
    In every state: the nominal voltage at each breaker, fuse, isolator and
    battery disconnect against its marking, and direct current through what is
    made for alternating current only.
Why it matters
    It draws an arc as it opens and cannot put it out: it burns.
How to cure it
    A device marked for the voltage and the kind of current.
Limits
    What the marking decides is not judged until it is given. Batteries count
    with their nominal voltage: makers' marks are nominal too. A breaker's
    marking is taken between its poles; a single one counts to ground. The
    voltage of solar arrays has a rule of its own. Fuses without a marking
    count as the highest of their type.
Sources
    NFPA 70 (2023) 240.60, 240.83, 110.4; IEC 60364-4-43 431.2.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from linework.circuit.series import string_v
from linework.findings.mending import class_t
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.fuse import DC_MARKS
from linework.study.situation import Situation
from linework.study.slack import exceeds
from linework.study.ways.paths import volts_between
from linework.study.wires.markings import is_marked, made_for_direct, marked_v
from linework.words import N_

VOLTS = N_("{where} is made for {limit} V and lies on {volts} V.")
DIRECT = N_("{where} is made for alternating current only and lies on direct current.")
NO_MARK = N_("whether {where} is marked for direct current is not given: only its marking tells")
NO_VOLTS = N_("the voltage that {where} is marked for is not given; {volts} V lie on it")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each device."""
    for look in view.settled_looks:
        for owner, (volts, dc) in sorted(_on_devices(view, look).items()):
            yield from _judged(view, look, owner, volts, dc)


def _on_devices(view: View, look: Look) -> dict[str, tuple[float, bool]]:
    """For each device on a live conductor the greatest voltage there, and whether it is direct."""
    situation = look.studies.situation
    contacts: dict[str, list[int]] = {}
    for i in sorted(situation.closed):
        branch = situation.circuit.branches[i]
        if branch.sort == "contact" and is_marked(view.design, branch.owner):
            contacts.setdefault(branch.owner, []).append(branch.a)
    found: dict[str, tuple[float, bool]] = {}
    for owner, nodes in contacts.items():
        systems = [_nominal(situation, node) for node in nodes]
        direct = [v for v, dc in filter(None, systems) if dc]
        alternating = [v for v, dc in filter(None, systems) if not dc]
        if direct:
            found[owner] = max(direct), True
        elif alternating:
            pairs = [volts_between(situation, a, b) for a, b in combinations(nodes, 2)]
            found[owner] = max(*alternating, *pairs, 0.0), False
    return found


def _nominal(situation: Situation, node: int) -> tuple[float, bool] | None:
    """The voltage of the sources on a conductor and whether it is direct.

    Of batteries in series that of the whole string: so much lies across an open device in it.
    Nought where only a solar array or a charger is, whose voltage is no nominal one; None where
    nothing is.
    """
    groups = {s.source: situation.circuit.sources[s.source].data for s in situation.feeds(node)}
    kept = {i: s for i, s in groups.items() if not s.group.limits_itself}
    if not kept:
        return (0.0, True) if groups else None
    volts = max(string_v(situation, i, situation.conductive) for i in kept)
    return volts, all(s.hertz == 0.0 for s in kept.values())


def _judged(view: View, look: Look, owner: str, volts: float, dc: bool) -> Iterator[Outcome]:
    words = {"where": view.name(owner), "volts": f"{volts:.0f}"}
    made = made_for_direct(view.design, owner) if dc else True
    if made is False:
        on_it = (Evidence(N_("on it"), volts, "voltage"),) if volts > 0.0 else ()
        yield _hit(view, look, owner, DIRECT, words, on_it)
        return
    if made is None:
        yield NotChecked(NO_MARK, words, (owner,))
    limit = marked_v(view.design, owner, dc=dc)
    if limit is None:
        if exceeds(volts, view.values(owner).num("voltage")):
            yield NotChecked(NO_VOLTS, words, (owner,))
    elif exceeds(volts, limit):
        evidence = (
            Evidence(N_("on it"), volts, "voltage"),
            Evidence(N_("made for"), limit, "voltage"),
        )
        yield _hit(view, look, owner, VOLTS, {**words, "limit": f"{limit:g}"}, evidence)


def _hit(
    view: View,
    look: Look,
    owner: str,
    message: str,
    words: dict[str, str],
    evidence: tuple[Evidence, ...],
) -> Hit:
    return look.hit(
        Level.DANGER,
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
    {"NA": "240.60, 110.4", "INT": "431.2"},
    causes=("sources-meet",),
)
