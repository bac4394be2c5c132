"""A switch, breaker or fuse that can open a ground wire.

What is checked
    In every state: whether touchable metal that a source feeds would lose its
    way to the ground of that source if one contact of a switch, breaker or
    fuse opened that is in no live conductor and no neutral.
Why it matters
    Everything works with the contact open, and a fault then leaves the metal
    at the full voltage.
How to cure it
    Join the ground wire through, past the device.
Limits
    Plugs and inlets open their ground contact last and are allowed. A ground
    wire that has a second, unswitched way is not told. A neutral that serves as
    ground and is switched is neutral-used-as-ground.
Sources
    NFPA 70 (2023) 250.124(B); IEC 60364-5-54 543.3.3.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.metal import feeders, reaches
from linework.study.situation import Situation
from linework.words import N_

MESSAGE = N_(
    "{where} can open the {ground_wire} of {metal}: nothing shows, and a fault then leaves it at"
    " {volts} V."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each device, with all metal that hangs on it."""
    for look in view.settled_looks:
        for contact in _candidates(look.studies.situation):
            yield from _contact(view, look, contact)


def _candidates(situation: Situation) -> Iterator[int]:
    """Closed contacts that something opens, in a conductor that no source makes live or returns
    by, and that hang together with fed metal."""
    circuit, cluster = situation.circuit, situation.clusters
    metal = {situation.metallic[m.node] for m in circuit.metals}
    for i in sorted(situation.closed):
        branch = circuit.branches[i]
        if branch.sort == "contact" and (branch.when or i in circuit.device_of):
            ends = {cluster[branch.a], cluster[branch.b]}
            live = ends & (situation.hot_of.keys() | situation.back_of.keys())
            if not live and situation.metallic[branch.a] in metal:
                yield i


def _contact(view: View, look: Look, contact: int) -> Iterator[Hit]:
    situation = look.studies.situation
    branch = situation.circuit.branches[contact]
    cut = situation.metallic_without(frozenset({contact}))
    lost: set[str] = set()
    sources: set[str] = set()
    for metal in situation.circuit.metals:
        owners = feeders(situation, metal)
        if not owners or not reaches(situation, situation.metallic, metal.node, owners):
            continue
        if not reaches(situation, cut, metal.node, owners):
            lost.add(metal.owner)
            sources.update(owners)
    if not lost:
        return
    volts = max(s.data.volts for _, s in situation.active if s.owner in sources)
    yield look.hit(
        Level.DANGER,
        (branch.owner,),
        MESSAGE,
        {
            "where": view.name(branch.owner),
            "metal": ", ".join(sorted(map(view.name, lost), key=natural)),
            "volts": f"{volts:.0f}",
        },
        (
            Evidence(N_("voltage that metal can take"), volts, "voltage"),
            Evidence(N_("metal parts concerned"), float(len(lost)), "count"),
        ),
        touches=frozenset(lost),
    )


RULE = Rule(
    "ground-switched",
    N_("{Ground_wire} can be opened"),
    check,
    {"NA": "250.124(B)", "INT": "543.3.3"},
)
