"""Run schedule and device schedule, and the table of faults and protection."""

from __future__ import annotations

import math

from reportlab.platypus import Flowable, Spacer

from linework.circuit import expand
from linework.circuit.model import Device
from linework.design import Run, pole_map
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.ampacity import ampacity_text
from linework.handover.content import Content
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import Cell, table, text
from linework.kinds import RUN_RATINGS, Values
from linework.quantity import show
from linework.study.report import FaultReport
from linework.words import N_

Rows = list[list[Cell]]

SITE_BREAKER = N_("breaker of the site")


def run_schedule(content: Content, room: Room) -> list[Flowable]:
    """Every run: ends, conductors, length, how it is laid, ampacity with its factors, current."""
    say = content.say
    runs = sorted(content.design.runs, key=lambda run: natural(run.designation))
    rows: Rows = [_run_row(content, run) for run in runs]
    heads = [
        say("run"),
        say("from"),
        say("to"),
        say("conductors"),
        say("length"),
        say("laid"),
        say("ampacity and how"),
        say("device"),
        say("most in use"),
        say("drop"),
        say("least / most fault current"),
    ]
    return [
        text(say("Run schedule"), "title", anchor="runs"),
        text(say("Lengths are one way. Currents are those of the drawn loads, the largest state.")),
        Spacer(1, 3),
        table(heads, rows, room.width),
    ]


def _run_row(content: Content, run: Run) -> list[Cell]:
    values = content.design.run_values(run)
    laid = next(
        c.label
        for c in RUN_RATINGS["installation"].choices
        if c.value == values.pick("installation")
    )
    amps = [a for r in content.reports for (owner, _), a in r.run_a.items() if owner == run.id]
    return [
        text(content.name(run.id), "cell"),
        f"{content.name(run.a.part)} {run.a.terminal}",
        f"{content.name(run.b.part)} {run.b.terminal}",
        conductors_text(content, run, values),
        show(values.num("length"), "length", family=content.family)
        if values.has("length")
        else content.say("not given"),
        content.say(laid),
        ampacity_text(content, run, values),
        _devices(content, run),
        _tidy(max(amps, default=0.0), "current"),
        _tidy(
            max((r.run_drop_v.get(run.id, 0.0) for r in content.reports), default=0.0), "voltage"
        ),
        _fault_span(content, run),
    ]


def _devices(content: Content, run: Run) -> str:
    """The parts whose devices protect a run, over all states; "none" where one leaves it bare."""
    owners = {r.run_device[run.id] for r in content.reports if run.id in r.run_device}
    names = sorted((content.name(owner) for owner in owners if owner), key=natural)
    if "" in owners:
        names.append(content.say("none"))
    return " / ".join(names) or "-"


def _tidy(value: float, quantity: str) -> str:
    """A number in use; below a thousandth it is nothing to a reader."""
    return value_text(value if value >= 1e-3 else 0.0, quantity)


def conductors_text(content: Content, run: Run, values: Values) -> str:
    """ "L, N 10 AWG + PE 8 AWG copper"."""
    sizes: dict[str, list[str]] = {}
    for p, q in pole_map(content.design, run):
        size = pole_size_text(values, p, q) or content.say("size not given")
        sizes.setdefault(size, []).append(str(p) if p == q else f"{p}→{q}")
    broken = values.pick("broken")
    parts = " + ".join(f"{', '.join(poles)} {size}" for size, poles in sizes.items())
    metal = next(
        c.label for c in RUN_RATINGS["material"].choices if c.value == values.pick("material")
    )
    text_of = f"{parts} {content.say(metal)}"
    return text_of + (content.say("; {what} is cut", what=broken) if broken != "none" else "")


def pole_size_text(values: Values, p: str, q: str) -> str:
    """Size of one conductor of a run, empty where none is given."""
    if "PE" in (p, q) and values.has("ground_size"):
        return values.text("ground_size")
    if p == "N" and values.has("neutral_size"):
        return values.text("neutral_size")
    return values.text("size") if values.has("size") else ""


def _fault_span(content: Content, run: Run) -> str:
    """Fault currents at the far end of a run, over all states."""
    at = [
        f
        for r in content.reports
        for f in r.faults
        if (f.part, f.terminal) in ((run.b.part, run.b.terminal), (run.a.part, run.a.terminal))
        and f.weak_a > 0.0
    ]
    if not at:
        return "-"
    least, most = min(f.weak_a for f in at), max(f.strong_a for f in at)
    return f"{value_text(least, 'current')} / {value_text(most, 'current')}"


def _word(content: Content, part_id: str, value: str) -> str:
    """How a person chose it on the part's card; the bare word where nobody chooses it."""
    for rating in content.design.kind(content.design.part(part_id)).ratings:
        for choice in rating.choices:
            if choice.value == value:
                return content.say(choice.label)
    return value


