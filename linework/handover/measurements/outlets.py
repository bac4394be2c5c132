"""What is read live at outlets, boards and loads in each position, and what ends a fault there."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Part
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.findings.explain import picture_word
from linework.handover.content import Content
from linework.handover.measurements.line import (
    Block,
    Bounds,
    Measurement,
    basis,
    chosen,
    names,
)
from linework.handover.positions import Position, positions
from linework.study.report import FaultReport, StateReport
from linework.study.stands import is_loose
from linework.study.tester import Reading
from linework.wiring import Pole
from linework.words import begun_small

VOLTS_SHARE = 0.05
"""How far a voltage may lie off (common practice, no source)."""

LOOP = {"NA": "250.4(A)(5), 110.10", "INT": "61.6.4.3.7"}
"""What asks for it; from memory."""

_DEAD_V = 1.0
_ALIKE = 0.02
"""Voltages no farther apart than this part of them are read as one."""
_FLOWS_A = 1e-3
_FRONT = "onward"
"""Of an outlet with a device of its own: the terminal behind that, as its contacts are."""


def told(content: Content) -> list[tuple[int, Position]]:
    """The positions of the operator's sheet with their numbers, those further ones left out."""
    return [*enumerate(positions(content)[:5], start=1)]


def device_of(content: Content, r: StateReport, outlet: str) -> str:
    """The part whose device protects what feeds an outlet, or in which it sits; itself where
    nothing tells."""
    design = content.design
    found = {r.run_device.get(run.id, "") for run in design.runs_at(outlet)} - {"", outlet}
    hosts = sorted(seat.host for seat in design.seats_of(outlet))
    return sorted(found)[0] if found else hosts[0] if hosts else outlet


def _grouped(content: Content, r: StateReport) -> list[list[Reading]]:
    """The readings of one state, outlets of one circuit that show the same together; in each
    group the lowest voltage first."""
    found: dict[tuple[str, str], list[Reading]] = {}
    for reading in sorted(r.readings, key=lambda each: natural(content.name(each.owner))):
        loose = is_loose(content.design, reading.owner)
        if reading.picture != "dead" and not loose and not _taken(content, r, reading.owner):
            key = (device_of(content, r, reading.owner), picture_word(reading, content.family))
            found.setdefault(key, []).append(reading)
    return [sorted(group, key=lambda each: each.volts[0]) for group in found.values()]


def outlets(content: Content) -> Iterator[Measurement]:
    """What a meter and a tester show at the outlets of each circuit in each position."""
    say = content.say
    seen: set[object] = set()
    for number, position in told(content):
        for group in _grouped(content, position.shown):
            least = group[0]
            volts = " / ".join(f"{v:.0f}" for v in least.volts)
            owners = _owners(position.shown, least.owner)
            word = picture_word(least, content.family)
            if _known(seen, owners, word, *sorted({each.owner for each in group})):
                continue
            several = len({each.owner for each in group}) > 1
            yield Measurement(
                f"outlet:{least.owner}:{number}",
                Block.LIVE,
                say(
                    "{part} {position}",
                    part=names(content, (each.owner for each in group)),
                    position=begun_small(position.title),
                ),
                say("tester: {word}; write the lowest", word=word)
                if several
                else say("tester: {word}", word=word),
                f"{volts} V",
                say("±{volts} V [p]", volts=round(VOLTS_SHARE * max(least.volts))),
                "V",
                tuple(about(volts, max(least.volts)) for volts in least.volts),
            )


def _taken(content: Content, r: StateReport, outlet: str) -> bool:
    """Whether the plug of a cord is in every face of an outlet, or it is a supply's own, at which
    the supply alone is measured: no meter comes to its contacts."""
    design = content.design
    values = design.values(design.part(outlet))
    hosts = (design.part(seat.host) for seat in design.seats_of(outlet))
    if any(design.kind(host).source.off_site for host in hosts):
        return True
    faces = values.num("duplex") if "duplex" in values.declared else 1.0
    at = {part: position for part, _, position in r.free}
    plugs = [s.part for s in design.seated_in(outlet) if design.kind(design.part(s.part)).plugs]
    return sum(at.get(plug, "") not in ("", "unplugged") for plug in plugs) >= faces


def _known(seen: set[object], *what: object) -> bool:
    """Whether the same was read on the same sources in a position before: it needs no line."""
    if what in seen:
        return True
    seen.add(what)
    return False


def _owners(r: StateReport, part: str) -> tuple[str, ...]:
    """What feeds any terminal of a part."""
    return tuple(sorted({o for (at, _), by in r.live.items() if at == part for o in by}))


