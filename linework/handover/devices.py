"""Device schedule: every overcurrent and ground-fault device, and how much of it is in use."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable

from linework.circuit.model import Device, Sensor
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.circuits import most_faults, run_amps
from linework.handover.content import PLACE, Content
from linework.handover.drawn import Drawn
from linework.handover.sheets import Room
from linework.handover.styles import Cell, table, text, with_room
from linework.picture.inks import FINE, THIN, Ink, Pen
from linework.picture.model import Item, Line, Rect
from linework.study.report import StateReport
from linework.words import N_

SITE_BREAKER = N_("breaker of the site")
_BAR, _HIGH = 300, 26
"""Length and height of the bar of a device that is full, in tenths of a millimetre."""
_LASTING = 0.8
"""The share of a breaker's rating that loads of three hours and more may take (NFPA 70 210.20(A),
215.3: 125 %), marked in each bar."""


SCHEDULE = f"{PLACE}devices"
"""The place of the schedule in the set."""


def schedule_sheet(content: Content) -> str:
    """The number of the sheet on which the schedule begins."""
    return content.number_at(SCHEDULE, "devices")


def device_schedule(content: Content, room: Room) -> list[Flowable]:
    """Every device with its settings, the fault it must break, and what it carries."""
    say = content.say
    circuit = content.circuit
    most = most_faults(content)
    over = [(d.owner, _device_row(content, d, most.get(d.owner, 0.0))) for d in circuit.devices]
    ground = [(s.owner, _ground_row(content, s)) for s in circuit.sensors]
    rows = [row for _, row in sorted((*over, *ground), key=lambda x: natural(content.name(x[0])))]
    if not rows:
        return []
    heads = [
        say("device"),
        say("kind"),
        say("rating"),
        say("curve or class"),
        say("poles"),
        say("at once from"),
        say("interrupts"),
        say("most fault"),
        say("A most"),
        say("how full; mark: {percent} %", percent=round(100 * _LASTING)),
    ]
    return [
        with_room(),
        text(say("Device schedule"), "heading", anchor=SCHEDULE),
        table(heads, rows, room.width, right=(4, 8)),
    ]


def _device_row(content: Content, device: Device, most_a: float) -> list[Cell]:
    """Of a site's own breaker only the rating is ours to tell."""
    data = device.data
    kind = content.design.kind(content.design.part(device.owner))
    off_site = kind.source.off_site
    used, called = in_use(content, device.owner), SITE_BREAKER if off_site else kind.name
    row: list[Cell] = [
        text(content.full_name(device.owner), "cell", link=content.link_to(device.owner)),
        content.say(called),
        value_text(data.rating_a, "current"),
    ]
    breaks = value_text(data.interrupting_a, "current")
    settings: list[Cell] = [
        _word(content, device.owner, data.curve),
        str(len(data.contacts)),
        value_text(data.magnetic_a.usual, "current") if data.magnetic_a else "",
        breaks if data.interrupting_given else f"[{breaks}]",
        value_text(most_a, "current"),
    ]
    full: list[Cell] = [f"{used:.3g}" if used >= 1e-3 else "", bar(used / data.rating_a)]
    return [*row, *([""] * 5 if off_site else settings), *full]


def _ground_row(content: Content, sensor: Sensor) -> list[Cell]:
    owner, data = sensor.owner, sensor.data
    trip = data.trip_ma
    return [
        text(content.full_name(owner), "cell", link=content.link_to(owner)),
        content.say("ground-fault protection"),
        content.say("{low} to {high} mA", low=f"{trip.low:g}", high=f"{trip.high:g}"),
        _word(content, owner, data.style),
        str(len(data.opens)),
        *[""] * 5,
    ]


def in_use(content: Content, owner: str, reports: Sequence[StateReport] | None = None) -> float:
    """The most that any run at a device, or at what sits in it, carries in use, in ampere; over all
    states of rest or those given."""
    design = content.design
    here = [run_amps(content, run, reports) for run in design.runs_at(owner)]
    if not here:
        here = [in_use(content, seat.part, reports) for seat in design.seated_in(owner)]
    return max(here, default=0.0)


def bar(share: float) -> Flowable:
    """A bar as full as a device is, with its mark; what is beyond its rating is cut off black."""
    full = round(_BAR * max(0.0, min(share, 1.0)))
    mark = round(_BAR * _LASTING)
    items: list[Item] = [
        Rect(0, 0, _BAR, _HIGH, pen=Pen(width=FINE)),
        Rect(0, 0, full, _HIGH, pen=None, fill=Ink.QUIET),
        Line(mark, -4, mark, _HIGH + 4, Pen(width=THIN)),
    ]
    return Drawn(items, _BAR, _HIGH)


def _word(content: Content, part_id: str, value: str) -> str:
    """How a person chose it on the part's card; the bare word where nobody chooses it."""
    for rating in content.design.kind(content.design.part(part_id)).ratings:
        for choice in rating.choices:
            if choice.value == value:
                return content.say(choice.label)
    return value
