"""The order that makes the system dead, in words: its steps, what stays live, where to prove."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from linework.analysis import cases
from linework.circuit import Circuit, expand
from linework.design import Design
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.content import PLACE, Content
from linework.study.lockout import Lockout, Means, Sort, lockout
from linework.study.once import once
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

DEAD = f"{PLACE}dead"
"""The place of the order in the set."""


def sheet_of_order(content: Content) -> str:
    """The number of the sheet on which the order stands, which may be a later one of its sheet."""
    return content.number_at(DEAD, "operator")


@dataclass(frozen=True)
class Action:
    """One step as a person does it: what in a word or two, and how."""

    head: str
    how: str


def order_of(content: Content) -> Lockout:
    """The order of a design, worked out once."""
    design = content.design
    circuits = circuits_of(design, design.revision)
    return content.once("lockout", lambda: lockout(design, circuits, content.memory))


@once
def circuits_of(design: Design, _: int) -> list[Circuit]:
    """The circuits of every case that can be expanded; ``_``: the design's revision."""
    found = []
    for settled in cases(design)[0]:
        try:
            found.append(expand(design, settled))
        except ValueError:  # no table has it; the cover says so among what was not checked
            continue
    return found


# steps

_HEADS = {
    Sort.STOP: N_("Stop what runs"),
    Sort.UNPLUG: N_("Pull the plugs"),
    Sort.MAINS: N_("Open the way in"),
    Sort.TRANSFER: N_("Levers off"),
    Sort.ELECTRONIC: N_("Electronics off"),
    Sort.SUN: N_("Part the sun"),
    Sort.STORE: N_("Part the battery"),
}


def actions(content: Content) -> list[Action]:
    """The steps in their order, from what draws to the proof; without the proof where nothing
    is ever live."""
    say, order = content.say, order_of(content)
    found: list[Action] = []
    if any(content.design.kind(p).consumes for p in content.design.parts):
        found.append(Action(say("Loads off"), say("Switch off what draws, at its own switch.")))
    for sort in Sort:
        means = [step.means for step in order.steps if step.means.sort is sort]
        if means:
            head = _HEADS[sort] if sort is not Sort.STORE or _stores(content) else N_("Open")
            found.append(Action(say(head), " ".join(_how(content, sort, means))))
    if order.before:
        found.append(Action(say("Prove it dead"), _proof(content)))
    return found


def _stores(content: Content) -> bool:
    return any(content.design.kind(part).source.stores for part in content.design.parts)


def _how(content: Content, sort: Sort, means: Sequence[Means]) -> Iterable[str]:
    say = content.say
    if sort is Sort.STOP:
        yield say(
            "Stop {what}; take its key or lead: it may start again.", what=_named(content, means)
        )
    elif sort is Sort.UNPLUG:
        yield say("Pull {what}. Keep the plugs with you.", what=_plugs(content, means))
    elif sort is Sort.ELECTRONIC:
        yield say("{what} off.", what=_named(content, means))
        yield say("Capacitors hold a charge: wait as long as the maker says.")
    elif sort is Sort.TRANSFER:
        yield say("{what} to off. Lock.", what=_named(content, means))
    else:
        yield from _opened(content, means)
    if sort is Sort.SUN:
        yield _sun(content)


def _named(content: Content, means: Iterable[Means]) -> str:
    names = {content.name(m.part) for m in means}
    return ", ".join(sorted(names, key=natural))


def _plugs(content: Content, means: Iterable[Means]) -> str:
    """ "XP1 out of XD1"."""
    told = []
    for each in means:
        seats = content.design.seats_of(each.part)
        hosts = ", ".join(sorted({content.name(seat.host) for seat in seats}, key=natural))
        told.append(content.say("{plug} out of {where}", plug=content.name(each.part), where=hosts))
    return ", ".join(sorted(told, key=natural))


def _opened(content: Content, means: Sequence[Means]) -> Iterable[str]:
    say = content.say
    out = [m for m in means if content.design.kind(content.design.part(m.part)).melts]
    opened = [m for m in means if m not in out]
    if opened:
        yield say("Open {what}. Lock.", what=_named(content, opened))
    partly = [m for m in opened if _opens_plus_only(content, m.part)]
    if partly:
        yield say("{what} opens plus only.", what=_named(content, partly))
    if out:
        yield say("Take {what} out of the holder.", what=_named(content, out))


def _opens_plus_only(content: Content, part: str) -> bool:
    circuit = circuits_of(content.design, content.design.revision)[0]
    mine = (circuit.branches[i] for i in circuit.branches_of.get(part, ()))
    return {b.pole for b in mine if b.sort == "contact"} == {Pole.POS}


