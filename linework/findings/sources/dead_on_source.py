"""A source that runs, and nothing arrives at what another source feeds.

What is checked
    Over all permitted positions: each load that some source feeds, and at which
    a hot conductor of another source arrives that never feeds it. Each board of
    several hots to which one source brings all and another never does. Each inlet:
    whether what comes in there ever reaches anything. Each outlet
    of two hots: whether a source ever brings it two. Each switch that goes
    over by itself: whether it ever goes to a source that arrives at one of its
    inputs. And each inverter that passes its input on: whether it ever passes
    on a source that arrives there, as it does another.
Why it matters
    The stand-by source runs, the normal one is dead, and what was to be kept
    alive stands still; nobody notices before the first outage.
How to cure it
    Bring both legs and the neutral of that source; or move the load to a source
    that feeds it.
Limits
    Alternating current only, breakers closed, and nothing where not all was
    looked at. A load or outlet on two hots cannot work from a source of one leg:
    that is a note. An automatic switch beside an input that is never dead is not judged.
Sources
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from linework.circuit.model import Circuit, LiveSource
from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.kind import Input, Kind
from linework.study.answers.through_loads import through_others
from linework.study.answers.trust import loaded_or_none
from linework.study.situation import Situation
from linework.wiring import Pole, SourceGroup, is_ungrounded
from linework.words import N_

SAME_LEG = N_(
    "{where} gets nothing from {source}: both its hots hang on the same leg of it, with 0 V between"
    " them."
)
NO_WAY = N_(
    "{where} gets nothing from {source}: {a_hot} of it arrives there, but its current has no way"
    " back."
)
PART = N_(
    "{source} never brings all {hots} of {where}, as {others} does. On {source} these are dead:"
    " {parts}."
)
NOWHERE = N_(
    "What comes in at {where} from {source} reaches nothing: no board, load or outlet hangs on its"
    " {hots} in any position."
)
STAYS = N_(
    "{switch} never goes over to {source}: where it looks for voltage on its input {name} it finds"
    " none. When nothing else is live, what hangs on {switch} stays dead."
)
REFUSES = N_(
    "{inverter} never passes {source} on, as it does {others}: at its input it finds none of its"
    " voltage. What hangs on {inverter} stays on the battery while {source} runs."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for all loads that get nothing from a source, one for each input never taken."""
    if not view.complete:
        return  # that is told; "never" would be a guess
    looks = tuple(view.orderly_looks)
    if looks:
        yield from _loads(view, looks)
        yield from _inlets(view, looks)
    for part in view.parts_that(lambda kind: kind.transfers) if looks else ():
        for way in view.kind(part).inputs:
            yield from _input(view, looks, part, way)
    for part in view.parts_that(_passes_its_input) if looks else ():
        yield from _refused(view, looks, part)


# loads


def _loads(view: View, looks: Sequence[Look]) -> Iterator[Hit]:
    fed: dict[int, set[str]] = {}
    arrives: dict[tuple[int, str], bool] = {}  # whether at both ends, on one leg
    for look in looks:
        for index, owners in _fed(look):
            fed.setdefault(index, set()).update(owners)
        for index, owner, one_leg in _arriving(look):
            arrives[index, owner] = arrives.get((index, owner), True) and one_leg
    dead: dict[tuple[str, bool], set[str]] = {}
    loads = looks[0].studies.circuit.loads
    for (index, owner), one_leg in arrives.items():
        others = fed.get(index, set())
        if others and owner not in others:
            dead.setdefault((owner, one_leg), set()).add(loads[index].owner)
    for (owner, one_leg), parts in sorted(dead.items()):
        yield _hit(view, looks[0].studies.circuit, owner, one_leg, parts)
    for owner, parts in sorted(_outlets(looks).items()):
        yield _hit(view, looks[0].studies.circuit, owner, True, parts)
    yield from _boards(view, looks, fed)


