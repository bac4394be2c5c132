"""A boat's shore inlet without a device that opens on leakage.

What is checked
    On boats, in every state in which shore feeds an inlet: whether all loads and
    outlets behind it lie behind a device that opens at 30 mA of leakage at the
    latest, and that opens the neutral too.
Why it matters
    What leaks into the water is felt by swimmers long before any breaker trips;
    a shore with line and neutral exchanged leaves the other pole live.
How to cure it
    A leakage breaker of two poles, at the inlet (10 ft of cable at the most).
Limits
    How far from the inlet the device is, is another rule's; how fast it is, is not
    looked at.
    What the dock has of its own does not count: another dock has none. An
    isolation transformer straight behind the inlet is spared, an autotransformer not.
Sources
    ABYC E-11; ISO 13297 (both from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.incircuit import LINKS
from linework.codes import CodesError
from linework.design.names import natural
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.ashore import ashore
from linework.study.situation import Situation
from linework.study.ways.windings import shares_conductor, wound_inputs
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole, is_ungrounded
from linework.words import N_, say

NONE = N_(
    "Nothing behind {where} opens on leakage: {parts} can leak into the water and no {breaker}"
    " notices. At the inlet of a boat a device of {limit} mA is asked for that opens both poles."
)
ONE_POLE = N_(
    "What opens on leakage behind {where} leaves the {neutral} joined. At the inlet of a boat it"
    " must open both poles: a dock may have them exchanged."
)
NO_TABLE = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each inlet."""
    inlets = [p for p in view.parts_that(lambda kind: kind.lets_in) if view.place_of(p).afloat]
    try:
        limit_ma = rules_of(view.design).leakage_afloat_ma().value if inlets else 0.0
    except CodesError as fault:
        yield NotChecked(NO_TABLE, {"fault": fault}, tuple(inlets))
        return
    for look in view.settled_looks:
        for inlet in inlets:
            yield from _inlet(view, look, inlet, limit_ma)


def _inlet(view: View, look: Look, inlet: str, limit_ma: float) -> Iterator[Hit]:
    situation = look.studies.situation
    nodes = situation.circuit.terminals.get((inlet, "inside"), {})
    hots = [node for pole, node in nodes.items() if is_ungrounded(Pole(pole))]
    shore = {s.owner for node in hots for s in situation.feeds(node) if s.is_ac}
    if not shore:
        return
    aside = {part for owner in shore for part in ashore(view.design, owner)} | shore
    opened = _opened(situation, limit_ma) | _contacts_of(situation, inlet)
    open_parts = _still_on(situation, hots, opened, aside)
    back = [node for pole, node in nodes.items() if pole == Pole.N]
    if open_parts:
        yield _hit(view, look, inlet, NONE, open_parts, shore, limit_ma)
    elif parts := _still_on(situation, back, opened, aside):
        yield _hit(view, look, inlet, ONE_POLE, parts, shore, limit_ma)


def _opened(situation: Situation, limit_ma: float) -> frozenset[int]:
    """The contacts of all devices that are quick enough for leakage."""
    sensors = situation.circuit.sensors
    return frozenset(i for s in sensors if s.data.trip_ma.high <= limit_ma for i in s.opens)


def _contacts_of(situation: Situation, inlet: str) -> frozenset[int]:
    """Back through which lies the dock, with all that is plugged in there besides."""
    return frozenset(situation.circuit.branches_of.get(inlet, ()))


def _still_on(
    situation: Situation, nodes: list[int], opened: frozenset[int], aside: set[str]
) -> set[str]:
    """The parts aboard with a load or outlet that hang on one of these with the contacts open."""
    label = situation.labels_without(opened & situation.closed, LINKS)
    here, windings = {label[node] for node in nodes}, _kept_apart(situation)
    loads = (x for i, x in situation.loads if i not in windings)
    found = {x.owner for x in loads if {label[x.a], label[x.b]} & here}
    for face in situation.circuit.faces:
        if here & {label[node] for node in face.nodes.values()}:
            found.add(face.owner)
    return found - aside


def _kept_apart(situation: Situation) -> set[int]:
    """The inputs of transformers whose windings share no conductor with them, by the index of the
    load: an autotransformer isolates nothing."""
    circuit, wound = situation.circuit, wound_inputs(situation.circuit)
    shared = {
        c.load
        for c in circuit.conversions
        if c.load in wound and shares_conductor(situation, circuit.sources[c.source])
    }
    return set(wound - shared)


def _hit(
    view: View,
    look: Look,
    inlet: str,
    message: str,
    parts: set[str],
    shore: set[str],
    limit_ma: float,
) -> Hit:
    words = {"where": view.name(inlet)}
    if message is NONE:
        words |= {
            "parts": ", ".join(sorted(map(view.name, parts), key=natural)),
            "limit": f"{limit_ma:g}",
        }
    return look.hit(
        Level.WARNING,
        (inlet,),
        message,
        words,
        (Evidence(N_("parts without it"), float(len(parts)), "count"),),
        touches=frozenset({*parts, *shore}),
        mend=_mend(view, inlet),
    )


def _mend(view: View, inlet: str) -> Mend | None:
    """The only device straight behind the inlet made one that opens on leakage."""
    runs = view.design.runs_at(inlet, "inside")
    ends = [end.part for run in runs for end in (run.a, run.b) if end.part != inlet]
    if len(ends) != 1 or not {"ground_fault", "poles"} <= set(view.kind(ends[0]).declared):
        return None
    title = say("Make {what} a leakage breaker that opens both poles", what=view.name(ends[0]))
    return change_part(title, ends[0], {"ground_fault": "rcd_30", "poles": "all"})


RULE = Rule(
    "inlet-leakage-missing",
    N_("No leakage device at a boat's inlet"),
    check,
    {"NA": "ABYC E-11", "INT": "ISO 13297"},
)
