"""A load on part of a string of batteries.

What is checked
    In every state: each load and converter on direct current that hangs on
    some of the batteries of a string and not on all of them.
Why it matters
    It empties its battery alone; the charger on the whole string then overfills
    the others, which boil or switch themselves off, and this one stays empty.
How to cure it
    A converter from the whole string to the lower voltage, or a battery of its
    own.
Limits
    Devices that level the batteries of a string are not known to the program.
Sources
    Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.series import ways_back
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.ways.banks import String, strings
from linework.words import N_

MESSAGE = N_(
    "{where} hangs on {battery} alone, part of a string of {whole} V: it empties that one, and the"
    " charger overfills the rest. Feed it through a converter from the whole string."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each load."""
    for look in view.settled_looks:
        every = strings(look.studies.situation)
        for string in every:
            if len(string.cells) > 1:
                yield from _tapped(view, look, string, every)


def _tapped(view: View, look: Look, string: String, every: list[String]) -> Iterator[Hit]:
    situation = look.studies.situation
    label, sources = situation.conductive, look.studies.circuit.sources
    whole = {(each.top, each.bottom) for each in every}
    for _, load in situation.loads:
        ends = label[load.a], label[load.b]
        part = next(
            (
                cells
                for first in string.cells
                if label[sources[first].plus] == ends[0]
                and (cells := ways_back(situation, first, label).get(ends[1]))
            ),
            (),
        )
        if part and ends not in whole:
            yield _hit(view, look, load.owner, part, string)


def _hit(view: View, look: Look, where: str, part: tuple[int, ...], string: String) -> Hit:
    sources = look.studies.circuit.sources
    owners = list(dict.fromkeys(sources[i].owner for i in part))
    volts = sum(sources[i].data.volts for i in string.cells)
    return look.hit(
        Level.WARNING,
        (where,),
        MESSAGE,
        {"where": view.name(where), "battery": view.names(owners), "whole": f"{volts:g}"},
        (Evidence(N_("voltage of the string"), volts, "voltage"),),
        touches=frozenset(sources[i].owner for i in string.cells),
    )


RULE = Rule(
    "bank-tapped",
    N_("Load on part of a bank"),
    check,
    {"NA": "practice", "INT": "practice"},
    causes=("battery-turned", "batteries-unlike"),
)
