"""What is read while it runs: sets, ground-fault devices, motors, warmth, fumes."""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.codes import CodesError
from linework.codes.residual import ground_fault_device
from linework.design import Part
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.content import Content
from linework.handover.devices import in_use
from linework.handover.measurements.line import Block, Bounds, Measurement, basis, chosen, names
from linework.handover.measurements.outlets import VOLTS_SHARE, about
from linework.study.report import SourceReport
from linework.words import N_

RISE_K = 30.0
"""How much warmer than the air a joint may get (common practice, from memory)."""
GOVERNED, ELECTRONIC = (58.0 / 60.0, 63.0 / 60.0), (59.5 / 60.0, 60.5 / 60.0)
"""Of its nominal: the frequency of an engine with a governor, and of electronics (from memory)."""

FUMES = {"NA": "NFPA 1192, NFPA 72"}
"""What asks for them; from memory."""

_NAMED = 4


def sets(content: Content) -> Iterator[Measurement]:
    """Each source of the site on alternating current: without load, then with all that is drawn."""
    say = content.say
    found: dict[str, SourceReport] = {}
    for source in (s for r in content.reports for s in r.sources if s.hertz > 0.0):
        if source.part not in found or source.amps > found[source.part].amps:
            found[source.part] = source
    circuit = content.circuit
    for part in sorted(found, key=lambda p: natural(content.name(p))):
        source = found[part]
        if content.design.kind(content.design.part(part)).source.off_site:
            continue
        volts = max(s.data.volts for s in circuit.sources if s.owner == part and s.data.hertz > 0.0)
        low, high = (source.hertz * share for share in _frequency(content, part))
        bounds: tuple[Bounds, ...] = (about(volts), (low, high), (low, high))
        yield Measurement(
            f"hertz:{part}",
            Block.LIVE,
            say(
                "{part}: volts and hertz without load, hertz after 30 min on all drawn",
                part=content.name(part),
            ),
            say("{amps} then", amps=value_text(source.amps, "current"))
            if source.amps > 0.1
            else "",
            f"{volts:.0f} V / {source.hertz:g} Hz",
            say(
                "±{percent} %, {low} to {high} Hz [p]",
                percent=round(100 * VOLTS_SHARE),
                low=f"{low:g}",
                high=f"{high:g}",
            ),
            say("V, Hz"),
            bounds,
        )


def supplies(content: Content) -> Iterator[Measurement]:
    """What comes from outside, before anything is joined to it."""
    say = content.say
    circuit = content.circuit
    for part in chosen(content, lambda part: content.design.kind(part).source.off_site):
        mine = [s.data for s in circuit.sources if s.owner == part.id]
        values = content.design.values(part)
        if not mine or values.pick("neutral") != "bonded":
            continue
        volts = mine[0].volts
        two = len(mine) > 1
        read = (volts, volts, 2.0 * volts) if two else (volts, volts, 0.0)
        yield Measurement(
            f"supply:{part.id}",
            Block.LIVE,
            say("{part}, nothing on it: L1–N / L2–N / L1–L2", part=part.designation)
            if two
            else say(
                "{part}, nothing on it: {hot}–{neutral} / {hot}–{ground} / {neutral}–{ground}",
                part=part.designation,
            ),
            say("else leave it alone and tell who runs it"),
            " / ".join(f"{each:.0f}" for each in read) + " V",
            say("±{percent} % [p]", percent=round(100 * VOLTS_SHARE)),
            "V",
            tuple(about(each, max(read)) for each in read),
        )


def _frequency(content: Content, part: str) -> tuple[float, float]:
    values = content.design.values(content.design.part(part))
    turns = "excitation" in values.declared and values.pick("excitation") != "electronic"
    return GOVERNED if turns else ELECTRONIC