def about(value: float, most: float | None = None) -> Bounds:
    """As far off as the largest of several may lie."""
    off = VOLTS_SHARE * (value if most is None else most)
    return max(0.0, value - off), value + off


# two hot conductors


def legs(content: Content) -> Iterator[Measurement]:
    """At boards and outlets with two hot conductors: what is between them, opposed or in phase."""
    say = content.say
    seen: set[object] = set()
    for number, position in told(content):
        same: dict[tuple[int, ...], list[str]] = {}
        shown: dict[str, tuple[int, ...]] = {}
        for part, exact in _two_hots(content, position.shown):
            outlet = content.design.kind(content.design.part(part)).receptacle
            if outlet and _taken(content, position.shown, part):
                continue
            shown.setdefault(part, tuple(round(each) for each in exact))
            same.setdefault(tuple(round(each / 10.0) for each in exact), []).append(part)
        for parts in same.values():
            volts = min(shown[part] for part in parts)
            if _known(seen, _owners(position.shown, parts[0]), *parts):
                continue
            phase = say("in phase") if volts[-1] < max(volts[:-1], default=1) else say("opposed")
            yield Measurement(
                f"legs:{sorted(parts)[0]}:{number}",
                Block.LIVE,
                say(
                    "{parts} {position}: L1–N / L2–N / L1–L2",
                    parts=names(content, parts),
                    position=begun_small(position.title),
                )
                if len(volts) > 1
                else say(
                    "{parts} {position}: L1–L2",
                    parts=names(content, parts),
                    position=begun_small(position.title),
                ),
                phase if len(volts) > 1 else "",
                " / ".join(str(each) for each in volts) + " V",
                say("±{volts} V [p]", volts=round(VOLTS_SHARE * max(volts))),
                "V",
                tuple(about(float(each), float(max(volts))) for each in volts),
            )


def _two_hots(content: Content, r: StateReport) -> Iterator[tuple[str, tuple[float, ...]]]:
    """Each such board and outlet that is live: L1 to N and L2 to N where there is a neutral, then
    L1 to L2, in volt."""
    for part in chosen(content, lambda each: _asked(content, each)):
        terminal = "bus" if content.design.kind(part).board else "feed"
        for volts in r.volts.values():
            first, second, neutral = (
                volts.get((part.id, terminal, pole)) for pole in (Pole.L1, Pole.L2, Pole.N)
            )
            if first is None or second is None:
                continue
            found = () if neutral is None else (abs(first - neutral), abs(second - neutral))
            if max((*found, abs(first - second))) > _DEAD_V:
                yield part.id, (*found, abs(first - second))
                break


def _asked(content: Content, part: Part) -> bool:
    kind = content.design.kind(part)
    return kind.board or kind.receptacle


# faults


def loops(content: Content) -> Iterator[Measurement]:
    """The loop of line and ground at the farthest outlet of each circuit, on supplies from
    outside: what a loop tester shows, and what opens."""
    say = content.say
    seen: set[object] = set()
    for number, position in told(content):
        for group in _circuits(content, position.shown):
            worst = min(group, key=lambda fault: fault.weak_a)
            if not _stiff(content, position.shown, worst.part):
                continue
            if _known(seen, _owners(position.shown, worst.part), worst.part, worst.by):
                continue
            volts = _open_v(position.shown, worst.part)
            low, high = volts / worst.strong_a, volts / worst.weak_a
            yield Measurement(
                f"loop:{worst.part}:{number}",
                Block.LIVE,
                say(
                    "Loop {hot} to {ground} at {part} {position}",
                    part=content.name(worst.part),
                    position=begun_small(position.title),
                ),
                _loop_note(content, worst, group),
                say("{low} to {high} Ω", low=f"{low:.2f}", high=f"{high:.2f}"),
                _ended(content, worst),
                "Ω",
                ((None, high),),
                basis(content, LOOP),
            )


def _loop_note(content: Content, worst: FaultReport, group: list[FaultReport]) -> str:
    """Of how many outlets it is the farthest; and that the test trips a ground-fault device, where
    one ends the fault."""
    say = content.say
    several = len({fault.part for fault in group}) > 1
    trips = any(sensor.owner == worst.by for sensor in content.circuit.sensors)
    told = (
        say("farthest of {parts}", parts=names(content, (f.part for f in group)))
        if several
        else "",
        say(
            "{part} trips by the test; an instrument that does not trip it reads the loop",
            part=content.name(worst.by),
        )
        if trips
        else "",
    )
    return "; ".join(filter(None, told))


