"""A transfer switch whose number of poles does not go with the bonds.

What is checked
    In every state with two links on a ring: whether a switch that leaves the
    neutral joined through is what joins them. In every state without a link:
    whether switching the neutral away took the only one. So for an
    inverter-charger that opens the neutral: whether wires outside it join what
    it parts.
Why it matters
    Bonded source and solid neutral, or floating source and switched neutral,
    are the two pairs that go wrong; either way the fault is in the pairing.
How to cure it
    Switch the neutral too where each source has its link; leave it joined
    where only one side has.
Limits
    In a vehicle the link of the shore supply leaves with its plug, so that
    leaving the neutral joined cures nothing there.
Sources
    NFPA 70 (2023) 250.30; IEC 60364-5-551 551.4.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.lasting import LINKS, Lasting
from linework.circuit.unions import joined
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.bonds import Bond, NeutralSystem
from linework.study.situation import Situation
from linework.study.walks import hanging_together
from linework.study.ways.paths import way
from linework.wiring import Pole
from linework.words import N_, say

JOINED = N_(
    "{where} leaves the {neutral} joined through, so the links at {places} are on one {neutral}."
)
TAKEN = N_(
    "{where} switches the {neutral} away from the only link, at {places}: on {source} none is left."
)
AROUND = N_(
    "{where} parts the {neutral} of its output from that of its input, and outside it {runs} lead"
    " from one to the other: its link then lies on the {neutral} of its input too. Give each side a"
    " bar of its own."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each switch."""
    parting = [
        part
        for part in view.parts_that(lambda kind: "neutral_through" in kind.declared)
        if view.values(part).pick("neutral_through") == "switched"
    ]
    for look in view.settled_looks:
        for part in parting:
            yield from _around(view, look, part)
    yield from _switches(view)


def _around(view: View, look: Look, part: str) -> Iterator[Hit]:
    """A converter whose two neutrals are one while it gives its own power."""
    situation, terminals = look.studies.situation, look.studies.circuit.terminals
    near, far = (terminals[part, terminal][Pole.N] for terminal in ("ac_in", "ac_out"))
    on = any(s.owner == part and s.is_ac for s in situation.systems)
    if not on or situation.clusters[near] != situation.clusters[far]:
        return
    branches = look.studies.circuit.branches
    steps = (branches[i].owner for i in way(situation, near, far) or [])
    runs = [run for run in dict.fromkeys(steps) if view.run(run) is not None]
    yield look.hit(
        Level.WARNING,
        (part, *runs),
        AROUND,
        {"where": view.name(part), "runs": ", ".join(map(view.name, runs))},
        (Evidence(N_("runs that join them"), float(len(runs)), "count"),),
        touches=frozenset({part}),
    )


def _switches(view: View) -> Iterator[Hit]:
    switches = [
        p.id
        for p in view.design.parts
        if view.kind(p.id).transfers and view.values(p.id).pick("circuit") in ("ac", "split")
    ]
    for look in view.settled_looks:
        for system in look.studies.neutrals:
            for switch in switches:
                if system.is_ac:
                    yield from _joined(view, look, system, switch)
                    yield from _taken(view, look, system, switch)


def _joined(view: View, look: Look, system: NeutralSystem, switch: str) -> Iterator[Hit]:
    if len(system.ring) < 2 or view.values(switch).pick("poles") == "all":
        return
    situation = look.studies.situation
    if situation.clusters[look.studies.circuit.terminals[switch, "load"][Pole.N]] != system.neutral:
        return
    away = _other_side(view, look, switch)
    sides = {_neutral_end(situation, bond) in away for bond in system.ring}
    if sides == {True, False}:
        places = sorted({b.owner for b in system.ring})
        yield _hit(view, look, system, switch, JOINED, places, _poles(view, switch, "all"))


def _neutral_end(situation: Situation, bond: Bond) -> int:
    branch = situation.circuit.branches[bond.branch]
    return branch.a if situation.clusters[branch.a] == bond.neutral else branch.b


def _other_side(view: View, look: Look, switch: str) -> set[int]:
    """What switching the neutral would part from the load: nodes behind the inputs not in use."""
    situation = look.studies.situation
    centre = look.studies.circuit.terminals[switch, "load"][Pole.N]
    positions = look.studies.state.positions
    stands = {position for (part, _), position in positions.items() if part == switch}
    runs = {
        run.id
        for each in view.kind(switch).inputs
        if each.position not in stands
        for run in view.design.runs_at(switch, each.terminal)
    }
    wires = situation.wires()
    first = [n for i, n in wires.get(centre, ()) if situation.circuit.branches[i].owner in runs]
    return set(
        hanging_together(first, lambda node: (n for _, n in wires.get(node, ()) if n != centre))
    )


def _taken(view: View, look: Look, system: NeutralSystem, switch: str) -> Iterator[Hit]:
    if system.bonds or view.place_of(switch).aboard or view.values(switch).pick("poles") != "all":
        return
    situation, terminals = look.studies.situation, look.studies.circuit.terminals
    if situation.clusters[terminals[switch, "load"][Pole.N]] != system.neutral:
        return
    inputs = [terminals[switch, each.terminal][Pole.N] for each in view.kind(switch).inputs]
    behind = [node for node in inputs if situation.clusters[node] != system.neutral]
    places = sorted({place for node in behind for place in _linked(look, switch, node)})
    if places:
        yield _hit(view, look, system, switch, TAKEN, places, _poles(view, switch, "lines"))


def _linked(look: Look, switch: str, node: int) -> set[str]:
    """Owners of the links that may be in circuit on the neutral behind an input of a switch,
    whatever else stands how."""
    circuit = look.studies.circuit
    label = _behind(look.studies.situation.contents.lasting, switch)
    return {
        branch.owner
        for branch in circuit.branches
        if branch.sort == "bond" and label[node] in (label[branch.a], label[branch.b])
    }


def _behind(lasting: Lasting, switch: str) -> list[int]:
    """For each node the label of what may be one conductor with it, the switch left out."""
    branches = zip(lasting.circuit.branches, lasting.answer, strict=True)
    pairs = (
        (branch.a, branch.b)
        for branch, answer in branches
        if branch.owner != switch and branch.sort not in LINKS and answer is not False
    )
    return joined(len(lasting.circuit.spots), pairs)


def _hit(
    view: View,
    look: Look,
    system: NeutralSystem,
    switch: str,
    message: str,
    places: list[str],
    mend: Mend,
) -> Hit:
    return look.hit(
        Level.WARNING,
        (switch,),
        message,
        {
            "where": view.name(switch),
            "places": ", ".join(view.name(p) for p in places),
            "source": ", ".join(view.name(o) for o in system.owners),
        },
        (Evidence(N_("{neutral_ground_link}s in circuit"), float(len(system.bonds)), "count"),),
        touches=frozenset({*places, *system.owners}),
        mend=mend,
    )


def _poles(view: View, switch: str, answer: str) -> Mend:
    title = say("Change the poles that {what} switches", what=view.name(switch))
    return change_part(title, switch, {"poles": answer})


RULE = Rule(
    "transfer-poles-wrong",
    N_("Transfer switch with the wrong poles"),
    check,
    {"NA": "250.30", "INT": "551.4"},
    causes=("bond-doubled", "bond-missing"),
)
