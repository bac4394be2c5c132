"""The sheets of fault loops."""

from __future__ import annotations

import math
from collections.abc import Sequence

from reportlab.platypus import Flowable, Spacer

from linework.design import Run
from linework.findings.evidence import value_text
from linework.handover.content import Content
from linework.handover.drawn import Drawn
from linework.handover.faults import span_text
from linework.handover.loops.gathering import FaultLoop, fault_loops, solved
from linework.handover.loops.ladder import LEAST, Labels, ladder
from linework.handover.loops.rows import Row, Step, rows_of
from linework.handover.sheets import Room, Sheet
from linework.handover.styles import beside, text, with_room
from linework.picture.model import Item
from linework.picture.pdf import POINTS_PER_TENTH
from linework.study.report import source_word
from linework.words import N_

_MOST = 6
"""So many stand in the set that is signed."""
_GAP = 20


def _decisive(content: Content, room: Room) -> list[Flowable]:
    """The worst of each board, then the worst of the rest."""
    found = fault_loops(content)
    if not found:
        return []
    words = [content.say(_NOTE)]
    if len(found) > _MOST:
        more = content.say("More: sheet {sheet}.", sheet=content.sheet_number("further"))
        words.append(more)
    head = text(content.say("What ends a fault to metal"), "title", anchor="loops")
    return [head, text(" ".join(words)), Spacer(1, 4), *_figures(content, found[:_MOST], room)]


def _further(content: Content, room: Room) -> list[Flowable]:
    found = fault_loops(content)[_MOST:]
    if not found:
        return []
    head = text(content.say("Further fault loops"), "title", anchor="further")
    note = text(content.say("As on sheet {sheet}.", sheet=content.sheet_number("loops")))
    return [head, note, Spacer(1, 4), *_figures(content, found, room)]


_NOTE = N_(
    "Dead shorts from {hot} to metal, of each board and kind of source the worst: weakest source,"
    " hot wires, volts while it lasts. At each piece its resistance and loss; of parallel ways that"
    " which carries most. Box: wire; struck: device; bar: link."
)


