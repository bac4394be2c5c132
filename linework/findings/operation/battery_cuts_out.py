"""A battery whose own management opens in use.

What is checked
    In every state: the current of each battery with the drawn loads on, with
    each inverter at its rating, and while each motor starts, against what its
    management gives for good and for a start; and the rating of all chargers
    on it against what it takes.
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

from collections.abc import Iterator

from linework.circuit.network import NotSolved
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.cutting_out import Asked, asked_of_batteries, charging_a
from linework.study.slack import exceeds
from linework.words import N_

IN_USE = N_(
    "{where} switches itself off above {limit} A; with all drawn loads on it gives {amps} A. All"
    " that it feeds then goes dead."
)
AT_RATING = N_(
    "{where} switches itself off above {limit} A; {by} at its rating asks {amps} A of it. Loads of"
    " that size make everything on it go dead."
)
AT_START = N_(
    "{where} switches itself off above {limit} A; when {by} starts it is asked for {amps} A. All"
    " that it feeds then goes dead."
)
CHARGED = N_(
    "{where} takes {limit} A and switches itself off above; the chargers on it give up to {amps} A."
)
PEAK = N_(
    "{where} gives {limit} A for good; when {by} starts it is asked for {amps} A. Whether it stands"
    " that for seconds is on its data sheet, as peak discharge current"
)
UNKNOWN = N_(
    "{where} is asked for {amps} A. Lithium batteries switch themselves off above a current that is"
    " on their data sheet, often about {limit} A"
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each battery and limit; gaps where its data sheet decides."""
    for look in view.settled_looks:
        loaded = loaded_or_none(look.studies)
        if loaded is None:
            continue
        try:
            asked = list(asked_of_batteries(look.studies.situation, loaded))
            yield from _charged(view, look)
        except NotSolved:  # told by "not-analysed"
            continue
        for battery in sorted({each.battery for each in asked}):
            yield from _battery(view, look, [a for a in asked if a.battery == battery])


def _battery(view: View, look: Look, asked: list[Asked]) -> Iterator[Outcome]:
    """Of the figures of one battery the cause: the drawn loads, else a rating, else a start."""
    owner = look.studies.circuit.sources[asked[0].battery].owner
    values = view.values(owner)
    if "discharge_limit" not in values.declared:
        return
    lasting = [each for each in asked if not each.seconds]
    in_use, *at_rating = sorted(lasting, key=lambda each: (each.by != "", -each.amps))
    limit = values.opt("discharge_limit")
    if limit is None:
        yield from _untold(view, look, owner, in_use)
    elif exceeds(in_use.amps, limit):
        yield _hit(view, look, owner, IN_USE, Level.WARNING, in_use, limit)
    else:
        if at_rating and exceeds(at_rating[0].amps, limit):
            yield _hit(view, look, owner, AT_RATING, Level.NOTE, at_rating[0], limit)
        starts = [each for each in asked if each.seconds]
        yield from _starts(view, look, owner, starts, limit)


def _starts(
    view: View, look: Look, owner: str, starts: list[Asked], limit: float
) -> Iterator[Outcome]:
    worst = max(starts, key=lambda each: each.amps, default=None)
    peak = view.values(owner).opt("discharge_peak")
    if worst is None or not exceeds(worst.amps, peak or limit):
        return
    if peak is None:
        yield NotChecked(PEAK, _words(view, owner, worst, limit), (owner,), look.state)
    else:
        yield _hit(view, look, owner, AT_START, Level.WARNING, worst, peak)


def _untold(view: View, look: Look, owner: str, in_use: Asked) -> Iterator[NotChecked]:
    values = view.values(owner)
    usual_a = values.num("capacity")  # in Ah: what empties it in an hour
    if values.pick("chemistry") == "lithium" and exceeds(in_use.amps, usual_a):
        yield NotChecked(UNKNOWN, _words(view, owner, in_use, usual_a), (owner,), look.state)


def _charged(view: View, look: Look) -> Iterator[Hit]:
    for battery, amps in charging_a(look.studies.situation).items():
        owner = look.studies.circuit.sources[battery].owner
        values = view.values(owner)
        limit = values.opt("charge_limit") if "charge_limit" in values.declared else None
        if limit is not None and exceeds(amps, limit):
            yield _hit(view, look, owner, CHARGED, Level.WARNING, Asked(battery, amps), limit)


def _words(view: View, owner: str, asked: Asked, limit: float) -> dict[str, str]:
    return {
        "where": view.name(owner),
        "by": view.name(asked.by) if asked.by else "",
        "amps": f"{asked.amps:.3g}",
        "limit": f"{limit:.3g}",
    }


def _hit(
    view: View, look: Look, owner: str, message: str, level: Level, asked: Asked, limit: float
) -> Hit:
    return look.hit(
        level,
        (owner, asked.by) if asked.by else (owner,),
        message,
        _words(view, owner, asked, limit),
        (
            Evidence(N_("current"), asked.amps, "current"),
            Evidence(N_("its management lets through"), limit, "current"),
        ),
    )


RULE = Rule(
    "battery-cuts-out",
    N_("Battery switches itself off"),
    check,
    {"NA": "maker", "INT": "maker"},
    causes=("source-overloaded",),
)
