"""Sources that meet, pins that are live, loads that get nothing or the wrong voltage."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from linework.design import Design
from tests.trial.judge.flaws import DANGER, WARNING, Fact, Flaw
from tests.trial.judge.net import Emf, Node, Use
from tests.trial.judge.reading import Told
from tests.trial.judge.standing import Standing

Said = Iterator[Flaw | Fact]


def meeting(standing: Standing, design: Design) -> Said:
    """Sources on one conductor that cannot run side by side."""
    for source, volts in standing.potentials[1]:
        mates = [s for s in standing.feeders(source.plus) if s.owner != source.owner]
        names = " and ".join(sorted({source.owner, *(s.owner for s in mates)}))
        # sets that a kit keeps in step have a leg on each leg; crossed they are a dead short
        in_step = _in_step(design, {source.owner, *(s.owner for s in mates)})
        if not in_step and source.alternating and any(s.alternating for s in mates):
            told = f"{names} meet on one conductor"
            yield Flaw("sources meet", names, DANGER, told)
        elif abs(volts) > 0.2 * abs(source.volts):
            told = f"{names} stand {abs(volts):.0f} V apart"
            yield Flaw("sources differ", names, DANGER, told)
    yield from _beside(standing, design)
    for source in standing.sources:
        if standing.metal[source.plus] == standing.metal[source.minus]:
            told = f"both ends of {source.owner} are joined: a dead short"
            yield Flaw("short", source.owner, DANGER, told)


def _beside(standing: Standing, design: Design) -> Said:
    """Sources of alternating current with their hot ends on one conductor."""
    by_label: dict[int, set[str]] = {}
    for source in standing.sources:
        if source.alternating:
            by_label.setdefault(standing.wired[source.plus], set()).add(source.owner)
    for owners in by_label.values():
        if len(owners) > 1 and not _in_step(design, owners):
            names = " and ".join(sorted(owners))
            yield Flaw("sources meet", names, DANGER, f"{names} meet on one conductor")


def _in_step(design: Design, owners: set[str]) -> bool:
    """Whether sources are sets that their maker's kit lets run side by side, by their manuals."""
    told = [Told(design.part(owner), design.part(owner).kind) for owner in owners]
    return all(each.word("parallel") == "kit" for each in told)


def banks(standing: Standing, design: Design) -> Said:
    """Batteries of unlike chemistry together; alternators on lithium or without a battery."""
    cells = [s for s in standing.sources if s.sort == "battery"]
    for one, other in combinations(cells, 2):
        ends = ((one.plus, other.plus), (one.minus, other.plus), (one.plus, other.minus))
        together = any(standing.wired[a] == standing.wired[b] for a, b in ends)
        if together and _is_lithium(design, one) != _is_lithium(design, other):
            names = "+".join(sorted((one.owner, other.owner)))
            yield Flaw("unlike", names, WARNING, f"{names} are of unlike chemistry")
    for source in standing.sources:
        if design.part(source.owner).kind == "alternator":
            fed = [c for c in cells if standing.wired[c.plus] == standing.wired[source.plus]]
            if not fed:
                told = f"{source.owner} turns without a battery"
                yield Flaw("alternator alone", source.owner, WARNING, told)
            elif any(_is_lithium(design, c) for c in fed):
                told = f"{source.owner} is worked hard by lithium"
                yield Flaw("alternator on lithium", source.owner, WARNING, told)


def managements(standing: Standing, design: Design) -> Said:
    """Batteries alone on their conductor whose management gives or takes too little."""
    cells = [s for s in standing.sources if s.sort == "battery"]
    for cell in cells:
        told, label = Told(design.part(cell.owner), "battery"), standing.wired[cell.plus]
        if any(c is not cell and standing.wired[c.plus] == label for c in cells):
            continue
        drawn = sum(use.amps for use in standing.uses if standing.wired[use.a] == label)
        charged = sum(
            (s.limit_a or 0.0) / 1.25
            for s in standing.sources
            if s.sort == "charger" and standing.wired[s.plus] == label
        )
        for key, amps in (("discharge_limit", drawn), ("charge_limit", charged)):
            limit = told.figure(key, math.inf)
            if amps > 0.8 * limit:
                reason = f"the management of {cell.owner} opens at {limit:.0f} A, {amps:.0f} A flow"
                yield Flaw(f"cuts out {key}", cell.owner, WARNING, reason, amps < 1.2 * limit)