def _outlets(looks: Sequence[Look]) -> dict[str, set[str]]:
    """By source the outlets of two hots both of which it never brings but on one conductor."""
    one: set[tuple[str, str]] = set()
    two: set[tuple[str, str]] = set()
    for look in looks:
        situation = look.studies.situation
        for face in situation.circuit.faces:
            hots = [node for pole, node in face.nodes.items() if is_ungrounded(Pole(pole))]
            owners = [{s.owner for s in situation.feeds(node) if s.is_ac} for node in hots]
            if len(hots) == 2:
                alike = situation.clusters[hots[0]] == situation.clusters[hots[1]]
                (one if alike else two).update((o, face.owner) for o in owners[0] & owners[1])
    found: dict[str, set[str]] = {}
    for owner, outlet in one - two:
        found.setdefault(owner, set()).add(outlet)
    return found


def _boards(view: View, looks: Sequence[Look], fed: Mapping[int, set[str]]) -> Iterator[Hit]:
    """Boards that get all hots from one source, and from another never all but some; ``fed``: by
    load the sources that feed it. What is dead on that source follows from it."""
    circuit = looks[0].studies.circuit
    for board in view.parts_that(lambda kind: kind.board):
        whole, part = set[str](), set[str]()
        for look in looks:
            hots = _hots(look.studies.situation, board)
            every, some = set.intersection(*hots), set.union(*hots)
            whole |= every
            part |= some - every
        for owner in sorted(part - whole) if whole else ():
            dead = {
                circuit.loads[i].owner for i, by in fed.items() if by & whole and owner not in by
            }
            if dead:
                yield _part(view, circuit, board, owner, (whole, dead))


def _part(
    view: View, circuit: Circuit, board: str, owner: str, found: tuple[set[str], set[str]]
) -> Hit:
    whole, dead = found
    return Hit(
        Level.WARNING if _legs(circuit, owner) > 1 else Level.NOTE,
        (board,),
        PART,
        {
            "source": view.name(owner),
            "where": view.name(board),
            "others": view.names(whole),
            "parts": view.names(dead),
        },
        (Evidence(N_("states in which it feeds them"), 0.0, "count"),),
        touches=frozenset({owner, *dead}),
        explains=frozenset(dead),
    )


def _hots(situation: Situation, board: str) -> list[set[str]]:
    """For each hot bar of a board the AC sources that reach it, by its feed or another breaker."""
    nodes = situation.circuit.terminals.get((board, "bus"), {})
    hots = [node for pole, node in nodes.items() if is_ungrounded(Pole(pole))]
    return [{s.owner for s in situation.feeds(node) if s.is_ac} for node in hots] or [set()]


def _legs(circuit: Circuit, owner: str) -> int:
    """How many windings of alternating current a source has."""
    return sum(s.owner == owner and s.data.hertz > 0.0 for s in circuit.sources)


def _fed(look: Look) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Loads that get a voltage, be it through others: what they get is voltage-wrong's question."""
    yield from look.studies.energised.fed.items()
    loaded = loaded_or_none(look.studies)
    if loaded is not None:
        yield from through_others(look.studies, loaded)


def _arriving(look: Look) -> Iterator[tuple[int, str, bool]]:
    """Loads with a hot conductor of a source, and whether that is on both of their ends."""
    situation = look.studies.situation
    for index, load in situation.loads:
        ends = situation.clusters[load.a], situation.clusters[load.b]
        for system in (*situation.feeds(load.a), *situation.feeds(load.b)):
            if system.is_ac and load.data.own:
                yield index, system.owner, ends == (system.hot, system.hot)


def _hit(view: View, circuit: Circuit, owner: str, one_leg: bool, parts: set[str]) -> Hit:
    return Hit(
        Level.NOTE if one_leg and _legs(circuit, owner) == 1 else Level.WARNING,
        tuple(sorted(parts)),
        SAME_LEG if one_leg else NO_WAY,
        {
            "where": ", ".join(sorted(map(view.name, parts), key=natural)),
            "source": view.name(owner),
        },
        (Evidence(N_("states in which it feeds them"), 0.0, "count"),),
        touches=frozenset({owner}),
    )


# inlets