def _device_row(content: Content, device: Device, most_a: float) -> list[Cell]:
    """Of a site's own breaker only the rating is ours to tell."""
    data = device.data
    kind = content.design.kind(content.design.part(device.owner))
    row: list[Cell] = [
        text(content.full_name(device.owner), "cell", link=content.link_to(device.owner)),
        content.say(SITE_BREAKER) if kind.source.off_site else content.say(kind.name),
        value_text(data.rating_a, "current"),
    ]
    if kind.source.off_site:
        return [*row, "-", "-", "-", "-", "-"]
    breaks = value_text(data.interrupting_a, "current")
    return [
        *row,
        _word(content, device.owner, data.curve),
        str(len(data.contacts)),
        value_text(data.magnetic_a.usual, "current") if data.magnetic_a else "-",
        breaks if data.interrupting_given else f"[{breaks}]",
        value_text(most_a, "current"),
    ]


def device_schedule(content: Content, room: Room) -> list[Flowable]:
    """Every overcurrent and ground-fault device with its settings and the fault it must break."""
    say = content.say
    circuit = expand(content.design)
    most = _most_fault(content)
    rows: Rows = [_device_row(content, d, most.get(d.owner, 0.0)) for d in circuit.devices]
    for sensor in circuit.sensors:
        trip = sensor.data.trip_ma
        rows.append(
            [
                text(content.full_name(sensor.owner), "cell", link=content.link_to(sensor.owner)),
                say("ground-fault protection"),
                say("{low} to {high} mA", low=f"{trip.low:g}", high=f"{trip.high:g}"),
                _word(content, sensor.owner, sensor.data.style),
                str(len(sensor.data.opens)),
                "-",
                "-",
                "-",
            ]
        )
    heads = [
        say("device"),
        say("kind"),
        say("rating"),
        say("curve or class"),
        say("poles"),
        say("trips at once from"),
        say("interrupting rating"),
        say("most fault current at it"),
    ]
    return [
        text(say("Device schedule"), "title", anchor="devices"),
        table(heads, rows, room.width),
    ]


def _most_fault(content: Content) -> dict[str, float]:
    """The most at a device or through it: where its return passes elsewhere, no short is at it."""
    found: dict[str, float] = {}
    for r in content.reports:
        at_it = [(f.part, f.strong_a) for f in r.faults]
        for part, amps in (*at_it, *r.device_fault_a.items()):
            found[part] = max(found.get(part, 0.0), amps)
    return found


def fault_table(content: Content, room: Room) -> list[Flowable]:
    """The worst fault to metal at each part over all states: current, voltage on metal, its end."""
    say = content.say
    worst: dict[tuple[str, str], tuple[FaultReport, str]] = {}
    for r in content.reports:
        for f in r.faults:
            if f.kind != "metal" or f.weak_a <= 1e-3 or not _to_be_told(content, f):
                continue
            key = (f.part, f.terminal)
            if key not in worst or _weight(f) > _weight(worst[key][0]):
                worst[key] = (f, r.key)
    rows: Rows = [
        _fault_row(content, f, key)
        for f, key in sorted(worst.values(), key=lambda item: natural(content.name(item[0].part)))
    ]
    heads = [
        say("point"),
        say("state"),
        say("least / most current"),
        say("voltage on metal"),
        say("what ends it"),
        say("latest"),
    ]
    return [
        text(say("Faults to metal and what ends them"), "title", anchor="faults"),
        text(
            say(
                "Dead short from {hot} to {ground_wire}, worst state; weakest source and hot"
                " conductors for clearing, strongest and cold for the most current. The source"
                " giving up is not isolation: it may come back."
            )
        ),
        Spacer(1, 3),
        table(heads, rows, room.width) if rows else text(say(NO_FAULT)),
    ]


NO_FAULT = N_("In no state does a fault on alternating current drive current through metal.")


def _to_be_told(content: Content, f: FaultReport) -> bool:
    """At a terminal that a person can find, not at a point inside a part; on AC."""
    design = content.design
    part = design.part(f.part)
    outside = {t.name for t in design.kind(part).terminals(design.values(part))}
    return f.pole.startswith("L") and f.terminal in outside


def _metal_volts(volts: float | None) -> str:
    """Less than a tenth of a volt is what rounding leaves of none."""
    if volts is None:
        return value_text(math.nan, "voltage")
    return value_text(0.0 if volts < 0.1 else volts, "voltage")


def _weight(f: FaultReport) -> tuple[float, float]:
    volts = 0.0 if f.metal_v is None or math.isnan(f.metal_v) else f.metal_v
    return (min(f.latest_s, 1e6) if volts > 50.0 else 0.0, volts)


def _fault_row(content: Content, f: FaultReport, key: str) -> list[Cell]:
    by = content.say("the source gives up") if f.by == "source" else content.name(f.by)
    return [
        text(f"{content.name(f.part)} {f.terminal}", "cell", link=content.link_to(f.part)),
        str(content.state_numbers[key]),
        f"{value_text(f.weak_a, 'current')} / {value_text(f.strong_a, 'current')}",
        _metal_volts(f.metal_v),
        by or content.say("nothing"),
        value_text(f.latest_s, "time"),
    ]


RUNS = Sheet("runs", N_("Run schedule"), N_("schedule"), run_schedule)
DEVICES = Sheet("devices", N_("Device schedule"), N_("schedule"), device_schedule)
FAULTS = Sheet("faults", N_("Faults and what ends them"), N_("table"), fault_table)