def _is_lithium(design: Design, source: Emf) -> bool:
    return Told(design.part(source.owner), "battery").word("chemistry") == "lithium"


def primaries(standing: Standing, design: Design) -> Said:
    """Transformers whose primary gets another voltage than it is made for, or its hot at the
    neutral: no grounded conductor at a terminal that is marked for another (NFPA 70 200.11)."""
    for part in design.parts:
        told = Told(part, part.kind)
        ends = [Node(part.id, "primary", p) for p in ("L1", "L2", "L", "N")]
        here = [n for n in ends if n in standing.wired]
        if part.kind != "transformer" or len(here) < 2:
            continue
        volts, made = standing.volts(here[0], here[1]), told.figure("voltage", 120.0)
        if volts and abs(abs(volts) - made) > 0.2 * made:
            reason = f"{part.id} gets {abs(volts):.0f} V and is made for {made:.0f} V"
            yield Flaw("primary voltage", part.id, DANGER, reason)
        elif volts and here[1].pole == "N" and _hot_end(standing, here[1]):
            told_of = f"hot and neutral are exchanged at the primary of {part.id}"
            yield Flaw("exchanged", part.id, WARNING, told_of)


def pins(standing: Standing, design: Design) -> Said:
    """Bare pins that are live from behind; a dead supply that another source feeds."""
    for owner, node, when in standing.net.pins:
        if standing.holds(when) and any(s.alternating for s in standing.feeders(node)):
            yield Flaw("pins live", owner, DANGER, f"the bare pins of {owner} are live")
    for part in design.parts:
        if part.kind == "supply" and standing.positions.get((part.id, "supply")) == "off":
            outs = [Node(part.id, "winding", p) for p in ("L", "L1", "L2")]
            others = {s.owner for n in outs if n in standing.wired for s in standing.feeders(n)}
            for other in others - {part.id}:
                told = f"{other} feeds back into {part.id}"
                yield Flaw("backfeed", part.id, DANGER, told)


def loads(standing: Standing, design: Design) -> Said:
    """What feeds each load, and loads with a voltage that is not theirs."""
    for use in standing.uses:
        share = standing.fed(use)
        sources = standing.feeders(use.a)
        if 0.8 <= share <= 1.2:
            for source in sources:
                told = f"{source.owner} no longer feeds {use.owner}"
                yield Fact("fed", use.owner, source.owner, WARNING, told)
        elif share < -0.1:
            yield Flaw("poles exchanged", use.owner, DANGER, f"plus and minus meet at {use.owner}")
        elif share > 1.2:
            told = f"{use.owner} gets {share:.1f} times its voltage"
            yield Flaw("voltage high", use.owner, DANGER, told)
        elif 0.1 < share < 0.8:
            told = f"{use.owner} gets {share:.1f} times its voltage"
            yield Flaw("voltage low", use.owner, WARNING, told)
        elif sources and share == 0.0 and standing.wired[use.a] != standing.wired[use.b]:
            yield from _by_ground(standing, use)
            yield from _open(standing, use.owner, use.a, use.b)


def _by_ground(standing: Standing, use: Use) -> Said:
    """A load whose current comes home by a ground wire and a link."""
    homes = {standing.metal[s.minus] for s in standing.feeders(use.a) if s.alternating}
    if standing.metal[use.b] in homes:
        told = f"the current of {use.owner} returns by ground wires"
        yield Flaw("returns by ground", use.owner, DANGER, told)