def _inlets(view: View, looks: Sequence[Look]) -> Iterator[Hit]:
    """Those at which a source comes in whose hot conductors reach nothing behind them."""
    for inlet in view.parts_that(lambda kind: kind.lets_in and not kind.plugs):
        comes, serves = set[str](), set[str]()
        for look in looks:
            for owner, parts in _beyond(look.studies.situation, inlet):
                comes.add(owner)
                serves.update({owner} if any(_uses(view, part, owner) for part in parts) else ())
        for owner in sorted(comes - serves):
            yield Hit(
                Level.WARNING,
                (inlet,),
                NOWHERE,
                {"where": view.name(inlet), "source": view.name(owner)},
                (Evidence(N_("states in which it feeds them"), 0.0, "count"),),
                touches=frozenset({owner}),
            )


def _beyond(situation: Situation, inlet: str) -> Iterator[tuple[str, set[str]]]:
    """The AC sources at an inlet, each with the parts on its hot conductor there."""
    for node in situation.circuit.terminals.get((inlet, "inside"), {}).values():
        for system in situation.feeds(node):
            if system.is_ac:
                yield system.owner, situation.parts_on.get(system.hot, set())


def _uses(view: View, part: str, owner: str) -> bool:
    """Whether power is used there or turned over: no mere way, no outlet in the source's panel."""
    kind = view.kind(part)
    if kind.receptacle:
        return not view.design.seats_of(part)
    converts = kind.source is not SourceGroup.NONE and part != owner
    return kind.board or kind.consumes or kind.transfers or converts


# inputs


def _input(view: View, looks: Sequence[Look], part: str, way: Input) -> Iterator[Hit]:
    """A switch that moves by itself and never goes to a source that arrives at an input."""
    circuit = looks[0].studies.circuit
    if not any(s.key[0] == part and s.moves == "follows" for s in circuit.selectors.values()):
        return
    here = _at_input(looks, part, way.terminal)
    others = (w.terminal for w in view.kind(part).inputs if w != way)
    beside = set[str]().union(*(_at_input(looks, part, terminal) for terminal in others))
    fails = all(_may_fail(circuit, s) for s in circuit.sources if s.owner in beside)
    taken = set[str]().union(*(_sources(look.studies.situation, part, "load") for look in looks))
    for owner in sorted(here - taken) if fails else ():
        yield Hit(
            Level.WARNING,
            (part,),
            STAYS,
            {
                "switch": view.name(part),
                "source": view.name(owner),
                "name": view.values(part).text(way.name),
            },
            (Evidence(N_("states in which it feeds them"), 0.0, "count"),),
            touches=frozenset({owner}),
        )


def _passes_its_input(kind: Kind) -> bool:
    return kind.changes_over and not kind.transfers and kind.source is not SourceGroup.NONE


def _refused(view: View, looks: Sequence[Look], part: str) -> Iterator[Hit]:
    """An inverter that passes on some source that arrives at its input, and another never."""
    arrives = _at_input(looks, part, "ac_in")
    passed = _at_input(looks, part, "ac_out") & arrives
    for owner in sorted(arrives - passed) if passed else ():
        yield Hit(
            Level.WARNING,
            (part,),
            REFUSES,
            {
                "inverter": view.name(part),
                "source": view.name(owner),
                "others": view.names(passed),
            },
            (Evidence(N_("states in which it feeds them"), 0.0, "count"),),
            touches=frozenset({owner}),
        )


def _may_fail(circuit: Circuit, source: LiveSource) -> bool:
    """Whether it can be off in some state."""
    return any(set(circuit.selectors[key].positions) - among for key, among in source.when)


def _at_input(looks: Sequence[Look], part: str, terminal: str) -> set[str]:
    """The AC sources with a hot conductor at an input."""
    return set[str]().union(*(_sources(x.studies.situation, part, terminal) for x in looks))


def _sources(situation: Situation, part: str, terminal: str) -> set[str]:
    nodes = situation.circuit.terminals.get((part, terminal), {})
    hots = [node for pole, node in nodes.items() if is_ungrounded(Pole(pole))]
    return {s.owner for node in hots for s in situation.feeds(node) if s.is_ac}


RULE = Rule(
    "dead-on-source",
    N_("Nothing arrives from a source"),
    check,
    {"NA": "practice", "INT": "practice"},
    causes=("neutral-missing", "sources-meet", "plug-does-not-mate"),
    hangs_on=("polarity-reversed", "metal-live"),
    whole=True,
)
