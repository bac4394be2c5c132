"""Which placards a design needs, and what they say: nothing that it does not say itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from linework.codes import CodesError, configuration
from linework.design import Design, Part
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.content import Content
from linework.handover.locking import actions, circuits_of, order_of, rests
from linework.handover.placards.sign import Placard, Strip
from linework.handover.rating_words import value_text as rating_words
from linework.study.lockout import Sort
from linework.study.report import source_word
from linework.study.walks import hanging_together
from linework.wiring import Pole, is_ungrounded


def placards(content: Content) -> list[Placard]:
    """All of them, in the order of the way in."""
    return [
        *_inlets(content),
        *_sources(content),
        *_links(content),
        *_suns(content),
        *_stores(content),
        *_fumes(content),
        *_dead(content),
    ]


def _parts(content: Content) -> list[Part]:
    return sorted(content.design.parts, key=lambda p: natural(p.designation))


def _words(content: Content, parts: Iterable[str]) -> str:
    words = {source_word(content.design, part) for part in parts}
    return ", ".join(sorted(words, key=natural))


# what comes in


def _inlets(content: Content) -> Iterator[Placard]:
    design = content.design
    say = content.say
    for part in _parts(content):
        kind, values = design.kind(part), design.values(part)
        if not kind.lets_in or kind.plugs or "configuration" not in kind.declared:
            continue
        feeding = _brings(content, part)
        named = rating_words(kind.declared["configuration"], values, content.family)
        facts = (_volts(content, part, feeding), _amps(named), named)
        lines = []
        if feeding:
            lines.append(say("For {sources} only.", sources=_words(content, feeding)))
        lines += [
            say("Set {lever} to {position}.", lever=lever, position=position)
            for lever, position in _levers(content, feeding)
        ]
        if "expects" in kind.declared and values.pick("expects") != "none":
            sign = rating_words(kind.declared["expects"], values, content.family)
            lines.append(say("The {neutral} of the {generator} is {how}.", how=sign))
        title = part.title or say(kind.name)
        yield Placard(title, " · ".join(filter(None, facts)), tuple(lines), part.designation, False)


def _brings(content: Content, part: Part) -> set[str]:
    """The sources that can bring power to it from outside: not what feeds back from within."""
    design = content.design
    outer = {t.name for t in design.kind(part).terminals(design.values(part)) if t.role == "in"}
    starts = [
        end.part
        for run in design.runs_at(part.id)
        for own, end in ((run.a, run.b), (run.b, run.a))
        if own.part == part.id and own.terminal in outer
    ]
    starts += [seat.host for seat in design.seats_of(part.id)]
    reached = hanging_together(starts, lambda each: _beside(design, each) - {part.id})
    live = {owner for r in content.reports for by in r.live.values() for owner in by}
    return {
        other
        for other in live.intersection(reached)
        if (source := design.kind(design.part(other)).source).off_site or source.driven
    }


def _beside(design: Design, part: str) -> set[str]:
    """What is wired to a part, sits in it or holds it; nothing beyond a board."""
    if design.kind(design.part(part)).board:
        return set()
    found = {end.part for run in design.runs_at(part) for end in (run.a, run.b)}
    found |= {seat.host for seat in design.seats_of(part)}
    return (found | {seat.part for seat in design.seated_in(part)}) - {part}


def _volts(content: Content, part: Part, owners: set[str]) -> str:
    """The voltage of what feeds it: of two hot conductors both, "120/240 V"."""
    circuit = circuits_of(content.design, content.design.revision)[0]
    volts = {round(s.data.volts) for s in circuit.sources if s.owner in owners}
    if len(volts) != 1:
        return ""
    (each,) = volts
    terminals = (nodes for (owner, _), nodes in circuit.terminals.items() if owner == part.id)
    poles = set().union(*terminals)
    hots = sum(is_ungrounded(Pole(pole)) for pole in poles)
    if hots < 2:
        return f"{each} V"
    return f"{each}/{2 * each} V" if Pole.N in poles else f"{2 * each} V"


def _amps(name: str) -> str:
    try:
        return f"{configuration(name.strip('[]')).amps:g} A"
    except CodesError:
        return ""


def _levers(content: Content, owners: set[str]) -> Iterator[tuple[str, str]]:
    """The levers that choose these sources, and what their position is called."""
    for part in _parts(content):
        kind = content.design.kind(part)
        if not kind.transfers or kind.changes_over:
            continue
        for each in kind.inputs:
            fed = {o for r in content.reports for o in r.live.get((part.id, each.terminal), ())}
            if owners & fed and not fed - owners:
                values = content.design.values(part)
                yield part.designation, f"{each.position} {values.text(each.name)}".strip()


def _sources(content: Content) -> Iterator[Placard]:
    """At each lever its positions; at the first board that there are several sources."""
    design = content.design
    say = content.say
    parts = [p for p in _parts(content) if design.kind(p).source and _energises(content, p)]
    number = _number(content, parts)
    if number < 2:
        return
    others = say("Sources: {sources}.", sources=", ".join(_named(p) for p in parts))
    levers = [p for p in _parts(content) if design.kind(p).transfers]
    for part in levers:
        kind, values = design.kind(part), design.values(part)
        positions = " · ".join(
            dict.fromkeys(f"{e.position} {values.text(e.name)}".strip() for e in kind.inputs)
        )
        how = say("Changes over by itself.") if kind.changes_over else say("One at a time.")
        yield Placard(_count(content, number), positions, (how, others), part.designation)
    if not levers:
        where = ", ".join(p.designation for p in _parts(content) if design.kind(p).board)
        yield Placard(_count(content, number), say("Part all of them"), (others,), where)


def _number(content: Content, parts: list[Part]) -> int:
    """How many there are, batteries of one bank counted once."""
    stores = {p.id for p in parts if content.design.kind(p).source.stores}
    banks = sum(bool(stores & {*rest.sources}) for rest in rests(content))
    return len(parts) - len(stores) + max(banks, bool(stores))


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


def _links(content: Content) -> Iterator[Placard]:
    """Boards on alternating current: their bars are joined, or must stay apart."""
    say = content.say
    design = content.design
    circuits = circuits_of(design, design.revision)
    told: dict[bool, list[str]] = {}
    for part in _parts(content):
        nodes = circuits[0].terminals.get((part.id, "feed"), {})
        if design.kind(part).board and {"N", "PE"} <= nodes.keys():
            if _doubted(content, part.id):
                continue
            bonds = {
                any(b.owner == part.id and b.sort == "bond" for b in c.branches) for c in circuits
            }
            if len(bonds) == 1:
                told.setdefault(bonds.pop(), []).append(part.designation)
    if False in told:
        yield Placard(
            say("No {neutral_ground_link}"),
            say("Keep the bars apart"),
            (say("The link belongs to the source. A second one puts current on metal."),),
            say("{parts}, inside the door", parts=", ".join(told[False])),
        )
    if True in told:
        yield Placard(
            say("{Neutral_ground_link} here"),
            say("Do not take it out"),
            (say("Without it no device opens on a fault to metal."),),
            say("{parts}, inside the door", parts=", ".join(told[True])),
        )


def _doubted(content: Content, board: str) -> bool:
    """Whether the link of a board is on a ring in any state: it is to be settled, not praised."""
    return any(b.ring and board in b.places for r in content.reports for b in r.bonds)


# what stores, shines and burns


def _suns(content: Content) -> Iterator[Placard]:
    say = content.say
    design = content.design
    circuit = circuits_of(design, design.revision)[0]
    steps = [s.means for s in order_of(content).steps if s.means.sort is Sort.SUN]
    for part in _parts(content):
        mine = [s.data for s in circuit.sources if s.owner == part.id and s.data.group.solar]
        if not mine:
            continue
        amps = [d.limit.sustained_a.usual for d in mine if d.limit]
        big = say("up to {volts} DC", volts=value_text(max(d.volts for d in mine), "voltage"))
        if amps:
            big += f", {value_text(max(amps), 'current')}"
        opened = ", ".join(content.name(m.part) for m in steps)
        lines = [say("Live in any light.")]
        if opened:
            lines.append(say("Open {what} to part it; its side stays live.", what=opened))
        yield Placard(say("Solar"), big, tuple(lines), opened or part.designation)


def _stores(content: Content) -> Iterator[Placard]:
    say = content.say
    design = content.design
    for step in order_of(content).steps:
        part = design.part(step.means.part)
        kind = design.kind(part)
        if step.means.sort is not Sort.STORE or kind.melts or kind.board or not step.needed:
            continue
        rated = ""
        if "rating" in kind.declared:
            rated = rating_words(kind.declared["rating"], design.values(part), content.family)
        facts = [part.designation, rated]
        lines = (
            say("What lies before it stays live: a battery cannot be switched off."),
            say("Cover the other post, insulate tools."),
        )
        yield Placard(
            say("Battery {disconnect}"), " · ".join(filter(None, facts)), lines, part.designation
        )


def _fumes(content: Content) -> Iterator[Placard]:
    say = content.say
    design = content.design
    engines = [p.designation for p in _parts(content) if design.kind(p).source.driven]
    if engines:
        lines = (
            say("Away from doors, windows and vents. It has no smell."),
            say("Fit an alarm where people sleep."),
        )
        where = say("{parts}, and where people are", parts=", ".join(engines))
        yield Placard(say("Carbon monoxide"), say("Outdoors only"), lines, where)


def _dead(content: Content) -> Iterator[Placard]:
    say, steps = content.say, order_of(content).steps
    if not steps:
        return
    told: dict[Sort, list[str]] = {}
    for step in steps:
        told.setdefault(step.means.sort, []).append(content.name(step.means.part))
    names = "; ".join(
        ", ".join(sorted(dict.fromkeys(parts), key=natural)) for parts in told.values()
    )
    big = say(
        "{count} steps, sheet {sheet}",
        count=len(actions(content)),
        sheet=content.sheet_number("operator"),
    )
    lines = (say("In this order: {names}.", names=names), say("Lock. Wait. Prove it dead."))
    boards = [p.designation for p in _parts(content) if content.design.kind(p).board]
    yield Placard(say("To make dead"), big, lines, ", ".join(boards[:1]) or say("at the way in"))


# strips


def strips(content: Content) -> list[tuple[str, list[Strip]]]:
    """For each board its places in their order: designation and rating of what sits there, and
    what that feeds."""
    design = content.design
    found = []
    for board in _parts(content):
        if not design.kind(board).board:
            continue
        seats = sorted(design.seated_in(board.id), key=lambda s: natural(s.place))
        rows: dict[str, list[str]] = {}
        for seat in seats:
            rows.setdefault(seat.part, []).append(seat.place)
        made = [_strip(content, design.part(part), places) for part, places in rows.items()]
        if made:
            found.append((_named(board), made))
    return found


def _strip(content: Content, part: Part, places: list[str]) -> Strip:
    design = content.design
    kind, values = design.kind(part), design.values(part)
    rating = ""
    if "rating" in kind.declared:
        rating = rating_words(kind.declared["rating"], values, content.family)
    return Strip(
        ", ".join(places), f"{part.designation} {rating}".strip(), _behind(content, design, part)
    )


def _behind(content: Content, design: Design, part: Part) -> str:
    """What hangs on it, by title; a bare designation where it has none."""
    ends = []
    for run in design.runs_at(part.id):
        other = run.b.part if run.a.part == part.id else run.a.part
        ends.append(design.part(other))
    ends += [design.part(seat.part) for seat in design.seated_in(part.id)]
    names = {end.title or end.designation for end in ends if not design.kind(end).board} | {
        end.designation for end in ends if design.kind(end).board
    }
    return ", ".join(sorted(names, key=natural))
