"""Batteries that do not belong into one bank.

What is checked
    In every state: the nominal voltages, and where they are given the
    chemistries and capacities, of batteries in one string; the voltages and
    chemistries of strings beside each other.
Why it matters
    Side by side the higher one drives its current into the lower. In a string
    all get the same current: the smaller one is emptied and overfilled first,
    and one of another kind is never charged rightly.
How to cure it
    Like batteries of one age in one bank; a converter between unlike banks.
Limits
    Lead of different kinds counts as one chemistry. Age is not known to the
    program. Voltages less than 1.3 times apart count as one nominal voltage.
Sources
    Makers' manuals of batteries; common practice, no source.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.slack import within
from linework.study.ways.banks import String, on_banks, strings
from linework.words import N_

BESIDE = N_(
    "{battery} of {rated} V and {other} of {volts} V lie side by side: the higher drives its"
    " current into the lower."
)
MIXED = N_(
    "{battery} and {other} lie side by side and are of different chemistry: no charger is right for"
    " both, and one drives current into the other."
)
VOLTS = N_(
    "{battery} of {rated} V lies in a string with {other} of {volts} V: one of them is charged"
    " wrongly, and the string has {all} V."
)
SIZES = N_(
    "{battery} of {rated} Ah lies in a string with {other} of {volts} Ah: the smaller is emptied"
    " and overfilled first."
)
KINDS = N_(
    "{battery} and {other} lie in one string and are of different chemistry: what charges one"
    " rightly spoils the other."
)

_APART = 1.3
"""Nominal voltages further apart than this belong to different systems: 12 V is not 16 V
(practice, no source)."""
_SIZES_APART = 1.2
"""So much larger a capacity is no scatter of makes any more (practice, no source)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each string, and for each two that lie side by side."""
    for look in view.settled_looks:
        every = strings(look.studies.situation)
        for string in every:
            yield from _in_string(view, look, string)
        for one, other in combinations(every, 2):
            if (one.top, one.bottom) == (other.top, other.bottom):
                yield from _beside(view, look, one, other)


def _owners(look: Look, string: String) -> list[str]:
    return [look.studies.circuit.sources[i].owner for i in string.cells]


def _in_string(view: View, look: Look, string: String) -> Iterator[Hit]:
    """The gravest that is unlike in a string."""
    owners = _owners(look, string)
    volts = {owner: view.values(owner).num("voltage") for owner in owners}
    hours = {o: view.values(o).num("capacity") for o in owners if view.values(o).given("capacity")}
    made = {owner: kind for owner in owners if (kind := _chemistry(view, owner))}
    if _differ(list(volts.values()), _APART):
        odd, other = _odd(owners, volts.__getitem__)
        words = {"rated": f"{volts[odd]:g}", "volts": f"{volts[other]:g}"}
        words["all"] = f"{sum(volts.values()):g}"
        evidence = Evidence(N_("voltage of the string"), sum(volts.values()), "voltage")
        yield _hit(view, look, Level.DANGER, VOLTS, (odd, other), words, (evidence,))
    elif len(set(made.values())) > 1:
        pair = _odd(list(made), made.__getitem__)
        yield _hit(view, look, Level.WARNING, KINDS, pair, {}, ())
    elif _differ(list(hours.values()), _SIZES_APART):
        small, large = min(hours, key=hours.__getitem__), max(hours, key=hours.__getitem__)
        words = {"rated": f"{hours[small]:g}", "volts": f"{hours[large]:g}"}
        evidence = Evidence(N_("smaller capacity"), hours[small], "charge")
        yield _hit(view, look, Level.WARNING, SIZES, (small, large), words, (evidence,))


def _differ(figures: Sequence[float], apart: float) -> bool:
    return len(figures) > 1 and not within(max(figures), apart * min(figures))


def _odd(owners: list[str], figure: Callable[[str], object]) -> tuple[str, str]:
    """The first of which there are fewest, and the first of another kind."""
    often = Counter(figure(owner) for owner in owners)
    odd = min(owners, key=lambda owner: often[figure(owner)])
    return odd, next(owner for owner in owners if figure(owner) != figure(odd))


def _beside(view: View, look: Look, one: String, other: String) -> Iterator[Hit]:
    sources = look.studies.circuit.sources
    volts = [sum(sources[i].data.volts for i in string.cells) for string in (one, other)]
    pair = _owners(look, one)[0], _owners(look, other)[0]
    kinds = {_chemistry(view, owner) for owner in (*_owners(look, one), *_owners(look, other))}
    if _differ(volts, _APART):
        words = {"rated": f"{volts[0]:g}", "volts": f"{volts[1]:g}"}
        evidence = Evidence(N_("voltage between them"), abs(volts[0] - volts[1]), "voltage")
        yield _hit(view, look, Level.DANGER, BESIDE, pair, words, (evidence,))
    elif len(kinds - {""}) > 1:
        yield _hit(view, look, Level.WARNING, MIXED, pair, {}, ())


def _chemistry(view: View, owner: str) -> str:
    """Lithium or lead; empty where it is not given."""
    values = view.values(owner)
    if not values.given("chemistry"):
        return ""
    return "lithium" if values.pick("chemistry") == "lithium" else "lead"


def _hit(
    view: View,
    look: Look,
    level: Level,
    message: str,
    pair: tuple[str, str],
    words: dict[str, str],
    evidence: tuple[Evidence, ...],
) -> Hit:
    names = {"battery": view.name(pair[0]), "other": view.name(pair[1])}
    touches = on_banks(look.studies.situation)
    return look.hit(level, pair, message, names | words, evidence, touches=touches)


RULE = Rule(
    "batteries-unlike",
    N_("Batteries that do not fit together"),
    check,
    {"NA": "maker", "INT": "maker"},
    causes=("battery-turned",),
)
