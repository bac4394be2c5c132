"""Panel schedules: each board with its places, circuits and what its legs and bus carry."""

from __future__ import annotations

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer

from linework.design import Part
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.circuits import Branch, branches, free_spans, leg_amps
from linework.handover.content import Content
from linework.handover.faults import FLOWS, HOT_TO_HOT, at_part, between
from linework.handover.rating_words import value_text as rating_value
from linework.handover.sheets import Room
from linework.handover.styles import Cell, beside, share, table, text, with_room
from linework.kinds import Values

_LEAST = 112 * mm
"""A schedule is no narrower than this."""


def panel_schedules(content: Content, room: Room) -> list[Flowable]:
    """One schedule for each board, as many side by side as have room."""
    design = content.design
    boards = [part for part in design.parts if design.kind(part).board]
    boards.sort(key=lambda part: natural(part.designation))
    if not boards:
        return []
    abreast = max(1, min(len(boards), int(room.width // _LEAST)))
    gap = 6 * mm
    widths = share(room.width, [1.0] * abreast)
    inner = [width - gap * (n < abreast - 1) for n, width in enumerate(widths)]
    out: list[Flowable] = []
    for first in range(0, len(boards), abreast):
        row = boards[first : first + abreast]
        cells: list[list[Flowable]] = [_schedule(content, b, inner[n]) for n, b in enumerate(row)]
        cells += [[]] * (abreast - len(row))
        out += [with_room(140), *cells[0]] if abreast == 1 else [beside(cells, widths, gap)]
        out.append(Spacer(1, 4 * mm))
    return out


def _schedule(content: Content, board: Part, width: float) -> list[Flowable]:
    """Heading, places, totals."""
    say, design = content.say, content.design
    values = design.values(board)
    listed = branches(content, board.id)
    heads = [say("pl."), say("device"), say("A"), say("leg"), say("circuit"), say("run")]
    heads += [_power(values), say("A most")]
    several = len({leg for branch in listed for leg in branch.legs}) > 1
    rows = [_row(content, item, several) for item in free_spans(listed)]
    return [
        text(content.full_name(board.id), "heading", link=content.link_to(board.id)),
        text(_plate(content, board, values), "small"),
        table(heads, rows, width, right=(2, 6, 7)),
        table(["", ""], _totals(content, board, listed), width, right=(1,), headed=False),
    ]


def _power(values: Values) -> str:
    """The unit of what loads take: on direct current there is no other than the watt."""
    direct = _has(values, "circuit") and values.pick("circuit") == "dc"
    return "W" if direct else "VA"


def _row(content: Content, item: Branch | tuple[str, ...], several: bool) -> list[Cell]:
    if not isinstance(item, Branch):
        places = item[0] if len(item) == 1 else f"{item[0]}–{item[-1]}"
        return [places, "", "", "", content.say("free"), "", "", ""]
    device = item.device
    assert device is not None
    values = content.design.values(device)
    fed = [f"{part.designation} {part.title}".strip() for part in item.fed]
    return [
        ", ".join(item.places),
        text(device.designation, "strong", link=content.link_to(device.id)),
        f"{values.num('rating'):g}" if "rating" in values.declared and values.has("rating") else "",
        "+".join(item.legs) if several else "",
        ", ".join(fed) or content.say("nothing drawn"),
        content.name(item.run.id) if item.run is not None else "",
        f"{item.va:.0f}" if item.va >= 0.5 else "",
        f"{item.amps:.3g}" if item.amps >= 1e-2 else "",
    ]


def _plate(content: Content, board: Part, values: Values) -> str:
    """Which conductors, main, bus."""
    declared = content.design.kind(board).declared
    told = (
        [rating_value(declared["circuit"], values, content.family)]
        if _has(values, "circuit")
        else []
    )
    for key in ("voltage", "main", "bus"):
        if _has(values, key) and values.has(key):
            label = content.say(declared[key].label)
            shown = rating_value(declared[key], values, content.family)
            told.append(f"{label} {_both(content, board, shown) if key == 'voltage' else shown}")
    return "; ".join(filter(None, told))


def _both(content: Content, board: Part, volts: str) -> str:
    """ "120/240 V" where its two legs are ever apart; of legs on one hot wire just that."""
    values = content.design.values(board)
    if not _has(values, "circuit") or values.pick("circuit") != "split":
        return volts
    at_it = [f for r in content.reports for f in r.faults if f.part == board.id]
    each = values.num("voltage")
    if any(between(f) == HOT_TO_HOT and f.strong_a > FLOWS for f in at_it):
        return volts.replace(f"{each:g}", f"{each:g}/{2 * each:g}")
    return content.say("{volts}, both legs on one {hot}", volts=volts) if at_it else volts


def _has(values: Values, key: str) -> bool:
    return key in values.declared and values.applies(key)


def _totals(content: Content, board: Part, listed: list[Branch]) -> list[list[Cell]]:
    """What its legs carry in the state that takes most, of what its main or bus is made for."""
    say, values = content.say, content.design.values(board)
    key = "main" if _has(values, "main") and values.has("main") else "bus"
    made = values.num(key) if _has(values, key) and values.has(key) else 0.0
    rows: list[list[Cell]] = []
    for leg, amps in leg_amps(content, listed).items():
        told = value_text(amps if amps >= 1e-3 else 0.0, "current")
        share_of = f", {100 * amps / made:.0f} %" if made else ""
        label = say("on {leg} at most, of the main", leg=leg) if key == "main" else ""
        rows.append([label or say("on {leg} at most, of the bus", leg=leg), told + share_of])
    total = sum(branch.va for branch in listed)
    if total >= 0.5:
        rows.append([say("drawn loads together"), f"{total:.0f} {_power(values)}"])
    if _has(values, "bond"):
        label = say(content.design.kind(board).declared["bond"].label).removesuffix(" in the panel")
        declared = content.design.kind(board).declared["bond"]
        rows.append([label, rating_value(declared, values, content.family)])
    fault = at_part(content, board.id)
    if fault is not None:
        least, most = (value_text(amps, "current") for amps in fault)
        rows.append([say("fault at the bus"), say("{least} to {most}", least=least, most=most)])
    breaks = _breaks(content, listed)
    if breaks:
        rows.append([say("devices interrupt"), breaks])
    return rows


def _breaks(content: Content, listed: list[Branch]) -> str:
    """The least interrupting rating of what sits there; assumed ones in brackets."""
    found: dict[float, str] = {}
    for branch in listed:
        if branch.device is None:
            continue
        values = content.design.values(branch.device)
        if _has(values, "interrupting") and values.has("interrupting"):
            declared = content.design.kind(branch.device).declared["interrupting"]
            words = rating_value(declared, values, content.family)
            found.setdefault(values.three("interrupting").low, words)
    return found[min(found)] if found else ""