def _open(standing: Standing, owner: str, a: Node, b: Node) -> Said:
    """A load or outlet whose neutral leads to no source: what else hangs on that neutral? What is
    plugged into an outlet counts: nobody knows beforehand what it is."""
    label = standing.wired[b]
    for other, far, near in _on_neutrals(standing):
        if other == owner or label not in (standing.wired[far], standing.wired[near]):
            continue
        if standing.wired[near] != label:
            far, near = near, far
        if standing.feeders(far) and standing.wired[far] != standing.wired[a]:
            told = f"the neutral of {owner} and {other} is open: they divide 240 V"
            yield Flaw("neutral open", "+".join(sorted((owner, other))), DANGER, told)


def _on_neutrals(standing: Standing) -> Iterator[tuple[str, Node, Node]]:
    """What draws or may draw between two conductors: loads, and outlets with a neutral."""
    yield from ((use.owner, use.a, use.b) for use in standing.uses)
    for key, face in standing.net.faces.items():
        if "N" in face:
            hot = next(pole for pole in face if pole[0] == "L")
            yield key.partition(" ")[0], face[hot], face["N"]


def outlets(standing: Standing, design: Design) -> Said:
    """What feeds each outlet; outlets with hot and neutral exchanged."""
    for key, face in standing.net.faces.items():
        owner, _, half = key.partition(" ")
        lines = [pole for pole in face if pole[0] == "L"]
        hot, back = face[lines[0]], face.get("N", face[lines[-1]])
        volts = standing.volts(hot, back)
        if volts is None:
            yield from _face_by_ground(standing, owner, hot, back)
            if standing.feeders(hot) and standing.wired[hot] != standing.wired[back]:
                yield from _open(standing, owner, hot, back)
            continue
        wanted = 120.0 if "N" in face else 240.0
        if abs(abs(volts) - wanted) > 0.2 * wanted:
            told = f"{owner} brings {abs(volts):.0f} V where {wanted:.0f} V belong"
            yield Flaw("outlet voltage", owner, DANGER, told)
        elif "N" in face and _hot_end(standing, back):
            told = f"hot and neutral are exchanged at {owner}"
            yield Flaw("exchanged", owner, WARNING, told)
        else:
            for source in standing.feeders(hot):
                told = f"{source.owner} no longer feeds {owner}"
                yield Fact(f"fed{half}", owner, source.owner, WARNING, told)
    for use in standing.uses:
        if use.b.pole == "N" and _hot_end(standing, use.b) and not _hot_end(standing, use.a):
            told = f"hot and neutral are exchanged at {use.owner}"
            yield Flaw("exchanged", use.owner, WARNING, told)


def _face_by_ground(standing: Standing, owner: str, hot: Node, back: Node) -> Said:
    homes = {standing.metal[s.minus] for s in standing.feeders(hot) if s.alternating}
    if standing.metal[back] in homes:
        told = f"what is plugged into {owner} returns by ground wires"
        yield Flaw("returns by ground", owner, DANGER, told)


def _hot_end(standing: Standing, node: Node) -> list[Emf]:
    return [s for s in standing.feeders(node) if s.alternating]


def load_by_source(standing: Standing, design: Design) -> Said:
    """Sources whose drawn loads ask for more than they give."""
    drawn: dict[str, float] = {}
    for use in standing.uses:
        firsts = {s.owner for s in standing.feeders(use.a) if s.limit_a and s.alternating}
        for owner in firsts:
            drawn[owner] = drawn.get(owner, 0.0) + use.amps * use.volts
    for owner, watts in drawn.items():
        mine = [s for s in standing.sources if s.owner == owner and s.limit_a]
        gives = sum(abs(s.volts) * (s.limit_a or 0.0) for s in mine)
        if watts > gives:
            told = f"loads of {watts:.0f} VA hang on {owner}, which gives {gives:.0f} VA"
            yield Flaw("source small", owner, WARNING, told, near=watts < 1.2 * gives)
