"""What lies at the posts of a battery, read off the drawing: others beside it or in series, the
first devices on its plus, the switches behind it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from linework.design import Part
from linework.design.names import natural
from linework.design.poles import pole_map
from linework.handover.content import Content
from linework.kinds import Remedy
from linework.study.report import StateReport
from linework.wiring import Pole


def string_of(content: Content, part: Part) -> tuple[str, ...]:
    """A part with the batteries that are in series with it in every state and of the same ratings,
    by their designations."""
    alike = [
        other
        for other in _always(content, part, _series)
        if content.design.part(other).ratings == part.ratings
    ]
    return tuple(sorted((part.id, *alike), key=lambda p: natural(content.name(p))))


def names_of(content: Content, string: tuple[str, ...]) -> str:
    """One part by its whole name, a string by the designations of its batteries."""
    if len(string) == 1:
        return content.full_name(string[0])
    return ", ".join(map(content.name, string))


def beside(content: Content, string: tuple[str, ...]) -> str:
    """How the batteries of a string lie to each other and to others, in every state."""
    battery = content.design.part(string[0])
    others = _always(content, battery, _series) - set(string)
    parallel = _always(content, battery, _parallel)
    told = []
    if len(string) > 1:
        told.append(content.say("{number} in series", number=str(len(string))))
    if others:
        told.append(content.say("in series with {names}", names=_names(content, others)))
    if parallel:
        told.append(content.say("in parallel with {names}", names=_names(content, parallel)))
    return ", ".join(told)


def _names(content: Content, parts: set[str]) -> str:
    return ", ".join(sorted(map(content.name, parts), key=natural))


def _always(
    content: Content, battery: Part, mates: Callable[[StateReport, str], set[str] | None]
) -> set[str]:
    """Those that are so in every state in which the battery is in circuit."""
    found = [mates(report, battery.id) for report in content.reports]
    told = [each for each in found if each is not None]
    return set.intersection(*told) if told else set()


def _series(report: StateReport, battery: str) -> set[str] | None:
    rows = [row for bank in report.banks for row in bank if battery in row]
    return {part for row in rows for part in row if part != battery} if rows else None


def _parallel(report: StateReport, battery: str) -> set[str] | None:
    banks = [bank for bank in report.banks if any(battery in row for row in bank)]
    others = {p for bank in banks for row in bank if battery not in row for p in row}
    return others if banks else None


def devices_at(content: Content, string: tuple[str, ...]) -> list[str]:
    """The parts with the first overcurrent device on each way from the plus of batteries."""
    owners = {device.owner for device in content.circuit.devices}
    return _first(content, string, lambda part: part.id in owners)


def disconnects_at(content: Content, string: tuple[str, ...]) -> list[str]:
    """The first switches on the ways from the plus of batteries, past their fuses."""
    return _first(content, string, lambda part: _switches(content, part))


def _switches(content: Content, part: Part) -> bool:
    kind = content.design.kind(part)
    hand = any(s.moves == "hand" for s in kind.inside(content.design.values(part)).selectors)
    return Remedy.BATTERY_SWITCH in kind.remedies or (hand and not kind.source and not kind.plugs)


def _first(content: Content, string: tuple[str, ...], wanted: Callable[[Part], bool]) -> list[str]:
    design = content.design
    seen, waiting, found = set(string), [design.part(part) for part in string], list[str]()
    while waiting:
        for part in _on_plus(content, waiting.pop()):
            if part.id in seen:
                continue
            seen.add(part.id)
            if wanted(part):
                found.append(part.id)
            elif not (design.kind(part).source or design.kind(part).body):
                waiting.append(part)
    return sorted(found, key=lambda owner: natural(content.name(owner)))


def _on_plus(content: Content, part: Part) -> Iterator[Part]:
    """What sits in a part, as a fuse on the post of a battery, and what wires with a plus lead
    to."""
    design = content.design
    yield from (design.part(seat.part) for seat in design.seated_in(part.id))
    for run in design.runs_at(part.id):
        if any(Pole.POS in pair for pair in pole_map(design, run)):
            yield design.part(run.b.part if run.a.part == part.id else run.a.part)
