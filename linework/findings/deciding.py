"""Figures from memory that nobody is asked for, where a verdict rests on them.

They are quiet on the card, because in most designs nothing hangs on them. Where something does,
they are told among the values assumed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from linework.circuit.model import LiveSource
from linework.data import Confidence
from linework.design import Design
from linework.design.names import natural, run_name
from linework.findings.assumptions import Assumed, answer_text
from linework.kinds.ratings import FROM_MEMORY
from linework.quantity import show
from linework.study.answers.scorched import releases
from linework.study.studies import Studies
from linework.wiring import Limit
from linework.words import say

LOW_SHARE = 0.95
"""A load that gets less than this part of its voltage works or not by its lower limit."""

_Key = tuple[str, str]
"""A part's id and a rating."""


def deciding_values(design: Design, states: Iterable[Studies]) -> Iterator[Assumed]:
    """Of all these states: ratings that were not given, then what sources hold into a fault."""
    keys: dict[_Key, None] = {}
    limits: dict[str, Limit] = {}
    runs: dict[str, set[str]] = {}
    for studies in states:
        for breaker, spared in releases(studies, design).items():
            runs.setdefault(breaker, set()).update(spared)
        keys.update(dict.fromkeys(_sites(studies)))
        keys.update(dict.fromkeys(_strays(studies)))
        keys.update(dict.fromkeys(_low_loads(studies)))
        keys.update(dict.fromkeys(_starts(studies)))
        limits.update(_limits(studies))
    named = sorted((natural(design.part(part).designation), part, key) for part, key in keys)
    for _, part, key in named:
        yield from _rating(design, part, key)
    for part, limit in sorted(
        limits.items(), key=lambda item: natural(design.part(item[0]).designation)
    ):
        yield _limit(design, part, limit)
    for part, spared in sorted(
        runs.items(), key=lambda item: natural(design.part(item[0]).designation)
    ):
        yield _release(design, part, sorted((run_name(design, run) for run in spared), key=natural))


def _sites(studies: Studies) -> Iterator[_Key]:
    """The electrode of a site, where soil joins it to metal that nothing else joins it to."""
    situation = studies.situation
    soil = [branch for branch in situation.branches if branch.sort == "soil"]
    ends = {situation.metallic[b.b if b.a == situation.circuit.earth else b.a] for b in soil}
    if len(ends) > 1:
        yield from ((branch.owner, "electrode") for branch in soil)


def _strays(studies: Studies) -> Iterator[_Key]:
    """Stray capacitance of a set whose neutral floats: nothing else ties it to its frame."""
    for system in studies.neutrals:
        if system.is_ac and not system.bonds:
            for owner in system.owners:
                yield owner, "stray_line"
                yield owner, "stray_neutral"


def _low_loads(studies: Studies) -> Iterator[_Key]:
    """The lower limit of a load that gets little."""
    for index, volts in studies.loaded.load_v.items():
        load = studies.circuit.loads[index]
        if 0.0 < volts < LOW_SHARE * load.data.volts:
            yield load.owner, "least_voltage"


def _starts(studies: Studies) -> Iterator[_Key]:
    """The power factor of a start, where a set or inverter must carry it."""
    situation = studies.situation
    for _, load in situation.loads:
        if load.data.start_a is not None and load.data.hertz:
            feeding = (situation.circuit.sources[s.source] for s in situation.feeds(load.a))
            if any(_gives_way(source) for source in feeding):
                yield load.owner, "start_power_factor"


def _limits(studies: Studies) -> Iterator[tuple[str, Limit]]:
    """Sets and inverters that are on: what they hold into a fault decides how it ends."""
    for _, source in studies.situation.active:
        if _gives_way(source) and source.data.limit is not None:
            yield source.owner, source.data.limit


def _gives_way(source: LiveSource) -> bool:
    """Of alternating current, and small enough that starts and faults move its voltage."""
    return source.data.hertz > 0.0 and source.data.limit is not None


def _rating(design: Design, part_id: str, key: str) -> Iterator[Assumed]:
    part = design.part(part_id)
    values, family = design.values(part), design.settings.family
    rating = values.declared.get(key)
    if rating is None or not rating.quiet or values.given(key) or not values.has(key):
        return
    yield Assumed(
        part.designation,
        (part_id,),
        say(rating.label, family=family),
        answer_text(rating.choices, values.answer(key), family),
        say(rating.source.text, family=family),
        rating.source.confidence,
        key,
    )


def _release(design: Design, part_id: str, runs: list[str]) -> Assumed:
    """A breaker whose maker's release decides whether ground wires survive a fault."""
    return Assumed(
        design.part(part_id).designation,
        (part_id,),
        say("Its trip at once"),
        say("soon enough for the ground wire of {runs}", runs=", ".join(runs)),
        say("UL 489 asks for none; give from which current its maker promises it"),
        Confidence.MEMORY,
    )


def _limit(design: Design, part_id: str, limit: Limit) -> Assumed:
    words = []
    if limit.first_a is not None:
        words.append(
            say(
                "{least} to {most} at first",
                least=show(limit.first_a.low, "current"),
                most=show(limit.first_a.high, "current"),
            )
        )
    words.append(
        say(
            "{least} to {most} after {time}",
            least=show(limit.sustained_a.low, "current"),
            most=show(limit.sustained_a.high, "current"),
            time=show(limit.decay_s, "time"),
        )
    )
    if limit.off_s is not None:
        words.append(say("off after {time}", time=show(limit.off_s, "time")))
    return Assumed(
        design.part(part_id).designation,
        (part_id,),
        say("Current that it holds into a fault"),
        ", ".join(words),
        say(FROM_MEMORY.text),
        FROM_MEMORY.confidence,
    )
