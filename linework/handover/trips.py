"""Time-current charts: for each board what its devices, and the one before it, do at which current;
what the conductors behind them endure; and the currents of faults there."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import chain
from math import inf, log10

from reportlab.lib.units import mm
from reportlab.platypus import Flowable

from linework.circuit.conductors import pole_size
from linework.circuit.model import Device
from linework.codes import CodesError
from linework.codes.trip import TripBand
from linework.data import Confidence
from linework.design import Part, Run, pole_map
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.assumed_pages import in_a_row
from linework.handover.chart import ASSUMED, DAMAGE, EARLIEST, LATEST, Chart, Span, Trace
from linework.handover.circuits import branches
from linework.handover.content import Content
from linework.handover.drawn import Drawn
from linework.handover.setting import Kept
from linework.handover.sheets import USUAL, Band, Room
from linework.handover.styles import Cell, table, text
from linework.picture.model import Group
from linework.picture.pdf import POINTS_PER_TENTH
from linework.study.shorts.clearing import band_of
from linework.study.shorts.heat import LONGEST_S, withstand_of
from linework.words import N_

_STEPS = 240
_HIGH = 500
"""The height of the field of lines, in tenths of a millimetre: seven decades that can be told."""
_LEFT, _TOP = 150, 30
"""What figures beside and above the field take, in tenths of a millimetre."""


@dataclass(frozen=True)
class _Line:
    """What the table under a chart says of one mark."""

    mark: str
    what: str
    told: str


def charts(content: Content, room: Room) -> list[Band]:
    """A chart with its table for each board that has devices of a known curve, side by side."""
    boards = [part for part in content.design.parts if content.design.kind(part).board]
    boards = [board for board in boards if _devices(content, board)]
    boards.sort(key=lambda part: natural(part.designation))
    if not boards:
        return []
    say, usual = content.say, room.columns(USUAL)
    count = max(usual, min(len(boards), room.columns(_LEAST)))
    column = room.column(count)
    made = [_chart(content, board, column) for board in boards]
    kept = [Kept(chart, room.height) for chart in made] if count > 1 else [*chain(*made)]
    head = [text(say("Time and current"), "title", anchor="trips"), text(say(_HOW), "small")]
    return [Band(count, kept, head=head)] if len(boards) >= count else [Band(count, [*head, *kept])]


_LEAST = 85 * mm
"""A chart with its table is no narrower: three, or four, on A3."""

_HOW = N_(
    "Heavy lines: when a device has opened at the latest, broken where that is assumed between or"
    " beyond what a standard or its maker fixes. Thin broken lines: when it may open at the"
    " earliest. Chain lines: what a conductor endures without passing the limit of its insulation"
    " (IEC 60949, up to 5 s): a device has to open to the left and below. Bars: the least to the"
    " most current of faults, over all states."
)


def _chart(content: Content, board: Part, room: Room) -> list[Flowable]:
    devices = _devices(content, board)
    traces, lines = _of_devices(content, devices)
    more, told = _of_conductors(content, board)
    spans = _faults(content, board)
    chart = Chart(
        round(room.width / POINTS_PER_TENTH) - _LEFT - 20,
        _HIGH,
        _range(devices, spans),
    )
    items = chart.drawn([*traces, *more], spans)
    height = _TOP + chart.height + chart.foot(spans)
    drawn = Drawn([Group(tuple(items), _LEFT, _TOP)], round(room.width / POINTS_PER_TENTH), height)
    rows: list[list[Cell]] = [
        [text(each.mark, "strong"), each.what, each.told] for each in (*lines, *told)
    ]
    heads = [content.say("mark"), content.say("what"), content.say("how known, or what it endures")]
    return [text(content.full_name(board.id), "heading"), drawn, table(heads, rows, room.width)]


def _range(devices: list[tuple[TripBand, list[str]]], spans: list[Span]) -> tuple[float, float]:
    """Whole decades that hold every rating and every fault."""
    low = min([band.rating_a for band, _ in devices] + [span.low for span in spans])
    high = max([20 * band.rating_a for band, _ in devices] + [span.high for span in spans])
    return 10.0 ** int(log10(max(low, 1.0))), 10.0 ** -(-log10(high) // 1)


# devices


def _devices(content: Content, board: Part) -> list[tuple[TripBand, list[str]]]:
    """The bands of the board's devices and of what protects its feeder; equal ones once."""
    design = content.design
    seated = {seat.part for seat in design.seated_in(board.id)}
    feeders = {run.id for run in design.runs_at(board.id)}
    before = {
        owner
        for report in content.reports
        for run, owner in report.run_device.items()
        if run in feeders and owner
    }
    found: dict[TripBand, list[str]] = {}
    for device in content.circuit.devices:
        if device.owner in {board.id, *seated, *before} and (band := _band(device)):
            names = found.setdefault(band, [])
            names.append(content.name(device.owner))
    return sorted(found.items(), key=lambda item: item[0].rating_a)