def faults(content: Content) -> Iterator[Measurement]:
    """On sets and inverters, which no loop tester reads truly: what opens on a fault to ground."""
    say = content.say
    seen: set[object] = set()
    asked = False
    for number, position in told(content):
        groups = _circuits(content, position.shown)
        found = {
            f.part: f
            for group in groups
            for f in group
            if not _stiff(content, position.shown, f.part)
        }
        fresh = [
            fault
            for part, fault in sorted(
                found.items(), key=lambda each: natural(content.name(each[0]))
            )
            if not _known(seen, _owners(position.shown, part), part, fault.by)
        ]
        if fresh:
            yield Measurement(
                f"fault:{number}",
                Block.LIVE,
                say(
                    "{Hot} to {ground} by a tester {position}: {parts}",
                    parts=", ".join(
                        f"{content.name(f.part)} ({_ender(content, f.by)})" for f in fresh
                    ),
                    position=begun_small(position.title),
                ),
                "" if asked else say("a loop tester does not read such a source truly"),
                say("what stands in brackets opens"),
                basis=basis(content, LOOP),
            )
            asked = True


def _ender(content: Content, by: str) -> str:
    if by == "source":
        return content.say("only the source gives up")
    return content.name(by) if by else content.say("nothing")


def _opens(content: Content, by: str) -> str:
    if by == "source":
        return content.say("only the source gives up")
    return (
        content.say("{part} opens", part=content.name(by)) if by else content.say("nothing opens")
    )


def _ended(content: Content, fault: FaultReport) -> str:
    amps = value_text(fault.weak_a, "current")
    return content.say("≥ {amps}: {what}", amps=amps, what=_opens(content, fault.by))


def _circuits(content: Content, r: StateReport) -> list[list[FaultReport]]:
    """The faults to metal at the outlets of each circuit on alternating current."""
    live = {each.owner for each in r.readings if each.picture != "dead"}
    at: dict[str, FaultReport] = {}
    for fault in sorted(r.faults, key=lambda each: natural(content.name(each.part))):
        fixed = fault.part in live and not is_loose(content.design, fault.part)
        fixed = fixed and not _taken(content, r, fault.part)
        flows = fixed and fault.kind == "metal" and fault.weak_a > _FLOWS_A
        if flows and (fault.part not in at or fault.terminal == _FRONT):
            at[fault.part] = fault
    found: dict[str, list[FaultReport]] = {}
    for part, fault in at.items():
        found.setdefault(device_of(content, r, part), []).append(fault)
    return [*found.values()]


def _stiff(content: Content, r: StateReport, outlet: str) -> bool:
    """Whether nothing but a supply from outside feeds an outlet."""
    design = content.design
    owners = _owners(r, outlet)
    return bool(owners) and all(design.kind(design.part(o)).source.off_site for o in owners)


def _open_v(r: StateReport, outlet: str) -> float:
    reading = r.reading(outlet)
    return 0.0 if reading is None else max(reading.meter_v[1], reading.volts[1])


# direct current


def direct(content: Content) -> Iterator[Measurement]:
    """Direct current at its loads, those that get the same together."""
    say = content.say
    found: list[tuple[float, float, str]] = []
    for part in chosen(content, lambda part: content.design.kind(part).consumes):
        values = content.design.values(part)
        if "circuit" not in values.declared or values.pick("circuit") != "dc":
            continue
        fed = [x.volts for r in content.reports for x in r.loads if _reads(x.part, x.volts, part)]
        if fed:
            found.append((min(fed), max(fed), part.id))
    for members in _alike(found):
        low, high = min(m[0] for m in members), max(m[1] for m in members)
        first = min((m[2] for m in members), key=lambda p: natural(content.name(p)))
        yield Measurement(
            f"volts:{first}",
            Block.LIVE,
            say(
                "{part}: plus to minus, all loads on", part=names(content, (m[2] for m in members))
            ),
            say("write the lowest") if len(members) > 1 else "",
            f"{low:.1f} V" if high - low < 0.1 else f"{low:.1f} to {high:.1f} V",
            say("±{percent} % [p]", percent=round(100 * VOLTS_SHARE)),
            "V",
            ((low * (1 - VOLTS_SHARE), high * (1 + VOLTS_SHARE)),),
        )


def _alike(found: list[tuple[float, float, str]]) -> list[list[tuple[float, float, str]]]:
    """Those together whose lowest voltage is within a part of the lowest of all of them."""
    groups: list[list[tuple[float, float, str]]] = []
    for each in sorted(found):
        if groups and each[0] <= groups[-1][0][0] * (1.0 + _ALIKE):
            groups[-1].append(each)
        else:
            groups.append([each])
    return groups


def _reads(load: str, volts: float, part: Part) -> bool:
    return load == part.id and volts > 0.5
