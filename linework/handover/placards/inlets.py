"""The placard of each inlet: what may be put on it, and no more than that."""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError, configuration
from linework.design import Design, Part
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.locking import circuits_of
from linework.handover.placards.asked import asked_at
from linework.handover.placards.sign import Placard
from linework.handover.rating_words import value_text as rating_words
from linework.kinds import OneOf
from linework.study.report import source_word
from linework.study.walks import hanging_together
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

SHORE = {"NA": "551.46(D)", "INT": "514"}
SET = {"NA": "702.7(C), 551.46(D)", "INT": "514"}
"""What asks for the rating of a vehicle's inlet (551.46(D)), and for the kind of set that belongs
on one (702.7(C)); from memory."""


def inlets(content: Content) -> Iterator[Placard]:
    """One for each inlet of known contacts, by designation."""
    say = content.say
    design = content.design
    for part in sorted(design.parts, key=lambda p: natural(p.designation)):
        kind, values = design.kind(part), design.values(part)
        if not kind.lets_in or kind.plugs or "configuration" not in kind.declared:
            continue
        feeding = brings(content, part)
        named = rating_words(kind.declared["configuration"], values, content.family)
        behind = feeding or _behind(content, part)
        facts = (_volts(content, part, behind), _hertz(content, behind), _amps(named), named)
        lines = []
        if feeding:
            words = sorted({source_word(design, source) for source in feeding}, key=natural)
            lines.append(say("Only for {sources}, never more than this.", sources=", ".join(words)))
        lines += [
            say("Set {lever} to {position}.", lever=lever, position=position)
            for lever, position in _levers(content, feeding)
        ]
        sets = any(design.kind(design.part(source)).source.driven for source in feeding)
        neutral = _neutral(content, part, feeding)
        lines += [say(neutral)] if neutral else []
        title = part.title or say(kind.name)
        clause = asked_at(content, part, SET if sets else SHORE)
        big = " · ".join(filter(None, facts))
        yield Placard(title, big, tuple(lines), part.designation, False, clause)


def brings(content: Content, part: Part) -> set[str]:
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


def _behind(content: Content, part: Part) -> set[str]:
    """The sources from outside that reach it through a board, as on the cord of a trailer."""
    here = (by for r in content.reports for (at, _), by in r.live.items() if at == part.id)
    live = {owner for by in here for owner in by}
    kinds = {owner: content.design.kind(content.design.part(owner)).source for owner in live}
    return {owner for owner, source in kinds.items() if source.off_site or source.driven}


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


def _hertz(content: Content, owners: set[str]) -> str:
    circuit = circuits_of(content.design, content.design.revision)[0]
    hertz = {s.data.hertz for s in circuit.sources if s.owner in owners} - {0.0}
    return f"{hertz.pop():g} Hz" if len(hertz) == 1 else ""


def _amps(name: str) -> str:
    try:
        return f"{configuration(name.strip('[]')).amps:g} A"
    except CodesError:
        return ""


def _levers(content: Content, owners: set[str]) -> Iterator[tuple[str, str]]:
    """The levers that choose these sources, and what their position is called."""
    design = content.design
    for part in sorted(design.parts, key=lambda p: natural(p.designation)):
        kind = design.kind(part)
        if not kind.transfers or kind.changes_over:
            continue
        for each in kind.inputs:
            fed = {o for r in content.reports for o in r.live.get((part.id, each.terminal), ())}
            if owners & fed and not fed - owners:
                values = design.values(part)
                yield part.designation, f"{each.position} {values.text(each.name)}".strip()


# which set belongs on it

_NEUTRALS = {
    "bonded": N_("A {generator} whose {neutral} is joined to its {frame}."),
    "floating": N_("A {generator} whose {neutral} floats: the link is on board."),
}


def _neutral(content: Content, part: Part, feeding: set[str]) -> str:
    """Which set belongs on it: by its sign, else by where the link of the set drawn is."""
    values = content.design.values(part)
    if "expects" in values.declared and values.pick("expects") != "none":
        return _NEUTRALS[values.pick("expects")]
    kinds = {_by_links(content, part, source) for source in feeding if _driven(content, source)}
    kinds |= {None for source in feeding if isinstance(_state_of(content, source), OneOf)}
    return _NEUTRALS[kinds.pop() or ""] if len(kinds) == 1 and None not in kinds else ""


def _driven(content: Content, source: str) -> bool:
    return content.design.kind(content.design.part(source)).source.driven


def _state_of(content: Content, source: str) -> object:
    values = content.design.values(content.design.part(source))
    return values.answer("neutral") if "neutral" in values.declared else None


def _by_links(content: Content, part: Part, source: str) -> str | None:
    """ "bonded" where it has no link but its own, "floating" where another stays, in every state
    in which it feeds the inlet and every case; else None."""
    found = set()
    fed = [r for r in content.reports if source in r.live.get((part.id, "inside"), ())]
    for bond in (b for r in fed for b in r.bonds if b.is_ac and source in b.sources):
        own = [_belongs(content, place, source) for place in bond.places]
        if bond.ring or not own:
            return None
        found.add("bonded" if all(own) else "floating")
    return found.pop() if len(found) == 1 else None


def _belongs(content: Content, part: str, source: str) -> bool:
    """Whether it is the source, or sits in it (a link in a plug at its own outlet)."""
    if part == source:
        return True
    element = content.design.get(part)
    hosts = [s.host for s in content.design.seats_of(part)] if isinstance(element, Part) else []
    return any(_belongs(content, host, source) for host in hosts)