def _band(device: Device) -> TripBand | None:
    """None where no table has it: that is told where it is judged."""
    try:
        return band_of(device)
    except CodesError:
        return None


def _of_devices(
    content: Content, devices: list[tuple[TripBand, list[str]]]
) -> tuple[list[Trace], list[_Line]]:
    traces, lines = list[Trace](), list[_Line]()
    for number, (band, names) in enumerate(devices, start=1):
        latest = [*_latest(band)]
        at = max(range(len(latest)), key=lambda n: len(latest[n].points))
        latest[at] = replace(latest[at], mark=str(number))
        traces += [*latest, Trace(tuple(_points(band, band.may_open_s)), EARLIEST)]
        sure = band.opens_by(band.rating_a * band.slow.first)
        known = content.say("from memory") if sure.confidence is Confidence.MEMORY else ""
        what = f"{in_a_row(names)} {value_text(band.rating_a, 'current')}"
        lines.append(_Line(str(number), what, ", ".join(filter(None, (band.clause, known)))))
    return traces, lines


def _latest(band: TripBand) -> Iterator[Trace]:
    """The slow edge in stretches: what is fixed full, what is assumed broken."""
    points = _points(band, band.opens_by_s)
    stretch: list[tuple[float, float]] = []
    pen = LATEST
    for amps, seconds in points:
        fixed = band.opens_by(amps).confidence is not Confidence.MEMORY
        wanted = LATEST if fixed else ASSUMED
        if stretch and wanted != pen:
            yield Trace((*stretch, (amps, seconds)), pen)
            stretch = []
        pen = wanted
        stretch.append((amps, seconds))
    yield Trace(tuple(stretch), pen)


def _points(band: TripBand, edge: Callable[[float], float]) -> list[tuple[float, float]]:
    """Samples of an edge, its steps included, from the first current at which it opens."""
    gates = {gate.multiple for gate in (*band.slow.gates, *band.fast.gates)}
    ratios = {10.0 ** (3.0 * n / _STEPS) for n in range(_STEPS + 1)}
    steps = sorted(ratios | {m * f for m in gates for f in (1 - 1e-6, 1.0, 1 + 1e-6)})
    found = [(band.rating_a * m, edge(band.rating_a * m)) for m in steps]
    found = [(amps, seconds) for amps, seconds in found if seconds < inf]
    return [(found[0][0], 1e6), *found] if found else []


# conductors and faults


def _of_conductors(content: Content, board: Part) -> tuple[list[Trace], list[_Line]]:
    """The damage lines of the runs behind the devices and of the feeder; equal ones once."""
    runs = [branch.run for branch in branches(content, board.id) if branch.run is not None]
    runs += [run for run in content.design.runs_at(board.id) if _feeds(content, run)]
    found: dict[tuple[float, str], list[str]] = {}
    for run in runs:
        for key in _weakest(content, run):
            found.setdefault(key, []).append(content.name(run.id))
    traces, lines = list[Trace](), list[_Line]()
    for number, ((a2s, size), names) in enumerate(sorted(found.items())):
        mark = chr(ord("a") + number % 26)
        points = tuple(
            ((a2s / seconds) ** 0.5, seconds)
            for seconds in (LONGEST_S * 10.0 ** (-n / 12) for n in range(46))
        )
        traces.append(Trace(points, DAMAGE, mark))
        told = content.say("{energy} A²s", energy=f"{a2s:,.0f}".replace(",", " "))
        lines.append(_Line(mark, f"{in_a_row(names)} {size}", told))
    return traces, lines


def _feeds(content: Content, run: Run) -> bool:
    return content.design.run_values(run).pick("installation") != "jumper"


def _weakest(content: Content, run: Run) -> list[tuple[float, str]]:
    """Energy and size of the conductor of a run that endures least."""
    values = content.design.run_values(run)
    found = []
    for pole, _ in pole_map(content.design, run):
        withstand = withstand_of(values, pole)
        if withstand is not None:
            found.append((withstand.a2s, pole_size(values, pole)))
    return [min(found)] if found else []


def _faults(content: Content, board: Part) -> list[Span]:
    """At the bus, and at the ends of its circuits, faults to metal and between conductors."""
    ends = {end for branch in branches(content, board.id) for end in branch.ends}
    found: dict[str, list[tuple[float, float]]] = {}
    for report in content.reports:
        for fault in report.faults:
            here = fault.part == board.id or {(fault.part, fault.terminal), (fault.part, "")} & ends
            if here and fault.weak_a > 1e-3:
                found.setdefault(fault.part, []).append((fault.weak_a, fault.strong_a))
    return [
        Span(
            min(a for a, _ in found[part]),
            max(b for _, b in found[part]),
            content.name(part),
        )
        for part in sorted(found, key=lambda p: (p != board.id, natural(content.name(p))))
    ]
