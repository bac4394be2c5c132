"""The positions that an operator tells apart: states of rest in which the same feeds the boards."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import combinations

from linework.circuit.model import SelectorKey
from linework.design import Part
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.findings.explain import picture_word
from linework.handover.content import Content
from linework.handover.locking import circuits_of
from linework.study.lockout import held, live_anywhere
from linework.study.report import BondReport, StateReport, position_word, source_word
from linework.study.spoken import told_position
from linework.wiring import SourceGroup, is_dc
from linework.words import begun_small


@dataclass(frozen=True)
class Position:
    """What an operator finds by plugs and levers: one state of rest, in each case of what is not
    known."""

    title: str
    reports: tuple[StateReport, ...]

    @property
    def shown(self) -> StateReport:
        """That of the first case."""
        return self.reports[0]


def positions(content: Content) -> list[Position]:
    """Those in which other sources feed the boards, the one with most boards fed first; further
    ones on the same sources after those on others."""
    return content.once("positions", lambda: _positions(content))


def _positions(content: Content) -> list[Position]:
    groups: dict[Hashable, list[StateReport]] = {}
    for r in content.reports:
        groups.setdefault(frozenset(_fed(content, r).items()), []).append(r)
    found = []
    for members in groups.values():
        shown = min(members, key=partial(_quietness, content))
        same = tuple(r for r in content.reports if r.key == shown.key)
        found.append(Position(_title(content, shown), same))
    found.sort(key=partial(_rank, content))
    titles = [p.title for p in found]
    first = [p for n, p in enumerate(found) if p.title not in titles[:n]]
    found = [*first, *(p for p in found if p not in first)]
    return [_told_apart(content, position, found) for position in found]


def _rank(content: Content, position: Position) -> tuple[int, int, int, object]:
    """Those first in which most boards are fed and least else runs; of these most loads."""
    fed = _fed(content, position.shown)
    boards = sum(board for _, board in fed)
    runs = sum(at == "running" for _, _, at in position.shown.free)
    return -boards, runs, -len(fed), natural(position.title)


def _told_apart(content: Content, position: Position, found: Sequence[Position]) -> Position:
    """Of several with one title each is told with what is set in it alone."""
    own = set(settings(content, position))
    twins = [p for p in found if p.title == position.title and p is not position]
    if not twins:
        return position
    common = set.intersection(own, *(set(settings(content, twin)) for twin in twins))
    apart = [word for word in settings(content, position) if word not in common]
    return replace(position, title=", ".join((position.title, *apart[:2])))


def _fed(content: Content, r: StateReport) -> dict[tuple[str, bool], tuple[str, ...]]:
    """What feeds each board, load and outlet (not those on the other side of a cord drawn), and
    whether it is a board; of direct current only whether it is live."""
    design = content.design
    found: dict[tuple[str, bool], tuple[str, ...]] = {}
    for part in design.parts:
        kind = design.kind(part)
        taken = any(design.kind(design.part(s.part)).plugs for s in design.seated_in(part.id))
        if kind.board or kind.consumes or (kind.receptacle and not taken):
            name = "in" if kind.consumes else "feed"
            owners = r.live.get((part.id, name), ())
            if owners:
                found[part.id, kind.board] = () if _direct(content, part, name) else owners
    return found


def _direct(content: Content, part: Part, terminal: str) -> bool:
    terminals = content.design.kind(part).terminals(content.design.values(part))
    return any(is_dc(pole) for t in terminals if t.name == terminal for pole in t.poles)


def _title(content: Content, r: StateReport) -> str:
    """ "On shore": what feeds the boards on alternating current, else the loads and outlets, else
    what stores. Nobody sets whether a supply from outside is live: it comes back by itself."""
    fed = _fed(content, r)
    owners = {owner for (_, board), by in fed.items() for owner in by if board}
    owners = owners or {owner for by in fed.values() for owner in by}
    owners = owners or {o for by in r.live.values() for o in by if _source(content, o).stores}
    if not owners:
        from_outside = any(_source(content, part).off_site for part, _, _ in r.free)
        return content.say("Supply gone") if from_outside else content.say("All dead")
    words = sorted((source_word(content.design, owner) for owner in owners), key=natural)
    return content.say("On {sources}", sources=", ".join(words))


def _source(content: Content, part: str) -> SourceGroup:
    return content.design.kind(content.design.part(part)).source


def _quietness(content: Content, r: StateReport) -> tuple[int, int, str]:
    """Which of several states is told: few sources run, few plugs are in; by day."""
    rest = ("unplugged", "stopped", "dead")
    sun = [at for part, _, at in r.free if _source(content, part).solar]
    busy = sum(at not in rest for part, _, at in r.free if not _source(content, part).solar)
    return busy, sum(at == "night" for at in sun), r.key


# what is told of one


def settings(content: Content, position: Position) -> list[str]:
    """What the operator sets, and which supply must be live for it, in words."""
    design = content.design
    found = []
    for part, _, at in position.shown.free:
        kind = design.kind(design.part(part))
        if not kind.source.solar and not (kind.source.off_site and at == "dead"):
            word = position_word(design, part, at)
            found.append(told_position(kind, content.name(part), word))
    return found


def live_words(content: Content, position: Position) -> list[str]:
    """What is live in it, and what besides may be by what nobody sets: sun, supplies."""
    always = _live(content, position)
    more = _possible(content, position) - always
    told = [_listed(content, always) or content.say("nothing")]
    if more:
        told.append(content.say("it may be, too: {parts}", parts=_listed(content, more)))
    return told


def dead_words(content: Content, position: Position) -> list[str]:
    """What is dead in it whatever supplies and sun do."""
    told = {p.id for p in content.design.parts if _worth(content, p.id)}
    dead = told - _live(content, position) - _possible(content, position)
    return [_listed(content, dead) or content.say("nothing")]


def _live(content: Content, position: Position) -> set[str]:
    return {part for r in position.reports for part, _ in r.live if _worth(content, part)}


def _possible(content: Content, position: Position) -> set[str]:
    """What is live in some state in which all stands that the operator sets."""
    kept = {
        (part, selector): at
        for part, selector, at in position.shown.free
        if not _source(content, part).solar and not _source(content, part).off_site
    }
    return content.once(("possible", *kept.items()), lambda: _live_held(content, kept))


def _live_held(content: Content, kept: Mapping[SelectorKey, str]) -> set[str]:
    """What is live in some state with these selectors locked where they stand."""
    found: set[str] = set()
    for circuit in circuits_of(content.design, content.design.revision):
        live, searched = live_anywhere(held(circuit, kept))
        if not searched:
            return {p.id for p in content.design.parts if _worth(content, p.id)}
        found.update(part for part, _ in live if _worth(content, part))
    return found


def _worth(content: Content, part: str) -> bool:
    """Whether a person works at it: boards, loads, outlets, and whatever is a source itself."""
    kind = content.design.kind(content.design.part(part))
    return kind.board or kind.consumes or kind.receptacle or bool(kind.source)


def _listed(content: Content, parts: Iterable[str]) -> str:
    """Boards and sources by designation and title, loads and outlets after them."""
    design = content.design

    def order(part: str) -> tuple[int, object]:
        kind = design.kind(design.part(part))
        rank = 0 if kind.board else 1 if kind.source else 2
        return rank, natural(content.name(part))

    return ", ".join(_called(content, part) for part in sorted(parts, key=order))


def _called(content: Content, part: str) -> str:
    title = content.design.part(part).title
    return f"{content.name(part)} {begun_small(title)}" if title else content.name(part)


def link_words(content: Content, position: Position) -> list[str]:
    """Where neutral meets ground for each live source, as often as it differs."""
    told = [
        (_link(content, bond), r.case) for r in position.reports for bond in r.bonds if bond.is_ac
    ]
    return _by_case(content, told)


def _by_case(content: Content, told: Sequence[tuple[str, str]]) -> list[str]:
    """Each text once; what holds only in some cases of what is not known is told as perhaps so."""
    every = {case for _, case in told}
    found = []
    for words in dict.fromkeys(words for words, _ in told):
        certain = {case for text, case in told if text == words} == every
        found.append(words if certain else content.say("perhaps {words}", words=words))
    return found


def _link(content: Content, bond: BondReport) -> str:
    say, sources = content.say, ", ".join(map(content.name, bond.sources))
    if not bond.places:
        return say("{sources}: none, it floats", sources=sources)
    places = ", ".join(map(content.name, bond.places))
    if bond.places == bond.sources:
        return say("{sources}: its own", sources=sources)
    told = say("{sources}: in {places}", sources=sources, places=places)
    return told + (say(", on a ring") if bond.ring else "")


def tester_words(content: Content, position: Position) -> list[str]:
    """What a tester shows at each outlet that is live; outlets that show the same together."""
    told = []
    for r in position.reports:
        same: dict[str, set[str]] = {}
        for reading in r.readings:
            if reading.picture != "dead":
                volts = " / ".join(f"{v:.0f}" for v in reading.volts)
                word = picture_word(reading, content.family)
                same.setdefault(f"{word}, {volts} V", set()).add(content.name(reading.owner))
        told += [
            (f"{', '.join(sorted(names, key=natural))}: {shown}", r.case)
            for shown, names in same.items()
        ]
    return _by_case(content, told)


_MOST_LOADS = 12
_MOST_SETS = 3


@dataclass(frozen=True)
class _Given:
    """What one winding of a source gives and may give, in ampere."""

    name: str
    part: str
    amps: float
    limit_a: float


def _given(content: Content, r: StateReport) -> list[_Given]:
    """The sources in use that have a rating, or else a device of their own; none that limits
    itself, as a charger does."""
    circuit = circuits_of(content.design, content.design.revision)[0]
    limited = {(s.owner, s.data.name) for s in circuit.sources if s.data.group.limits_itself}
    devices: dict[str, float] = {}
    for device in circuit.devices:
        rating = device.data.rating_a
        devices[device.owner] = min(devices.get(device.owner, rating), rating)
    found = []
    for source in r.sources:
        if (source.part, source.name) in limited:
            continue
        limit = source.rated_a or devices.get(source.part)
        several = sum(other.part == source.part for other in r.sources) > 1
        name = content.name(source.part) + (f" {source.name}" if several else "")
        if limit and source.amps > 1e-3:
            found.append(_Given(name, source.part, source.amps, limit))
    return found


def together_words(content: Content, position: Position) -> list[str]:
    """For each source with a rating what may run together within it."""
    found = []
    for source in _given(content, position.shown):
        found += _within(content, source) or _sets(content, position.shown, source)
    return found


def _within(content: Content, source: _Given) -> list[str]:
    if source.amps > source.limit_a:
        return []
    amps, limit = (value_text(a, "current") for a in (source.amps, source.limit_a))
    return [
        content.say(
            "{source}: all drawn, {amps} of {limit}",
            source=source.name,
            amps=amps,
            limit=limit,
        )
    ]


def spare_words(content: Content, position: Position) -> list[str]:
    """What each source has left over its rating with all of that on."""
    return [
        f"{s.name}: {value_text(s.limit_a - s.amps, 'current')}"
        for s in _given(content, position.shown)
        if s.amps <= s.limit_a
    ]


def _sets(content: Content, r: StateReport, source: _Given) -> list[str]:
    """The largest sets of loads whose currents, added up, stay within the rating."""
    say = content.say
    over = say(
        "{source}: not all at once, that is {amps} of {limit}",
        source=source.name,
        amps=value_text(source.amps, "current"),
        limit=value_text(source.limit_a, "current"),
    )
    loads = {x.part: x.amps for x in r.loads if x.sources == (source.part,) and x.amps > 1e-3}
    rest = max(source.amps - sum(loads.values()), 0.0)
    return [
        over,
        *(
            say("or {loads}", loads=", ".join(sorted(map(content.name, some), key=natural)))
            for some in largest(loads, source.limit_a - rest)[:_MOST_SETS]
        ),
    ]


def largest(loads: Mapping[str, float], room_a: float) -> list[frozenset[str]]:
    """The sets that fit into ``room_a`` ampere and to which no further load can be added, those
    of most loads first; none where they are too many to try."""
    fitting: list[frozenset[str]] = []
    for size in range(len(loads) if len(loads) <= _MOST_LOADS else 0, 0, -1):
        for some in map(frozenset, combinations(sorted(loads), size)):
            if sum(loads[p] for p in some) <= room_a and not any(some < f for f in fitting):
                fitting.append(some)
    return fitting
