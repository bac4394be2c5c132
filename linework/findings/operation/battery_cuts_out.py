"""A battery whose own management opens in use.

What is checked
    In every state: the current of each battery with the drawn loads on, with
    each inverter at its rating and all together, and while each motor starts,
    against what its management gives for good and for a start; and the rating
    of all chargers on it against what it takes.
Why it matters
    The management opens at once and under load: all that hangs on the battery
    goes dead, and what charges it stands without a battery.
How to cure it
    A battery made for more, several in parallel, or less load; a charger set
    to less.
Limits
    Batteries in parallel share by their resistance and that of their leads.
    The rush into the capacitors of an inverter that is switched on is not
    known. Where nothing is said of a lithium battery, one that is asked for
    more than its capacity in an hour is "not checked". The management is no
    overcurrent device: faults are judged as though it stayed closed.
Sources
    The battery's data sheet. That lithium batteries with a management of their
    own give about their capacity in one hour: from memory.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from linework.circuit.network import NotSolved
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.cutting_out import (
    Asked,
    asked_of_batteries,
    charging_a,
    given_by_batteries,
)
from linework.study.loads.loaded import Loaded
from linework.study.slack import exceeds
from linework.words import N_, say

IN_USE = N_(
    "The management of {where} cuts out above {limit} A; with all drawn loads on, {amps} A are"
    " asked of {each}. All that hangs there then goes dead."
)
AT_RATING = N_(
    "The management of {where} cuts out above {limit} A; {by} at its rating asks {amps} A of"
    " {each}. Loads of that size make all that hangs there go dead."
)
ALL_AT_RATING = N_(
    "The management of {where} cuts out above {limit} A; {by} at their rating together ask {amps} A"
    " of {each}. Loads of that size make all that hangs there go dead."
)
AT_START = N_(
    "The management of {where} cuts out above {limit} A; when {by} starts, {amps} A are asked of"
    " {each}. All that hangs there then goes dead."
)
CHARGED = N_(
    "The management of {where} cuts out when it is charged with more than {limit} A; the chargers"
    " there give up to {amps} A to {each}."
)
PEAK = N_(
    "the management of {where} lets {limit} A through for good; when {by} starts, {amps} A are"
    " asked of {each}. Whether that holds for seconds is on the data sheet, as peak discharge"
    " current"
)
UNKNOWN = N_(
    "whether the management of {where} lets {amps} A through is on its data sheet, as continuous"
    " discharge current; lithium batteries often cut out above about {limit} A"
)

_LEVELS = {
    IN_USE: Level.WARNING,
    AT_RATING: Level.NOTE,
    ALL_AT_RATING: Level.NOTE,
    AT_START: Level.WARNING,
    CHARGED: Level.WARNING,
}
"""What is not here is not checked."""


@dataclass(frozen=True)
class _Beyond:
    """A battery of which more is asked than ``limit`` ampere."""

    message: str
    owner: str
    asked: Asked
    limit: float

    @property
    def cause(self) -> tuple[str, tuple[str, ...], str]:
        """What batteries of one bank have in common."""
        return self.message, self.asked.by, f"{self.limit:.3g}"


def check(view: View) -> Iterator[Outcome]:
    """One hit for each bank and limit; gaps where data sheets decide."""
    for look in view.settled_looks:
        loaded = loaded_or_none(look.studies)
        if loaded is None:
            continue
        try:
            found = [*_charged(view, look), *_asked(view, look, loaded)]
        except NotSolved:  # told by "not-analysed"
            continue
        for cause in dict.fromkeys(each.cause for each in found):
            yield _told(view, look, [each for each in found if each.cause == cause])


def _asked(view: View, look: Look, loaded: Loaded) -> Iterator[_Beyond]:
    """Of the figures of each battery the cause: the drawn loads, else a rating, else a start."""
    situation, sources = look.studies.situation, look.studies.circuit.sources
    given = given_by_batteries(situation, loaded)
    limited = any(_limit(view, sources[each.battery].owner, "discharge_limit") for each in given)
    beside = list(asked_of_batteries(situation, loaded)) if limited else []
    for in_use in given:
        owner = sources[in_use.battery].owner
        if "discharge_limit" in view.kind(owner).declared:
            more = [each for each in beside if each.battery == in_use.battery]
            yield from _battery(view, owner, in_use, more)


def _limit(view: View, owner: str, key: str) -> float | None:
    values = view.values(owner)
    return values.opt(key) if key in values.declared else None


def _battery(view: View, owner: str, in_use: Asked, beside: list[Asked]) -> Iterator[_Beyond]:
    values = view.values(owner)
    limit = values.opt("discharge_limit")
    if limit is None:
        usual_a = values.num("capacity")  # in Ah: what empties it in an hour
        if values.pick("chemistry") == "lithium" and exceeds(in_use.amps, usual_a):
            yield _Beyond(UNKNOWN, owner, in_use, usual_a)
        return
    if exceeds(in_use.amps, limit):
        yield _Beyond(IN_USE, owner, in_use, limit)
        return
    lasting = [each for each in beside if not each.seconds]
    alone = _most(each for each in lasting if len(each.by) == 1)
    if alone is not None and exceeds(alone.amps, limit):
        yield _Beyond(AT_RATING, owner, alone, limit)
    elif (together := _most(lasting)) is not None and exceeds(together.amps, limit):
        yield _Beyond(ALL_AT_RATING, owner, together, limit)
    start, peak = _most(each for each in beside if each.seconds), values.opt("discharge_peak")
    if start is not None and exceeds(start.amps, peak or limit):
        yield _Beyond(PEAK if peak is None else AT_START, owner, start, peak or limit)


def _most(asked: Iterable[Asked]) -> Asked | None:
    return max(asked, key=lambda each: each.amps, default=None)


def _charged(view: View, look: Look) -> Iterator[_Beyond]:
    sources = look.studies.circuit.sources
    owners = {s.owner for _, s in look.studies.situation.active if s.data.group.stores}
    if not any(_limit(view, owner, "charge_limit") for owner in owners):
        return
    for battery, amps in charging_a(look.studies.situation).items():
        limit = _limit(view, sources[battery].owner, "charge_limit")
        if limit is not None and exceeds(amps, limit):
            yield _Beyond(CHARGED, sources[battery].owner, Asked(battery, amps), limit)


def _told(view: View, look: Look, found: list[_Beyond]) -> Hit | NotChecked:
    """One word on the batteries of a bank, with the one of which most is asked."""
    worst = max(found, key=lambda each: each.asked.amps)
    owners = tuple(sorted({each.owner for each in found}))
    words = {
        "where": ", ".join(map(view.name, owners)),
        "each": say("it") if len(owners) == 1 else say("each of them"),
        "by": view.names(worst.asked.by) if worst.asked.by else "",
        "amps": f"{worst.asked.amps:.3g}",
        "limit": f"{worst.limit:.3g}",
    }
    if worst.message not in _LEVELS:
        return NotChecked(worst.message, words, owners, look.state)
    return look.hit(
        _LEVELS[worst.message],
        (*owners, *worst.asked.by),
        worst.message,
        words,
        (
            Evidence(N_("current"), worst.asked.amps, "current"),
            Evidence(N_("its management lets through"), worst.limit, "current"),
        ),
    )


RULE = Rule(
    "battery-cuts-out",
    N_("Battery switches itself off"),
    check,
    {"NA": "maker", "INT": "maker"},
    causes=(
        "batteries-unlike",
        "battery-turned",
        "source-overloaded",
    ),
)