def _figures(content: Content, loops: Sequence[FaultLoop], room: Room) -> list[Flowable]:
    """Several beside each other, as many as the room holds."""
    whole = int(room.width / POINTS_PER_TENTH)
    count = max(1, (whole + _GAP) // (LEAST + _GAP))
    width = min((whole + _GAP) // count - _GAP, LEAST + 100)
    out: list[Flowable] = []
    for n in range(0, len(loops), count):
        drawn = [_drawn(content, each, width) for each in loops[n : n + count]]
        high = max(each.height for each in drawn)
        row = beside(drawn, [(width + _GAP) * POINTS_PER_TENTH] * len(drawn), 0)
        out += [with_room(high), row]
    return out


def _drawn(content: Content, each: FaultLoop, width: int) -> Drawn:
    items, high = figure_items(content, each, width)
    return Drawn(items, width, high)


def figure_items(content: Content, each: FaultLoop, width: int) -> tuple[list[Item], int]:
    """One loop as a picture of a width, and its height; in tenths of a millimetre."""
    loop = solved(content, each)
    rows: list[Row] = [] if loop is None else rows_of(loop, each.fault.by)
    closed = each.flows and loop is not None and loop.back is not None
    fault = each.fault
    head = content.full_name(each.board) if each.board else content.say("behind no board")
    source = loop.source if loop is not None else each.sources[0]
    words = [content.name(source)]
    if loop is not None:
        words.append(value_text(abs(loop.terminal_v), "voltage"))
    metal = [content.name(fault.part)]
    if each.flows and fault.metal_v is not None and not math.isnan(fault.metal_v):
        volts = value_text(fault.metal_v if fault.metal_v >= 0.1 else 0.0, "voltage")
        metal = [content.say("metal of {part}: {volts}", part=metal[0], volts=volts)]
    labels = Labels(
        head,
        _where(content, each),
        words,
        metal,
        _gap(content, each),
        told(content, each),
        lambda step, other: _name(content, step, other),
        lambda step: _volts(step.volts) if each.flows else "",
    )
    return ladder(rows, closed, labels, width)


def _where(content: Content, each: FaultLoop) -> str:
    """On which source, at which part, and in which case of what is not known."""
    part, on = content.full_name(each.fault.part), _on(content, each)
    told = content.say("on {sources}, short in {part}", sources=on, part=part)
    if not each.report.case:
        return told
    return content.say("{told}, if {case}", told=told, case=each.report.case)


def _gap(content: Content, each: FaultLoop) -> str:
    """Why the loop is drawn open."""
    if each.flows:
        return content.say("way not found")
    return content.say("no link") if each.floats else content.say("no way back")


def _on(content: Content, each: FaultLoop) -> str:
    return ", ".join(dict.fromkeys(source_word(content.design, part) for part in each.sources))


def _name(content: Content, step: Step, other: Step | None) -> str:
    """ "W14 37.7 mΩ"; where the ground wire of the run is of another size, both."""
    names = " ".join(content.name(owner) for owner in step.owners)
    if step.sort == "source":
        return names
    if step.sort == "rest":
        names = content.say("contacts")
    elif step.sort == "link":
        names = content.say("link {where}", where=names)
    elif step.sort == "soil":
        names = content.say("soil {where}", where=names)
    ohm = _ohm(step)
    if _assumed(content, step):
        ohm = f"[{ohm}]"
    elif other is not None and not math.isclose(step.ohm, other.ohm, rel_tol=0.02):
        figure, _, unit = ohm.rpartition(" ")
        ground = _ohm(other)
        ohm = f"{figure if ground.endswith(f' {unit}') else ohm} / {ground}"
    return f"{names} {ohm}"


def _assumed(content: Content, step: Step) -> bool:
    """Whether the length or size of a run in it is not given."""
    runs = [run for run in map(content.design.get, step.owners) if isinstance(run, Run)]
    values = [content.design.run_values(run) for run in runs]
    return any(not (v.given("length") and v.given("size")) for v in values)


def _ohm(step: Step) -> str:
    """To two digits and a hundredth of a milliohm: lengths are known no better."""
    return value_text(round(float(f"{step.ohm:.2g}"), 5), "resistance")


def _volts(volts: float) -> str:
    """To three digits, and no finer than a hundredth of a volt."""
    return f"{volts:.{2 if volts < 10.0 else 1 if volts < 100.0 else 0}f} V"


def told(content: Content, each: FaultLoop) -> str:
    """The current, and what ends it or why nothing does."""
    say, fault = content.say, each.fault
    if not each.flows:
        return say(_FLOATS) if each.floats else say(_STAYS)
    span = span_text(content, fault.weak_a, fault.strong_a)
    time = value_text(fault.latest_s, "time")
    if fault.by == "source":
        return say(_GIVES_UP, span=span, time=time)
    if not fault.by:
        return say("{span}: nothing ends it.", span=span)
    device = content.name(fault.by)
    return say(
        "{span}: {device} opens, at the latest after {time}.", span=span, device=device, time=time
    )


_FLOATS = N_(
    "No current: the source floats, nothing joins it to metal. Nobody is told of this first fault;"
    " a second one on another conductor is a short."
)
_STAYS = N_("No current: nothing leads from this metal back to the source. It stays live.")
_GIVES_UP = N_(
    "{span}: no device, the source gives up after {time}. That is no isolation: it may come back."
)

LOOPS = Sheet("loops", N_("Fault loops"), N_("fault loops"), _decisive, flows=True)
FURTHER_LOOPS = Sheet(
    "further",
    N_("Further fault loops"),
    N_("fault loops"),
    _further,
    annex=True,
    flows=True,
)
