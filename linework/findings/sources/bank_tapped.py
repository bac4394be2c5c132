"""A load on part of a string of batteries.

What is checked
    In every state: each load and converter on direct current that hangs on
    some of the batteries of a string and not on all of them; and each charger
    that does, where no other ever charges the rest. What hangs on half a string
    that an equalizer holds level counts only beyond the current of that.
Why it matters
    It empties its battery alone; the charger on the whole string then overfills
    the others, which boil or switch themselves off, and this one stays empty.
How to cure it
    A converter from the whole string to the lower voltage, a battery of its
    own, or an equalizer for what it takes.
Limits
    Loads count with their rated currents, all at once. With a battery that is turned round
    nothing is judged: that is told, and what looks like a string may be none.
Sources
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from linework.circuit.model import Load
from linework.circuit.series import ways_back
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.dc_charger import levels
from linework.study.situation import Situation
from linework.study.slack import exceeds
from linework.study.ways.banks import String, strings, surely_turned
from linework.words import N_

MESSAGE = N_(
    "{where} hangs on {battery} alone, part of a string of {whole} V: it empties that one, and the"
    " charger overfills the rest. Feed it through a converter from the whole string."
)
CHARGED = N_(
    "{where} charges {battery} alone, part of a string of {whole} V: it overfills that one, and the"
    " rest stays behind. Charge the whole string, or each battery by a charger of its own."
)
BEYOND = N_(
    "{where} and what else hangs on {battery} alone, part of a string of {whole} V, take {amps} A;"
    " {leveller} levels {limit} A: the rest empties that one, and the charger overfills the others."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each load, and for each charger where no other does the same for the rest."""
    charging: dict[tuple[str, ...], list[_Part]] = {}
    turned = surely_turned(look.studies.situation for look in view.settled_looks)
    found = [
        part
        for look in view.settled_looks
        for part in _of_look(look)
        if turned.isdisjoint(part.bank)
    ]
    held = {part.batteries: part.where for part in found if levels(view.values(part.where))}
    for part in found:
        if levels(view.values(part.where)):
            continue
        if part.charges:
            charging.setdefault(part.bank, []).append(part)
        elif part.batteries in held and part.amps is not None:
            yield from _beyond(view, part, found, held[part.batteries])
        else:
            yield _hit(view, part)
    for bank, parts in charging.items():
        if {battery for part in parts for battery in part.batteries} != set(bank):
            yield from (_hit(view, part) for part in parts)


@dataclass(frozen=True)
class _Part:
    """A load or charger on some batteries of a string, by part; ``bank``: all of them."""

    look: Look
    where: str
    charges: bool
    batteries: tuple[str, ...]
    bank: tuple[str, ...]
    volts: float
    amps: float | None = None
    """What a load takes by its rating; of a converter that is not known."""


def _of_look(look: Look) -> Iterator[_Part]:
    every = strings(look.studies.situation)
    for string in every:
        if len(string.cells) > 1:
            yield from _parts(look, string, every)


def _parts(look: Look, string: String, every: list[String]) -> Iterator[_Part]:
    situation, sources = look.studies.situation, look.studies.circuit.sources
    label = situation.conductive
    whole = {(each.top, each.bottom) for each in every}
    found = [(x.owner, False, x.a, x.b, _rated_a(x)) for _, x in situation.loads]
    chargers = (s for _, s in situation.active if s.data.group.charges)
    found += [(s.owner, True, s.plus, s.minus, None) for s in chargers]
    for owner, charges, plus, minus, amps in found:
        cells = _between(situation, string, label[plus], label[minus])
        if cells and (label[plus], label[minus]) not in whole:
            batteries, bank = (
                tuple(dict.fromkeys(sources[i].owner for i in some))
                for some in (cells, string.cells)
            )
            volts = sum(sources[i].data.volts for i in string.cells)
            yield _Part(look, owner, charges, batteries, bank, volts, amps)


def _rated_a(load: Load) -> float | None:
    return load.data.watts / load.data.volts if load.data.own else None


def _between(situation: Situation, string: String, top: int, bottom: int) -> tuple[int, ...]:
    """The batteries of a string that lie between two conductors."""
    label, sources = situation.conductive, situation.circuit.sources
    for first in string.cells:
        if label[sources[first].plus] == top:
            cells = ways_back(situation, first, label).get(bottom)
            if cells:
                return cells
    return ()


def _beyond(view: View, part: _Part, found: list[_Part], leveller: str) -> Iterator[Hit]:
    """Of a load on a half that is held level, where all there take more than that can give."""
    beside = (p for p in found if p.look is part.look and p.batteries == part.batteries)
    amps = sum(each.amps or 0.0 for each in beside)
    limit = view.values(leveller).opt("current") or 0.0
    if not exceeds(amps, limit):
        return
    words = {"amps": f"{amps:.3g}", "leveller": view.name(leveller), "limit": f"{limit:g}"}
    yield _hit(view, part, BEYOND, words, (Evidence(N_("current there"), amps, "current"),))


def _hit(
    view: View,
    part: _Part,
    text: str = "",
    more: Mapping[str, str] | None = None,
    evidence: tuple[Evidence, ...] = (),
) -> Hit:
    return part.look.hit(
        Level.WARNING,
        (part.where,),
        text or (CHARGED if part.charges else MESSAGE),
        {
            "where": view.name(part.where),
            "battery": view.names(part.batteries),
            "whole": f"{part.volts:g}",
        }
        | dict(more or {}),
        (Evidence(N_("voltage of the string"), part.volts, "voltage"), *evidence),
        touches=frozenset(part.bank),
    )


RULE = Rule(
    "bank-tapped",
    N_("Load on part of a bank"),
    check,
    {"NA": "practice", "INT": "practice"},
    causes=("battery-turned", "batteries-unlike"),
)
