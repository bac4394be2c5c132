"""Placards at levers and boards: how many sources there are, what is joined there, what is not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial

from linework.design import Part
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.locking import circuits_of, rests
from linework.handover.placards.asked import asked_at
from linework.handover.placards.sign import Placard
from linework.handover.rating_words import value_text as rating_words
from linework.study.lockout import held, live_anywhere
from linework.study.report import StateReport, source_word
from linework.study.walks import hanging_together
from linework.wiring import Pole

SOURCES = {"NA": "702.7(A), 408.4", "INT": "514"}
LEVER = {"NA": "702.5, 408.4", "INT": "514"}
LINKED = {"NA": "702.7(B)", "INT": "514"}
APART = {"NA": "250.24(A)(5), 551.54(C)", "INT": "514"}
ONE_SUPPLY = {"NA": "710.15(C)"}
BACKFED = {"NA": "408.36(D)"}
TOGETHER = {"NA": "408.36(D), 705.12(B)"}
FLOATS = {"NA": "408.3(F)"}
"""What asks for them; from memory. 705.12(B) only where a source feeds beside the supply."""

_LIVE_V = 50.0
"""Below this no leg of a board is fed."""


def parts(content: Content) -> list[Part]:
    """All parts by designation."""
    return sorted(content.design.parts, key=lambda p: natural(p.designation))


def _words(content: Content, owners: Iterable[str]) -> str:
    words = {source_word(content.design, owner) for owner in owners}
    return ", ".join(sorted(words, key=natural))


def _names(members: Iterable[Part]) -> str:
    return ", ".join(part.designation for part in members)


# how many sources


def sources(content: Content) -> Iterator[Placard]:
    """At each lever its positions; at the first board that there are several sources."""
    say = content.say
    design = content.design
    every = [p for p in parts(content) if design.kind(p).source and _energises(content, p)]
    number = _number(content, every)
    if number < 2:
        return
    others = say("Sources: {sources}.", sources=", ".join(map(_named, every)))
    levers = [p for p in parts(content) if design.kind(p).transfers]
    for part in levers:
        kind, values = design.kind(part), design.values(part)
        big = " · ".join(
            dict.fromkeys(f"{e.position} {values.text(e.name)}".strip() for e in kind.inputs)
        )
        lines = (*_how(content, part), others)
        clause = asked_at(content, part, LEVER)
        yield Placard(_count(content, number), big, lines, part.designation, True, clause)
    boards = [p for p in parts(content) if design.kind(p).board]
    if boards and not levers:
        clause = asked_at(content, boards[0], SOURCES)
        big = say("Part all of them")
        yield Placard(_count(content, number), big, (others,), _names(boards), True, clause)


def _how(content: Content, lever: Part) -> Iterator[str]:
    """How it is turned: where an engine is among its sources, when."""
    say = content.say
    design = content.design
    if design.kind(lever).changes_over:
        yield say("Changes over by itself.")
        return
    yield say("One at a time.")
    fed = {
        owner
        for r in content.reports
        for each in design.kind(lever).inputs
        for owner in r.live.get((lever.id, each.terminal), ())
    }
    engines = [p for p in parts(content) if p.id in fed and design.kind(p).source.driven]
    if engines:
        yield say(
            "Loads off. Start {engines}, let it run warm, then turn; turn back before it stops.",
            engines=_names(engines),
        )


def _number(content: Content, every: list[Part]) -> int:
    """How many there are, batteries of one bank counted once."""
    stores = {p.id for p in every if content.design.kind(p).source.stores}
    banks = sum(bool(stores & {*rest.sources}) for rest in rests(content))
    return len(every) - len(stores) + max(banks, bool(stores))


def _count(content: Content, number: int) -> str:
    if number == 2:
        return content.say("Two sources")
    return content.say("{count} sources", count=number)


def _named(part: Part) -> str:
    return f"{part.designation} {part.title}".strip()


def _energises(content: Content, part: Part) -> bool:
    """Whether it is a source by itself: not what only turns over or charges from others."""
    source = content.design.kind(part).source
    alone = source.off_site or source.driven or source.stores or source.solar
    return alone and any(part.id in by for r in content.reports for by in r.live.values())


# links


def links(content: Content) -> Iterator[Placard]:
    """Boards on alternating current: their bars are joined, or must stay apart."""
    say = content.say
    design = content.design
    circuits = circuits_of(design, design.revision)
    told: dict[bool, list[Part]] = {}
    for part in parts(content):
        nodes = circuits[0].terminals.get((part.id, "feed"), {})
        if design.kind(part).board and {"N", "PE"} <= nodes.keys():
            if _doubted(content, part.id):
                continue
            bonds = {
                any(b.owner == part.id and b.sort == "bond" for b in c.branches) for c in circuits
            }
            if len(bonds) == 1:
                told.setdefault(bonds.pop(), []).append(part)
    if False in told:
        yield Placard(
            say("No {neutral_ground_link}"),
            say("Keep the bars apart"),
            (say("The link belongs to the source. A second one puts current on metal."),),
            say("{parts}, inside the door", parts=_names(told[False])),
            True,
            asked_at(content, told[False][0], APART),
        )
    if True in told:
        yield Placard(
            say("{Neutral_ground_link} here"),
            say("Do not take it out"),
            tuple(_linked(content, told[True])),
            say("{parts}, inside the door", parts=_names(told[True])),
            True,
            asked_at(content, told[True][0], LINKED),
        )


def _linked(content: Content, boards: list[Part]) -> Iterator[str]:
    """Why, and for which source of the site it is the only one."""
    say, here = content.say, {part.id for part in boards}
    yield say("Without it no device opens on a fault to metal.")
    bonds = [b for r in content.reports for b in r.bonds if b.is_ac and here & {*b.places}]
    served = {o for b in bonds for o in b.sources if not _off_site(content, o)}
    if served:
        yield say("Lifted while {sources} runs, it gives a shock.", sources=_words(content, served))


def _off_site(content: Content, part: str) -> bool:
    return content.design.kind(content.design.part(part)).source.off_site


def _doubted(content: Content, board: str) -> bool:
    """Whether the link of a board is on a ring in any state: it is to be settled, not praised."""
    return any(b.ring and board in b.places for r in content.reports for b in r.bonds)


def floating(content: Content) -> Iterator[Placard]:
    """Boards on alternating current that some source feeds without any link, whatever is not
    known."""
    say = content.say
    told: dict[tuple[str, ...], list[Part]] = {}
    for part in _alternating(content):
        by_key: dict[str, list[set[str]]] = {}
        for r in content.reports:
            by_key.setdefault(r.key, []).append(_unlinked(r, part.id))
        floats = set[str]().union(*(set.intersection(*every) for every in by_key.values()))
        if floats:
            told.setdefault(tuple(sorted(floats)), []).append(part)
    for owners, boards in told.items():
        yield Placard(
            say("{Ungrounded} system"),
            say("on {sources}", sources=_words(content, owners)),
            (
                say("No line of it is joined to {ground}: a first fault opens nothing."),
                say("Every line counts as live, the {neutral} too."),
            ),
            _names(boards),
            True,
            asked_at(content, boards[0], FLOATS),
        )


def _unlinked(r: StateReport, board: str) -> set[str]:
    """The sources that feed a board in one state and have no link."""
    fed = set(r.live.get((board, "feed"), ()))
    return {o for b in r.bonds if b.is_ac and not b.places for o in b.sources if o in fed}


def _alternating(content: Content) -> list[Part]:
    circuit = circuits_of(content.design, content.design.revision)[0]
    boards = (p for p in parts(content) if content.design.kind(p).board)
    return [p for p in boards if "PE" in circuit.terminals.get((p.id, "feed"), {})]


# one supply on both legs


def one_supply(content: Content) -> Iterator[Placard]:
    """Boards of two legs both of which some source feeds with one and the same voltage."""
    say = content.say
    told: dict[tuple[str, ...], list[Part]] = {}
    for part in _alternating(content):
        fed = {o for r in content.reports if _in_phase(r, part.id) for o in _fed(r, part.id)}
        if fed:
            told.setdefault(tuple(sorted(fed)), []).append(part)
    for owners, boards in told.items():
        own = not any(_off_site(content, owner) for owner in owners)
        volts = max(_leg_v(r, boards[0].id) for r in content.reports if _in_phase(r, boards[0].id))
        yield Placard(
            say("One {volts} V supply", volts=_round(volts)),
            say("No {volts} V here", volts=2 * _round(volts)),
            (
                say("On {sources} both {hots} carry the same.", sources=_words(content, owners)),
                say("No circuit of two {hots} with one {neutral}: its currents add up there."),
            ),
            _names(boards),
            True,
            asked_at(content, boards[0], ONE_SUPPLY if own else {}),
        )


def _fed(r: StateReport, board: str) -> tuple[str, ...]:
    return r.live.get((board, "feed"), ())


def _legs(r: StateReport, board: str) -> list[complex]:
    """The voltages of both legs of a board to its neutral; none where it has not two or one is
    dead."""
    for volts in r.volts.values():
        at = [volts.get((board, "bus", pole)) for pole in (Pole.L1, Pole.L2, Pole.N)]
        if None not in at:
            first, second, neutral = (complex(v or 0.0) for v in at)
            return [first - neutral, second - neutral]
    return []


def _in_phase(r: StateReport, board: str) -> bool:
    """Whether both legs are fed and nothing lies between them."""
    legs = _legs(r, board)
    return len(legs) == 2 and min(map(abs, legs)) > _LIVE_V and abs(legs[0] - legs[1]) < _LIVE_V


def _leg_v(r: StateReport, board: str) -> float:
    return max(map(abs, _legs(r, board)))


def _round(volts: float) -> int:
    """Nominal: to the next 10 V."""
    return 10 * round(volts / 10.0)


# fed from behind


def backfed(content: Content) -> Iterator[Placard]:
    """Breakers of a board on alternating current by which a source comes in."""
    say = content.say
    design = content.design
    for board in _alternating(content):
        for seat in sorted(design.seated_in(board.id), key=lambda s: natural(s.place)):
            part = design.part(seat.part)
            owners = _from_behind(content, part, board)
            if not owners:
                continue
            rating = rating_words(
                design.kind(part).declared["rating"], design.values(part), content.family
            )
            beside = any(_beside(content, r, board, owners) for r in content.reports)
            yield Placard(
                say("Back-fed {breaker}"),
                " · ".join(filter(None, (part.designation, rating))),
                (
                    say(
                        "{sources} comes in here: open, it is live below.",
                        sources=_words(content, owners),
                    ),
                    say("Held by a fastener: never pull or move it."),
                ),
                f"{part.designation}, {board.designation}",
                True,
                asked_at(content, part, TOGETHER if beside else BACKFED, "breaker"),
            )


def _beside(content: Content, r: StateReport, board: Part, owners: set[str]) -> bool:
    """Whether it feeds the board together with the supply."""
    fed = set(_fed(r, board.id))
    return bool(fed & owners) and any(_off_site(content, o) for o in fed - owners)


def _from_behind(content: Content, part: Part, board: Part) -> set[str]:
    """The sources that make its load side live while it stands open."""
    design = content.design
    kind = design.kind(part)
    outs = {t.name for t in kind.terminals(design.values(part)) if t.role == "out"}
    if "rating" not in kind.declared or not outs or not _leads_to_source(content, part, board):
        return set()
    found: set[str] = set()
    for circuit in circuits_of(design, design.revision):
        keys = [
            k for k, s in circuit.selectors.items() if k[0] == part.id and "open" in s.positions
        ]
        if keys:
            live, _ = live_anywhere(held(circuit, {keys[0]: "open"}))
            found.update(o for out in outs for o in live.get((part.id, out), ()))
    return found


def _leads_to_source(content: Content, part: Part, board: Part) -> bool:
    """Whether wires lead from behind it to a source without coming back by its board."""
    design = content.design

    def beside(each: str) -> Iterator[str]:
        yield from (end.part for run in design.runs_at(each) for end in (run.a, run.b))
        yield from (seat.host for seat in design.seats_of(each))
        yield from (seat.part for seat in design.seated_in(each))

    reached = hanging_together([part.id], lambda each: {*beside(each)} - {board.id})
    makes = partial(_makes, content)
    return any(makes(each) for each in reached)


def _makes(content: Content, part: str) -> bool:
    source = content.design.kind(content.design.part(part)).source
    return bool(source) and not source.stores and not source.solar and not source.charges
