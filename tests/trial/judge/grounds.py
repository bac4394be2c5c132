"""Links, ground wires, bodies: where neutral meets ground, and whether metal has its way back."""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx

from linework.design import Design, Run
from tests.trial.judge.flaws import DANGER, NEAR, WARNING, Fact, Flaw
from tests.trial.judge.net import EARTH, Edge, Emf, Node
from tests.trial.judge.reading import Told
from tests.trial.judge.standing import Standing

Said = Iterator[Flaw | Fact]


def _links(standing: Standing, source: Emf) -> list[Edge]:
    """The links at the neutral of a source, as it stands."""
    neutral = standing.wired[source.minus]
    found = [e for e in standing.edges if e.sort == "bond" and "-" not in (e.a.pole, e.b.pole)]
    return [e for e in found if neutral in (standing.wired[e.a], standing.wired[e.b])]


def _running(standing: Standing) -> list[Emf]:
    """One winding of each source of alternating current."""
    firsts = {s.owner: s for s in reversed(standing.sources) if s.alternating}
    return list(firsts.values())


def link_flaws(standing: Standing, design: Design) -> Said:
    """No link, too many, or one that a source does not bear."""
    for source in _running(standing):
        links = _links(standing, source)
        if not links:
            fixed = _feeds_wiring(standing, design, source)
            told = f"{source.owner} feeds {'fixed wiring' if fixed else 'its own outlets'}"
            told += " and its neutral meets ground nowhere"
            yield Flaw("no link", f"{source.owner} {fixed}", DANGER, told, near=not fixed)
        yield from _rings(standing, source, links)
        part = design.part(source.owner)
        if links and Told(part).word("bond_allowed") == "no" and not _own(links, source):
            told = f"the neutral of {source.owner} is joined outside, which its maker forbids"
            yield Flaw("link forbidden", source.owner, DANGER, told)


def _own(links: list[Edge], source: Emf) -> bool:
    return all(link.owner == source.owner for link in links)


def _rings(standing: Standing, source: Emf, links: list[Edge]) -> Said:
    """Links that close a ring of neutral and ground wires."""
    by_metal: dict[int, set[str]] = {}
    for link in links:
        ground = link.b if link.a.pole in ("N", "L", "L1", "L2") else link.a
        by_metal.setdefault(standing.green[ground], set()).add(link.owner)
    for owners in by_metal.values():
        if len(owners) > 1:
            told = f"with {source.owner} neutral meets ground at {' and '.join(sorted(owners))}"
            yield Flaw("two links", "+".join(sorted(owners)), DANGER, told)


def _feeds_wiring(standing: Standing, design: Design, source: Emf) -> bool:
    """Whether loads or outlets hang on it other than in its own outlets, or those of its kit."""
    own = _seated_on(design, source.owner)
    own |= {
        p for kit in design.parts if kit.kind == "parallel_kit" for p in _seated_on(design, kit.id)
    }
    live = {standing.wired[s.plus] for s in standing.sources if s.owner == source.owner}
    ends = [(use.owner, use.a) for use in standing.uses]
    ends += [
        (o, n) for o, face in standing.net.faces.items() for p, n in face.items() if p[0] == "L"
    ]
    return any(owner not in own and standing.wired.get(node) in live for owner, node in ends)


def _seated_on(design: Design, host: str) -> set[str]:
    found = {host}
    for seat in design.seated_in(host):
        found |= _seated_on(design, seat.part)
    return found


# ground wires


def metal_flaws(standing: Standing, design: Design) -> Said:
    """Metal beside a live conductor that is not grounded, or that is live itself."""
    for source in _running(standing):
        live = {standing.wired[s.plus] for s in standing.sources if s.owner == source.owner}
        home = _home(standing, source)
        for owner, metal in standing.net.metals:
            if standing.metal[metal] in {standing.metal[s.plus] for s in _of(standing, source)}:
                told = f"metal of {owner} is joined to a hot conductor of {source.owner}"
                yield Flaw("metal live", owner, DANGER, told)
            elif _carries(standing, metal, live) and not _returns(standing, metal, home):
                told = f"metal of {owner} is not joined to the ground of {source.owner}"
                yield Flaw("not grounded", f"{owner} {source.owner}", DANGER, told)


def neutral_as_ground(standing: Standing, design: Design) -> Said:
    """Metal that a wire joins to a neutral, and no ground wire to a source: it stands at full
    voltage when the neutral opens (NFPA 70 250.24(A)(5), 250.142(B))."""
    homes = {label for source in _running(standing) for label in _home(standing, source)[0]}
    neutrals = {standing.wired[source.minus] for source in _running(standing)}
    for edge in standing.edges:
        if edge.sort == "bond" and {edge.a.pole, edge.b.pole} == {"N", "PE"}:
            metal, neutral = (edge.a, edge.b) if edge.a.pole == "PE" else (edge.b, edge.a)
            if standing.wired[neutral] not in neutrals:
                continue
            ground = standing.green[metal]
            metals = {owner for owner, n in standing.net.metals if standing.green[n] == ground}
            if isinstance(design.get(edge.owner), Run) and ground not in homes:
                for owner in sorted(metals):
                    told = f"the neutral is the only ground of the metal of {owner}"
                    yield Flaw("neutral as ground", owner, DANGER, told)


def _of(standing: Standing, source: Emf) -> list[Emf]:
    return [s for s in standing.sources if s.owner == source.owner]


