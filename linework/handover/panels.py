"""Panel schedules: each board with its places, circuits and what its legs and bus carry."""

from __future__ import annotations

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer

from linework.codes import CodesError
from linework.design import Part
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.circuits import Branch, branches, free_spans, leg_amps, unbalance
from linework.handover.conductors import pole_size_text
from linework.handover.content import Content
from linework.handover.faults import FLOWS, HOT_TO_HOT, at_part, between, span_text
from linework.handover.rating_words import value_text as rating_value
from linework.handover.setting import Kept
from linework.handover.sheets import Room
from linework.handover.styles import Cell, beside, share, table, text
from linework.kinds import Values
from linework.study.slack import exceeds
from linework.study.stands import place_of
from linework.study.wires.ratings import rules_of
from linework.words import N_

_LEAST = 150 * mm
"""A schedule is no narrower than this."""
_NONE, _WHOLE = 0.01, 0.99
"""From which share on a circuit's current is told as long in part, and as long."""


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
        if abreast == 1:
            out.append(Kept(cells[0], room.height / 2))
        else:
            out += [beside(cells, widths, gap), Spacer(1, 3 * mm)]
    return out


def _schedule(content: Content, board: Part, width: float) -> list[Flowable]:
    """Heading, places, totals."""
    say, design = content.say, content.design
    values = design.values(board)
    listed = branches(content, board.id)
    heads = [say("pl."), say("device"), say("A"), say("poles"), say("guard"), say("leg")]
    heads += [say("circuit"), say("run"), say("wire"), say("3 h"), _power(values), say("A most")]
    several = len({leg for branch in listed for leg in branch.legs}) > 1
    rows = [_row(content, item, several) for item in free_spans(listed)]
    return [
        text(content.full_name(board.id), "heading", link=content.link_to(board.id)),
        text(_plate(content, board, values), "small"),
        table(heads, rows, width, right=(2, 3, 10, 11)),
        table(["", ""], _totals(content, board, listed), width, headed=False),
    ]


def _power(values: Values) -> str:
    """The unit of what loads take: on direct current there is no other than the watt."""
    direct = _has(values, "circuit") and values.pick("circuit") == "dc"
    return "W" if direct else "VA"


def _row(content: Content, item: Branch | tuple[str, ...], several: bool) -> list[Cell]:
    if not isinstance(item, Branch):
        places = item[0] if len(item) == 1 else f"{item[0]}–{item[-1]}"
        return [places, *[""] * 5, content.say("free"), *[""] * 5]
    device = item.device
    assert device is not None
    values = content.design.values(device)
    fed = ", ".join(f"{part.designation} {part.title}".strip() for part in item.fed)
    if item.feeds_in:
        fed = content.say("feeds the board: {what}", what=fed)
    return [
        ", ".join(item.places),
        text(device.designation, "strong", link=content.link_to(device.id)),
        f"{values.num('rating'):g}" if "rating" in values.declared and values.has("rating") else "",
        _poles(content, device),
        guards(content, device, item.fed),
        "+".join(item.legs) if several else "",
        fed or content.say("nothing drawn"),
        content.name(item.run.id) if item.run is not None else "",
        _wire(content, item),
        _long(content, item),
        f"{item.va:.0f}" if item.va >= 0.5 else "",
        f"{item.amps:.3g}" if item.amps >= 1e-2 else "",
    ]


def _poles(content: Content, device: Part) -> str:
    """How many conductors a device opens."""
    inside = content.design.kind(device).inside(content.design.values(device))
    opened = {c for e in inside.elements for c in getattr(e, "contacts", ())}
    return str(len(opened)) if opened else ""


def guards(content: Content, device: Part, fed: tuple[Part, ...]) -> str:
    """What a circuit has beside its overcurrent device: ground-fault and arc-fault protection of
    the device itself, and of the outlets behind it."""
    own = _guard(content, device)
    found = [own] if own else []
    for outlet in fed:
        behind = _guard(content, outlet) if content.design.kind(outlet).receptacle else ""
        if behind:
            found.append(
                content.say("{guard} at {outlet}", guard=behind, outlet=outlet.designation)
            )
    return ", ".join(found)


def _guard(content: Content, part: Part) -> str:
    """ "GFCI", "RCD 30 mA", "AFCI", or both: dual function."""
    values = content.design.values(part)
    told = []
    style = values.pick("ground_fault") if _has(values, "ground_fault") else "none"
    if style != "none":
        limit = style.removeprefix("rcd_")
        told.append(
            content.say("{gfci}") if limit == style else content.say("RCD {limit} mA", limit=limit)
        )
    if _has(values, "arc_fault") and values.pick("arc_fault") != "none":
        told.append(content.say("{afci}"))
    return " + ".join(told)