def trips(content: Content) -> Iterator[Measurement]:
    """Ground-fault devices, by their own button and by an instrument: current and time."""
    say = content.say
    for sensor in content.circuit.sensors:
        trip = sensor.data.trip_ma
        latest = _latest_s(sensor.data.style, trip.high)
        low, high = f"{trip.low:g}", f"{trip.high:g}"
        bounds: tuple[Bounds, ...] = ((trip.low, trip.high),)
        words = say("{low} to {high} mA", low=low, high=high)
        if latest is not None:
            bounds = (*bounds, (None, latest))
            words = say("{low} to {high} mA, {time} s", low=low, high=high, time=f"{latest:.2g}")
        yield Measurement(
            f"trip:{sensor.owner}",
            Block.LIVE,
            say("{part} trips at, and by its own button", part=content.name(sensor.owner)),
            say("the time at {high} mA", high=high) if latest is not None else "",
            words,
            "",
            say("mA, s") if latest is not None else "mA",
            bounds,
            _standard(sensor.data.style),
        )


def _latest_s(style: str, trip_ma: float) -> float | None:
    try:
        return ground_fault_device(style).opens_by_s(trip_ma)
    except CodesError:
        return None


def _standard(style: str) -> str:
    """What the device is made to."""
    try:
        return ground_fault_device(style).clause
    except CodesError:
        return ""


def motors(content: Content) -> Iterator[Measurement]:
    """Each motor of which a start can be worked out, on the source on which it falls lowest."""
    say = content.say
    least: dict[str, tuple[float, tuple[str, ...]]] = {}
    for r in content.reports:
        for start in r.starts:
            known = least.get(start.motor, (math.inf, ()))[0]
            if start.motor_v < known:
                fed = next((x.sources for x in r.loads if x.part == start.motor), ())
                least[start.motor] = (start.motor_v, fed)
    for part in sorted(least, key=lambda p: natural(content.name(p))):
        volts, fed = least[part]
        yield Measurement(
            f"start:{part}",
            Block.LIVE,
            say(
                "{motor} starts on {sources}, the rest on: lowest volts, seconds",
                motor=content.name(part),
                sources=names(content, fed),
            ),
            say("contactors hold, lamps may dip"),
            say("{volts} V at least", volts=f"{volts:.0f}" if volts >= 60.0 else f"{volts:.1f}"),
            say("−{percent} % [p]", percent=round(100 * VOLTS_SHARE)),
            say("V, s"),
            ((volts * (1.0 - VOLTS_SHARE), None), (None, None)),
        )


def heat(content: Content) -> Iterator[Measurement]:
    """Joints after an hour, those first that are used most."""
    fullest = _fullest(content)
    if fullest:
        yield Measurement(
            "heat",
            Block.LIVE,
            content.say(
                "Joints after 1 h with all drawn loads on: {parts} first; the warmest over the air",
                parts=names(content, fullest),
            ),
            content.say("none 10 K warmer than its like"),
            content.say("below {kelvin} K", kelvin=round(RISE_K)),
            content.say("[p]"),
            "K",
            ((None, RISE_K),),
        )


def _fullest(content: Content) -> list[str]:
    """The devices in use that take most of their rating."""
    shares: dict[str, float] = {}
    for device in content.circuit.devices:
        if content.design.kind(content.design.part(device.owner)).source.off_site:
            continue
        share = in_use(content, device.owner) / device.data.rating_a
        shares[device.owner] = max(share, shares.get(device.owner, 0.0))
    used = [part for part, share in shares.items() if share > 0.01]
    return sorted(used, key=lambda p: (-shares[p], natural(content.name(p))))[:_NAMED]


_INSIDE = N_("0 ppm inside")


def fumes(content: Content) -> Iterator[Measurement]:
    """Carbon monoxide where people are, windows shut and open."""
    engines: list[Part] = chosen(content, lambda part: content.design.kind(part).source.driven)
    if engines:
        yield Measurement(
            "fumes",
            Block.LIVE,
            content.say(
                "Carbon monoxide where people are, {parts} on for 30 min, openings shut, then open",
                parts=names(content, (part.id for part in engines)),
            ),
            content.say("alarm sounds by its button; soap on the joints of the exhaust"),
            content.say(_INSIDE),
            "",
            "ppm",
            ((None, 1.0),),
            basis(content, FUMES, engines[0]),
        )
