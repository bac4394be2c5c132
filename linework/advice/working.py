"""What works in a system, so that a mend that stops something is seen."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from linework.analysis import Analysis
from linework.design import Design, Part
from linework.kinds.solar_array import modules
from linework.study.report import LoadReport, SourceReport
from linework.words import say

_LEAST, _MOST = 0.8, 1.15
"""Within these shares of its rated voltage a load is taken to work."""
_GOOD, _LOST = 0.9, 0.02
"""A load that had this share of its voltage may have any above it; one that had less may lose so
much of it (common practice, no source)."""
_LESS = 0.9
"""A share of what a source gave that may be lost to a longer way."""

_Fed = tuple[str, float, tuple[str, ...]]
_Gives = tuple[str, str]


@dataclass(frozen=True)
class Working:
    """``fed``: by load, its rated voltage and the sources that feed it together the best share of
    that voltage. ``given``: by part and source the most direct current that charges or is
    charged. ``rated``: by part and source its rated current. In ampere. ``modules``: solar
    modules by part."""

    fed: Mapping[_Fed, float]
    given: Mapping[_Gives, float]
    rated: Mapping[_Gives, float]
    modules: Mapping[str, float]

    def feeds(self, part: str, rated_v: float, sources: tuple[str, ...]) -> float:
        """The best share of its voltage that a load has from these sources, others beside them or
        not: a battery that is turned back stands beside its charger from then on."""
        shares = (
            share
            for (load, volts, owners), share in self.fed.items()
            if (load, volts) == (part, rated_v) and {*sources} <= {*owners}
        )
        return max(shares, default=0.0)


def working(design: Design, analysis: Analysis) -> Working:
    """What works in some state of some case."""
    fed: dict[_Fed, float] = {}
    given: dict[_Gives, float] = {}
    rated: dict[_Gives, float] = {}
    for report in analysis.reports:
        sources = {source.part for source in report.sources}
        for load in filter(_works, report.loads):
            if load.part in sources and all(_is_solar(design, each) for each in load.sources):
                continue  # an array gives a controller what voltage it has: that charges, or not
            where = (load.part, load.rated_v, load.sources)
            fed[where] = max(fed.get(where, 0.0), load.volts / load.rated_v)
        for source in report.sources:
            which = (source.part, source.name)
            if source.rated_a is not None:
                rated[which] = max(rated.get(which, 0.0), source.rated_a)
            if _charges(source):
                given[which] = max(given.get(which, 0.0), source.amps)
    return Working(fed, given, rated, _modules(design))


def _works(load: LoadReport) -> bool:
    return bool(load.sources) and _LEAST * load.rated_v <= load.volts <= _MOST * load.rated_v


def _charges(source: SourceReport) -> bool:
    """Arrays, controllers and chargers: direct current of a source that is rated; batteries have
    none."""
    return source.hertz == 0.0 and source.rated_a is not None and source.watts > 0.0


def _is_solar(design: Design, part_id: str) -> bool:
    return design.kind(design.part(part_id)).source.solar


def _modules(design: Design) -> dict[str, float]:
    arrays = [part for part in design.parts if design.kind(part).source.solar]
    return {part.id: modules(design.values(part)) for part in arrays}


def stopped(design: Design, before: Working, after: Working) -> Iterator[str]:
    """What worked and does not any more, in words."""
    for (part, rated_v, sources), share in before.fed.items():
        now = after.feeds(part, rated_v, sources)
        if now < min(share, _GOOD) - _LOST:
            names = ", ".join(_name(design, each) for each in sources)
            yield say(
                "{load} is not fed by {sources} as before", load=_name(design, part), sources=names
            )
    for (part, name), amps in before.given.items():
        least = 0.0 if _held_back(design, part) else _LESS * amps
        if after.given.get((part, name), 0.0) <= least:
            yield say("{source} charges less than before", source=_name(design, part))
    for (part, name), amps in before.rated.items():
        if after.rated.get((part, name), 0.0) < amps:
            yield say("{source} has a lower rating than before", source=_name(design, part))
    for part, count in before.modules.items():
        if after.modules.get(part, 0.0) < count:
            yield say("{source} loses modules", source=_name(design, part))


def _held_back(design: Design, part_id: str) -> bool:
    """Whether a charger is set to leave its source to others: it then charges with what is left."""
    values = design.values(design.part(part_id))
    return "input_limit" in values.declared and values.given("input_limit")


def _name(design: Design, part_id: str) -> str:
    part = design.get(part_id)
    return part.designation if isinstance(part, Part) else part_id