def _wire(content: Content, item: Branch) -> str:
    """The size of a circuit's hot conductor."""
    if item.run is None:
        return ""
    size = pole_size_text(content.design.run_values(item.run), "L", "L")
    return size or content.say("not given")


def _long(content: Content, item: Branch) -> str:
    """Whether a circuit's load runs for three hours and longer; empty where none is drawn."""
    if item.amps < 1e-2 or item.feeds_in:
        return ""
    if item.long < _NONE:
        return content.say("no")
    return content.say("yes") if item.long > _WHOLE else f"{100 * item.long:.0f} %"


def _plate(content: Content, board: Part, values: Values) -> str:
    """Which conductors, main, bus, link."""
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
    if _has(values, "bond"):
        label = content.say(declared["bond"].label).removesuffix(" in the panel")
        told.append(f"{label} {rating_value(declared['bond'], values, content.family)}")
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


# totals

_OF_MAIN, _OF_BUS = N_("of the main of {rated}"), N_("of the bus of {rated}")


def _totals(content: Content, board: Part, listed: list[Branch]) -> list[list[Cell]]:
    """What its legs carry in the state that takes most, of what its main or bus is made for."""
    say = content.say
    rows = _legs(content, board, listed)
    apart = unbalance(content, listed)
    if apart is not None:
        told = value_text(apart if apart >= 1e-3 else 0.0, "current")
        rows.append([say("the legs differ by at most"), told])
    fault = at_part(content, board.id)
    if fault is not None:
        span = span_text(content, *fault)
        rows.append([say("fault at the bus"), "; ".join((span, *_breaks(content, board, listed)))])
    return rows


def _legs(content: Content, board: Part, listed: list[Branch]) -> list[list[Cell]]:
    """Each leg; the loads of three hours and longer once as they are and once as they count."""
    say, values = content.say, content.design.values(board)
    key = "main" if _has(values, "main") and values.has("main") else "bus"
    made = values.num(key) if _has(values, key) and values.has(key) else 0.0
    more = _more(content, board)
    plain, counted = leg_amps(content, listed), leg_amps(content, listed, more)
    rows: list[list[Cell]] = []
    for leg, amps in plain.items():
        told = [value_text(amps if amps >= 1e-3 else 0.0, "current")]
        if counted[leg] > amps + 1e-3:
            long = value_text(counted[leg], "current")
            percent = f"{100 * (1 + more):.0f}"
            told.append(say("{amps} with long loads at {percent} %", amps=long, percent=percent))
        if made:
            rated = value_text(made, "current")
            bus, main = say(_OF_BUS, rated=rated), say(_OF_MAIN, rated=rated)
            of = main if key == "main" else bus
            told.append(f"{100 * counted[leg] / made:.0f} % {of}")
        rows.append([say("on {leg} at most", leg=leg), "; ".join(told)])
    return rows


def _more(content: Content, board: Part) -> float:
    """By which part of itself a long load counts more; nothing afloat, and where the family has no
    such rule."""
    if place_of(content.design, board.id).afloat:
        return 0.0
    try:
        return rules_of(content.design).demands().figure("continuous").value - 1.0
    except CodesError:
        return 0.0


def _breaks(content: Content, board: Part, listed: list[Branch]) -> list[str]:
    """The least interrupting rating of the devices there and that of the main, each beside the
    most fault; assumed ones in brackets."""
    most = (at_part(content, board.id) or (0.0, 0.0))[1]
    parts = [branch.device for branch in listed if branch.device is not None]
    found: dict[float, str] = {}
    for device in parts:
        told = _rated(content, device, "interrupting")
        if told is not None:
            found.setdefault(*told)
    least = (min(found), found[min(found)]) if found else None
    values = content.design.values(board)
    fitted = _has(values, "main") and values.has("main")
    main = _rated(content, board, "main_interrupting") if fitted else None
    said = []
    for told, what in ((least, N_("devices interrupt {rated}")), (main, N_("main {rated}"))):
        if told is not None:
            low = content.say(" (less than the fault)") if exceeds(most, told[0]) else ""
            said.append(content.say(what, rated=told[1]) + low)
    return said


def _rated(content: Content, part: Part, key: str) -> tuple[float, str] | None:
    """A rating at its lowest, and as it is written."""
    values = content.design.values(part)
    if not _has(values, key) or not values.has(key):
        return None
    shown = rating_value(content.design.kind(part).declared[key], values, content.family)
    return values.three(key).low, shown
