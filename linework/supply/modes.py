"""Which sources are there: for each the state of the design in which a person would have it then.

Levers, plugs and switches stand as they feed most. Told from the circuit alone, so that neither
names nor kinds decide.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from linework.circuit import Circuit, free_selectors, settle
from linework.circuit.choices import Choices
from linework.circuit.model import SelectorAt, SelectorKey
from linework.study.energised import Energised, energised
from linework.study.situation import Situation
from linework.wiring import SourceGroup

_ROUNDS = 4


@dataclass(frozen=True, order=True)
class Mode:
    """Whether shore is there, an engine turns an alternator, a set runs."""

    shore: bool = False
    engine: bool = False
    run: bool = False


@dataclass(frozen=True)
class Standing:
    """A mode with the state that serves it best, and what feeds what there."""

    mode: Mode
    situation: Situation
    energised: Energised
    choice: tuple[tuple[SelectorKey, str], ...]


def standings(circuit: Circuit) -> dict[Mode, Standing]:
    """The best state of every mode that the sources of a circuit allow; shore and set never
    together. A supply that cannot be parted from the design is always there."""
    has = dict.fromkeys(("shore", "engine", "run"), False)
    for source in circuit.sources:
        has["shore"] |= source.data.group.off_site
        has["engine"] |= source.data.group.needs_store
        has["run"] |= source.data.group.driven
    found = {mode: _best(circuit, mode) for mode in _modes(**has)}
    shore = {mode for mode, standing in found.items() if _fed_from_shore(standing)}
    if any(not mode.shore for mode in shore):
        return {mode: standing for mode, standing in found.items() if mode.shore}
    return found


def _modes(shore: bool, engine: bool, run: bool) -> Iterator[Mode]:
    for a in (False, True)[: 1 + shore]:
        for b in (False, True)[: 1 + engine]:
            for c in (False, True)[: 1 + (run and not a)]:
                yield Mode(a, b, c)


def _fed_from_shore(standing: Standing) -> bool:
    return bool(_owners(standing.situation, off_site=True) & _feeding(standing.energised))


def _feeding(found: Energised) -> set[str]:
    return {owner for owners in found.fed.values() for owner in owners}


def _owners(situation: Situation, off_site: bool) -> set[str]:
    return {s.owner for _, s in situation.active if s.data.group.off_site is off_site}


def _best(circuit: Circuit, mode: Mode) -> Standing:
    """Every free switch in turn as it serves best, until none does better."""
    choices = Choices.of(circuit)
    free = [s for s in free_selectors(circuit) if _wanted_at(circuit, s, mode) is None]
    fixed = {s.key: at for s in free_selectors(circuit) if (at := _wanted_at(circuit, s, mode))}
    choice = choices.example({key: at for key, at in fixed.items() if choices.count({key: at})})
    best = _judged(circuit, mode, choice)
    for _ in range(_ROUNDS):
        before = best[0]
        for selector in free:
            for position in selector.positions:
                if position == choice[selector.key]:
                    continue
                tried = _let(circuit, choices, {**choice, selector.key: position}, selector.key)
                if tried is not None:
                    found = _judged(circuit, mode, tried)
                    if found[0] > best[0]:
                        best, choice = found, tried
        if best[0] == before:
            break
    return best[1]


def _let(
    circuit: Circuit, choices: Choices, tried: dict[SelectorKey, str], moved: SelectorKey
) -> dict[SelectorKey, str] | None:
    """A choice with whatever an interlock bars moved out of the way, as a hand would; None where
    that cannot be."""
    found = dict(tried)
    for lock in circuit.excluded:
        held = [key for key, position in lock if found.get(key) == position]
        for key in sorted(held) if len(held) > 1 else ():
            away = [p for p in circuit.selectors[key].positions if (key, p) not in lock]
            if key != moved and away:
                found[key] = away[0]
    return found if choices.count(found) else None


def _wanted_at(circuit: Circuit, selector: SelectorAt, mode: Mode) -> str | None:
    """Where the mode has a source's own switch; None where it leaves it open."""
    if selector.moves != "source":
        return None
    on, groups = _switches_on(circuit, selector.key)
    wanted = {
        "solar": any(g.solar for g in groups),
        "shore": mode.shore if any(g.off_site for g in groups) else None,
        "engine": mode.engine if any(g.needs_store for g in groups) else None,
        "run": mode.run if any(g.driven for g in groups) else None,
    }
    if wanted["solar"]:
        return next((p for p in selector.positions if p in on), None)
    for state in (wanted["shore"], wanted["engine"], wanted["run"]):
        if state is not None:
            return next((p for p in selector.positions if (p in on) is state), None)
    return None


def _switches_on(circuit: Circuit, key: SelectorKey) -> tuple[set[str], list[SourceGroup]]:
    """The positions in which a selector has sources on, and what these are."""
    on: set[str] = set()
    groups: list[SourceGroup] = []
    for source in circuit.sources:
        for other, among in source.when:
            if other == key:
                on |= among
                groups.append(source.data.group)
    return on, groups


_Worth = tuple[float, ...]


def _judged(
    circuit: Circuit, mode: Mode, choice: dict[SelectorKey, str]
) -> tuple[_Worth, Standing]:
    situation = Situation(circuit, settle(circuit, choice))
    found = energised(situation)
    standing = Standing(mode, situation, found, tuple(sorted(choice.items())))
    firm = {s.owner for _, s in situation.active if s.data.group.off_site or s.data.group.driven}
    shore = _owners(situation, off_site=True) if not mode.shore else set()
    worth = (
        -float(len(found.meetings) + len(situation.state.restless)),
        -float(bool(shore & _feeding(found))),
        _watts(situation, found, None),
        _watts(situation, found, firm),
        float(sum(not x.data.own for i, x in situation.loads if i in found.fed)),
        float(sum(bool(situation.feeds(node)) for node in range(len(circuit.spots)))),
    )
    return worth, standing


def _watts(situation: Situation, found: Energised, by: Iterable[str] | None) -> float:
    """What loads are made for that are fed, by some sources only where these are named."""
    among = None if by is None else set(by)
    return sum(
        load.data.watts
        for i, load in situation.loads
        if i in found.fed and (among is None or among & set(found.fed[i]))
    )
