"""A charger that the battery it charges feeds, through an inverter.

What is checked
    In every state: whether the power of a charger comes, through converters
    and batteries, from the battery that it charges; and whether what passes its
    input on gets its own output back there.
Why it matters
    The battery empties itself through the losses of both, and everything seems
    to work until it is flat. What gets its own output back takes that for a
    supply, goes over to it, and stops and starts by turns.
How to cure it
    Feed the charger from a circuit that only shore or a generator makes live,
    or switch it off whenever the inverter runs.
Limits
    What is drawn as one inverter-charger switches its charger off by itself.
    Chargers that wait for a high battery voltage are taken to charge.
Sources
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx

from linework.circuit.model import Conversion, LiveSource, Load
from linework.circuit.series import ways_back
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.situation import Situation, System
from linework.study.ways.paths import parts_passed
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

MESSAGE = N_(
    "{charger} charges {battery}, which feeds it through {inverter}: the battery empties itself by"
    " what both of them lose."
)

STRAIGHT = N_(
    "{charger} takes its power from {battery}, which it charges: nothing comes in, and what it"
    " loses is taken from there."
)
ITSELF = N_(
    "{where} gets its own output back at its input, by {way}: it takes that for a supply and goes"
    " over to it, which stops it, and so by turns; or it charges itself until it is flat. Feed its"
    " input from nothing that hangs on its output."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each charger on a ring, and for each part that feeds its own input."""
    passing = view.parts_that(lambda kind: kind.changes_over and not kind.transfers)
    for look in view.settled_looks:
        yield from _look(view, look)
        for part in passing:
            yield from _itself(view, look, part)


def _itself(view: View, look: Look, part: str) -> Iterator[Hit]:
    """Of an inverter whose own hot conductor leads to its input."""
    situation = look.studies.situation
    nodes = situation.circuit.terminals.get((part, "ac_in"), {})
    for pole, node in nodes.items():
        own = [s for s in situation.feeds(node) if s.owner == part and s.is_ac]
        if is_ungrounded(Pole(pole)) and own:
            passed = parts_passed(situation, own[0].source, node)
            runs = [each for each in passed if view.run(each) is not None]
            yield look.hit(
                Level.WARNING,
                (part,),
                ITSELF,
                {"where": view.name(part), "way": view.names(runs)},
                (Evidence(N_("inputs that it feeds"), 1.0, "count"),),
                touches=frozenset(runs),
            )
            return


def _look(view: View, look: Look) -> Iterator[Hit]:
    circuit, flow = look.studies.circuit, _flow(look.studies.situation)
    for ring in nx.strongly_connected_components(flow):
        if len(ring) < 2:
            continue
        owners = {i: circuit.sources[i].owner for i in ring}
        cells = sorted({o for i, o in owners.items() if _holds(circuit.sources[i])})
        for conversion in circuit.conversions:
            source = circuit.sources[conversion.source]
            if conversion.source in ring and source.data.group.charges:
                between = sorted(set(owners.values()) - {source.owner, *cells})
                yield _hit(view, look, conversion, tuple(between), tuple(cells))


def _flow(situation: Situation) -> nx.DiGraph:
    """Sources by index; an edge from each to what it feeds, through a converter or by charging."""
    circuit, graph = situation.circuit, nx.DiGraph()
    on, drawn = {i for i, _ in situation.active}, {i for i, _ in situation.loads}
    cells = [(i, s) for i, s in situation.active if _holds(s)]
    for conversion in circuit.conversions:
        if conversion.source not in on or conversion.load not in drawn:
            continue
        given, load = circuit.sources[conversion.source], circuit.loads[conversion.load]
        for system in situation.feeds(load.a):
            if _lies_across(situation, system, load):
                graph.add_edge(system.source, conversion.source)
        for i, battery in cells:
            together = situation.clusters[battery.plus] == situation.clusters[given.plus]
            if given.data.group.charges and together:
                graph.add_edge(conversion.source, i)
    return graph


def _lies_across(situation: Situation, system: System, load: Load) -> bool:
    """Whether the current of a winding that reaches the hot end of an input comes back from its
    other end: a charge controller that joins plus through has the battery on one end only."""
    label = situation.conductive
    if label[load.b] in ways_back(situation, system.source, label):
        return True
    return any(other.owner == system.owner for other in situation.feeds(load.b))


def _holds(source: LiveSource) -> bool:
    return source.data.group.stores or source.data.group.sealed


def _hit(
    view: View,
    look: Look,
    conversion: Conversion,
    between: tuple[str, ...],
    cells: tuple[str, ...],
) -> Hit:
    loaded = loaded_or_none(look.studies)
    taken = 0.0 if loaded is None else loaded.converter_w.get(conversion.load, 0.0)
    return look.hit(
        Level.WARNING,
        (conversion.owner,),
        MESSAGE if between else STRAIGHT,
        {
            "charger": view.name(conversion.owner),
            "battery": ", ".join(view.name(o) for o in cells),
            "inverter": ", ".join(view.name(o) for o in between),
        },
        (Evidence(N_("power that goes round"), taken, "power"),),
        touches=frozenset({*between, *cells}),
    )


RULE = Rule(
    "charger-loop",
    N_("A charger is fed by its own battery"),
    check,
    {"NA": "practice", "INT": "practice"},
)
