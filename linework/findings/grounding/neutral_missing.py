"""An outlet or load between hot and neutral that gets no neutral.

What is checked
    In every state: whether the neutral contact of each outlet, and of each load
    that works between hot and neutral, is joined by wire to the neutral of the
    source that feeds its hot contact.
Why it matters
    With two hots, loads in series share 240 V as they please and burn; with
    one, nothing works, and what is plugged in is live throughout. A ground
    wire that serves as neutral puts load current and voltage on metal.
How to cure it
    Run the neutral; an outlet without one is of a configuration without one.
Limits
    A panel without a neutral is judged by what it feeds.
Sources
    NFPA 70 (2023) 250.142(B), 200.3; IEC 60364-5-54 543.4.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.downstream import downstream, watching
from linework.study.neutral.metal import grounded_at
from linework.study.situation import Situation
from linework.study.ways.paths import way
from linework.study.ways.windings import drives
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

NONE = N_("{where}: no {neutral} of {source} reaches {parts}.")
BY_GROUND = N_(
    "{where}: no {neutral} of {source} reaches {parts}; the {ground_wire} serves as one."
)

Contacts = tuple[str, int, int]
"""The id of a part, its hot node and its neutral node."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for all parts whose neutral contacts hang together."""
    for look in view.settled_looks:
        yield from _look(view, look)


def _look(view: View, look: Look) -> Iterator[Hit]:
    situation = look.studies.situation
    groups: dict[tuple[int, tuple[str, ...]], list[Contacts]] = {}
    for part, hot, neutral in _contacts(look):
        feeding = [s for s in situation.feeds(hot) if s.is_ac]
        returning = situation.returns(neutral)
        # a neutral that an autotransformer makes of its hot conductors serves the source of these
        feeding = [s for s in feeding if not any(drives(situation, s, r) for r in returning)]
        owners = tuple(sorted({s.owner for s in feeding}))
        back = {s.owner for s in returning}
        exchanged = {s.source for s in feeding} & {s.source for s in situation.feeds(neutral)}
        if owners and not exchanged and not set(owners) <= back:
            groups.setdefault((situation.clusters[neutral], owners), []).append(
                (part, hot, neutral)
            )
    for (_, owners), contacts in groups.items():
        yield _hit(view, look, owners, contacts)


def _contacts(look: Look) -> Iterator[Contacts]:
    """What needs a neutral: outlets that have the contact, loads that work against it."""
    circuit = look.studies.circuit
    for face in circuit.faces:
        hots = [n for pole, n in face.nodes.items() if is_ungrounded(Pole(pole))]
        if Pole.N in face.nodes and hots:
            yield face.owner, hots[0], face.nodes[Pole.N]
    for _, load in look.studies.situation.loads:
        poles = circuit.terminals.get((load.owner, "in"), {})
        if load.data.own and poles.get(Pole.N) == load.b:
            yield load.owner, load.a, load.b


def _hit(view: View, look: Look, owners: tuple[str, ...], contacts: list[Contacts]) -> Hit:
    situation = look.studies.situation
    parts = tuple(dict.fromkeys(part for part, _, _ in contacts))
    runs = tuple(sorted(_last_without(view, situation, contacts[0])))
    volts = max(s.data.volts for s in look.studies.circuit.sources if s.owner in owners)
    by_ground = _on_ground(situation, contacts[0][2])
    behind = downstream(situation, runs) | watching(situation, runs) | {*parts}
    if any(
        situation.clusters[contacts[0][2]] in (situation.clusters[b.a], situation.clusters[b.b])
        for b in situation.branches
        if b.sort == "bond"
    ):
        behind |= {*owners}  # the link hangs on the piece that is cut off
    return look.hit(
        Level.DANGER,
        runs or parts,
        BY_GROUND if by_ground else NONE,
        {
            "where": ", ".join(view.name(s) for s in runs or parts),
            "parts": ", ".join(view.name(p) for p in parts),
            "source": ", ".join(view.name(o) for o in owners),
        },
        (
            Evidence(N_("voltage of the source"), volts, "voltage"),
            Evidence(N_("parts concerned"), float(len(parts)), "count"),
        ),
        touches=frozenset(parts),
        explains=behind,
    )


def _on_ground(situation: Situation, neutral: int) -> bool:
    """Whether the neutral contact hangs on a ground wire of the circuit."""
    label = situation.metallic
    owners, circuit = situation.owners, situation.circuit
    return any(label[neutral] in grounded_at(circuit, label, owner) for owner in owners)


def _last_without(view: View, situation: Situation, contacts: Contacts) -> set[str]:
    """Of the runs on the way of the hot conductor those that lack the neutral."""
    _, hot, neutral = contacts
    cluster, circuit = situation.clusters, situation.circuit
    found = set()
    for system in situation.feeds(hot):
        for i in way(situation, circuit.sources[system.source].plus, hot) or []:
            run = view.run(circuit.branches[i].owner)
            if run is None:
                continue
            ends = [circuit.terminals.get((e.part, e.terminal), {}) for e in (run.a, run.b)]
            here = [cluster[e[Pole.N]] == cluster[neutral] if Pole.N in e else False for e in ends]
            if here[0] != here[1]:
                found.add(run.id)
    return found


RULE = Rule(
    "neutral-missing",
    N_("No {neutral}"),
    check,
    {"NA": "200.3, 250.142(B)", "INT": "543.4"},
    hangs_on=("polarity-reversed",),
)