def _home(standing: Standing, source: Emf) -> tuple[set[int], int]:
    """Labels of ground at a source (of ``green``), and of its neutral (of ``metal``)."""
    own = [Node(source.owner, t, "PE") for t in ("out", "frame", "case")]
    return {standing.green[n] for n in own if n in standing.green}, standing.metal[source.minus]


def _returns(standing: Standing, metal: Node, home: tuple[set[int], int]) -> bool:
    return standing.green[metal] in home[0] or standing.metal[metal] == home[1]


def _carries(standing: Standing, metal: Node, live: set[int]) -> bool:
    """Whether a live conductor lies in the part of a piece of metal, at the terminals beside it."""
    beside = standing.net.beside.get(metal, ())
    return any(
        node.part == metal.part and label in live and (not beside or node.terminal in beside)
        for node, label in standing.wired.items()
    )


# bodies, frames, minus


def body_facts(standing: Standing, design: Design) -> Said:
    """Bodies and cases joined to the boards' ground; minus joined to its body, once."""
    grounds = _grounds(design)
    for part in design.parts:
        if part.kind == "body":
            yield from _body(standing, part.id, grounds)
        elif part.kind in ("solar_array", "solar_controller", "electrode"):
            yield from _joined(standing, design, part.id)
        elif part.kind == "battery":
            yield from _minus(standing, design, part.id)


def _grounds(design: Design) -> list[Node]:
    """Where alternating current has its ground aboard: boards, and what makes it."""
    terminals = {"generator": "frame", "transformer": "case"}
    terminals |= dict.fromkeys(("inverter", "inverter_charger", "hybrid_inverter"), "case")
    made = [Node(p.id, terminals[p.kind], "PE") for p in design.parts if p.kind in terminals]
    return made + [Node(board, "ground", "PE") for board in _boards(design)]


def _boards(design: Design) -> list[str]:
    return [p.id for p in design.parts if p.kind == "panel" and Told(p).word("circuit") != "dc"]


def _body(standing: Standing, body: str, grounds: list[Node]) -> Said:
    tie = Node(body, "tie", "body")
    for ground in grounds:
        if standing.green.get(ground) == standing.green[tie]:
            told = f"the body {body} is no longer joined to the ground of {ground.part}"
            yield Fact("body bonded", body, ground.part, DANGER, told)


_GROUNDED = ("body", "panel", "solar_controller", "hybrid_inverter", "generator")


def _joined(standing: Standing, design: Design, name: str) -> Said:
    terminal = {"solar_array": "frame", "electrode": "ground"}.get(design.part(name).kind, "case")
    mine = Node(name, terminal, "PE")
    others = {n.part for n, label in standing.green.items() if label == standing.green.get(mine)}
    for other in others - {name, "@"}:
        if design.part(other).kind in _GROUNDED:
            told = f"{name} is no longer joined to the ground of {other}"
            level = WARNING if terminal == "ground" else NEAR  # below 60 V frames hurt nobody
            yield Fact("joined", name, other, level, told)


def _minus(standing: Standing, design: Design, battery: str) -> Said:
    minus = Node(battery, "dc", "-")
    label = standing.unlinked[minus]
    ties = [e for e in standing.edges if e.sort == "bond" and "-" in (e.a.pole, e.b.pole)]
    mine = [e for e in ties if label in (standing.unlinked[e.a], standing.unlinked[e.b])]
    if mine:
        told = f"minus of {battery} is no longer joined to metal"
        # afloat two insulated wires without a bond are as good (ISO 13297); with alternating
        # current aboard "sides tied" asks for it
        moves = design.settings.place in ("vehicle", "recreational")
        yield Fact("minus bonded", battery, "body", WARNING if moves else NEAR, told)
    if len({e.owner for e in mine}) > 1:
        told = f"minus of {battery} is joined to metal at more than one place"
        yield Flaw("minus bonded twice", battery, WARNING, told)
    afloat = design.settings.place == "boat"
    for board in _boards(design) if afloat else ():
        if standing.metal[Node(board, "ground", "PE")] == standing.metal[minus]:
            told = f"the ground bar of {board} is no longer joined to minus of {battery}"
            yield Fact("sides tied", board, battery, DANGER, told)


def kept_apart(standing: Standing, design: Design) -> Said:
    """Isolators and shields: nothing else joins their two sides."""
    for owner, (one, other) in standing.net.apart.items():
        graph = nx.Graph(
            (e.a, e.b) for e in standing.edges if e.owner != owner and e.sort != "soil"
        )
        ends = [[n for n in graph if (n.part, n.terminal) == (owner, s)] for s in (one, other)]
        if all(ends) and not any(nx.has_path(graph, a, b) for a in ends[0] for b in ends[1]):
            lost = f"{owner} no longer keeps shore and boat apart"
            yield Fact("kept apart", owner, owner, WARNING, lost)


def earth_flaws(standing: Standing, design: Design) -> Said:
    """Metal whose only way back is the soil."""
    soil = nx.Graph((e.a, e.b) for e in standing.edges if e.sort == "soil")
    for source in _running(standing):
        home = _home(standing, source)
        for owner, metal in standing.net.metals:
            live = {standing.wired[s.plus] for s in _of(standing, source)}
            reaches = any(
                standing.green.get(n) == standing.green[metal] for n in soil if n != EARTH
            )
            lost = _carries(standing, metal, live) and not _returns(standing, metal, home)
            if lost and reaches:
                told = f"metal of {owner} has only the soil as its way back to {source.owner}"
                yield Flaw("rod only", owner, DANGER, told)