def _sun(content: Content) -> str:
    """What stays on the side of the array, and how much."""
    circuit = circuits_of(content.design, content.design.revision)[0]
    volts = [s.data.volts for s in circuit.sources if s.data.group.solar]
    return content.say(
        "Its side of the array stays live in any light, up to {volts} when it is coldest.",
        volts=value_text(max(volts, default=0.0), "voltage"),
    )


# the proof

_MOST_POINTS = 6
_OF_BOARD = ("feed", "bus")
"""Where a board is proven dead: what comes to it may stay live before its own main."""


def _proof(content: Content) -> str:
    """Between which conductors, and at which boards and devices that were live before."""
    order = order_of(content)
    circuit = circuits_of(content.design, content.design.revision)[0]
    dead = [place for place in order.before if place not in order.live]
    points: dict[str, list[set[str]]] = {}
    for part, terminal in dead:
        kind = content.design.kind(content.design.part(part))
        worth = kind.board and terminal in _OF_BOARD
        outside = {t.name for t in kind.terminals(content.design.values(content.design.part(part)))}
        turned = bool(kind.source) and not kind.source.driven and terminal in outside
        if worth or turned:
            points.setdefault(part, []).append({*circuit.terminals[part, terminal]})
    names = sorted((content.name(part) for part in points), key=natural)
    where = ", ".join(names[:_MOST_POINTS]) or content.say("what you work on")
    return content.say(
        "Tester on a live point, then here, then on the live point again: {pairs} at {where}.",
        pairs=_pairs([poles for each in points.values() for poles in each]),
        where=where,
    )


def _pairs(places: Sequence[set[str]]) -> str:
    """Between the conductors of each place; not of one with those of another."""
    here = {pair for poles in places for pair in _between(poles)}
    return ", ".join(p for p in _between(set().union(*places)) if p in here) or _DIRECT


_DIRECT = "+ −"


def _between(poles: set[str]) -> list[str]:
    hot = sorted(p for p in poles if is_ungrounded(Pole(p)) and p != Pole.POS)
    pairs = ["–".join((a, b)) for n, a in enumerate(hot) for b in hot[n + 1 :]]
    for other in ("N", "PE"):
        pairs += [f"{p}–{other}" for p in hot] if other in poles else []
    pairs += ["N–PE"] if {"N", "PE"} <= poles else []
    return [*pairs, _DIRECT] if Pole.POS in poles else pairs


# what stays live


@dataclass(frozen=True)
class Rest:
    """What some sources keep live: ids of these, of the parts that are live all through, and of
    those of which only some terminals are."""

    sources: tuple[str, ...]
    whole: tuple[str, ...]
    partly: tuple[str, ...]


def rests(content: Content) -> list[Rest]:
    """What is still live after all steps, by the sources that do it; batteries of a string
    together."""
    order = order_of(content)
    circuit = circuits_of(content.design, content.design.revision)[0]
    groups: list[tuple[set[str], set[str]]] = []
    for (part, _), owners in sorted(order.live.items()):
        near = [g for g in groups if g[0] & owners]
        groups = [g for g in groups if not g[0] & owners]
        groups.append(
            (set(owners).union(*(g[0] for g in near)), {part}.union(*(g[1] for g in near)))
        )
    found = []
    for sources, parts in groups:
        partly = {
            part
            for part in parts - sources
            if any(
                (part, t) not in order.live and _carries(circuit.terminals[part, t])
                for p, t in circuit.terminals
                if p == part
            )
        }
        found.append(
            Rest(
                *(
                    tuple(sorted(g, key=lambda p: natural(content.name(p))))
                    for g in (sources, parts - sources - partly, partly)
                )
            )
        )
    return sorted(found, key=lambda rest: natural(content.name(rest.sources[0])))


def _carries(nodes: Iterable[str]) -> bool:
    return any(is_ungrounded(Pole(pole)) for pole in nodes)


def still_live(content: Content) -> list[str]:
    """A sentence for each."""
    return [_still(content, rest) for rest in rests(content)]


def _still(content: Content, rest: Rest) -> str:
    say, design = content.say, content.design
    named = ", ".join(map(content.name, (*rest.sources, *rest.whole)))
    told = say("{parts} up to {ends}", parts=named, ends=", ".join(map(content.name, rest.partly)))
    where = told if rest.partly else named
    kinds = [design.kind(design.part(source)).source for source in rest.sources]
    if all(kind.solar for kind in kinds):
        return say("{where}: whenever there is light.", where=where)
    if all(kind.off_site for kind in kinds):
        return say("{where}: whenever the supply is on.", where=where)
    if any(kind.stores for kind in kinds):
        return say("{where}: a battery cannot be switched off at its posts.", where=where)
    return say("{where}: whenever it runs.", where=where)
