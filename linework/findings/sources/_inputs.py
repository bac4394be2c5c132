"""Inputs that are wired and never live, and converters that get or give nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import Circuit, Conversion, LiveSource
from linework.circuit.series import ways_back
from linework.design import End, Part, Run, pole_map
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.view import View
from linework.study.situation import Situation
from linework.wiring import Pole, is_ac, is_ungrounded
from linework.words import N_

INPUT = N_("{where}: no position of the levers makes the input of {parts} live.")
NO_SUPPLY = N_("nothing is drawn that feeds it: what comes in through it was not judged")
ALONE = N_("nothing is joined to where it takes its power from: whether it has any was not judged")
UNJOINED = N_("nothing is joined to where it gives its power: what it charges was not judged")
IDLE = N_("{where} charges nothing: its output reaches no battery.")

Hot = tuple[str, str, str]
"""Part, terminal, pole."""


@dataclass(frozen=True)
class DeadInput:
    """Wired inputs on one conductor that is never live, and the runs that bring it no hot one.

    ``cluster``: that conductor by what lasts, whatever the positions.
    """

    ends: tuple[End, ...]
    cluster: int
    runs: tuple[str, ...]

    @property
    def parts(self) -> tuple[str, ...]:
        """Their parts."""
        return tuple(dict.fromkeys(end.part for end in self.ends))


def dead_inputs(view: View, fed: set[str]) -> list[DeadInput]:
    """Every wired input none of whose hot conductors is live in any state.

    Where no run lacks its hot conductor the cause lies elsewhere, and loads there that no state
    feeds tell of it; ``fed``: the loads that some state feeds.
    """
    if view.circuit is None or view.lasting is None:
        return []
    live, label = _live(view), view.lasting.cluster
    groups: dict[int, list[End]] = {}
    for part in sorted(view.design.parts, key=lambda item: item.id):
        for end, hot in _inputs(view, part):
            # exchanged with the neutral it is live all the same
            if hot and not any((end.part, end.terminal, pole) in live for pole in (*hot, "N")):
                node = view.circuit.terminals[end.part, end.terminal][hot[0]]
                groups.setdefault(label[node], []).append(end)
    found = []
    loads = {
        label[node]
        for load in view.circuit.loads
        if load.owner not in fed
        for node in (load.a, load.b)
    }
    for cluster, ends in groups.items():
        runs = tuple(sorted({run.id for end in ends for run in _without_hot(view, end)}))
        if runs or cluster not in loads or _open_inlet(view, cluster) is not None:
            found.append(DeadInput(tuple(ends), cluster, runs))
    return found


def told_of(view: View, dead: DeadInput) -> Outcome:
    """A warning, at the runs that lack the hot conductor where there are such; a gap where only
    the supply is not drawn."""
    inlet = _open_inlet(view, dead.cluster)
    if inlet is not None:
        return NotChecked(NO_SUPPLY, {}, (inlet,))
    subjects = dead.runs or dead.parts
    return Hit(
        Level.WARNING,
        subjects,
        INPUT,
        {
            "where": ", ".join(view.name(s) for s in subjects),
            "parts": ", ".join(view.name(p) for p in dead.parts),
        },
        (Evidence(N_("states that feed it"), 0.0, "count"),),
        touches=frozenset(dead.parts),
    )


def _live(view: View) -> set[Hot]:
    found: set[Hot] = set()
    for look in view.settled_looks:
        situation = look.studies.situation
        for (part, terminal), nodes in situation.circuit.terminals.items():
            found |= {(part, terminal, p) for p, node in nodes.items() if situation.feeds(node)}
    return found


def _inputs(view: View, part: Part) -> Iterator[tuple[End, list[str]]]:
    """The wired inputs of a part that is no load, with their hot poles of alternating current."""
    kind, values = view.kind(part.id), view.values(part.id)
    if view.circuit is None or any(
        load.owner == part.id and load.data.own for load in view.circuit.loads
    ):
        return
    roles = ("in", "both") if kind.board else ("in",)  # the feed of a board also gives power on
    for terminal in kind.terminals(values):
        wired = view.design.runs_at(part.id, terminal.name)
        if terminal.role in roles and wired:
            poles = [str(p) for p in terminal.poles if is_ac(p) and is_ungrounded(p)]
            yield End(part.id, terminal.name), poles


def _open_inlet(view: View, cluster: int) -> str | None:
    """An inlet on this conductor into which nothing is drawn to go."""
    if view.circuit is None or view.lasting is None:
        return None
    for part in sorted(view.design.parts, key=lambda item: item.id):
        nodes = view.circuit.terminals.get((part.id, "outside"), {})
        here = {view.lasting.cluster[node] for node in nodes.values()}
        if cluster in here and not view.design.runs_at(part.id, "outside"):
            return part.id
    return None


def _without_hot(view: View, end: End) -> Iterator[Run]:
    """The runs at an input that bring it no hot conductor, though their other end has one."""
    for run in view.design.runs_at(end.part, end.terminal):
        if view.circuit is None:
            continue
        at_a = (run.a.part, run.a.terminal) == (end.part, end.terminal)
        other = run.b if at_a else run.a
        has = view.circuit.terminals.get((other.part, other.terminal), {})
        brings = {q if at_a else p for p, q in pole_map(view.design, run)}
        cut = view.run_values(run.id).pick("broken") == "L"
        wants = any(is_ungrounded(Pole(pole)) for pole in has)
        if wants and (cut or not any(is_ungrounded(pole) for pole in brings)):
            yield run


# converters


def idle_converters(view: View, told: set[str]) -> Iterator[Outcome]:
    """Chargers that reach no battery, and a gap for what others rest on and is drawn without what
    feeds it; not parts of which it is told already."""
    if view.circuit is None:
        return
    fed = {i for look in view.settled_looks for i in look.studies.energised.fed}
    seen = set(told)
    for conversion in view.circuit.conversions:
        if conversion.owner in seen:
            continue
        if conversion.load not in fed:
            alone = fed.isdisjoint(c.load for c in _beside(view.circuit, conversion))
            if _used(view, conversion) or (alone and _joined(view, conversion)):
                seen.add(conversion.owner)
                yield NotChecked(ALONE, {}, (conversion.owner,))
        elif _charges_nothing(view, conversion):
            seen.add(conversion.owner)
            if not _joined(view, conversion):
                yield NotChecked(UNJOINED, {}, (conversion.owner,))
                continue
            yield Hit(
                Level.WARNING,
                (conversion.owner,),
                IDLE,
                {"where": view.name(conversion.owner)},
                (Evidence(N_("batteries that it reaches"), 0.0, "count"),),
            )


def _beside(circuit: Circuit, conversion: Conversion) -> list[Conversion]:
    """All that the part of a conversion turns over."""
    return [c for c in circuit.conversions if c.owner == conversion.owner]


def _joined(view: View, conversion: Conversion) -> bool:
    """Whether a run ends at what a converter gives."""
    if view.circuit is None:
        return False
    plus = view.circuit.sources[conversion.source].plus
    return any(
        plus in nodes.values() and view.design.runs_at(part, terminal)
        for (part, terminal), nodes in view.circuit.terminals.items()
        if part == conversion.owner
    )


def _used(view: View, conversion: Conversion) -> bool:
    """Whether other parts hang on what a converter gives, in some state."""
    for look in view.settled_looks:
        situation = look.studies.situation
        if conversion.source in {i for i, _ in situation.active}:
            hot = situation.clusters[situation.circuit.sources[conversion.source].plus]
            if situation.parts_on.get(hot, set()) - {conversion.owner}:
                return True
    return False


def _charges_nothing(view: View, conversion: Conversion) -> bool:
    """Whether a charger is on in some state and in none of these reaches a battery or a load."""
    on = False
    for look in view.settled_looks:
        situation = look.studies.situation
        source = situation.circuit.sources[conversion.source]
        if not source.data.group.charges or (conversion.source, source) not in situation.active:
            continue
        on = True
        if _reaches_any(situation, source):
            return False
    return on


def _reaches_any(situation: Situation, source: LiveSource) -> bool:
    """Whether a battery, a string of them or a load lies across a charger, with its way back."""
    cluster, label = situation.clusters, situation.conductive
    hot, back = cluster[source.plus], label[source.minus]
    strings = (
        back in ways_back(situation, i, label)
        for i, s in situation.active
        if (s.data.group.stores or s.data.group.sealed) and cluster[s.plus] == hot
    )
    return any(strings) or any(
        cluster[load.a] == hot and label[load.b] == back
        for _, load in situation.loads
        if load.owner != source.owner
    )
